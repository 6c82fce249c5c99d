"""What is in the bore is known before the joint is heated."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "N110",
    "bore-not-stated",
    "warning",
    summary="A joint heated where it stands, without a word on what is in the bore.",
    why="A line that was taken for drained boils, bursts or burns when it is heated to red heat; "
    "a little water keeps the bottom cold.",
    fix="Have the bore looked at, and write `bore drained and dry` or `bore purged`.",
    source="common practice, no source",
    basis="practice",
    about=("joint.heating.bore",),
    bad=(Bad((("    bore           drained and dry\n", ""),), at="heating"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    heating = joint.entry.heating
    if heating is None or not heating.sound or heating.method not in ("resistance", "induction"):
        return
    if heating.says("bore") or not treated(joint):
        return
    case.add(
        RULE.found(
            f"nothing says what is in the bore of {joint.name}",
            heating.place(),
            address=f"{joint.address}/heating",
            basis=RULE.basis,
        )
    )
