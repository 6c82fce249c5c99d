"""Folders of specifications that tests of whole runs share."""

from __future__ import annotations

from pathlib import Path

import pytest

from hts.checking.checker import cache as caching
from hts.checking.checker import outcome
from hts.checking.checker.check_paths import FEW
from hts.checking.rules.examples import BUTT, PREHEAT
from tests.checking.checker.kept_runs import COUNT

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


@pytest.fixture
def same_program(monkeypatch: pytest.MonkeyPatch) -> None:
    """Somebody who changes a file of the working copy meanwhile changes the program."""
    monkeypatch.setattr(caching, "program", lambda: "this one")


@pytest.fixture
def kept(tmp_path: Path) -> str:
    return str(tmp_path / "kept" / "hts")


@pytest.fixture
def checked(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Names of the texts that are really checked, as they are."""
    names: list[str] = []
    real = outcome.check_case

    def spy(case, *more):  # type: ignore[no-untyped-def]
        names.append(case.spec.source.name)
        return real(case, *more)

    monkeypatch.setattr(outcome, "check_case", spy)
    return names


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    """Files enough for the cache, each with a finding that points into a library, too."""
    root = tmp_path / "repository"
    root.mkdir()
    (root / "hts.toml").write_text("")
    (root / "library.hts").write_text('spec 1\nmaterial shared {\n  grade "A106-B"\n}\n')
    for number in range(COUNT):
        text = PREHEAT.replace("D3", f"D{number}")
        text = text.replace("spec 1\n", 'spec 1\nuse "library.hts"\n')
        text = text.replace("pipe and pipe", "shared and pipe")
        (root / f"s{number:02}.hts").write_text(text.replace("600 degF", "60 degF"))
    return root
