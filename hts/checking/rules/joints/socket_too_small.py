"""A pipe fits into its socket."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities import LENGTH, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import Joint

#: Of the pipe's wall; ASME B16.11 has 1.09 of it for the wall of a socket. From memory.
_SHARE = Fraction(4, 5)
_SIDES = (
    "  between    pipe and pipe\n  pipe       NPS 6 schedule 80\n  wall       0.432 in measured\n"
)
_SOCKET = (
    ("kind       girth butt", "kind       socket\n  throat     8 mm"),
    (
        _SIDES,
        "  side A of pipe NPS 6 wall 0.4 in measured\n"
        "  side B of pipe outside diameter {} wall 1/2 in measured part socket fitting\n",
    ),
    ("axis       vertical", "axis       horizontal"),
    ("datum      north", "datum      top"),
    ("viewed     from above", "viewed     from side A"),
)

RULE = Rule(
    "J219",
    "socket-too-small",
    "warning",
    summary="A socket fitting too small outside for the pipe that is put into it and a wall round "
    "it.",
    why="Size and wall are those of another part, and with them thickness, bands and hold are wrong.",
    fix="Measure the socket over its outside.",
    source="from memory: ASME B16.11, a socket's wall is about that of its pipe",
    basis="memory",
    edges=(
        Edge(
            _SOCKET,
            keeps="7.266 in",
            breaks="7.265 in",
            base="preheat",
            says="is 7.265 in (184.53 mm) … at least 184.556 mm (7.266 in)",
        ),
    ),
    agrees=(
        Agreement("joint.side.outside diameter", "joint.side.part", "round the pipe in its socket"),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry = joint.entry
    if entry.kind != "socket" or len(joint.sides) != 2:
        return
    stated = {side.name: side for side in entry.sides}
    for side, pipe in (joint.sides, joint.sides[::-1]):
        part = stated.get(side.name)
        if part is None or part.part != "socket fitting":
            continue
        outside, inner, wall = side.outside_diameter, pipe.outside_diameter, pipe.wall
        if outside is None or inner is None or wall is None:
            continue
        across, bore, round_it = outside.value, inner.value, wall.value
        assert isinstance(across, Quantity) and isinstance(bore, Quantity)
        assert isinstance(round_it, Quantity)
        least = Quantity.of(bore.value + 2 * _SHARE * round_it.value, "mm", LENGTH)
        if across >= least:
            continue
        others = [] if inner.at is None else [Label(inner.at, "the pipe")]
        case.add(
            RULE.found(
                f"the socket of {joint.name} is {across.both()} across; with its pipe in it, "
                f"at least {least.both()}",
                outside.at or entry.place("kind"),
                address=joint.address,
                others=others,
                basis=RULE.basis,
            )
        )
