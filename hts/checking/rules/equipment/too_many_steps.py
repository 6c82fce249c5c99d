"""The controller has room for the steps of the program."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.counted import counted
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "E103",
    "too-many-steps",
    "error",
    summary="A treatment with more steps than the controller has segments.",
    why="The program ends before the treatment does.",
    fix="Use fewer steps, or another controller.",
    source="arithmetic: steps against segments",
    basis="derived",
    edges=(
        Edge(
            (("segments           16", "segments           {}"),),
            keeps="5",
            breaks="4",
            says="has 5 steps, C1 4 segments",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    controller = treatment.controller
    steps = treatment.entry.segments
    if controller is None or controller.segments is None or len(steps) <= controller.segments:
        return
    case.add(
        RULE.found(
            f"{treatment.name} has {counted(len(steps), 'step')}, {controller.name} "
            f"{counted(controller.segments, 'segment')}",
            controller.place("segments"),
            address=controller.name,
            others=[Label(steps[controller.segments].place(), "the first step too many")],
        )
    )
