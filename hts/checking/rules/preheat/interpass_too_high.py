"""The interpass temperature is no higher than what governs it allows."""

from __future__ import annotations

from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "P102",
    "interpass-too-high",
    "error",
    summary="An interpass temperature above what the books and procedures allow.",
    why="Grain grows and toughness falls when the next pass goes onto metal that is too hot.",
    fix="Lower the interpass temperature.",
    source="the governing books and procedures",
    basis="derived",
    edges=(
        Edge(
            (("at most 315 degC\n", "at most {}\n"),),
            keeps="350 degC",
            breaks="351 degC",
            base="procedure",
            says="is 351 degC (664 degF) … at most 350 degC (662 degF)",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    interpass = joint.preheat.interpass if joint.preheat is not None else None
    if interpass is None or not isinstance(interpass.at_most, Quantity):
        return
    found = against(
        RULE,
        limits_of(case, joint).of("interpass"),
        "maximum",
        interpass.at_most,
        interpass.place("at_most"),
        address=f"{joint.address}/preheat",
        what=f"the interpass temperature of {joint.name}",
    )
    if found is not None:
        case.add(found)
