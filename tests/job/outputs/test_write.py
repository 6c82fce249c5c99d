"""Files go into a folder all together or not at all."""

import os
from pathlib import Path

import pytest

from hts.job.outputs import write

FILES = {"a.csv": b"new a", "b.md": b"new b", "c.json": b"new c"}


def contents(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_folder_is_made(tmp_path: Path) -> None:
    paths = write(str(tmp_path / "x" / "y"), FILES)
    assert contents(tmp_path / "x" / "y") == FILES
    assert [os.path.basename(path) for path in paths] == list(FILES)


def test_own_files_are_replaced_and_others_left(tmp_path: Path) -> None:
    (tmp_path / "a.csv").write_bytes(b"old a")
    (tmp_path / "stale.csv").write_bytes(b"old")
    (tmp_path / "notes.txt").write_bytes(b"mine")
    write(str(tmp_path), FILES, stale=("stale.csv", "a.csv"))
    assert contents(tmp_path) == {**FILES, "notes.txt": b"mine"}


@pytest.mark.parametrize("failing", range(1, 7))
def test_a_move_that_fails_leaves_all_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, failing: int
) -> None:
    old = {"a.csv": b"old a", "b.md": b"old b", "c.json": b"old c", "notes.txt": b"mine"}
    for name, data in old.items():
        (tmp_path / name).write_bytes(data)
    rename, calls = os.rename, [0]

    def fails_once(source: str, target: str) -> None:
        calls[0] += 1
        if calls[0] == failing:
            raise OSError(28, "No space left on device")
        rename(source, target)

    monkeypatch.setattr(os, "rename", fails_once)
    with pytest.raises(OSError, match="No space"):
        write(str(tmp_path), FILES)
    assert contents(tmp_path) == old


def test_a_write_that_fails_leaves_no_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space"):
        write(str(tmp_path / "x" / "y"), FILES)
    assert list(tmp_path.iterdir()) == []


def test_a_folder_in_the_place_of_a_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "c.json").mkdir()
    (tmp_path / "a.csv").write_bytes(b"old a")
    with pytest.raises(IsADirectoryError):
        write(str(tmp_path), FILES)
    assert (tmp_path / "a.csv").read_bytes() == b"old a"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a.csv", "c.json"]


def test_a_link_is_replaced_not_followed(tmp_path: Path) -> None:
    outside = tmp_path / "outside.csv"
    outside.write_bytes(b"not ours")
    folder = tmp_path / "out"
    folder.mkdir()
    (folder / "a.csv").symlink_to(outside)
    write(str(folder), FILES)
    assert outside.read_bytes() == b"not ours"
    assert not (folder / "a.csv").is_symlink()
