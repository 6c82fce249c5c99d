"""The preheat that a formula of metallurgy gives for a joint."""

from __future__ import annotations

from math import ceil

from hts.base.quantities import TEMPERATURE, Quantity
from hts.language.model.joint import Joint


def preheat_by_cet(joint: Joint) -> Quantity | None:
    """EN 1011-2 method B, in whole degC, rounded up; the thickest part and the richest one count.

    None where an input is not stated, and where one is out of the range the formula holds for:
    elements the analysis does not state count as zero, but carbon and manganese are needed.
    """
    welding = joint.entry.welding
    filler = welding.filler.target if welding is not None and welding.filler else None
    if welding is None or filler is None or not joint.sides:
        return None
    hydrogen, heat_input = filler.hydrogen, welding.heat_input
    walls = [side.wall.value for side in joint.sides if side.wall is not None]
    materials = [side.material for side in joint.sides if side.material is not None]
    if hydrogen is None or heat_input is None or len(walls) < len(joint.sides):
        return None
    if not heat_input.value or len(materials) != len(joint.sides):
        return None
    analyses = [
        {share.element: float(share.fraction.value) for share in material.composition}
        for material in materials
    ]
    if not all("C" in analysis and "Mn" in analysis for analysis in analyses):
        return None
    # Most joints state no heat input: the formulas are read only for those that do.
    from hts.science.metallurgy.carbon_equivalent import CET
    from hts.science.metallurgy.preheat import governing_cet, method_b

    thickest = max(float(wall.value) for wall in walls if isinstance(wall, Quantity))
    deposit = {share.element: float(share.fraction.value) for share in filler.composition}
    weld = CET(deposit).value if "C" in deposit and "Mn" in deposit else None
    cet = governing_cet(max(CET(analysis).value for analysis in analyses), weld)
    if not cet or not thickest:
        return None
    found = method_b(cet, thickest, float(hydrogen.value), float(heat_input.value))
    if found.outside:
        return None
    return Quantity.of(ceil(found.celsius), "degC", TEMPERATURE)
