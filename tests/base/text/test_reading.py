"""Files that are read, those that are not, and which folder a repository begins at."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from hts.base.text.reading import (
    Unreadable,
    decoded,
    leads_out,
    name_below,
    read_bytes,
    read_text,
    regular,
    root_of,
)  # fmt: skip


def test_a_file_is_read_up_to_its_size(tmp_path: Path) -> None:
    for size in (0, 1, 65_535, 65_536, 65_537, 200_000):
        file = tmp_path / f"{size}.hts"
        file.write_bytes(os.urandom(size))
        assert read_bytes(str(file)) == file.read_bytes()
        assert read_bytes(str(file), most=200_000) == file.read_bytes()
    with pytest.raises(Unreadable, match=r"^the file is larger than 5 MB$"):
        (tmp_path / "large").write_bytes(bytes(5_000_001))
        read_bytes(str(tmp_path / "large"))
    (tmp_path / "large").write_bytes(bytes(5_000_000))
    assert len(read_bytes(str(tmp_path / "large"))) == 5_000_000
    for size in (1_000_000, 1_999_999):
        with pytest.raises(Unreadable, match=r"^the file is larger than 1 MB$"):
            read_bytes(str(tmp_path / "large"), most=size)


def test_what_cannot_be_read_says_why(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "latin.hts").write_bytes(b"ab\xe9")
    for name, why in {
        "none.hts": "no such file or directory", ".": "is a directory", "a\0b": "cannot be read",
        "pipe": "not a file with text in it, but a pipe, a device or a socket",
        "latin.hts": "the file is not UTF-8 text (byte 2); save it as UTF-8",
    }.items():  # fmt: skip
        with pytest.raises(Unreadable) as caught:
            read_text(f"{tmp_path}/{name}")
        assert str(caught.value) == why
    assert decoded("é".encode("utf-8-sig")) == "\ufeffé"
    with pytest.raises(FileNotFoundError):
        regular(str(tmp_path / "none.hts"))
    with pytest.raises(IsADirectoryError, match=str(tmp_path)):
        regular(str(tmp_path))


@pytest.mark.parametrize("mark", [".git", "hts.toml"])
def test_a_link_out_of_the_repository_is_not_followed(tmp_path: Path, mark: str) -> None:
    inside = tmp_path / "inside"
    (inside / "deep" / "deeper").mkdir(parents=True)
    (inside / mark).touch()
    for file in (tmp_path / "secret", inside / "own", tmp_path / "inside-too"):
        file.write_text("text")
    for name, to in {
        "out": tmp_path / "secret", "near": tmp_path / "inside-too", "in": inside / "own",
    }.items():  # fmt: skip
        os.symlink(to, inside / "deep" / "deeper" / name)
    here = f"{inside}/deep/deeper"
    assert [leads_out(f"{here}/{name}") for name in ("out", "near", "in")] == [True, True, False]
    assert not leads_out(f"{inside}/own")
    with pytest.raises(Unreadable) as caught:
        read_bytes(f"{here}/out")
    assert str(caught.value) == (
        "a link that leads out of the repository; what lies there is not read"
    )
    assert read_text(f"{here}/in") == "text"


def test_without_a_mark_no_link_leads_out(tmp_path: Path) -> None:
    (tmp_path / "text").write_text("text")
    (tmp_path / "a").mkdir()
    os.symlink(tmp_path / "text", tmp_path / "a" / "link")
    assert read_text(str(tmp_path / "a" / "link")) == "text"


def test_a_repository_goes_before_a_configuration(tmp_path: Path) -> None:
    top = tmp_path / "top"
    low = top / "part" / "deep" / "low"
    low.mkdir(parents=True)
    file = low / "a.hts"
    file.touch()
    assert root_of(str(file)) == root_of(str(low)) == str(low)
    (top / "part" / "hts.toml").touch()
    assert root_of(str(file)) == str(top / "part")
    (low / "hts.toml").touch()
    assert root_of(str(file)) == str(low)
    os.symlink(tmp_path, low / "out")
    assert leads_out(str(low / "out" / "b.hts"))
    (top / ".git").mkdir()
    assert root_of(str(file)) == root_of(str(top)) == str(top)
    # The configuration of a part ends nothing: what lies elsewhere in the repository is its own.
    os.symlink(top / "part", low / "back")
    assert not leads_out(str(low / "back" / "b.hts"))


def test_names_start_from_the_root(tmp_path: Path) -> None:
    assert name_below(f"{tmp_path}/a/b.hts", f"{tmp_path}") == "a/b.hts"
    assert name_below("/x/b.hts", "/x/y") == "/x/b.hts"
