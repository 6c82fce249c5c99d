"""A calibration counts for no longer than the procedure lets it."""

from __future__ import annotations

from datetime import date

from hts.base.findings import Label
from hts.checking.govern.applying import applies
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Treatment

_INTERVAL = "  recorder interval at most 60 s\n"

RULE = Rule(
    "C134",
    "calibration-beyond-procedure",
    "warning",
    summary="A calibration that by its certificate counts for longer than a procedure allows.",
    why="On the day of the work the certificate is in date, and the owner no longer accepts it.",
    fix="Have it calibrated anew in time, and state the day the owner's limit ends it.",
    source="the procedure that limits the age of a calibration",
    basis="derived",
    bad=(
        Bad(
            (
                (_INTERVAL, f"{_INTERVAL}  calibration at most 90 d\n"),
                (
                    "  segments           16\n  calibrated         2026-09-01 until 2027-03-01",
                    "  segments           16\n  calibrated         2026-09-01 until 2026-11-20",
                ),
            ),
            base="procedure",
            at="2027-03-01",
        ),
    ),
    good=(Good(((_INTERVAL, f"{_INTERVAL}  calibration at most 183 d\n"),), base="procedure"),),
    agrees=(
        Agreement("recorder.calibrated.until", "procedure.calibration at most", "no later"),
        Agreement("controller.calibrated.until", "procedure.calibration at most", "no later"),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    for authority in case.authorities:
        procedure = authority.procedure
        limit = procedure.calibration if procedure is not None else None
        if procedure is None or limit is None:
            continue
        if not applies(procedure, case.limits(treatment.joint, treatment)):
            continue
        for instrument in (treatment.recorder, treatment.controller):
            calibrated = instrument.calibrated if instrument is not None else None
            if instrument is None or calibrated is None or calibrated.until is None:
                continue
            begun, ends = date.fromisoformat(calibrated.on), date.fromisoformat(calibrated.until)
            days = (ends - begun).days
            if days > limit.to("d"):
                case.add(
                    RULE.found(
                        f"{instrument.name} counts as calibrated for {days} days, "
                        f"{authority.name} allows {limit}",
                        calibrated.place("until"),
                        address=instrument.name,
                        others=[Label(procedure.place("calibration"), "the limit")],
                    )
                )
