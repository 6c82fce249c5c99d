"""What is taken away before the heat is not watched or shielded during it."""

from __future__ import annotations

import re

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.sentences import clauses, denied
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_NEAR = (
    "  expansion  free\n",
    '  expansion  free\n  nearby     "gate valve seat" 450 mm downstream at most 200 degC {}\n',
)
_CHECK = (
    "before heat W12 {\n"
    '  check "Each tag warmed by hand" about tag matches channel\n'
    '  check "Bore drained and vented" about drained and vented\n'
    '  check "Heat shield of the gate valve in place" about nearby items protected\n'
    "  insulation resistance at least 1 Mohm\n}\n\ncontroller C1 {"
)


def _with(how: str) -> tuple[tuple[str, str], ...]:
    return ((_NEAR[0], _NEAR[1].format(how)), ("controller C1 {", _CHECK))


RULE = Rule(
    "N132",
    "removed-and-watched",
    "warning",
    summary="An item nearby that is said to be taken away, and that a check shields or a thermocouple watches.",
    why="It is there after all: nobody has looked whether it stays below its limit.",
    fix="Write `protected` for `removed`, or leave the check out.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _with("removed"),
            at="removed",
            says="gate valve seat is taken away, and a check has: Heat shield of the gate valve in place",
        ),
    ),
    good=(Good(_with("protected")),),
    agrees=(Agreement("joint.nearby.removed", "before heat.check.text", "not there to be shielded"),),
)  # fmt: skip

_SHIELD = re.compile(r"\b(?:shield|screen|wrap|cover|protect|cool)\w*\b", re.IGNORECASE)
_PLAIN = {"seat", "item", "line", "pipe", "small", "nearby"}


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for item in joint.entry.nearby if joint.bakes or joint.cycles else ():
        if not item.removed or not item.sound:
            continue
        why = ""
        if item.monitored is not None:
            why = f"{item.monitored.name} watches it"
        words = set(re.findall(r"[a-z]{3,}", item.what.lower())) - _PLAIN
        for block in (*joint.before, *joint.during):
            for each in block.checks if block.sound else ():
                for clause in clauses(each.text):
                    said = set(re.findall(r"[a-z]{3,}", clause.lower()))
                    if _SHIELD.search(clause) and words and words <= said and not denied(clause):
                        why = f"a check has: {clause}"
        if why:
            case.add(
                RULE.found(
                    f"{item.what} is taken away, and {why}",
                    item.place("removed"),
                    address=joint.address,
                    others=[Label(item.place("what"), "the item")],
                    basis=RULE.basis,
                )
            )
