"""The preheat agrees with what analysis, thickness, hydrogen and heat input ask for."""

from __future__ import annotations

from math import ceil

from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint


def _welded(hydrogen: int) -> tuple[tuple[str, str], ...]:
    return (
        ('"WPS-12" layers multiple', '"WPS-12" layers multiple filler rod heat input 1 kJ/mm'),
        ("joint W12 {", f"filler rod {{ diffusible hydrogen {hydrogen} ml/100g }}\n\njoint W12 {{"),
    )


RULE = Rule(
    "P110",
    "preheat-below-estimate",
    "advice",
    summary="A preheat below the one that EN 1011-2 method B estimates from the text.",
    why="With too little preheat for its hydrogen the weld cracks once it is cold.",
    fix="Raise the preheat, or weld with less hydrogen or more heat input.",
    source="EN 1011-2:2001 Annex C, method B (single-pass and root welds, normal restraint)",
    basis="derived",
    edges=(
        Edge(
            (
                (
                    '"WPS-12" layers multiple',
                    '"WPS-12" layers multiple filler rod heat input 1 kJ/mm',
                ),
                ("joint W12 {", "filler rod { diffusible hydrogen 15 ml/100g }\n\njoint W12 {"),
                ("  at least          150 degC", "  at least          {}"),
            ),
            keeps="172 degC",
            breaks="171 degC",
            says="is 171 degC (340 degF) … 172 degC (341.6 degF)",
        ),
    ),
    good=(Good(_welded(4)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if any(authority.name == "en-1011-2" for authority in case.authorities):
        return  # the book itself asks for the estimate: one cause, one finding
    welding, preheat = joint.entry.welding, joint.preheat
    if preheat is None or welding is None or welding.filler is None or welding.heat_input is None:
        return
    filler, least = welding.filler.target, limits_of(case, joint).preheat()
    if filler is None or filler.hydrogen is None or least is None:
        return
    walls = [side.wall.value for side in joint.sides if side.wall is not None]
    thickest = max((float(wall.value) for wall in walls if isinstance(wall, Quantity)), default=0)
    analyses = {
        side.material.name: {s.element: float(s.fraction.value) for s in side.material.composition}
        for side in joint.sides
        if side.material is not None
    }
    if not thickest or not all(
        "C" in analysis and "Mn" in analysis for analysis in analyses.values()
    ):
        return
    from hts.science.metallurgy.carbon_equivalent import CET
    from hts.science.metallurgy.preheat import method_b

    cet = max((CET(analysis).value for analysis in analyses.values()), default=0.0)
    hydrogen, heat_input = float(filler.hydrogen.value), float(welding.heat_input.value)
    if not cet or not heat_input:
        return
    asked = method_b(cet, thickest, hydrogen, heat_input)
    if asked.outside or asked.celsius <= float(least.value):
        return
    estimate = Quantity.of(ceil(asked.celsius), "degC", TEMPERATURE)
    case.add(
        RULE.found(
            f"the preheat of {joint.name} is {least.both()}; EN 1011-2:2001 method B (derived) "
            f"estimates {estimate.both()}",
            preheat.place("at_least"),
            address=f"{joint.address}/preheat",
            notes=[
                f"CET {cet:.2f} %, {thickest:.1f} mm, {hydrogen:g} ml/100g, {heat_input:g} kJ/mm; "
                "elements the analysis does not state count as zero, the welding process as fully "
                "efficient"
            ],
        )
    )
