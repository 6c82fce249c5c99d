"""Files are replaced whole, or not at all."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from hts.language.layout.write import replace_text


def test_the_text_is_replaced_and_the_mode_kept(tmp_path: Path) -> None:
    file = tmp_path / "a.hts"
    file.write_text("old")
    file.chmod(0o640)
    replace_text(str(file), "new ± \r\n")
    assert file.read_bytes() == "new ± \r\n".encode()
    assert stat.S_IMODE(file.stat().st_mode) == 0o640
    assert os.listdir(tmp_path) == ["a.hts"]


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    real = tmp_path / "real" / "a.hts"
    real.write_text("old")
    link = tmp_path / "b.hts"
    link.symlink_to(real)
    replace_text(str(link), "new")
    assert link.is_symlink()
    assert real.read_text() == "new"


@pytest.mark.parametrize("step", ["chmod", "replace"])
def test_a_failure_leaves_the_file_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    file = tmp_path / "a.hts"
    file.write_text("old")

    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, step, fail)
    with pytest.raises(OSError, match="No space"):
        replace_text(str(file), "new")
    assert file.read_text() == "old"
    assert os.listdir(tmp_path) == ["a.hts"]


def test_a_file_without_permission_to_write_is_not_replaced(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "a.hts"
    file.write_text("old")
    # Whoever may do everything may write every file, so the answer of the system is put in.
    monkeypatch.setattr(os, "access", lambda *_: False)
    with pytest.raises(PermissionError):
        replace_text(str(file), "new")
    assert file.read_text() == "old"
