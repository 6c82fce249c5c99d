"""Each command that writes, on a disk that is full or read-only, and killed at each step.

Afterwards all is as it was or as it was to be, nothing of others is lost, nothing temporary is left
after the next run, and the exit code says that it could not run. Walks over the code hold that no
command writes in a way of its own, and that each that writes is in the table.
"""

from __future__ import annotations

import ast
import fcntl
import os
import re
import signal
import subprocess
from collections.abc import Callable, Iterator
from concurrent.futures.process import BrokenProcessPool
from pathlib import Path
from typing import NamedTuple

import pytest

from hts.checking.rules.examples import BUTT
from hts.generate import ROOT
from hts.predict import foresee
from tests.cli.child import At, Ended, in_child, only_read, unhindered
from tests.fuzz.run import run
from tests.language.rows.lists import job, table
from tests.sampling import in_turn

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="needs a process of its own")

#: What may write: the ways in which all that is kept for people is written, and caches, private
#: folders and sockets, which are nobody's work.
WAYS = {
    "hts/job/outputs/write.py": "files into a folder, all or none",
    "hts/base/leftovers.py": "a new file or folder",
    "hts/language/layout/write.py": "a text in the place of another",
    "hts/checking/report/save.py": "reports, all or none",
}
NOBODYS = {
    "hts/checking/checker/sealed_file.py": "a cache",
    "hts/checking/checker/seal.py": "the key of caches",
    "hts/cli/layouts.py": "a cache",
    "hts/cli/main.py": "closed standard streams",
    "hts/cli/terminal.py": "closed standard streams",
    "hts/record/reading/source.py": "opens to read, with flags of its own",
    "hts/paper/sheet/typeset.py": "a private folder",
    "hts/paper/packet/packet_files.py": "a private folder",
    "hts/record/watch/growing.py": "a private folder",
    "hts/base/cluster/files.py": "a private folder",
}
#: By these names the ways are imported.
DOORS = {"put", "put_new", "put_new_folder", "replace_text", "save", "write", "renew"}


class Case(NamedTuple):
    """A command that writes: the module it is in, its arguments, and the commands before it."""

    module: str
    arguments: tuple[str, ...]
    first: tuple[tuple[str, ...], ...] = ()
    #: A second of the processor or more.
    dear: bool = False
    #: The finding of a.hts is mended before it.
    mended: bool = False


_KNOWN = ("check", "a.hts", "--baseline", "known.json")
_SIMULATE = ("record", "simulate", "a.hts", "-o", "run.csv")
CASES = {
    "compile": Case("compile", ("compile", "a.hts", "-o", "in/out")),
    "compile again": Case("compile", ("compile", "a.hts", "-o", "out"),
                          (("compile", "b.hts", "-o", "out", "--by-joint"),)),
    "predict": Case("predict", ("predict", "a.hts", "-o", "out", "-j", "1"), dear=True),
    "plan": Case("plan", ("plan", "a.hts", "-o", "out"), dear=True),
    "weld list": Case("weld_list", ("weld-list", "list.hts", "--format", "csv", "-o", "told.csv")),
    "record check": Case("record.handed", ("record", "check", "a.hts", "run.csv", "-o", "out"),
                         (_SIMULATE,), dear=True),
    "simulate": Case("record.simulate", _SIMULATE, dear=True),
    "simulate again": Case("record.simulate", (*_SIMULATE, "--seed", "2"), (_SIMULATE,), dear=True),
    "view": Case("view", ("view", "a.hts", "--export", "pages"), dear=True),
    "examples": Case("language", ("language", "--examples", "in/jobs")),
    "book": Case("books", ("books", "--new", "in/own-law.yaml")),
    "new": Case("new", ("new", "c.hts")),
    "new baseline": Case("reports", (*_KNOWN, "--new-baseline")),
    "baseline": Case("reports", (*_KNOWN, "--write-baseline"), ((*_KNOWN, "--new-baseline"),),
                     mended=True),
    "reports": Case("reports", ("check", "a.hts", "--report", "json=in/a.json", "--report",
                                "sarif=b.sarif")),
    "approvals": Case("diff", ("diff", "old.hts", "a.hts", "--approvals", "seen.json",
                               "--approve", "Owner")),
    "layout": Case("fmt", ("fmt", "a.hts")),
    "fix": Case("fix", ("check", "--fix", "brace.hts")),
}  # fmt: skip


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    place = tmp_path / "place"
    (place / ".git").mkdir(parents=True)
    monkeypatch.chdir(place)
    monkeypatch.setenv("HTS_CACHE_DIR", str(tmp_path / "cache"))
    for name, text in (
        ("a", BUTT.replace('    A on 2026-10-02 "First issue"\n', "") + "\n\n\n"),
        ("b", BUTT.replace('    A on 2026-10-02 "First issue"\n', "").replace("W12", "W13")),
        ("list", job()),
        ("old", BUTT.replace("25.4", "26.4")),
        ("brace", BUTT.replace("joint W12 {", "joint W12\n{")),
    ):
        (place / f"{name}.hts").write_text(text)
    (place / "welds.csv").write_text(table())
    return place


#: What was predicted in this test, if anything.
known_predictions: list[object] = []


@pytest.fixture(autouse=True)
def predicted_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is predicted is worked out once for all runs of a test."""
    known_predictions.clear()
    real = foresee.foresee_all

    def foresee_all(*asked: object) -> object:
        known_predictions[:] = known_predictions or [real(*asked)]  # type: ignore[arg-type]
        return known_predictions[0]

    monkeypatch.setattr(foresee, "foresee_all", foresee_all)


def tree(place: Path) -> dict[str, bytes | None]:
    """All files below, and folders as None."""
    return {
        path.relative_to(place).as_posix(): path.read_bytes() if path.is_file() else None
        for path in sorted(place.rglob("*"))
    }


def ran_in_child(
    case: Case, at_step: Callable[[int], None] = unhindered, most: int | None = None
) -> Ended:
    predicted = known_predictions[0] if known_predictions else None
    return in_child(case.arguments, at_step, most=most, predicted=predicted)


def begun(case: Case) -> dict[str, bytes | None]:
    """What there is before the command."""
    for arguments in case.first:
        run(arguments)
    if case.arguments[0] == "predict":
        run((*case.arguments[:3], "../elsewhere", *case.arguments[4:]))
    if case.mended:
        Path("a.hts").write_text(BUTT)
    return tree(Path())


def could_not_run(ended: Ended) -> bool:
    return (
        ended.code == 2
        and "a fault of hts" not in ended.said
        and "Traceback" not in ended.said
        and ended.said.strip() != ""
    )


NAMES = [
    pytest.param(name, marks=pytest.mark.long if case.dear else ()) for name, case in CASES.items()
]


@pytest.mark.parametrize("name", NAMES)
def test_a_disk_that_is_full_or_only_read(folder: Path, name: str) -> None:
    case = CASES[name]
    before = begun(case)
    for ended in (
        ran_in_child(case, most=0),
        ran_in_child(case, most=20),
        ran_in_child(case, only_read),
    ):
        assert could_not_run(ended), ended
        assert tree(folder) == before
    assert ran_in_child(case).code in (0, 1)
    assert tree(folder) != before


def put_back(before: dict[str, bytes | None]) -> None:
    """Makes the folder what it was."""
    for path in sorted(Path().rglob("*"), reverse=True):
        if path.as_posix() not in before:
            path.rmdir() if path.is_dir() and not path.is_symlink() else path.unlink()
    for name, content in before.items():
        if content is not None and (not Path(name).exists() or Path(name).read_bytes() != content):
            Path(name).parent.mkdir(parents=True, exist_ok=True)
            Path(name).write_bytes(content)


#: The exit code of a command that a signal has ended.
ENDED = {signal.SIGKILL: -9, signal.SIGTERM: 143, signal.SIGINT: 130}


@pytest.mark.parametrize(
    ("name", "sign", "few"),
    [(name, sign, True) for name, case in CASES.items() if not case.dear for sign in ENDED]
    + in_turn([(name, sign, False) for name in CASES for sign in ENDED], 9),
)
def test_ended_at_a_step(folder: Path, name: str, sign: int, few: bool) -> None:
    case = CASES[name]
    before = begun(case)
    steps = ran_in_child(case).steps
    after = tree(folder)
    assert steps > 1
    # Of the signals that are answered, each fourth step has to do, or the one in the middle.
    each = range(1, steps + 1, 1 if sign == signal.SIGKILL else 4)
    some = {1, steps // 2, steps} if sign == signal.SIGKILL else {steps // 2}
    for number in some if few else each:
        put_back(before)
        ended = ran_in_child(case, At(number, sign))
        assert ended.code == ENDED[sign], ended
        found = tree(folder)
        # Nothing is lost: each file is the old one or the new one, or away where it is to go.
        for name, content in before.items():
            assert found.get(name, "away") in (content, after.get(name, "away")), name
        ran_in_child(case)
        assert tree(folder) == after, number


def test_two_writers(folder: Path) -> None:
    case = CASES["compile again"]
    before = begun(case)
    handle = os.open("out", os.O_RDONLY)
    fcntl.flock(handle, fcntl.LOCK_EX)
    ended = ran_in_child(case)
    os.close(handle)
    assert could_not_run(ended) and "another run is writing" in ended.said
    assert tree(folder) == before
    assert ran_in_child(case).code == 0


class Killed:
    """A pool whose processes have been killed."""

    def __init__(self, *_: object, **__: object) -> None: ...

    def __enter__(self) -> Killed:
        return self

    def __exit__(self, *_: object) -> None: ...

    def shutdown(self, **_: object) -> None: ...

    def map(self, *_: object, **__: object) -> Iterator[object]:
        raise BrokenProcessPool
        yield


#: Who shares work out to processes, and a command that does.
SHARED = {
    "hts/checking/checker/processes.py": ("check", "a.hts", "b.hts", "--jobs", "2", "--report",
                                          "json=a.json"),
    "hts/cli/layouts.py": ("fmt", "."),
    "hts/job/comparison/whole.py": ("diff", "HEAD"),
    "hts/record/archive/audit.py": ("record", "check", ".", "--archive", ".", "--jobs", "2"),
    "hts/predict/foresee.py": ("predict", "a.hts", "-o", "out", "-j", "2"),
}  # fmt: skip


@pytest.mark.parametrize("module", SHARED)
def test_a_killed_worker(folder: Path, module: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("hts.checking.checker.processes.ProcessPoolExecutor", Killed)
    monkeypatch.setattr("hts.cli.layouts.FEW", 1)
    monkeypatch.setattr("hts.job.comparison.whole.FEW", 1)
    monkeypatch.setattr("hts.job.comparison.whole.cores", lambda: 2)
    monkeypatch.setattr("hts.predict.foresee._PAYS", 0.5)
    if module.endswith("whole.py"):
        git = ("git", "-c", "user.name=a", "-c", "user.email=a@example.org")
        for arguments in (("init", "-q"), ("add", "."), ("commit", "-qm", "a")):
            subprocess.run([*git, *arguments], check=True)
        for name in ("a", "b"):
            Path(f"{name}.hts").write_text(Path(f"{name}.hts").read_text().replace("25.4", "26.4"))
    if module.endswith("audit.py"):
        for name in ("a.csv", "b.csv"):
            run(("record", "simulate", f"{name[0]}.hts", "-o", name))
    before = tree(folder)
    ran = run(SHARED[module])
    assert ran.code == 2 and "was killed" in ran.out + ran.err, ran
    assert "a fault of hts" not in ran.out + ran.err
    assert tree(folder) == before


# The walks ----------------------------------------------------------------------------------------

#: What opens a file to write it or moves one, besides `open` with a mode that says so.
_MOVES = {"replace", "rename", "link", "symlink", "write_text", "write_bytes", "fdopen", "mkdtemp",
          "mkstemp", "copytree", "copyfile", "copy2", "move", "NamedTemporaryFile"}  # fmt: skip
_MODULES = {"os", "shutil", "tempfile"}


def calls_of(path: Path) -> Iterator[ast.Call]:
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Call):
            yield node


def changes_the_disk(call: ast.Call) -> bool:
    what = call.func
    if isinstance(what, ast.Attribute) and what.attr in _MOVES:
        of_module = isinstance(what.value, ast.Name) and what.value.id in _MODULES
        return of_module or what.attr.startswith("write_")
    opens = (isinstance(what, ast.Name) and what.id == "open") or (
        isinstance(what, ast.Attribute) and what.attr == "open" and isinstance(what.value, ast.Name)
        and what.value.id in ("os", "io")
    )  # fmt: skip
    if not opens or len(call.args) < 2:
        return False
    mode = call.args[1]
    return "O_RDONLY" not in ast.unparse(mode) and not (
        isinstance(mode, ast.Constant) and mode.value in ("r", "rb")
    )


def test_nothing_is_written_in_another_way() -> None:
    found = {
        path.relative_to(ROOT).as_posix()
        for path in sorted(Path(ROOT, "hts").rglob("*.py"))
        if "generate" not in path.parts and any(map(changes_the_disk, calls_of(path)))
    }
    # What it copies goes where `put_new_folder` says.
    assert found - {"hts/cli/language.py"} == {*WAYS, *NOBODYS}


def test_every_pool_of_processes_has_a_killed_worker() -> None:
    found = {
        path.relative_to(ROOT).as_posix()
        for path in sorted(Path(ROOT, "hts").rglob("*.py"))
        if re.search(r"\b(pool_of|ProcessPoolExecutor)\(", path.read_text("utf-8"))
    }
    assert found == set(SHARED)


def test_every_command_that_writes_is_in_the_table() -> None:
    commands = Path(ROOT, "hts", "cli")
    found = set()
    for path in sorted(commands.rglob("*.py")):
        names = {call.func.id for call in calls_of(path) if isinstance(call.func, ast.Name)}
        if names & DOORS:
            found.add(".".join(path.relative_to(commands).with_suffix("").parts))
    # `folders` is how the others write into a folder.
    assert found - {"folders"} == {case.module for case in CASES.values()}
