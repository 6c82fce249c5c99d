"""A fillet is no thicker than what it joins."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Good, Rule
from hts.language.model.joint import Joint

#: mm by which the throat of a fillet on pipe may be more than the thinner wall: a weld with a strong
#: cover. Common practice, no source.
_MORE = 3


def _socket(throat: str) -> tuple[tuple[str, str], ...]:
    return (
        ("kind       girth butt", f"kind       socket\n  throat     {throat}"),
        (
            "  between    pipe and pipe\n  pipe       NPS 6 schedule 80\n"
            "  wall       0.432 in measured\n",
            "  side A of pipe NPS 6 wall 0.432 in measured\n"
            "  side B of pipe outside diameter 8 in wall 1/2 in measured part socket fitting\n",
        ),
        ("axis       vertical", "axis       horizontal"),
        ("datum      north", "datum      top"),
        ("viewed     from above", "viewed     from side A"),
    )


RULE = Rule(
    "J226",
    "throat-thicker-than-part",
    "warning",
    summary="A fillet whose throat is thicker than the pad it ties down, or by more than 3 mm than the "
    "thinner wall it joins.",
    why="The throat decides whether and how long a fillet is treated: with digits exchanged it is treated "
    "for another thickness.",
    fix="Measure the throat again, and check digits and unit.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            _socket("{}"),
            keeps="13.9 mm",
            breaks="14.0 mm",
            base="preheat",
            says="of 14.0 mm (0.551 in) … of 0.432 in (10.97 mm)",
        ),
    ),
    good=(Good(_socket("8 mm"), base="preheat"),),
    agrees=(Agreement("joint.throat", "joint.side.wall", "no thicker than the thinner part"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    throat = joint.entry.throat
    pads = [side for side in joint.sides if side.name == "pad"]
    walls = [side.wall for side in (pads or joint.sides) if side.wall is not None]
    if throat is None or not walls:
        return
    thinnest = min(walls, key=lambda figure: figure.value)
    wall = thinnest.value
    assert isinstance(wall, Quantity)
    if throat.value <= wall.value + (0 if pads else _MORE):
        return
    case.add(
        RULE.found(
            f"a throat of {throat.both()} is thicker than the part of {joint.name} with a wall of "
            f"{wall.both()}",
            joint.place("throat"),
            address=joint.address,
            others=[] if thinnest.at is None else [Label(thinnest.at, "the part")],
            basis=RULE.basis,
        )
    )
