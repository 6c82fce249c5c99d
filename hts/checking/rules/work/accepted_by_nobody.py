"""What is examined before the heat is accepted before it."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_CHECKS = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  insulation resistance at least 1 Mohm\n  examine "RT" extent "100 %"{}\n}}\n\ncontroller C1 {{'
)


def _examined(more: str) -> tuple[tuple[str, str], ...]:
    return (("controller C1 {", _CHECKS.format(more)),)


RULE = Rule(
    "K135",
    "accepted-by-nobody",
    "warning",
    summary="An examination before heat treatment that does not have to be accepted, where nothing stops for its result.",
    why="The heat begins before anybody has looked at the film: a weld that is rejected is cut out, and treated twice.",
    fix="Add `accepted`, or a hold point for the result.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _examined(' report "RT-0388"'),
            at="examine",
            says="RT before the heat of W12 does not have to be accepted",
        ),
    ),
    good=(
        Good(_examined(' accepted report "RT-0388"')),
        Good(_examined('\n  hold point "RT accepted" by "Welding inspector"')),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not treated(joint):
        return
    points = [point.text for block in joint.before for point in block.hold_points]
    for block in joint.before:
        for item in block.examinations if block.sound else ():
            waited = any(item.method in text or "accept" in text.lower() for text in points)
            if item.accepted or not item.sound or waited:
                continue
            case.add(
                RULE.found(
                    f"{item.method} before the heat of {joint.name} does not have to be accepted",
                    item.place(),
                    address=f"{joint.address}/before-heat",
                    others=[Label(treated(joint)[0].place("name"), "the heat")],
                    basis=RULE.basis,
                )
            )
