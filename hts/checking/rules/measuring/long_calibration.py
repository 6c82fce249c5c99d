"""Instruments are calibrated at least once a year."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.used import instruments
from hts.checking.rules.rule import Edge, Good, Rule

_OF_RECORDER = "  resolution  1 K\n  calibrated  2026-09-01 until 2027-03-01"

RULE = Rule(
    "C120",
    "long-calibration",
    "advice",
    summary="A calibration stated to be valid for more than 12 months.",
    why="Instruments that travel from job to job drift.",
    fix="Calibrate at least once a year.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            (
                (
                    "  resolution  1 K\n  calibrated  2026-09-01 until 2027-03-01",
                    "  resolution  1 K\n  calibrated  2026-09-01 until {}",
                ),
            ),
            keeps="2027-09-01",
            breaks="2027-09-02",
            says="on 2026-09-01 for more than 12 months",
        ),
    ),
    good=(Good(((_OF_RECORDER, _OF_RECORDER.replace("2027-03", "2027-09")),)),),
)


@RULE.for_spec
def check(case: Case) -> None:
    for instrument in instruments(case):
        calibrated = instrument.calibrated
        if calibrated is None or calibrated.until is None:
            continue
        year, rest = calibrated.on[:4], calibrated.on[4:]
        if calibrated.until > f"{int(year) + 1:04d}{rest}":
            case.add(
                RULE.found(
                    f"{instrument.name} is calibrated on {calibrated.on} for more than 12 months",
                    calibrated.place("until"),
                    address=instrument.name,
                    basis=RULE.basis,
                )
            )
