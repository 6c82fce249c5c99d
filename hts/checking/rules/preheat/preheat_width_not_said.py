"""The width to be preheated is stated where one is asked for."""

from __future__ import annotations

from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import cited, places
from hts.checking.rules.helpers.places import limits_of
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Joint

_WIDTH = "  width             75 mm each side\n"

RULE = Rule(
    "P126",
    "preheat-width-not-said",
    "warning",
    summary="A preheat whose width is left out although a book or procedure asks for one.",
    why="Whoever lays the heaters chooses it, and nothing is held against what is asked for.",
    fix="State it, or write `width by rule`.",
    source="the governing books and procedures",
    basis="derived",
    about=("preheat.width",),
    bad=(Bad(((_WIDTH, ""),), at="preheat", says="330.1.4 … at least 25 mm (1 in)"),),
    good=(Good(((_WIDTH, "  width by rule\n"),)),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None or not preheat.sound or preheat.width is not None:
        return
    governing = limits_of(case, joint).of("preheat width")
    demand = governing.setter("minimum") if governing is not None else None
    least = demand.both("minimum") if demand is not None else None
    if demand is None or not isinstance(least, Quantity):
        return
    case.add(
        RULE.found(
            f"the width to be preheated beside {joint.name} is not stated; "
            f"{cited(demand.limit.source)} asks for at least {least.both('up')}",
            preheat.place(),
            address=f"{joint.address}/preheat",
            others=places(demand.limit.source),
            basis=demand.limit.source.basis,
        )
    )
