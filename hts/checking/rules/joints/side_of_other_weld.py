"""The sides of a weld are called as its kind has them."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_SIDES = (
    "  pipe       NPS 12 schedule 120\n  wall       25.4 mm measured\n",
    "  side {} of pipe NPS 12 wall 25.4 mm measured\n  side B of pipe NPS 12 wall 25.4 mm measured\n",
)
_BETWEEN = ("  between    pipe and pipe\n", "")


def _named(word: str) -> tuple[tuple[str, str], ...]:
    old, new = _SIDES
    return (_BETWEEN, (old, new.replace("{}", word)))


RULE = Rule(
    "J212",
    "side-of-other-weld",
    "warning",
    summary="A side called run, branch or pad at a weld that is no branch, or A or B at one that is.",
    why="What a code says of the branch or the pad is then asked of a plain pipe, and a "
    "thermocouple on side A sits on no side there is.",
    fix="Call the sides A and B; run, branch and pad are the sides of a branch.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(_named("run"), at="run", says="girth butt"),),
    good=(Good(_named("A")),),
    agrees=(Agreement("joint.side.name", "joint.kind", "run and branch at a branch alone"),),
)

_OF_BRANCH = ("run", "branch", "pad")
_BRANCHED = ("branch",)
#: Welds that may sit on anything, a pad of a branch as well.
_ANY = ("fillet", "attachment", "repair", "seal")


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    kind = joint.entry.kind
    if kind is None or kind in _ANY:
        return
    for side in joint.entry.sides:
        wrong = (side.name in _OF_BRANCH) != (kind in _BRANCHED)
        if side.name is not None and wrong:
            case.add(
                RULE.found(
                    f"{joint.name} is a {kind}, and has a side {side.name}",
                    side.place("name"),
                    address=joint.address,
                    others=[Label(joint.place("kind"), "its kind")],
                    basis=RULE.basis,
                )
            )
            return
