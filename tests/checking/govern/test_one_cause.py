"""Demands beside rules of practice and predictions on the same thing."""

from __future__ import annotations

from pathlib import Path

import pytest

from hts.checking.rules.examples import PROCEDURE
from tests.rows import each_row
from tests.specs.found import checked

_LINE = "  requires spare for controlling thermocouples within 20 mm"
_CALIBRATED = "  calibrated  2026-09-01 until 2027-03-01\n"


def _told(text: str) -> list[str]:
    return [finding.kind.name for finding in checked(Path("example.hts"), text)]


def _asking(line: str) -> str:
    assert PROCEDURE.count(_LINE) == 1
    return PROCEDURE.replace(_LINE, f"{_LINE}\n  {line}")


@each_row(
    ("line", "told"),
    [
        ("requires recorder resolution 1 K", "uncalibrated-instrument"),
        ("calibration at most 183 d", "demand-not-met"),
        ("requires recorder calibrated", "demand-not-met"),
        ("requires recorder calibration at most 183 d", "demand-not-met"),
    ],
)
def test_a_missing_calibration_is_told_once(line: str, told: str) -> None:
    text = _asking(line)
    before, after = text.split("recorder R1 {")
    text = f"{before}recorder R1 {{{after.replace(_CALIBRATED, '', 1)}"
    names = ("uncalibrated-instrument", "demand-not-met")
    assert [name for name in _told(text) if name in names] == [told]


@pytest.mark.parametrize(
    ("otherwise", "told"),
    [("monitor soak edge", 0), ("insulation layers at least 9", 1)],
)
def test_what_the_job_has_in_place_of_a_prediction_will_do(otherwise: str, told: int) -> None:
    text = _asking(f"requires predicted lag at most 1 min, else {otherwise}")
    assert _told(text).count("predicted-demand-missed") == told
