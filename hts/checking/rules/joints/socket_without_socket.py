"""A socket weld has a socket on one side."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Joint

#: Parts that have no socket a pipe is put into.
_PLAIN = ("vessel shell", "vessel head", "tube sheet", "plate")
_SIDES = (
    "  between    pipe and pipe\n  pipe       NPS 6 schedule 80\n  wall       0.432 in measured\n"
)


def _to(part: str) -> tuple[tuple[str, str], ...]:
    return (
        ("kind       girth butt", "kind       socket\n  throat     9 mm"),
        (
            _SIDES,
            "  side A of pipe NPS 6 wall 0.432 in measured\n"
            f"  side B of pipe outside diameter 8 in wall 1/2 in measured part {part}\n",
        ),
        ("axis       vertical", "axis       horizontal"),
        ("datum      north", "datum      top"),
        ("viewed     from above", "viewed     from side A"),
    )


RULE = Rule(
    "J217",
    "socket-without-socket",
    "warning",
    summary="A socket weld to a shell, a head, a plate or a tube sheet, or of two parts without a socket.",
    why="None of them has a socket: the part, its size and its wall are those of another weld, or the "
    "weld is another one.",
    fix="Name the part that has the socket, or the kind of weld it is.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            _to("vessel shell"),
            base="preheat",
            at="vessel shell",
            says="D3 is a socket weld to a vessel shell",
        ),
        Bad(
            _to("pipe"),
            base="preheat",
            at="kind",
            says="D3 is a socket weld, and neither side is said to be a part with a socket",
        ),
    ),
    good=(Good(_to("socket fitting"), base="preheat"), Good(_to("valve"), base="preheat")),
    agrees=(Agreement("joint.side.part", "joint.kind", "a socket weld has a socket"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry = joint.entry
    if entry.kind != "socket":
        return
    for side in entry.sides:
        if side.part in _PLAIN:
            case.add(
                RULE.found(
                    f"{joint.name} is a socket weld to a {side.part}, which has no socket",
                    side.place("part"),
                    address=joint.address,
                    others=[Label(entry.place("kind"), "the kind of weld")],
                    basis=RULE.basis,
                )
            )
            return
    if all(side.part in (None, "pipe") for side in entry.sides):
        case.add(
            RULE.found(
                f"{joint.name} is a socket weld, and neither side is said to be a part with a socket",
                entry.place("kind"),
                address=joint.address,
                basis=RULE.basis,
            )
        )
