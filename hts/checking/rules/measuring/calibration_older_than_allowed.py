"""Instruments are calibrated as recently as the procedure asks."""

from __future__ import annotations

import datetime

from hts.base.findings import Label
from hts.checking.govern.applying import applies
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Treatment

_OF_RECORDER = "  resolution  1 K\n  calibrated  2026-09-01 until 2027-03-01"
_LINE = "  recorder interval at most 60 s"

RULE = Rule(
    "C132",
    "calibration-older-than-allowed",
    "error",
    summary="An instrument calibrated longer ago than a procedure the job follows allows.",
    why="The certificate may still run, but the owner does not accept its readings.",
    fix="Have it calibrated anew, or take another instrument.",
    source="the procedure that limits the age of a calibration",
    basis="derived",
    edges=(
        Edge(
            (
                (
                    "  recorder interval at most 60 s",
                    "  recorder interval at most 60 s\n  calibration at most {}",
                ),
                (
                    "  resolution  1 K\n  calibrated  2026-09-01 until 2027-03-01",
                    "  resolution  1 K\n  calibrated  2026-03-01 until 2027-03-01",
                ),
            ),
            keeps="215 d",
            breaks="214 d",
            at="recorded by",
            base="procedure",
            says="on 2026-03-01 … for 214 d, until 2026-10-01",
        ),
    ),
    good=(Good(((_LINE, f"{_LINE}\n  calibration at most 183 d"),), base="procedure"),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    limits = case.limits(treatment.joint, treatment)
    for field, instrument in (
        ("recorded_by", treatment.recorder),
        ("controlled_by", treatment.controller),
    ):
        calibrated = instrument.calibrated if instrument is not None else None
        if instrument is None or calibrated is None or calibrated.on is None:
            continue
        for authority in case.authorities:
            procedure = authority.procedure
            if procedure is None or procedure.calibration is None:
                continue
            days = int(procedure.calibration.to("d"))
            last = datetime.date.fromisoformat(calibrated.on) + datetime.timedelta(days=days)
            if case.run_out(last.isoformat()) and applies(procedure, limits):
                case.add(
                    RULE.found(
                        f"{instrument.name} was calibrated on {calibrated.on}; {authority.name} "
                        f"accepts that for {procedure.calibration}, until {last.isoformat()}",
                        treatment.place(field),
                        address=treatment.address,
                        others=[
                            Label(calibrated.place("on"), "calibrated"),
                            Label(procedure.place("calibration"), "the limit"),
                        ],
                    )
                )
                break
