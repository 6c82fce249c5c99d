"""A calibration belongs to one instrument that can be told from others."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.used import instruments
from hts.checking.rules.rule import Bad, Good, Rule

_SERIAL = '  serial      "40-118"\n'
_DAYS = "resolution  1 K\n  calibrated  2026-09-01 until 2027-03-01"

RULE = Rule(
    "C130",
    "calibration-of-nothing",
    "advice",
    summary="A calibrated instrument with neither a serial number nor the number of a certificate.",
    why="Should it be found out of calibration later, nobody can tell which welds it recorded.",
    fix="Write its `serial`, or the `certificate` of the calibration.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(((_SERIAL, ""),), at="calibrated"),),
    good=(Good(((_SERIAL, ""), (_DAYS, f'{_DAYS} certificate "CAL-118"'))),),
)


@RULE.for_spec
def check(case: Case) -> None:
    for instrument in instruments(case):
        calibrated = instrument.calibrated
        if calibrated is None or instrument.serial is not None or calibrated.certificate:
            continue
        case.add(
            RULE.found(
                f"nothing ties the calibration of {instrument.name} to one instrument",
                calibrated.place(),
                address=instrument.name,
                basis=RULE.basis,
            )
        )
