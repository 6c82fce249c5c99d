"""What makes a heat safe is checked before it."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.shared_with_procedures import BEFORE
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_AFTER = (
    "controller C1 {",
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    "  insulation resistance at least 1 Mohm\n}}\n\nduring heat W12 {{ reading every 1 h }}\n\n"
    'after heat W12 {{\n  hardness weld at most 241 HBW count 3\n  check "{}" about {}\n}}\n\ncontroller C1 {{',
)


def _after(text: str, topic: str) -> tuple[tuple[str, str], ...]:
    return ((_AFTER[0], _AFTER[1].format(text, topic)),)


RULE = Rule(
    "K142",
    "checked-at-other-stage",
    "warning",
    summary="A check after the heat of what has to be so before it: the permit, a gas test, tags and channels, the program.",
    why="It is looked at when it no longer helps; the line slipped into the other list.",
    fix="Move it to the list before heat.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _after("Work permit in force", "permit"),
            at='"Work permit in force"',
            says="a check after the heat of W12 is about permit, which has to be so before it",
        ),
    ),
    good=(
        Good(_after("Permit handed back", "permit")),
        Good(_after("Surface clean and dry", "surface condition")),
    ),
    agrees=(Agreement("after heat.check.about", "before heat.check.about", "in the list of its stage"),),
)  # fmt: skip

#: Words of what is done with it at the end.
_CLOSED = ("back", "closed", "return", "cancel", "sign", "end", "remove", "filed", "hand", "off")


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if not treated(joint):
        return
    for block in joint.after:
        for item in block.checks if block.sound else ():
            if item.about in BEFORE and not any(word in item.text.lower() for word in _CLOSED):
                case.add(
                    RULE.found(
                        f"a check after the heat of {joint.name} is about {item.about}, which has to be so before it",
                        item.place("text"),
                        address=f"{joint.address}/after-heat",
                        basis=RULE.basis,
                    )
                )
