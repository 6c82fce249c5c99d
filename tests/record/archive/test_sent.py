"""A portion of an archive judged where none of its files is: the same, whatever it rests on."""

from __future__ import annotations

import os
import pickle
import shutil
from pathlib import Path

import pytest

from hts.base.cluster import ClusterError
from hts.record.archive.find import found, specifications
from hts.record.archive.portion import Judged, Portion, judged
from hts.record.archive.sent import files_of, judged_there
from hts.record.reading import Options
from tests.record.archive.test_archive import ROOT, record_of


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / ".git").mkdir()
    shutil.copytree(ROOT / "specs" / "library", tmp_path / "library")
    shutil.copy(ROOT / "specs" / "p22-header.hts", tmp_path)
    (tmp_path / "logs").mkdir()
    (tmp_path / "logs" / "a.csv").write_text(record_of("p22-header"))
    monkeypatch.chdir(tmp_path)
    return tmp_path


def both(folder: Path, spec: str, config: str | None = None) -> tuple[Judged, Judged]:
    """Judged here, and there: with the files out of the way."""
    logs = list(found("logs", specifications(spec).by_number))
    portion = Portion(spec, tuple((log,) for log in logs))
    here = judged(portion, Options(), "2026-12-01", config)
    sent = pickle.loads(pickle.dumps(files_of(portion, Options(), config)))
    aside = folder.parent / "aside"
    folder.rename(aside)
    os.chdir(folder.parent)
    there = judged_there(sent, portion, Options(), "2026-12-01", config)
    aside.rename(folder)
    os.chdir(folder)
    return here, there


def test_all_that_counts_is_sent(folder: Path) -> None:
    """What lies beside a log, results, settings, a changed text under the same name."""
    spec = "p22-header.hts"
    here, there = both(folder, spec)
    assert there == here
    assert here.lines[0].verdict == "met"
    (folder / "logs" / "a.yaml").write_text("recorder: R9\n")
    (folder / "logs" / "a.events.yaml").write_text(
        "- {at: 2026-11-20 10:05, kind: power lost}\n- {at: 2026-11-20 10:20, kind: power back}\n"
    )
    (folder / "p22-header.results.hts").write_text(
        "spec 1\n\nresults W12 {\n  measured hardness weld 400 HBW\n}\n"
    )
    here, there = both(folder, spec)
    assert there == here
    assert here.lines[0].verdict == "not met"
    text = (folder / spec).read_text()
    (folder / spec).write_text("".join(t for t in text.splitlines(True) if "governed by" not in t))
    here, there = both(folder, spec)
    assert there == here
    assert here.lines[0].verdict == "could not judge"
    assert "run: hts check p22-header.hts" in here.lines[0].note
    (folder / "hts.toml").write_text('books = ["asme-b31.3 edition 2016", "local-heating"]\n')
    for name in (spec, str(folder / spec)):
        here, there = both(folder, name)
        assert there == here
        assert here.lines[0].verdict == "not met"
    (folder / "hts.toml").write_text("books = 7\n")
    here, there = both(folder, str(folder / spec))
    assert there == here
    assert "hts.toml" in here.lines[0].note


def test_nothing_outside_the_repository_is_sent_and_no_rule_pack(folder: Path) -> None:
    secret = folder.parent / "secret.hts"
    secret.write_text("spec 1\n# secret\n")
    (folder / "library" / "materials.hts").unlink()
    (folder / "library" / "materials.hts").symlink_to(secret)
    portion = Portion("p22-header.hts", ())
    assert str(secret) not in files_of(portion, Options(), None).data
    here, there = both(folder, "p22-header.hts")
    assert there == here
    (folder / "hts.toml").write_text('rule-packs = ["theirs"]\n')
    # Settings that name a pack nobody allowed cannot be used at all; allowed ones are not sent.
    os.environ.pop("HTS_DEBUG", None)
    with pytest.MonkeyPatch.context() as patch:
        # A command that ran in this process may have said that no pack runs.
        patch.setattr("hts.checking.configuration.read.none_runs", lambda: False)
        patch.setattr("hts.checking.configuration.read.forbidden", lambda packs, path: False)
        with pytest.raises(ClusterError, match="rule packs"):
            files_of(portion, Options(), None)
