"""An attachment is tested before it is covered."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "C128",
    "untested-attachment",
    "advice",
    summary="Wires taped down without saying that they were first bent flat as a test.",
    why="Bending breaks a bad attachment at once; under the tape it comes off while hot.",
    fix="Write `bent flat, taped`.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(((" each leg apart", " each leg apart, taped"),), at="taped"),),
    good=(Good(((" each leg apart", " each leg apart, bent flat, taped"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    attached = block.attached if block is not None else None
    if attached is None or attached.how != "capacitor discharge":
        return
    if attached.taped and not attached.bent:
        case.add(
            RULE.found(
                f"the wires of {joint.name} are taped down without the bending test",
                attached.place("taped"),
                address=f"{joint.address}/thermocouples",
                basis=RULE.basis,
            )
        )
