"""Preheat is as high as what governs it asks for."""

from __future__ import annotations

from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "P101",
    "preheat-too-low",
    "error",
    summary="A preheat lower than the books and procedures ask for.",
    why="The weld cools too fast, becomes hard and cracks from hydrogen.",
    fix="Raise the preheat, or write `at least by rule`.",
    source="the governing books and procedures",
    basis="derived",
    edges=(
        Edge(
            (("  at least          150 degC", "  at least          {}"),),
            keeps="150 degC",
            breaks="149 degC",
            says="is 149 degC (300 degF) … at least 150 degC (302 degF)",
        ),
    ),
    good=(Good((("  at least          150 degC", "  at least          by rule"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None or not isinstance(preheat.at_least, Quantity):
        return
    found = against(
        RULE,
        limits_of(case, joint).of("preheat"),
        "minimum",
        preheat.at_least,
        preheat.place("at_least"),
        address=f"{joint.address}/preheat",
        what=f"the preheat of {joint.name}",
    )
    if found is not None:
        case.add(found)
