"""A standby that is tried is one the supply has."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.sentences import denied
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint
from hts.language.vocabulary.equipment import PowerSource

_SUPPLY = ("  output    65 kVA\n", '  output    65 kVA\n  standby   "Diesel set 2"\n')
_CHECKS = (
    'before heat W12 {{\n  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  check "{}" about power and standby\n  insulation resistance at least 1 Mohm\n}}\n\ncontroller C1 {{'
)


def _check(text: str) -> tuple[tuple[str, str], ...]:
    return (("controller C1 {", _CHECKS.format(text)),)


RULE = Rule(
    "K140",
    "standby-not-there",
    "warning",
    summary="A check that tries a standby, at a joint whose power sources have none.",
    why="Who checks signs for a set nobody has hired, and in the hold there is none to change to.",
    fix="Name the standby of the supply, or correct the check.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _check("Standby set tried"),
            at='"Standby set tried"',
            says="a check of W12 tries a standby, and PS1 has none",
        ),
    ),
    good=(
        Good((_SUPPLY, *_check("Standby set tried"))),
        Good(_check("Supply tried under load")),
        Good(_check("No standby: heat not begun in a thunderstorm")),
    ),
    agrees=(
        Agreement("before heat.check.text", "power source.standby", "there where it is tried"),
    ),
)

#: What stands for nothing.
_NOTHING = re.compile(r"(?:none|no|nothing|nil|n/?a|-+|not there)", re.IGNORECASE)
_STANDBY = re.compile(r"\b(?:standby|stand-by|second set|reserve set)\b", re.IGNORECASE)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    sources = [
        each.power_source for each in (*joint.bakes, *joint.cycles) if each.power_source is not None
    ]
    if not sources or any(_has_reserve(each) or not each.sound for each in sources):
        return
    for block in joint.before:
        for item in block.checks if block.sound else ():
            if item.about == "power and standby" and _STANDBY.search(item.text):
                if denied(item.text):
                    continue
                case.add(
                    RULE.found(
                        f"a check of {joint.name} tries a standby, and {sources[0].name} has none",
                        item.place("text"),
                        address=f"{joint.address}/before-heat",
                        others=[Label(sources[0].place("name"), "the supply")],
                        basis=RULE.basis,
                    )
                )


def _has_reserve(source: PowerSource) -> bool:
    reserve = source.reserve
    return reserve is not None and not (
        isinstance(reserve, str) and _NOTHING.fullmatch(reserve.strip())
    )
