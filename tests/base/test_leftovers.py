"""Folders that nobody else reads, and that go even where whoever made them was killed."""

from __future__ import annotations

import os
import re
import signal
import tempfile
from pathlib import Path

import pytest

from hts.base.leftovers import private_folder
from hts.generate import ROOT

#: Who makes temporary folders in its own way: beside what it writes, and for development.
OWN_WAY = {"hts/base/leftovers.py", "hts/job/outputs/write.py", "hts/generate/package.py"}


@pytest.fixture
def temporary(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    return tmp_path


def left_by_a_killed_process() -> str:
    """The name of the folder it made."""
    read, write = os.pipe()
    child = os.fork()
    if not child:
        folder = private_folder()
        Path(folder.name, "copy.csv").write_text("time")
        os.write(write, folder.name.encode())
        os.kill(os.getpid(), signal.SIGKILL)
    os.waitpid(child, 0)
    name = os.read(read, 1000).decode()
    os.close(read)
    os.close(write)
    return name


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs a process of its own")
def test_what_a_killed_process_left_goes_with_the_next(temporary: Path) -> None:
    left = left_by_a_killed_process()
    assert os.listdir(left) == ["copy.csv"]
    with private_folder() as mine, private_folder() as other:
        assert not os.path.exists(left)
        assert sorted(os.listdir(temporary)) == sorted(map(os.path.basename, (mine, other)))
        assert os.stat(mine).st_mode & 0o077 == 0
    assert os.listdir(temporary) == []


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs a process of its own")
def test_nothing_else_is_taken_away(temporary: Path) -> None:
    left = left_by_a_killed_process()
    others = [temporary / "elsewhere", temporary / "hts-x-abc", temporary / "hts-123"]
    for folder in others:
        folder.mkdir()
    (temporary / "elsewhere" / "kept").write_text("")
    os.rename(left, temporary / "true")
    os.symlink(temporary / "true", left)
    with private_folder():
        assert os.path.islink(left)
    assert os.listdir(temporary / "true") == ["copy.csv"]
    assert all(folder.is_dir() for folder in others)


def test_every_temporary_folder_is_made_that_way() -> None:
    made = re.compile(r"\b(TemporaryDirectory\(|mkdtemp\(|mkstemp\(|NamedTemporaryFile\()")
    found = {
        path.relative_to(ROOT).as_posix()
        for path in Path(ROOT, "hts").rglob("*.py")
        if made.search(path.read_text("utf-8"))
    }
    assert found == OWN_WAY
