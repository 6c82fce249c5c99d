"""Imports point one way, and a check starts light."""

import ast
import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from hts.generate import ROOT

HTS = Path(ROOT, "hts")
FILES = sorted(HTS.rglob("*.py"))

#: What makes a start slow, or belongs to development only.
HEAVY = ("lark", "yaml", "jsonschema", "dataclasses", "pint", "importlib.metadata", "hts.generate")


def order() -> list[str]:
    """The parts in the order of the table in DEVELOPERS.md."""
    text = Path(ROOT, "DEVELOPERS.md").read_text("utf-8")
    rows = re.findall(r"^\| (`hts/[^|]*) \|", text, re.MULTILINE)
    return [part for row in rows for part in re.findall(r"`hts/(\w+)`", row)]


def imported(path: Path) -> set[str]:
    """The parts a file imports from."""
    parts = set()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        names: list[str] = []
        if isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: imports are written out"
            names = [node.module or ""]
            if node.module == "hts":
                names = [f"hts.{alias.name}" for alias in node.names]
        elif isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        parts |= {name.split(".")[1] for name in names if name.startswith("hts.")}
    return parts - {"__version__"}


def test_the_table_names_every_part_once() -> None:
    parts = [folder.name for folder in HTS.iterdir() if (folder / "__init__.py").exists()]
    assert sorted(order()) == sorted(parts)


def test_imports_point_one_way() -> None:
    rank = {part: number for number, part in enumerate(order())}
    wrong = [
        f"{path.relative_to(ROOT)} imports from hts.{other}"
        for path in FILES
        if path.parent != HTS
        for part in [path.relative_to(HTS).parts[0]]
        for other in imported(path)
        if rank[other] > rank[part]
    ]
    assert wrong == []


@pytest.mark.parametrize("form", ["text", "json"])
def test_a_check_imports_nothing_heavy(tmp_path: Path, form: str) -> None:
    good = os.path.join(ROOT, "specs", "carbon-steel-butt.hts")
    program = (
        "import json, sys\n"
        "before = set(sys.modules)\n"
        "from hts.cli.main import main\n"
        f"sys.argv = ['hts', 'check', '--format', {form!r}, {good!r}]\n"
        "try:\n    main()\nexcept SystemExit: pass\n"
        "print(json.dumps(sorted(set(sys.modules) - before)), file=sys.stderr)\n"
    )
    run = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, cwd=ROOT, check=True
    )
    modules = json.loads(run.stderr.splitlines()[-1])
    assert "hts.checker.run" in modules
    assert [
        name for name in modules if any(name == h or name.startswith(f"{h}.") for h in HEAVY)
    ] == []
