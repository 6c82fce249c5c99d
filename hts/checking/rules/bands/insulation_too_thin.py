"""The insulation has the resistance to heat that is asked for."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "B105",
    "insulation-too-thin",
    "error",
    summary="Insulation with less resistance to heat than the books and procedures ask for.",
    why="The heaters cannot carry the loss, and the bottom stays cold.",
    fix="Add layers.",
    source="the governing books and procedures (AWS D10.10:2021: 0.35 to 0.70 m2K/W)",
    basis="published",
    edges=(
        Edge(
            (("thickness 50 mm layers 2", "thickness 25 mm layers 1 resistance {}"),),
            keeps="0.35 m2K/W",
            breaks="0.34 m2K/W",
            says="is 0.34 m2K/W (1.93 ft2*h*degF/BTU) … at least 0.35 m2K/W (2 ft2*h*degF/BTU)",
        ),
    ),
    good=(Good((("thickness 50 mm layers 2", "thickness 50 mm resistance 0.4 m2K/W"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    insulation = heating.insulation if heating is not None else None
    if insulation is None or insulation.resistance is None or not treated(joint):
        return
    found = against(
        RULE,
        limits_of(case, joint).of("insulation"),
        "minimum",
        insulation.resistance,
        insulation.place("resistance"),
        address=f"{joint.address}/heating",
        what=f"the insulation of {joint.name}",
    )
    if found is not None:
        case.add(found)
