"""Instruments are in calibration."""

from __future__ import annotations

from hts.govern.case import Case
from hts.rules.rule import Bad, Good, Rule
from hts.rules.used import instruments

RULE = Rule(
    "C105",
    "expired-calibration",
    "error",
    floor="error",
    summary="A recorder or controller whose calibration has run out.",
    why="A record made with it proves nothing.",
    fix="Have it calibrated, or use another.",
    source="common practice, no source; ISO 17663 leaves the interval to the maker",
    basis="practice",
    bad=(
        Bad(
            (("2027-03-01\n}\n\nrecorder", "2027-09-01\n}\n\nrecorder"),),
            at="2027-03-01",
            today="2027-06-01",
        ),
    ),
    good=(Good((), today="2027-03-01"),),
)


@RULE.for_spec
def check(case: Case) -> None:
    for instrument in instruments(case):
        calibrated = instrument.calibrated
        until = calibrated.until if calibrated is not None else None
        if calibrated is not None and case.past(until):
            case.add(
                RULE.found(
                    f"the calibration of {instrument.name} ended on {until}",
                    calibrated.place("until"),
                    address=instrument.name,
                )
            )
