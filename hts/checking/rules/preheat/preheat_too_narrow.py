"""The preheated width is as wide as what governs it asks for."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.govern.facts import total_width
from hts.checking.rules.helpers.against import against
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "P104",
    "preheat-too-narrow",
    "error",
    summary="A preheated width beside the weld narrower than the books and procedures ask for.",
    why="The cold metal beside it draws the heat away faster than the preheat is meant to allow.",
    fix="Preheat a wider zone.",
    source="the governing books and procedures",
    basis="derived",
    edges=(
        Edge(
            (("width             75 mm each side", "width             {} each side"),),
            keeps="25 mm",
            breaks="24 mm",
            says="is 24 mm (0.9449 in) … at least 25 mm (1 in)",
        ),
    ),
    good=(Good((("width             75 mm each side", "width             by rule"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None:
        return
    limits = limits_of(case, joint)
    total = total_width(preheat.width, limits.thickness)
    if total is None:
        return
    found = against(
        RULE,
        limits.of("preheat width"),
        "minimum",
        total / 2,
        preheat.place("width"),
        address=f"{joint.address}/preheat",
        what=f"the preheated width on each side of {joint.name}",
    )
    if found is not None:
        case.add(found)
