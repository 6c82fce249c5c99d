"""Folders of specifications that tests of whole runs share."""

from __future__ import annotations

from pathlib import Path

import pytest

from hts.checking.checker.check_paths import FEW
from hts.checking.rules.examples import BUTT, PREHEAT

LIBRARY = 'spec 1\nmaterial shared {\n  grade "A106-B"\n}\n'


@pytest.fixture
def folder(tmp_path: Path) -> str:
    """Clean, faulty, broken and unreadable files, more than one process is used for, in two
    folders, with a library that several use."""
    (tmp_path / "hts.toml").write_text("")
    (tmp_path / "library.hts").write_text(LIBRARY)
    for number in range(FEW + 8):
        below = tmp_path / f"part{number % 2}"
        below.mkdir(exist_ok=True)
        text = PREHEAT.replace("D3", f"D{number}")
        if number % 7 == 1:
            text = text.replace("spec 1\n", 'spec 1\nuse "../library.hts"\n').replace(
                "pipe and pipe", "shared and pipe"
            )
        if number % 7 == 2:
            text = text.replace("grade        ", "grad ")
        if number % 7 == 3:
            text = text.replace("interpass         at most 600 degF", "interpass at most 60 degF")
        if number % 16 == 5:
            text = BUTT.replace("}", "", 1)
        if number == 4:
            text = text.replace("\n", "\r\n").replace("600 degF", "60 degF")
        (below / f"s{number:03}.hts").write_bytes(text.encode())
    (tmp_path / "part0" / "s900.hts").write_bytes(b"spec 1\n\xff\n")
    return str(tmp_path)


@pytest.fixture
def paths(folder: str) -> list[str]:
    """What is checked of the folder: a part of it, something missing, another part, one file."""
    return [str(Path(folder, name)) for name in ("part1", "nowhere.hts", "part0", "library.hts")]
