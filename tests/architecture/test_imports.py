"""Imports point one way, between the rooms and inside them, and a check starts light."""

import ast
import json
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from functools import cache
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest

from hts.generate import ROOT

HTS = Path(ROOT, "hts")
FILES = sorted(HTS.rglob("*.py"))

#: What makes a start slow, or belongs to development only.
HEAVY = (
    "numpy",
    "scipy",
    "hts.predict",
    "lark",
    "yaml",
    "jsonschema",
    "dataclasses",
    "pint",
    "importlib.metadata",
    "hts.generate",
)

#: What takes longer to import than a small check, and what a check of paths alone has no use for
#: while nothing is found and nothing kept.
UNUSED_ALONE = ("click", "hashlib", "textwrap", "tokenize", "traceback")

#: The face of the package: it takes from every room.
FACE = {"hts", "hts.api", "hts.notebook", "hts.__main__"}


@cache
def order() -> list[str]:
    """The rooms and the parts inside them, in the order of the table in DEVELOPERS.md."""
    text = Path(ROOT, "DEVELOPERS.md").read_text("utf-8")
    return [row.replace("/", ".") for row in re.findall(r"^\| `(hts/[\w/]+)` \|", text, re.M)]


def module_of(path: Path) -> str:
    """The dotted name of a file's module."""
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


MODULES = {module_of(path): path for path in FILES}


def statements(node: ast.AST) -> Iterator[ast.AST]:
    """All statements below a node; what is inside an expression imports nothing."""
    for name in ("body", "orelse", "finalbody", "handlers", "cases"):
        below = getattr(node, name, ())
        for each in below if isinstance(below, list) else ():
            yield each
            yield from statements(each)


@cache
def imported(path: Path) -> set[str]:
    """The modules of the project a file imports, also inside functions."""
    found = set()
    for node in statements(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: imports are written out"
            base = node.module or ""
            for alias in node.names:
                inside = f"{base}.{alias.name}"
                found.add(inside if inside in MODULES else base)
        elif isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
    return {name for name in found if name in MODULES}


@cache
def part_of(module: str) -> str:
    """The row of the table that a module belongs to: the longest that covers it."""
    covers = [row for row in order() if module == row or module.startswith(f"{row}.")]
    return max(covers, key=len, default="")


def test_the_table_names_every_room_and_part() -> None:
    folders = [folder for folder in HTS.iterdir() if (folder / "__init__.py").exists()]
    rooms = {f"hts.{folder.name}" for folder in folders}
    named = order()
    assert len(named) == len(set(named))
    assert {".".join(row.split(".")[:2]) for row in named} == rooms
    assert [row for row in named if row not in MODULES] == []
    # A room with parts has nothing beside them that the table does not name.
    for folder in folders:
        inside = [row for row in named if row.startswith(f"hts.{folder.name}.")]
        if inside and f"hts.{folder.name}" not in named:
            files = {p.stem for p in folder.glob("*.py")} - {"__init__"}
            parts = {p.parent.name for p in folder.glob("*/__init__.py")}
            assert {f"hts.{folder.name}.{name}" for name in files | parts} == set(inside)


def test_no_room_hides_a_function_of_the_library() -> None:
    taken = {"check", "compile", "diff", "load", "format", "fingerprint", "grammar"}
    assert taken.isdisjoint(folder.name for folder in HTS.iterdir() if folder.is_dir())


def test_imports_point_down() -> None:
    rank = {part: number for number, part in enumerate(order())}
    wrong = [
        f"{module} imports {other}"
        for module, path in MODULES.items()
        if module not in FACE and part_of(module)
        for other in imported(path)
        if other not in FACE and part_of(other) and rank[part_of(other)] > rank[part_of(module)]
    ]
    assert wrong == []


def test_nothing_inside_takes_from_the_face() -> None:
    wrong = [
        f"{module} imports {other}"
        for module, path in MODULES.items()
        if module not in FACE and not module.startswith("hts.cli")
        for other in imported(path) & {"hts.api", "hts.__main__"}
    ]
    assert wrong == []


def test_no_circles_of_modules() -> None:
    arrows = {module: imported(path) - {module, "hts"} for module, path in MODULES.items()}
    try:
        TopologicalSorter(arrows).prepare()
    except CycleError as circle:
        pytest.fail(" -> ".join(reversed(circle.args[1])))


@pytest.mark.parametrize(
    "options", [("--format", "text"), ("--format", "json"), ("--no-cache",)], ids=" ".join
)
def test_a_check_imports_nothing_heavy(tmp_path: Path, options: tuple[str, ...]) -> None:
    heavy = HEAVY + (UNUSED_ALONE if options == ("--no-cache",) else ())
    good = os.path.join(ROOT, "specs", "carbon-steel-butt.hts")
    program = (
        "import json, sys\n"
        "before = set(sys.modules)\n"
        "from hts.cli.main import main\n"
        f"sys.argv = ['hts', 'check', *{options!r}, {good!r}]\n"
        "try:\n    main()\nexcept SystemExit: pass\n"
        "print(json.dumps(sorted(set(sys.modules) - before)), file=sys.stderr)\n"
    )
    # Nothing was kept: all that a check needs is imported.
    surroundings = {**os.environ, "HTS_CACHE_DIR": str(tmp_path / "kept")}
    run = subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        text=True,
        cwd=ROOT,
        env=surroundings,
        check=True,
    )
    modules = json.loads(run.stderr.splitlines()[-1])
    assert "hts.checking.checker.run" in modules
    assert [
        name for name in modules if any(name == h or name.startswith(f"{h}.") for h in heavy)
    ] == []
