"""The longest time of a hold is not shorter than the shortest."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Hold

RULE = Rule(
    "Y112",
    "reversed-times",
    "error",
    floor="error",
    summary="A hold whose longest time is shorter than its shortest.",
    why="No hold can meet both.",
    fix="Correct one of the two times.",
    source="arithmetic: the two times",
    basis="derived",
    edges=(
        Edge(
            (("730 degC for 2 h", "730 degC for 2 h at most {}"),),
            keeps="120 min",
            breaks="119 min",
            says="at least 2 h and at most 119 min",
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    for hold in treatment.entry.segments:
        if not isinstance(hold, Hold) or hold.longest is None:
            continue
        shortest = case.limits(treatment.joint, treatment).hold_time(hold)
        if shortest is not None and hold.longest < shortest:
            case.add(
                RULE.found(
                    f"the hold lasts at least {shortest.both('up')} and at most "
                    f"{hold.longest.both()}",
                    hold.place("longest"),
                    address=treatment.address,
                    others=[Label(hold.place("time"), "at least")],
                )
            )
