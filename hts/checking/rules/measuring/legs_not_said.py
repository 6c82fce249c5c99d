"""How far apart the two wires are attached is stated."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "C134",
    "legs-not-said",
    "advice",
    summary="Wires attached by capacitor discharge, each by itself, without their distance.",
    why="The metal between them is part of the circuit; the limit on the distance cannot be judged.",
    fix="State it: `legs apart 6 mm`.",
    source="AWS D10.10 limits the distance (from memory)",
    basis="memory",
    about=("joint.thermocouples.attached.legs apart",),
    bad=(Bad(((" legs apart 6 mm", ""),), at="capacitor discharge"),),
    good=(
        Good(
            (
                (
                    "capacitor discharge legs apart 6 mm energy 100 J each leg apart",
                    "capacitor discharge legs apart 4 mm energy 100 J each leg apart",
                ),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    attached = block.attached if block is not None else None
    if attached is None or attached.how != "capacitor discharge" or not attached.separate:
        return
    if attached.separation is None:
        case.add(
            RULE.found(
                f"how far apart the wires at {joint.name} are attached is not stated",
                attached.place("how"),
                address=f"{joint.address}/thermocouples",
                basis=RULE.basis,
            )
        )
