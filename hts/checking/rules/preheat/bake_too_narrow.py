"""The baked width is as wide as what governs it asks for."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
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
    summary="A bake over a narrower width than the books and procedures ask for, or over far less than is preheated.",
    why="Hydrogen beside the heated width stays where it is.",
    fix="Bake a wider zone.",
    source="the governing books and procedures",
    basis="derived",
    edges=(
        # 75 mm beyond each edge of a cap of 30 mm are 180 mm, and 0.6 of them 108 mm.
        Edge(
            (
                ("  width             100 mm each side\n", "  width             {} total\n"),
                ("  bake width at least 75 mm each side\n", ""),
            ),
            keeps="108 mm",
            breaks="107 mm",
            base="bake",
            says="over 107 mm (4.21 in) … 180 mm (7.087 in)",
        ),
        Edge(
            (("  width             100 mm each side\n", "  width             {} each side\n"),),
            keeps="75 mm",
            breaks="74 mm",
            base="bake",
            says="is 148 mm (5.827 in) … at least 150 mm (5.906 in)",
        ),
    ),
)

#: Of the width that is preheated, what a bake covers at the least. Common practice, no source.
_PART = Fraction(6, 10)


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
        return
    preheat, cap = treatment.joint.preheat, treatment.joint.entry.cap_width
    warmed = total_width(preheat.width, limits.thickness) if preheat is not None else None
    if preheat is None or warmed is None or cap is None:
        return
    # That of a preheat is counted from the edges of the weld.
    if width < (warmed + cap) * _PART:
        case.add(
            RULE.found(
                f"{treatment.joint.name} is baked over {width.both()} in total and preheated over "
                f"{(warmed + cap).both()}",
                bake.place("width"),
                address=treatment.address,
                others=[Label(preheat.place("width"), "the preheat")],
                basis="practice",
            )
        )
