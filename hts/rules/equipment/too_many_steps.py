"""The controller has room for the steps of the program."""

from __future__ import annotations

from hts.findings import Label
from hts.govern.case import Case
from hts.model.joint import Treatment
from hts.rules.rule import Bad, Rule

RULE = Rule(
    "E103",
    "too-many-steps",
    "error",
    summary="A treatment with more steps than the controller has segments.",
    why="The program ends before the treatment does.",
    fix="Use fewer steps, or another controller.",
    source="arithmetic: steps against segments",
    basis="derived",
    bad=(Bad((("segments           16", "segments           4"),), at="4"),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    controller = treatment.controller
    steps = treatment.entry.segments
    if controller is None or controller.segments is None or len(steps) <= controller.segments:
        return
    case.add(
        RULE.found(
            f"{treatment.name} has {len(steps)} steps, {controller.name} {controller.segments} "
            "segments",
            controller.place("segments"),
            address=controller.name,
            others=[Label(steps[controller.segments].place(), "the first step too many")],
        )
    )
