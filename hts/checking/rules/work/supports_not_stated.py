"""Supports that are to be looked at stand in the joint."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_SUPPORT = '  support    "rod hanger" 1.2 m upstream fixed\n'
_CHECKS = (
    "controller C1 {",
    'before heat W12 {\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  check "Hanger hangs free" about supports\n'
    "  insulation resistance at least 1 Mohm\n}\n\ncontroller C1 {",
)

RULE = Rule(
    "K116",
    "supports-not-stated",
    "advice",
    summary="A check of supports before heat, at a joint that states none.",
    why="Hot pipe is soft: whoever signs the check has to know which supports, where, and in which "
    "state they are to be.",
    fix="Write each into the joint: `support` with what it is, where it stands and its state.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad((_CHECKS, (_SUPPORT, "")), at="supports"),),
    good=(Good((_CHECKS,)),),
    agrees=(Agreement("before heat.check.about", "joint.support", "stated where it is checked"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if joint.entry.supports or joint.entry.says("supports") or not treated(joint):
        return
    for block in joint.before:
        for item in block.checks if block.sound else ():
            if item.about == "supports":
                case.add(
                    RULE.found(
                        f"supports of {joint.name} are to be checked, and it states none",
                        item.place("about"),
                        address=f"{joint.address}/before-heat",
                        others=[Label(joint.place("names"), "the joint")],
                        basis=RULE.basis,
                    )
                )
                return
