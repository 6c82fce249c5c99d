"""What a check tells of predictions, and what the command refuses."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from hts.checking.checker.run import check_spec
from hts.checking.checker.setting import PLAIN
from hts.checking.govern.case import Case
from hts.checking.govern.foreseen import Unforeseen
from hts.checking.rules.examples import changed
from hts.cli.predict import command
from hts.predict.foresee import foreseen
from hts.predict.told import NOT_FOR
from tests.texts import spec_of

#: What a cycle may ask to be predicted.
ASKED = ("  rate margin  ", "  predict soak band within 690 .. 730 degC\n  rate margin  ")


def test_a_check_predicts_only_when_asked() -> None:
    spec = spec_of(changed("butt", ()))
    assert check_spec(spec) == []
    found = check_spec(spec_of(changed("butt", ())), None, PLAIN._replace(predicts=True))
    assert [f.kind.name for f in found] == ["soak-band-predicted-cold"]
    assert all(f.severity != "error" for f in found)
    assert any("never evidence" in note for f in found for note in f.notes)


def test_a_check_says_why_there_is_none() -> None:
    filled = ("bore           drained and dry", "bore           filled")
    case = Case(spec_of(changed("butt", (filled,))))
    treatment = next(iter(case.treatments(next(iter(case.joints())))))
    found = foreseen(case, treatment)
    assert isinstance(found, Unforeseen)
    assert "liquid" in found.reason


def test_a_check_says_what_is_not_installed(monkeypatch: pytest.MonkeyPatch) -> None:
    def missing(name: str) -> None:
        raise ModuleNotFoundError(f"No module named {name!r}", name="scipy")

    monkeypatch.setattr("hts.checking.govern.foreseen.import_module", missing)
    found = check_spec(spec_of(changed("butt", (ASKED,))))
    assert [f.kind.name for f in found] == ["prediction-not-made"]
    assert "hts[predict]" in found[0].message


def test_help_says_what_it_must_not_be_used_for() -> None:
    told = " ".join(CliRunner().invoke(command, ["--help"]).output.split())
    assert all(" ".join(line.split()) in told for line in NOT_FOR)


def test_command_refuses_what_it_cannot_do(tmp_path: Path) -> None:
    path = tmp_path / "x.hts"
    path.write_text("spec 1\njoint {\n")
    result = CliRunner().invoke(command, [str(path)])
    assert result.exit_code == 1 and "the text has errors" in result.output
    path.write_text(changed("butt", ()))
    result = CliRunner().invoke(command, [str(path), "W99"])
    assert result.exit_code == 1 and "no treatment at W99" in result.output
