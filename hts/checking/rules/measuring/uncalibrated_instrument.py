"""Instruments say when they were calibrated."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.used import instruments
from hts.checking.rules.rule import Bad, Rule

RULE = Rule(
    "C106",
    "uncalibrated-instrument",
    "warning",
    summary="A recorder or controller in use whose calibration is not stated.",
    why="Years later the first question is whether the record can be relied on.",
    fix="Write `calibrated DAY until DAY`.",
    source="common practice, no source; ISO 17663 leaves the interval to the maker",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    "resolution  1 K\n  calibrated  2026-09-01 until 2027-03-01\n",
                    "resolution  1 K\n",
                ),
            ),
            at="R1",
        ),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    for instrument in instruments(case):
        if instrument.calibrated is None:
            case.add(
                RULE.found(
                    f"{instrument.name} does not say when it was calibrated",
                    instrument.place("name"),
                    address=instrument.name,
                )
            )
