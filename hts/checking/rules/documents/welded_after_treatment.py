"""All welding on a part comes before its heat treatment."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_CONTROLLER = "controller C1 {"

RULE = Rule(
    "D107",
    "welded-after-treatment",
    "warning",
    summary="Welding or peening on a joint after its post-weld heat treatment.",
    why="The new weld is as hard and as stressed as the old one was, and peening brings the "
    "stress back: the treatment is undone there.",
    fix="Weld attachments, studs and name plates on before the heat: `weld first`. Where the code "
    "exempts a small weld, waive this with its paragraph.",
    source="common practice, no source; codes exempt some small attachments",
    basis="practice",
    bad=(
        Bad(
            (
                (
                    _CONTROLLER,
                    'after heat W12 {\n  weld or peen afterwards "Bracket of the name plate"\n}\n\n'
                    f"{_CONTROLLER}",
                ),
            ),
            at="Bracket",
        ),
    ),
    good=(
        Good(
            (
                (
                    _CONTROLLER,
                    'before heat W12 {\n  weld first "Bracket of the name plate"\n}\n\n'
                    f"{_CONTROLLER}",
                ),
            )
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not treated(joint):
        return
    for stage in joint.after:
        if stage.welded_later:
            case.add(
                RULE.found(
                    f"{stage.welded_later[0]}: welded or peened after {joint.name} was heat "
                    "treated",
                    stage.place("welded_later"),
                    address=f"{joint.address}/after-heat",
                    basis=RULE.basis,
                )
            )
            return
