"""Clock positions say from where they are seen."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "Z124",
    "clock-without-view",
    "warning",
    summary="Clock positions of a joint that does not say from where it is viewed.",
    why="Seen from the other side 3:00 is 9:00.",
    fix="Write `viewed with flow`, `viewed from side A` or the like.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad((("  viewed     with flow\n", ""),), at="12:10", says="12:10 is"),),
    good=(
        Good(
            (
                ("  viewed     with flow\n", ""),
                (
                    "for T1            at 12:10 on weld ",
                    "for T1            at 12:00, 9 mm upstream ",
                ),
                (
                    "for T2            at 6:10  on weld ",
                    "for T2            at 6:00, 9 mm upstream ",
                ),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if joint.entry.viewed is not None:
        return
    for tc in joint.thermocouples:
        # 12:00 and 6:00 are the same from both sides.
        if tc.entry.at is not None and tc.entry.at.mirrored != tc.entry.at:
            case.add(
                RULE.found(
                    f"{joint.name} does not say from where {tc.entry.at} is seen",
                    tc.place("at"),
                    address=joint.address,
                )
            )
            return
