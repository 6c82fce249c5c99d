"""A butt weld joins the ends of two parts, and has no throat."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

_CAP = "cap width  30 mm"
_BUTT = ("girth butt", "long seam")

RULE = Rule(
    "J220",
    "butt-weld-with-a-throat",
    "warning",
    summary="A butt weld with a throat, or to a socket fitting.",
    why="A fillet has a throat, and a socket fitting a fillet: the thickness that governs hold and "
    "rates is that of another weld.",
    fix="Correct the kind of weld, or take the throat out.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(((_CAP, f"{_CAP}\n  throat     9 mm"),), at="9 mm", says="W12 is a girth butt weld"),),
    good=(Good(()),),
    agrees=(
        Agreement("joint.throat", "joint.kind", "fillets have one"),
        Agreement("joint.side.part", "joint.kind", "sockets have fillets"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry = joint.entry
    if entry.kind not in _BUTT:
        return
    socket = next((side for side in entry.sides if side.part == "socket fitting"), None)
    if entry.throat is not None:
        message, at = "has a throat", entry.place("throat")
    elif socket is not None:
        message, at = "is to a socket fitting", socket.place("part")
    else:
        return
    case.add(
        RULE.found(
            f"{joint.name} is a {entry.kind} weld, and {message}",
            at,
            address=joint.address,
            others=[Label(entry.place("kind"), "the kind of weld")],
            basis=RULE.basis,
        )
    )
