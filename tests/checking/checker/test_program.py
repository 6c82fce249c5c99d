"""What the cache takes for the same program."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import hts
from hts import __version__
from hts.checking.checker import program

HERE = Path(hts.__file__).parent
PART = Path(program.__file__).relative_to(HERE)


@pytest.fixture
def place(tmp_path: Path) -> Path:
    """The part of the package that tells about itself, and one more file."""
    target = tmp_path / "hts" / PART
    target.parent.mkdir(parents=True)
    shutil.copy(HERE / PART, target)
    (target.parent / "__init__.py").write_text("")
    shutil.copy(HERE / "__init__.py", tmp_path / "hts")
    (tmp_path / "hts" / "rule.py").write_text("A = 1\n")
    return tmp_path


def told(place: Path) -> str:
    """What the program says of itself; it is never imported here."""
    run = subprocess.run(
        [sys.executable, "-c", f"import {program.__name__} as m; print(m.program())"],
        cwd=place, env={**os.environ, "PYTHONPATH": ""}, capture_output=True, text=True, check=True,
    )  # fmt: skip
    return run.stdout


def test_a_working_copy_changes_with_each_of_its_files(place: Path) -> None:
    before = told(place)
    assert told(place) == before
    (place / "hts" / "rule.py").write_text("A = 22\n")
    changed = told(place)
    assert changed != before
    (place / "hts" / "another.py").write_text("")
    assert told(place) not in (before, changed)


def test_an_installed_program_is_the_same_on_every_machine(place: Path, tmp_path: Path) -> None:
    # Python Packaging User Guide, "Recording installed projects": RECORD holds path, hash, size.
    about = place / f"hts-{__version__}.dist-info"
    about.mkdir()
    ours = "hts/rule.py,sha256=0123,6\nhts/__init__.py,sha256=4567,99\n"
    (about / "RECORD").write_text(f"../../../bin/hts,sha256=89ab,200\n{ours}")
    before = told(place)
    os.utime(place / "hts" / "rule.py", (1, 1))
    (about / "RECORD").write_text(f"{ours}../bin/hts,sha256=cdef,9\nhts/__pycache__/r.pyc,,\n")
    assert told(place) == before
    (about / "RECORD").write_text(ours.replace("0123", "3210"))
    assert told(place) != before
