"""The two sides of a weld end to end are of one size."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import Joint
from hts.language.model.side import Figure

RULE = Rule(
    "J213",
    "sides-of-unlike-size",
    "warning",
    summary="A girth butt or long seam whose two sides differ in outside diameter by more than four "
    "times the thicker wall.",
    why="Nobody can fit up such ends: one of the figures is out by a digit or a unit, and bands, "
    "zones and power are worked out from it.",
    fix="Correct the outside diameter or the size; of a reducer state the end that is welded.",
    source="geometry of a butt: bores and outsides meet within the walls",
    basis="practice",
    edges=(
        Edge(
            (
                ("  between    pipe and pipe\n", ""),
                (
                    "  pipe       NPS 12 schedule 120\n  wall       25.4 mm measured\n",
                    "  side A of pipe outside diameter {} wall 25.4 mm measured\n"
                    "  side B of pipe outside diameter 324 mm wall 25.4 mm measured\n",
                ),
            ),
            keeps="222.4 mm",
            breaks="222.3 mm",
            says="222.3 mm (8.752 in) … 324 mm (12.76 in)",
        ),
    ),
    agrees=(
        Agreement("joint.side.outside diameter", "joint.side.outside diameter", "alike at a butt"),
    ),
)
_END_TO_END = ("girth butt", "long seam")
_WALLS = 4


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    if joint.entry.kind not in _END_TO_END or len(joint.sides) != 2:
        return
    sizes = [side.outside_diameter for side in joint.sides]
    across = [_amount(figure) for figure in sizes]
    walls = [_amount(side.wall) for side in joint.sides]
    first, second = across
    if first is None or second is None or None in walls:
        return
    thick = max(wall.value for wall in walls if wall is not None)
    if abs(first.value - second.value) <= _WALLS * thick:
        return
    places = [figure.at or joint.place("names") for figure in sizes if figure is not None]
    case.add(
        RULE.found(
            f"the sides of {joint.name} are {first.both()} and {second.both()} across",
            places[0],
            address=joint.address,
            others=[Label(places[1], "the other side")],
            basis=RULE.basis,
        )
    )


def _amount(figure: Figure | None) -> Quantity | None:
    return figure.value if figure is not None and isinstance(figure.value, Quantity) else None
