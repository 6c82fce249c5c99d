"""A certificate of calibration is there when it is named."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.used import instruments
from hts.checking.rules.rule import Agreement, Edge, Rule

RULE = Rule(
    "C139",
    "calibrated-later",
    "warning",
    summary="A calibration dated after the revision that names it and after the day of the check.",
    why="Nobody has seen such a certificate: day and month were exchanged, or the year has slipped, "
    "and the one in force may have run out.",
    fix="Correct the date by the certificate.",
    source="arithmetic: what is dated after today has not happened",
    basis="derived",
    edges=(
        Edge(
            (
                (
                    "  resolution  1 K\n  calibrated  2026-09-01 until 2027-03-01",
                    "  resolution  1 K\n  calibrated  {} until 2027-03-01",
                ),
            ),
            keeps="2026-11-01",
            breaks="2026-11-02",
            today="2026-11-01",
            says="on 2026-11-02",
        ),
    ),
    agrees=(Agreement("recorder.calibrated.on", "job.revision.on", "not after it and the check"),),
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    written = job.revision.on if job is not None and job.sound and job.revision else None
    if written is None:
        return
    for instrument in instruments(case):
        calibrated = instrument.calibrated
        if calibrated is None or calibrated.on <= written:
            continue
        if case.ahead(calibrated.on):
            case.add(
                RULE.found(
                    f"{instrument.name} is said to have been calibrated on {calibrated.on}, which is "
                    "yet to come",
                    calibrated.place("on"),
                    address=instrument.name,
                )
            )
