"""A fillet is not far thinner than the edge it has to carry."""

from __future__ import annotations

from fractions import Fraction

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import Joint

#: Of the wall of the pipe: a leg of 1.09 of it, and 0.7 of the leg.
_SOCKET = Fraction(109, 100) * Fraction(7, 10)
#: Of the thickness of the pad, round its outer edge.
_PAD = Fraction(1, 2)
_SIDES = (
    "  between    pipe and pipe\n  pipe       NPS 6 schedule 80\n  wall       0.432 in measured\n"
)

RULE = Rule(
    "J227",
    "throat-too-thin",
    "warning",
    summary="A fillet weld at a socket or round a pad whose throat is too thin for the part it carries.",
    why="The throat governs hold and rates of fillets: a digit left out asks for the treatment of a far "
    "thinner weld.",
    fix="Measure the throat: it is about 0.7 of the shorter leg.",
    source="ASME B31.3 328.5.2 and 328.5.4 (from memory): legs of 1.09 of the pipe's wall at a socket, a throat "
    "of half of the pad round its outer edge",
    basis="memory",
    edges=(
        Edge(
            (
                ("kind       girth butt", "kind       socket\n  throat     {}"),
                (
                    _SIDES,
                    "  side A of pipe NPS 6 wall 10 mm measured\n"
                    "  side B of pipe outside diameter 8 in wall 13 mm measured part socket fitting\n",
                ),
                ("axis       vertical", "axis       horizontal"),
                ("datum      north", "datum      top"),
                ("viewed     from above", "viewed     from side A"),
            ),
            keeps="7.63 mm",
            breaks="7.62 mm",
            base="preheat",
            says="is 7.62 mm (0.3 in) … is 10 mm (0.394 in) thick … at least 7.63 mm",
        ),
        Edge(
            (
                (
                    "kind       girth butt",
                    "kind       attachment\n  pad        200 mm by 150 mm\n  throat     {}",
                ),
                (
                    _SIDES,
                    "  side run of pipe NPS 6 wall 0.4 in measured\n"
                    "  side pad of pipe wall 10 mm measured part plate\n",
                ),
                ("axis       vertical", "axis       horizontal"),
                ("datum      north", "datum      top"),
                ("  viewed     from above\n", ""),
            ),
            keeps="5 mm",
            breaks="4.9 mm",
            base="preheat",
            says="is 4.9 mm (0.193 in) … is 10 mm (0.394 in) thick … at least 5.00 mm",
        ),
    ),
    agrees=(Agreement("joint.throat", "joint.side.wall", "thick enough for what it carries"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    entry = joint.entry
    throat = entry.throat
    if throat is None:
        return
    if entry.kind == "socket":
        names = {side.name for side in entry.sides if side.part != "socket fitting"}
        share, what = _SOCKET, "the pipe"
    else:
        names = {"pad"}
        share, what = _PAD, "the pad"
    parts = [side for side in joint.sides if side.name in names]
    if len(parts) != 1 or parts[0].wall is None:
        return
    wall = parts[0].wall
    if not isinstance(wall.value, Quantity) or throat.value >= share * wall.value.value:
        return
    least = wall.value * share
    case.add(
        RULE.found(
            f"the throat of {joint.name} is {throat.both()}, and {what} is {wall.value.both()} thick, which "
            f"asks for at least {least.show(throat.unit.symbol, 2, 'up')}",
            entry.place("throat"),
            address=joint.address,
            others=[Label(wall.at, "its thickness")] if wall.at is not None else [],
            basis=RULE.basis,
        )
    )
