"""Each wire of a thermocouple is attached by itself."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "C115",
    "legs-attached-together",
    "warning",
    summary="Wires attached by capacitor discharge that are not said to be attached one by one.",
    why="Wires twisted or welded together meet above the metal, and read the heater's heat.",
    fix="Write `each leg apart`.",
    source="common practice, no source",
    basis="practice",
    about=("joint.thermocouples.attached.each leg apart",),
    bad=(Bad(((" each leg apart", ""),), at="capacitor discharge"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    attached = block.attached if block is not None else None
    if attached is None or attached.how != "capacitor discharge" or attached.separate:
        return
    case.add(
        RULE.found(
            f"nothing says that each wire at {joint.name} is attached by itself",
            attached.place("how"),
            address=f"{joint.address}/thermocouples",
            basis=RULE.basis,
        )
    )
