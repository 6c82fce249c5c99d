"""Files taken along with a unit of work, and laid out in a folder of their own elsewhere."""

from __future__ import annotations

import os
from pathlib import Path
from typing import NamedTuple

import pytest

from hts.base.cluster import ClusterError, files, laid_out
from hts.base.cluster.files import Gathered, Laid


class Told(NamedTuple):
    place: str
    parts: tuple[object, ...]


def test_they_are_there_as_they_were(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "repo" / ".git").mkdir(parents=True)
    (tmp_path / "repo" / "deep").mkdir()
    real = tmp_path / "repo" / "deep" / "a.hts"
    real.write_bytes(b"text")
    os.symlink(real, tmp_path / "repo" / "link.hts")
    monkeypatch.chdir(tmp_path / "repo" / "deep")
    gathered = Gathered()
    for path in ("../link.hts", "a.hts", str(real)):
        gathered.add(path, b"text")
    sent = gathered.files()
    assert list(sent.data) == [str(real)]
    assert sent.links == {str(tmp_path / "repo" / "link.hts"): str(real)}
    assert sent.folders == (str(tmp_path / "repo" / ".git"),)
    assert sent.here == os.getcwd()
    with laid_out(sent) as laid:
        assert os.getcwd() == laid.there(str(tmp_path / "repo" / "deep"))
        assert Path("a.hts").read_bytes() == Path("../link.hts").read_bytes() == b"text"
        assert os.path.islink("../link.hts")
        assert os.path.isdir(laid.there(str(tmp_path / "repo" / ".git")))
        assert laid.there("a.hts") == "a.hts"
        told = Told(f"{laid.top}/x/a.hts:2", (1, [laid.top], (f"in {laid.top}/b",)))
        found = laid.as_told(told)
        assert found == Told("/x/a.hts:2", (1, [laid.top], ("in /b",)))
        assert type(found) is Told
        top = laid.top
    assert os.getcwd() == sent.here
    assert not os.path.exists(top)


def test_the_working_folder_comes_back_after_a_failure(tmp_path: Path) -> None:
    before = os.getcwd()
    gathered = Gathered()
    gathered.add(str(tmp_path / "a"), b"")
    with pytest.raises(ZeroDivisionError), laid_out(gathered.files()):
        1 / 0  # noqa: B018
    assert os.getcwd() == before


def test_too_much_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(files, "LARGEST", 3_000_000)
    gathered = Gathered()
    for _ in range(3):
        gathered.add(str(tmp_path / "a"), bytes(2_000_000))
    gathered.add(str(tmp_path / "b"), bytes(1_000_000))
    with pytest.raises(ClusterError) as caught:
        gathered.add("c", b"1")
    assert str(caught.value) == (
        "c and what goes with it hold more than 3 MB, too much to be sent: leave --on out"
    )


def test_a_path_of_another_system_stays_below_the_top() -> None:
    assert Laid("/top").there("//a/b") == "/top/a/b"
