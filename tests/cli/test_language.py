"""The reference at a terminal, and the examples of a wheel."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from hts.base import shipped
from hts.checking.checker.check_paths import check_paths
from hts.checking.configuration import loader
from hts.cli.language import command
from hts.cli.why import command as why
from hts.generate import ROOT
from hts.job.explain import reference
from hts.language.vocabulary.paths import walk
from hts.language.vocabulary.spec import File


def hts(*words: str) -> Result:
    return CliRunner().invoke(command, words)


def test_every_entry_of_the_vocabulary_is_found() -> None:
    page = shipped.shipped("grammar", "LANGUAGE.md")
    assert page is not None
    known = reference.sections(Path(page).read_text(encoding="utf-8"))
    for cls in {field.entry for _, _, field in walk(File) if field.entry is not None}:
        name = " ".join(cls.words)
        if name:
            assert any(reference.look_up(known, name)), name
    assert "\nthermocouples" in hts().output


def test_an_entry_a_clause_and_a_chapter() -> None:
    assert "Shortest time in the range" in hts("hold").output
    assert "```" not in hts("hold").output and "](#" not in hts("hold").output
    assert "deviation alarm" in hts("deviation", "alarm").output
    assert "`degC/h`" in hts("units").output


def test_what_was_meant() -> None:
    run = hts("start", "of", "contrl")
    assert run.exit_code == 2 and "did you mean start of control?" in run.output
    run = CliRunner().invoke(why, [str(Path(ROOT, "specs", "p22-header.hts")), "W12/hold-tim"])
    assert "did you mean W12/hold-time?" in run.output


def test_the_examples_are_complete(tmp_path: Path) -> None:
    folder = tmp_path / "jobs"
    assert hts("--examples", str(folder)).exit_code == 0
    configured = loader()
    results = check_paths([str(folder)], settings=lambda path: configured(path).setting)
    assert len(results.checked) > 10 and results.findings == [] and results.failures == []
    assert "is there already" in hts("--examples", str(folder)).output


@pytest.mark.parametrize("folder", ["grammar", "examples"])
def test_a_wheel_brings_them(folder: str) -> None:
    """The wheel has them where they are looked for."""
    wheel = tomllib.loads(Path(ROOT, "pyproject.toml").read_text())["tool"]["hatch"]["build"]
    there = {to: here for here, to in wheel["targets"]["wheel"]["force-include"].items()}
    assert there[f"hts/{folder}"] == shipped._FOLDERS[folder]
    assert shipped.shipped(folder) is not None
    assert shipped.shipped("grammar", "nowhere.md") is None
