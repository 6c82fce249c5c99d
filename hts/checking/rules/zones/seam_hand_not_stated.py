"""Which side of a long seam is side A is told."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Rule
from hts.language.model.joint import Joint
from hts.language.model.seam import Seam, weld_along

_SIDES = ("side A", "side B")
_HAND = (' from "north head" on the left\n', ' from "north head"\n')

RULE = Rule(
    "Z144",
    "seam-hand-not-stated",
    "warning",
    summary="Places on side A or B of a long seam that does not say which side is which.",
    why="With the two sides changed over, what is measured on one is taken for the other, and the "
    "drawing is a mirror image.",
    fix="Face the weld from outside with side A above it, and write on which hand the end lies "
    "that distances count from: `on the left` or `on the right`.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad((_HAND,), at="40 mm side A", base="seam", says="which is side A"),),
    agrees=(
        Agreement("joint.seam.on the", "joint.thermocouples.thermocouple.offset", "tells the side"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    weld = weld_along(joint)
    if not isinstance(weld, Seam) or weld.hand or joint.entry.seam is None:
        return
    for tc in joint.thermocouples:
        offset = tc.entry.offset
        if offset is not None and offset.side in _SIDES:
            case.add(
                RULE.found(
                    f"{joint.name} does not say which is side A of its seam",
                    tc.place("offset"),
                    address=joint.address,
                    others=[Label(joint.entry.seam.place(), "the seam")],
                )
            )
            return
