"""The baked width is as wide as what governs it asks for."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.govern.facts import total_width
from hts.checking.rules.helpers.against import against
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.cycle import Bake

RULE = Rule(
    "P106",
    "bake-too-narrow",
    "error",
    summary="A bake over a narrower width than the books and procedures ask for.",
    why="Hydrogen beside the heated width stays where it is.",
    fix="Bake a wider zone.",
    source="the governing books and procedures",
    basis="derived",
    edges=(
        Edge(
            (("  width             100 mm each side\n", "  width             {} each side\n"),),
            keeps="75 mm",
            breaks="74 mm",
            base="bake",
            says="is 148 mm (5.827 in) … at least 150 mm (5.906 in)",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    bake = treatment.entry
    if not isinstance(bake, Bake):
        return
    limits = case.limits(treatment.joint, treatment)
    width = total_width(bake.width, limits.thickness)
    if width is None:
        return
    found = against(
        RULE,
        limits.of("bake width"),
        "minimum",
        width,
        bake.place("width"),
        address=treatment.address,
        what=f"the baked width of {treatment.joint.name} in total",
    )
    if found is not None:
        case.add(found)
