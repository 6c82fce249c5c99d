"""A joint has as many heat treatments, one after the other, as books and procedures ask for."""

from __future__ import annotations

from fractions import Fraction

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.helpers.steps import treated
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Joint
from hts.limits.quantities import Direction

_LINE = "  hold time        at most 6 h"

RULE = Rule(
    "L231",
    "too-few-cycles",
    "error",
    summary="Fewer heat treatments of a joint than its metal needs, or more than it may have.",
    why="Some metals are tempered twice: the second time tempers what the first has transformed.",
    fix="Write a cycle for each heat treatment, in the order they are run.",
    source="the governing books and procedures",
    basis="derived",
    edges=(
        Edge(
            ((_LINE, f"{_LINE}\n  cycles at least {{}}"),),
            keeps="1",
            breaks="2",
            at="W12",
            base="procedure",
            says="is 1 … at least 2",
        ),
    ),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    count = Fraction(len(treated(joint)))
    if not count:
        return  # whether it is heat treated at all has a rule of its own
    ends: tuple[Direction, ...] = ("minimum", "maximum")
    for direction in ends:
        found = against(
            RULE,
            limits_of(case, joint).of("cycles"),
            direction,
            count,
            joint.place("names"),
            address=joint.address,
            what=f"the number of heat treatments of {joint.name}",
        )
        if found is not None:
            case.add(found)
            return
