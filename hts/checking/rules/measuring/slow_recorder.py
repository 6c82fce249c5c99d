"""A recorder reads as often as the procedure asks."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.applying import applies
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "C112",
    "slow-recorder",
    "error",
    summary="A recorder with more time between readings than a procedure allows.",
    why="A rate or a peak between two readings is not in the record.",
    fix="Set a shorter interval.",
    source="the procedure that limits the interval",
    basis="derived",
    edges=(
        Edge(
            (("interval    60 s", "interval    {}"),),
            keeps="60 s",
            breaks="61 s",
            base="procedure",
            says="every 61 s … at most 60 s",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    recorder = treatment.recorder
    if recorder is None or recorder.interval is None:
        return
    for authority in case.authorities:
        procedure = authority.procedure
        if procedure is None or procedure.interval is None:
            continue
        if recorder.interval > procedure.interval and applies(
            procedure, case.limits(treatment.joint, treatment)
        ):
            case.add(
                RULE.found(
                    f"{recorder.name} reads every {recorder.interval.both()}, {authority.name} "
                    f"allows at most {procedure.interval.both()}",
                    recorder.place("interval"),
                    address=recorder.name,
                    others=[Label(procedure.place("interval"), "the limit")],
                )
            )
