"""What a file of settings leaves out is told on every report and every paper, and no error goes."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from hts.cli.main import cli
from hts.generate import ROOT


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository with one specification that has a warning, and settings that leave it out."""
    (tmp_path / ".git").mkdir()
    shutil.copytree(Path(ROOT, "specs", "library"), tmp_path / "library")
    text = Path(ROOT, "specs", "broken", "zone-gap.hts").read_text("utf-8")
    text = text.replace("../library/", "library/")
    (tmp_path / "weld.hts").write_text(text, "utf-8")
    (tmp_path / "hts.toml").write_text('ignore = ["zone-gap"]\n', "utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(*words: str) -> Result:
    return CliRunner().invoke(cli, list(words))


@pytest.mark.parametrize("form", ["text", "json", "sarif", "github", "gitlab", "junit"])
def test_every_report_names_what_was_left_out(folder: Path, form: str) -> None:
    done = run("check", "weld.hts", "--format", form)
    assert done.exit_code == 0
    assert "leaves out: zone-gap" in done.output
    assert "hts.toml" in done.output


def test_every_paper_names_what_was_left_out(folder: Path) -> None:
    done = run("compile", "weld.hts", "-o", "out")
    assert done.exit_code == 0, done.output
    for name in ("setpoints.md", "tags.md", "job.json"):
        assert "leaves out: zone-gap" in (folder / "out" / name).read_text("utf-8"), name


def test_it_is_part_of_the_fingerprint(folder: Path) -> None:
    quieted = run("fingerprint", "weld.hts").output
    (folder / "hts.toml").write_text("", "utf-8")
    plain = run("fingerprint", "weld.hts").output
    (folder / "hts.toml").write_text('\n\nignore = ["zone-gap"]\n', "utf-8")
    assert quieted != plain
    assert run("fingerprint", "weld.hts").output == quieted


@pytest.mark.parametrize(
    "settings",
    [
        'ignore = ["hold-too-short"]\n',
        '[severity]\nhold-too-short = "advice"\n',
    ],
)
def test_an_error_cannot_be_left_out(folder: Path, settings: str) -> None:
    (folder / "hts.toml").write_text(settings, "utf-8")
    done = run("check", "weld.hts")
    assert done.exit_code != 0
    assert "warning is the lowest it may be" in done.output


@pytest.mark.parametrize(
    "settings",
    [
        'select = ["Z"]\n',
        'ignore = ["Y"]\n[severity]\nL = "warning"\n',
        '[severity]\nhold-away-from-heat = "warning"\n',
    ],
)
def test_no_settings_bring_a_broken_limit_onto_paper(folder: Path, settings: str) -> None:
    text = (folder / "weld.hts").read_text("utf-8")
    colder = text.replace("hold 700 .. 730 degC", "hold 600 .. 630 degC")
    assert colder != text
    (folder / "weld.hts").write_text(colder, "utf-8")
    (folder / "hts.toml").write_text(settings, "utf-8")
    assert "hold-away-from-heat" in run("check", "weld.hts").output
    done = run("compile", "weld.hts", "-o", "out")
    assert done.exit_code == 1
    assert "hold-away-from-heat" in done.output and not (folder / "out").exists()


def test_shards_joined_tell_it_once(folder: Path) -> None:
    (folder / "again.hts").write_text((folder / "weld.hts").read_text("utf-8"), "utf-8")
    for number in (1, 2):
        done = run("check", "weld.hts", "again.hts", "--shard", f"{number}/2", "--format", "json")
        (folder / f"{number}.json").write_text(done.stdout, "utf-8")
    done = run("check", "--merge-reports", "1.json", "2.json", "--format", "json")
    assert [each["words"] for each in json.loads(done.stdout)["quieted"]] == [
        "leaves out: zone-gap"
    ]
