"""Preheat is not much lower than that of the test piece."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import DIFFERENCE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Joint

_DROP = Quantity.of(100, "degF", DIFFERENCE)

RULE = Rule(
    "J203",
    "preheat-below-qualification",
    "error",
    summary="A preheat more than 100 degF (55 K) below that of the qualification.",
    why="The test piece does not represent a weld that cools so much faster.",
    fix="Raise the preheat, or use another qualification.",
    source="ASME IX QW-406 (as quoted elsewhere): a drop of more than 100 degF requalifies",
    basis="published",
    edges=(
        Edge(
            (("hold 8 h condition", "hold 8 h preheat {} condition"),),
            keeps="205 degC",
            breaks="206 degC",
            says="is 150 degC (302 degF) … 206 degC (403 degF)",
        ),
    ),
    good=(Good((("hold 8 h condition", "hold 8 h preheat 205 degC condition"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    for qualified in joint.entry.qualified:
        if qualified.preheat is None or joint.preheat is None:
            continue
        least = limits_of(case, joint).preheat()
        if least is not None and qualified.preheat - least > _DROP:
            case.add(
                RULE.found(
                    f"the preheat of {joint.name} is {least.both('down')}, {qualified.record} was "
                    f"qualified at {qualified.preheat.both()}",
                    qualified.place("preheat"),
                    address=joint.address,
                    others=[Label(joint.preheat.place("at_least"), "the preheat")],
                )
            )
