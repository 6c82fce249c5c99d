"""A weld that joins two parts states both."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_BETWEEN = ("  between    pipe and pipe\n", "")
_PIPE = "  pipe       NPS 12 schedule 120\n  wall       25.4 mm measured\n"
_UP = "  side upstream of pipe NPS 12 wall 25.4 mm measured\n"
_DOWN = "  side downstream of pipe NPS 12 wall 25.4 mm measured\n"

RULE = Rule(
    "J216",
    "one-side-alone",
    "warning",
    summary="A weld that joins two parts, of which one alone is stated.",
    why="Metal and wall of the other part count as much: bands, preheat, hold and time are worked out "
    "as if it were not there.",
    fix="State the other `side`, too; where both are alike, `between` and `pipe` say both at once.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad((_BETWEEN, (_PIPE, _UP)), at="upstream"),),
    good=(Good((_BETWEEN, (_PIPE, _UP + _DOWN))),),
    agrees=(Agreement("joint.side", "joint.kind", "two of them where two parts are joined"),),
)
#: Kinds of weld whose two parts both take the heat.
_JOINS_TWO = ("girth butt", "long seam", "branch", "socket")


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry = joint.entry
    if entry.kind not in _JOINS_TWO or len(entry.sides) != 1 or not entry.sound:
        return
    side = entry.sides[0]
    case.add(
        RULE.found(
            f"{joint.name} states its side {side.name} alone, and a {entry.kind} joins two parts",
            side.place("name"),
            address=joint.address,
            basis=RULE.basis,
        )
    )
