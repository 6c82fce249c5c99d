"""Control and record begin low enough."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "L208",
    "control-starts-too-late",
    "error",
    summary="Control of heating that begins above the temperature the books and procedures name.",
    why="The rate below it is neither limited nor recorded where it should be.",
    fix="Begin control at a lower temperature.",
    source="the governing books and procedures (AWS D10.10:2021: 427 degC at most)",
    basis="published",
    edges=(
        Edge(
            (
                ("start of control    300 degC", "start of control    {}"),
                (
                    "  interpass        at most 350",
                    "  start of control at most 250 degC\n  interpass        at most 350",
                ),
            ),
            keeps="250 degC",
            breaks="251 degC",
            base="procedure",
            says="is 251 degC (484 degF) … at most 250 degC (482 degF)",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    start = treatment.entry.start_control
    if treatment.is_bake or start is None:
        return
    found = against(
        RULE,
        case.limits(treatment.joint, treatment).of("start of control"),
        "maximum",
        start,
        treatment.place("start_control"),
        address=treatment.address,
        what="the start of control",
    )
    if found is not None:
        case.add(found)
