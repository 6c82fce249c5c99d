"""A groove or a cavity is no deeper than the wall it is in."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "J226",
    "groove-deeper-than-wall",
    "warning",
    summary="A groove, or the cavity of a repair, deeper than the wall it is in.",
    why="The depth governs hold and rates of a repair: digits exchanged ask for the treatment of another "
    "weld.",
    fix="Measure the depth from the surface.",
    source="geometry",
    basis="derived",
    edges=(
        Edge(
            (("  cap width  30 mm\n", "  cap width  30 mm\n  groove depth {}\n"),),
            keeps="25.4 mm",
            breaks="25.5 mm",
            says="25.5 mm (1.004 in) deep … 25.4 mm (1 in) thick",
        ),
    ),
    agrees=(Agreement("joint.groove depth", "joint.wall.thickness", "no deeper"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    depth = joint.entry.groove_depth
    walls = [side.wall for side in joint.sides if side.wall is not None]
    if depth is None or not walls:
        return
    thick = max(walls, key=lambda figure: figure.value)
    if not isinstance(thick.value, Quantity) or depth <= thick.value:
        return
    case.add(
        RULE.found(
            f"the groove of {joint.name} is {depth.both()} deep, its wall {thick.value.both()} thick",
            joint.entry.place("groove_depth"),
            address=joint.address,
            others=[Label(thick.at, "the wall")] if thick.at is not None else [],
            basis=RULE.basis,
        )
    )
