"""A hold is long enough for the governing thickness."""

from __future__ import annotations

from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.rule import Edge, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Hold

RULE = Rule(
    "L202",
    "hold-too-short",
    "error",
    summary="A hold shorter than the books and procedures ask for.",
    why="The middle of the wall is not yet soaked when the surface is already cooling.",
    fix="Hold for the time the message names, or write `for by rule`.",
    source="the governing books and procedures",
    basis="derived",
    edges=(
        Edge(
            (("730 degC for 2 h", "730 degC for {}"),),
            keeps="61 min",
            breaks="60 min",
            says="is 60 min … at least 61 min",
        ),
        Edge(
            (("730 degC for 2 h", "730 degC for {}"),),
            keeps="64 min",
            breaks="63 min",
            base="procedure",
            says="is 63 min … at least 64 min",
        ),
    ),
    good=(
        Good((("730 degC for 2 h", "730 degC for 61 min"),)),
        Good((("730 degC for 2 h", "730 degC for by rule"),)),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    limits = case.limits(treatment.joint, treatment)
    governing = limits.of("bake time" if treatment.is_bake else "hold time")
    for hold in treatment.entry.segments:
        if isinstance(hold, Hold) and isinstance(hold.time, Quantity):
            found = against(
                RULE,
                governing,
                "minimum",
                hold.time,
                hold.place("time"),
                address=treatment.address,
                what=f"the hold of {treatment.joint.name}",
            )
            if found is not None:
                case.add(found)
