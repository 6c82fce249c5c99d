"""A groove ends inside the wall it is cut into."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "J225",
    "groove-deeper-than-wall",
    "warning",
    summary="A repair cavity or partial groove that is deeper than the thicker wall of the weld.",
    why="Its depth decides whether and how long a repair is treated: with digits exchanged it is treated "
    "for another thickness.",
    fix="Measure the depth again, and check digits and unit.",
    source="arithmetic: what is cut into a wall is no deeper than the wall",
    basis="derived",
    edges=(
        Edge(
            (("  cap width  30 mm\n", "  cap width  30 mm\n  groove depth {}\n"),),
            keeps="25.4 mm",
            breaks="25.5 mm",
            says="of 25.5 mm (1.004 in) … 25.4 mm (1 in)",
        ),
    ),
    agrees=(Agreement("joint.groove depth", "joint.wall.thickness", "no deeper than the wall"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    depth = joint.entry.groove_depth
    walls = [side.wall for side in joint.sides if side.wall is not None]
    if depth is None or not walls or len(walls) != len(joint.sides):
        return
    thickest = max(walls, key=lambda figure: figure.value)
    wall = thickest.value
    assert isinstance(wall, Quantity)
    if depth.value <= wall.value:
        return
    case.add(
        RULE.found(
            f"a groove of {depth.both()} is deeper than the wall of {joint.name}, {wall.both()}",
            joint.place("groove_depth"),
            address=joint.address,
            others=[] if thickest.at is None else [Label(thickest.at, "the wall")],
        )
    )
