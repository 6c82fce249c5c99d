"""What every file of the program, and every kind of finding, keeps to."""

import ast
import re
from pathlib import Path

from hts.checking.checker.all_kinds import all_kinds
from hts.generate import ROOT

FILES = sorted(Path(ROOT, "hts").rglob("*.py"))
LONGEST = 400
#: Lines of `told`, of one file and in all: what is longer nobody reads.
MOST_TOLD, MOST_TOLD_IN_ALL = 1500, 17_410

#: Ways to run text as a program.
CALLS = {"eval", "exec", "compile", "__import__"}
MODULES = {"pickle", "marshal", "shelve", "dill", "code", "codeop"}


def test_files_stay_short() -> None:
    long = {
        str(path.relative_to(ROOT)): count
        for path in FILES
        if (count := len(path.read_text("utf-8").splitlines())) > LONGEST
    }
    assert long == {}


def test_what_is_told_can_be_read() -> None:
    kept = Path(ROOT, "tests").glob("**/told/*.txt")
    lines = {
        str(path): sum(1 for line in path.read_text("utf-8").splitlines() if line) for path in kept
    }
    assert {path: count for path, count in lines.items() if count > MOST_TOLD} == {}
    # Of each rule one; what parts the sections is not read.
    assert sum(lines.values()) < MOST_TOLD_IN_ALL


def test_no_text_is_ever_run() -> None:
    wrong = []
    named = re.compile(rf"\b({'|'.join([*CALLS, *MODULES])})\b")
    for path in FILES:
        text = path.read_text("utf-8")
        for node in ast.walk(ast.parse(text)) if named.search(text) else ():
            names: list[str] = []
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                names = [node.func.id] if node.func.id in CALLS else []
            elif isinstance(node, ast.Import):
                names = [a.name for a in node.names if a.name.split(".")[0] in MODULES]
            elif isinstance(node, ast.ImportFrom):
                names = [node.module or ""] if (node.module or "").split(".")[0] in MODULES else []
            wrong += [
                f"{path.relative_to(ROOT)}:{node.lineno} {name}"  # type: ignore[attr-defined]
                for name in names
            ]
    assert wrong == []


def test_kinds_have_codes_and_names_of_their_own() -> None:
    kinds = all_kinds()
    assert len({kind.code for kind in kinds}) == len(kinds)
    assert len({kind.name for kind in kinds}) == len(kinds)


def test_every_kind_is_listed() -> None:
    """A kind made anywhere in the program can be explained and waived."""
    made = set()
    for path in FILES:
        text = path.read_text("utf-8")
        if not re.search(r"\bKind\b", text):
            continue
        tree = ast.parse(text)
        # A part may have kinds of its own, that are no findings.
        if not any(
            isinstance(node, ast.ImportFrom)
            and node.module in ("hts.base.findings", "hts.base.findings.kind")
            and any(alias.name == "Kind" for alias in node.names)
            for node in ast.walk(tree)
        ):
            continue
        for node in ast.walk(tree):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                first = node.args[0] if node.args else None
                if node.func.id == "Kind" and isinstance(first, ast.Constant):
                    made.add(first.value)
    assert len(made) > 20
    assert made <= {kind.code for kind in all_kinds()}


def test_a_kind_says_all_it_should() -> None:
    for kind in all_kinds():
        assert re.fullmatch(r"[A-Z]\d{3}", kind.code), kind.code
        assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", kind.name), kind.code
        for text in (kind.summary, kind.why, kind.fix):
            assert text.strip() == text and len(text.split()) > 1, kind.code
            assert text.endswith((".", "?", "`", ")", '"')), text
        assert kind.floor in (None, "error", "warning", "advice"), kind.code
