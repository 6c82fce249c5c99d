"""Many files laid out: on all cores, and those known to be laid out only once."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from hts.checking.checker.check_paths import FEW
from hts.cli import layouts
from hts.cli.fmt import command

ROUGH = "spec   1\njoint W1 {\n kind   girth butt\n}\n"


@pytest.fixture
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("HTS_CACHE_DIR", str(tmp_path / "kept"))
    monkeypatch.chdir(tmp_path)
    (tmp_path / "jobs").mkdir()
    return tmp_path / "kept"


def fmt(*words: str) -> Result:
    return CliRunner().invoke(command, words)


def test_many_are_laid_out_as_one_is(kept: Path, tmp_path: Path) -> None:
    folder = tmp_path / "jobs"
    for number in range(FEW + 4):
        (folder / f"{number:03}.hts").write_text(ROUGH)
    (folder / "wrong.hts").write_text("spec 1\n{\n")
    run = fmt("jobs")
    assert run.exit_code == 1 and "S" in run.output
    texts = {path.read_text() for path in folder.glob("0*.hts")}
    assert len(texts) == 1 and fmt("jobs/000.hts").output == "0 of 1 file changed\n"
    assert (folder / "wrong.hts").read_text() == "spec 1\n{\n"
    assert run.output.splitlines()[0] == "changed: jobs/000.hts"


def test_what_is_laid_out_is_not_laid_out_again(
    kept: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "jobs" / "a.hts"
    path.write_text(ROUGH)
    assert fmt("jobs").exit_code == 0
    asked: list[str] = []
    monkeypatch.setattr("hts.cli.fmt.lay_out_all", lambda texts: asked.extend(texts) or [])
    assert fmt("--check", "jobs").output == "0 of 1 file would change\n" and asked == []
    # A damaged list, one of another program, or none at all counts for nothing.
    for text in ("{", json.dumps({"program": "x", "digests": []}), None):
        monkeypatch.undo()
        monkeypatch.chdir(tmp_path)
        monkeypatch.setenv("HTS_CACHE_DIR", str(kept))
        (kept / "layout.json").unlink(missing_ok=True)
        if text is not None:
            (kept / "layout.json").write_text(text)
        assert not layouts.Known(str(kept)).has(path.read_text())
    assert fmt("--check", "jobs").exit_code == 0


def test_nothing_is_kept_where_a_change_could_forge_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / ".git").mkdir()
    monkeypatch.setenv("HTS_CACHE_DIR", str(tmp_path / "kept"))
    (tmp_path / "a.hts").write_text(ROUGH)
    assert fmt("a.hts").exit_code == 0
    assert not (tmp_path / "kept").exists()
