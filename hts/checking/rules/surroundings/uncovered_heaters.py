"""Heaters, and the pipe beside them, are insulated."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_INSULATION = '    insulation     "ceramic fibre blanket" thickness 50 mm layers 2\n'

RULE = Rule(
    "N108",
    "uncovered-heaters",
    "warning",
    summary="A weld heat treated by resistance or induction with no insulation stated.",
    why="Bare metal beside the heaters loses their heat, the gradient gets steep, and any draught "
    "moves the temperature.",
    fix="Write `insulation` with its material and thickness.",
    source="AWS D10.10:2021 (the gradient band is the insulated width)",
    basis="published",
    about=("joint.heating.insulation",),
    bad=(Bad(((_INSULATION, ""),), at="heating"),),
    good=(Good((("thickness 50 mm layers 2", "thickness 50 mm"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None or heating.insulation is not None or not treated(joint):
        return
    if heating.method in ("resistance", "induction"):
        case.add(
            RULE.found(
                f"nothing insulates {joint.name}",
                heating.place(),
                address=f"{joint.address}/heating",
            )
        )
