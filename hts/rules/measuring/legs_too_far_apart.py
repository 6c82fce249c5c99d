"""The two wires of a thermocouple are attached close together."""

from __future__ import annotations

from hts.check.case import Case
from hts.model.joint import Joint
from hts.quantities import LENGTH, Quantity
from hts.rules.rule import Bad, Rule

#: 6 mm, in inches 1/4 in.
_FARTHEST = Quantity.of("1/4", "in", LENGTH)

RULE = Rule(
    "C108",
    "legs-too-far-apart",
    "warning",
    summary="Wires attached more than 6 mm apart.",
    why="The metal between them belongs to the circuit: uneven temperature there is an error.",
    fix="Attach the wires at most 6 mm apart.",
    source="AWS D10.10 (from memory)",
    basis="memory",
    bad=(Bad((("legs apart 6 mm", "legs apart 12 mm"),), at="12 mm"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    attached = block.attached if block is not None else None
    if attached is None or attached.separation is None or attached.separation <= _FARTHEST:
        return
    case.add(
        RULE.found(
            f"the wires are {attached.separation.both()} apart; AWS D10.10 (from memory) allows "
            "6 mm (1/4 in)",
            attached.place("separation"),
            address=f"{joint.address}/thermocouples",
        )
    )
