"""A weld that is kept hot when welding stops was preheated before."""

from __future__ import annotations

from hts.base.findings import Label
from hts.base.quantities import TEMPERATURE, Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Edge, Rule
from hts.language.model.joint import Joint

_LINES = "  width             3 in each side\n"
#: What only takes the damp off, and what is hot to the hand.
_AMBIENT, _HOT = (Quantity.of(value, "degC", TEMPERATURE) for value in (40, 60))

RULE = Rule(
    "P138",
    "preheat-below-what-is-kept",
    "advice",
    summary="A preheat no warmer than a summer's day, of a joint that is kept hot while welding "
    "stops.",
    why="A digit of the preheat is missing: the first pass goes on cold metal, and only the pause "
    "is warm.",
    fix="Correct the preheat, or leave out what is kept.",
    source="common practice, no source",
    basis="practice",
    edges=(
        Edge(
            (
                (_LINES, f"{_LINES}  maintain at least  203 degF\n"),
                ("  at least          200 degF", "  at least          {}"),
            ),
            keeps="104 degF",
            breaks="103 degF",
            says="is 103 degF (39.4 degC) … at 203 degF (95 degC)",
            base="preheat",
        ),
    ),
    agrees=(Agreement("preheat.at least", "preheat.maintain at least", "not ambient beside hot"),),
)


@RULE.for_joint
def check(case: Case, joint: Joint) -> None:
    preheat = joint.preheat
    if preheat is None or not preheat.sound or preheat.maintain is None:
        return
    least = preheat.at_least
    if isinstance(least, Quantity) and least < _AMBIENT and preheat.maintain > _HOT:
        case.add(
            RULE.found(
                f"the preheat of {joint.name} is {least.both()}; it is kept at "
                f"{preheat.maintain.both()} while welding stops",
                preheat.place("at_least"),
                address=f"{joint.address}/preheat",
                others=[Label(preheat.place("maintain"), "what is kept")],
                basis=RULE.basis,
            )
        )
