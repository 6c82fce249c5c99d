"""Folders that nobody else reads, and that go even where whoever made them was killed."""

from __future__ import annotations

import os
import re
import signal
import tempfile
from pathlib import Path

import pytest

from hts.base.leftovers import (
    beside,
    folders_above,
    is_there,
    private_folder,
    put_new,
    put_new_folder,
    tidy,
)
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


#: No process has this number.
NOBODY = 999_999_999


def test_what_was_left_beside_a_file(tmp_path: Path) -> None:
    """That of processes that run no longer goes, files and folders; nothing else."""
    path = tmp_path / "a.hts"
    gone = [f".a.hts.{NOBODY}.new", f".a.hts.{NOBODY}.old"]
    kept = [f".a.hts.{os.getpid()}.new", f".a.hts.{NOBODY}.other", f".b.hts.{NOBODY}.new",
            f".a.hts.1{NOBODY}.new", f"a.hts.{NOBODY}.new"]  # fmt: skip
    for name in gone + kept:
        (tmp_path / name).write_text("")
    folder = tmp_path / f".a.hts.{NOBODY - 1}.new"
    folder.mkdir()
    (folder / "inner").write_text("")
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "elsewhere" / "inner").write_text("")
    (tmp_path / f".a.hts.{NOBODY - 2}.old").symlink_to(tmp_path / "elsewhere")
    # Where there is no such file, nothing is looked for.
    assert not is_there(str(path)) and (tmp_path / gone[0]).exists()
    path.write_text("spec 1")
    assert is_there(str(path))
    assert sorted(os.listdir(tmp_path)) == sorted([*kept, "a.hts", "elsewhere"])
    assert os.listdir(tmp_path / "elsewhere") == ["inner"]
    assert beside(str(path), "new") == str(tmp_path / kept[0])
    with pytest.raises(OSError):
        tidy(str(tmp_path / "no folder" / "a.hts"))


def test_a_file_is_written_whole_or_not_at_all(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "a.hts"
    put_new(str(path), b"one")
    with pytest.raises(FileExistsError):
        put_new(str(path), b"two")
    assert (path.read_bytes(), os.listdir(tmp_path)) == (b"one", ["a.hts"])
    deep = tmp_path / "x" / "y" / "a.hts"
    with pytest.raises(OSError):
        put_new(str(deep), b"one")
    put_new(str(deep), b"one", folders=True)
    assert deep.read_bytes() == b"one"

    def refused(*_: object) -> None:
        raise OSError("a disk without second names")

    monkeypatch.setattr(os, "link", refused)
    put_new(str(tmp_path / "b.hts"), b"two")
    with pytest.raises(FileExistsError):
        put_new(str(path), b"two")
    assert sorted(os.listdir(tmp_path)) == ["a.hts", "b.hts", "x"]
    assert (path.read_bytes(), (tmp_path / "b.hts").read_bytes()) == (b"one", b"two")


def test_folders_that_were_missing_go_again_on_an_error(tmp_path: Path) -> None:
    def full(name: str) -> None:
        os.mkdir(name)
        raise OSError("no room")

    (tmp_path / "there").mkdir()
    with pytest.raises(OSError, match="no room"):
        put_new_folder(str(tmp_path / "there" / "x" / "y" / "out"), full)
    assert os.listdir(tmp_path / "there") == []
    put_new_folder(str(tmp_path / "there" / "x" / "out") + os.sep, os.mkdir)
    assert os.listdir(tmp_path / "there" / "x") == ["out"]
    with pytest.raises(ValueError), folders_above(str(tmp_path / "there" / "x" / "a")):
        raise ValueError
    assert os.listdir(tmp_path / "there") == ["x"]
