"""A hold is no longer than what governs it allows."""

from __future__ import annotations

from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Hold

RULE = Rule(
    "L203",
    "hold-too-long",
    "error",
    summary="A hold longer than the books and procedures allow.",
    why="Time at temperature costs strength and toughness, and what was qualified is used up.",
    fix="Shorten the hold, or have the limit changed by whoever set it.",
    source="the governing books and procedures",
    basis="derived",
    edges=(
        Edge(
            (("730 degC for 2 h", "730 degC for {}"),),
            keeps="360 min",
            breaks="361 min",
            base="procedure",
            says="is 361 min … at most 360 min",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    limits = case.limits(treatment.joint, treatment)
    governing = limits.of("bake time" if treatment.is_bake else "hold time")
    for hold in treatment.entry.segments:
        if not isinstance(hold, Hold):
            continue
        field = "longest" if hold.longest is not None else "time"
        time = getattr(hold, field)
        if isinstance(time, Quantity):
            found = against(
                RULE,
                governing,
                "maximum",
                time,
                hold.place(field),
                address=treatment.address,
                what=f"the hold of {treatment.joint.name}",
            )
            if found is not None:
                case.add(found)
