"""A stated governing thickness is the one that follows from the walls."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import cited, working
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

RULE = Rule(
    "L215",
    "thickness-differs",
    "error",
    summary="A stated governing thickness smaller than the one that follows from the walls.",
    why="Hold time and rates follow from it; from too small a thickness the hold is too short.",
    fix="Write `governing thickness by rule`, or correct the walls.",
    source="the definition of the governing books",
    basis="derived",
    edges=(
        Edge(
            (("  cap width  30 mm\n", "  cap width  30 mm\n  governing thickness {}\n"),),
            keeps="26 mm",
            breaks="25 mm",
            says="25 mm (0.984 in) … 25.4 mm (1 in)",
        ),
    ),
    good=(
        Good((("  cap width  30 mm\n", "  cap width  30 mm\n  governing thickness 1 in\n"),)),
        Good((("  cap width  30 mm\n", "  cap width  30 mm\n  governing thickness by rule\n"),)),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    stated = joint.entry.governing_thickness
    if not isinstance(stated, Quantity):
        return
    governing = limits_of(case, joint).of("governing thickness")
    demand = governing.setter("exactly") if governing is not None else None
    bound = demand.exactly if demand is not None else None
    if demand is None or not isinstance(bound, Quantity) or stated >= bound:
        return
    wall = next((side.wall for side in joint.sides if side.wall is not None), None)
    case.add(
        RULE.found(
            f"the governing thickness is stated as {stated.both()}, but "
            f"{cited(demand.limit.source)} gives "
            f"{bound.in_unit(stated.unit.symbol).both('up')}",
            joint.place("governing_thickness"),
            address=joint.address,
            others=[Label(wall.at, "the wall")] if wall is not None and wall.at else [],
            notes=working(demand, "exactly"),
            basis=demand.limit.source.basis,
        )
    )
