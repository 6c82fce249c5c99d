"""Cables beside an induction coil are shielded."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.used import by_induction
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_INDUCTION = (
    ("heating by resistance", "heating by induction"),
    ("kind      transformer", "kind      induction supply"),
)

RULE = Rule(
    "C114",
    "unshielded-cable",
    "warning",
    summary="Extension cable without a shield where the heating is by induction.",
    why="The coil induces a voltage in the cable, and the reading swings with the power.",
    fix="Write `shielded`, and `leads square to the coil`.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(_INDUCTION, at="KX"),),
    good=(Good((*_INDUCTION, ("class 1 length 20 m", "class 1 length 20 m shielded"))),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    block = joint.entry.thermocouples
    extension = block.extension if block is not None else None
    if extension is not None and not extension.shielded and by_induction(joint):
        case.add(
            RULE.found(
                f"the cable of {joint.name} has no shield against the induction coil",
                extension.place("code"),
                address=f"{joint.address}/thermocouples",
                basis=RULE.basis,
            )
        )
