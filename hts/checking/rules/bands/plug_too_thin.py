"""Insulation in the bore is thick enough to hold the heat."""

from __future__ import annotations

from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

#: A blanket of one layer, and a plug that holds itself in the bore.
_BLANKET, _PLUG = Quantity.of(20, "mm", LENGTH), Quantity.of(50, "mm", LENGTH)
_BORE = "    bore           drained and dry\n"

RULE = Rule(
    "B128",
    "plug-too-thin",
    "warning",
    summary="A plug of insulation in the bore thinner than 50 mm (2 in), or other insulation there thinner than 20 mm.",
    why="It neither holds itself nor the heat: the inside of the weld stays cold behind it.",
    fix="Check the digits; a plug is usually as thick as the bore is wide, or 100 mm.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            ((_BORE, f'{_BORE}    inside insulation "ceramic fibre plug" thickness {{}}\n'),),
            keeps="50 mm",
            breaks="49 mm",
            says="is 49 mm (1.93 in) thick … at least 50 mm (1.969 in)",
        ),
        Edge(
            ((_BORE, f'{_BORE}    inside insulation "ceramic fibre blanket" thickness {{}}\n'),),
            keeps="20 mm",
            breaks="19 mm",
            says="is 19 mm (0.748 in) thick … at least 20 mm (0.7875 in)",
        ),
    ),
    good=(Good(((_BORE, f'{_BORE}    inside insulation "ceramic fibre plug" thickness 4 in\n'),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    inside = heating.inside_insulation if heating is not None else None
    if inside is None or inside.thickness is None or not inside.sound:
        return
    least = _PLUG if "plug" in inside.material.lower() else _BLANKET
    if inside.thickness < least:
        case.add(
            RULE.found(
                f"the {inside.material} in the bore of {joint.name} is {inside.thickness.both()} thick; usual is "
                f"at least {least.in_unit(inside.thickness.unit.symbol).both('up')}",
                inside.place("thickness"),
                address=f"{joint.address}/heating",
                basis=RULE.basis,
            )
        )
