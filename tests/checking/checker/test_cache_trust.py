"""Whose outcomes are believed: those the user wrote, and sealed."""

from __future__ import annotations

import json
import os
import stat
import sys
from pathlib import Path

import pytest

from hts.checking.checker import cache as caching
from hts.checking.checker import seal as sealing
from hts.checking.checker import sealed_file
from hts.checking.checker.check_paths import cache_folder, check_paths
from hts.checking.checker.seal import seal
from hts.checking.checker.setting import Setting
from hts.checking.rules.examples import PREHEAT
from tests.checking.checker.kept_runs import COUNT, everything, run

pytestmark = pytest.mark.usefixtures("same_program")


@pytest.mark.skipif(os.name == "nt", reason="modes mean something else there")
def test_the_folder_is_the_users_alone(repository: Path, kept: str) -> None:
    run(repository, kept)
    assert stat.S_IMODE(os.stat(kept).st_mode) == 0o700
    (file,) = Path(kept).iterdir()
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    json.loads(file.read_text().splitlines()[1])


@pytest.mark.skipif(os.name == "nt", reason="modes mean something else there")
@pytest.mark.parametrize("how", ["mode", "owner", "link", "pipe", "another's key"])
def test_what_somebody_else_may_have_written_is_not_read(
    repository: Path, kept: str, checked: list[str], how: str
) -> None:
    before = everything(run(repository, kept))
    (file,) = Path(kept).iterdir()
    if how == "mode":
        file.chmod(0o666)
    elif how == "owner":
        if os.getuid() != 0:
            pytest.skip("only root gives files away")
        os.chown(file, 12345, -1)
    elif how == "link":
        target = file.rename(file.with_name("elsewhere"))
        file.symlink_to(target)
    elif how == "pipe":
        file.unlink()
        os.mkfifo(file)
    else:
        run(repository, kept, settings=lambda path: Setting(digest="1"))
        (other,) = set(Path(kept).iterdir()) - {file}
        other.replace(file)
    checked.clear()
    assert everything(run(repository, kept)) == before
    assert len(checked) == COUNT + 1


@pytest.mark.skipif(os.name == "nt", reason="modes mean something else there")
def test_a_folder_a_ci_service_opened_wide_still_serves(
    repository: Path, kept: str, checked: list[str]
) -> None:
    run(repository, kept)
    os.chmod(kept, 0o777)
    checked.clear()
    run(repository, kept)
    assert checked == []


@pytest.mark.parametrize("forged", ["no seal", "a digest for a seal", "another key"])
def test_what_another_wrote_counts_as_empty(
    repository: Path, kept: str, forged: str, checked: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Outcomes without findings, brought along by whoever can write into a cache that is shared."""
    before = everything(run(repository, kept))
    (file,) = Path(kept).iterdir()
    head, text = file.read_bytes().split(b"\n", 1)
    said, body = json.loads(head), json.loads(text)
    for entry in body["names"].values():
        entry[4:] = [[], []]
    if forged == "another key":
        monkeypatch.setenv("HTS_CACHE_KEY", "a key of somebody else")
        proof = seal(sealed_file._sealed(said["key"], json.dumps(body).encode()))
        said["seal"] = proof
        monkeypatch.setenv("HTS_CACHE_KEY", "a key of the tests alone")
    elif forged == "no seal":
        del said["seal"]
    else:
        said["seal"] = caching.digest_of(json.dumps(body).encode())
    file.write_bytes(json.dumps(said).encode() + b"\n" + json.dumps(body).encode() + b"\n")
    checked.clear()
    assert everything(run(repository, kept)) == before
    assert len(checked) == COUNT + 1


def test_the_key_is_the_users_own_and_lies_elsewhere(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("HTS_CACHE_KEY")
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    proof = seal(b"text")
    assert proof == seal(b"text") != seal(b"other text")
    key = tmp_path / "state" / "hts" / "cache.key"
    assert key.stat().st_mode & 0o077 == 0 and os.listdir(key.parent) == ["cache.key"]
    # One that others can read, a link, and one that came with the checkout.
    (tmp_path / ".git").mkdir()
    assert seal(b"text", str(tmp_path)) is None
    key.chmod(0o644)
    assert _fresh(b"text") is None
    key.unlink()
    (tmp_path / "elsewhere").write_bytes(b"k" * 32)
    key.symlink_to(tmp_path / "elsewhere")
    assert _fresh(b"text") is None
    monkeypatch.setenv("HTS_CACHE_KEY", "short")
    assert seal(b"text") is None


def _fresh(text: bytes) -> str | None:
    sealing._key.cache_clear()
    return seal(text)


def test_a_cache_among_its_own_files_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whoever can change a file of a checkout could put a forged outcome beside it."""
    (tmp_path / ".git").mkdir()
    (tmp_path / "s.hts").write_text(PREHEAT)
    monkeypatch.setenv("HTS_CACHE_DIR", str(tmp_path / ".hts-cache"))
    with pytest.raises(PermissionError, match="inside the repository"):
        check_paths([str(tmp_path / "s.hts")], cache=cache_folder())
    # The user's own cache, where the home folder is a repository: nothing is kept.
    monkeypatch.delenv("HTS_CACHE_DIR")
    check_paths([str(tmp_path / "s.hts")], cache=str(tmp_path / ".hts-cache"))
    assert not (tmp_path / ".hts-cache").exists()
