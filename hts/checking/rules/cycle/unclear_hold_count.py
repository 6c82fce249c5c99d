"""A hold says when its time counts."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.edges import edge_monitors
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Hold

_CONTROLLING = "while controlling in range"

RULE = Rule(
    "Y110",
    "unclear-hold-count",
    "advice",
    summary="A hold that does not say which thermocouples start and keep its clock, or that counts by "
    "the controlling ones although others watch the edge of the soak band.",
    why="Counted from the first thermocouple in range, the coldest place gets too little time.",
    fix="Write `hold counts while all in range`.",
    source="common practice, no source (the clock starts when the coldest one is in range)",
    basis="practice",
    about=(
        "cycle.hold counts",
        "bake.hold counts",
    ),
    bad=(
        Bad((("  hold counts         while all in range\n", ""),), at="hold"),
        Bad(
            (("while all in range", "while controlling in range"),),
            at="while controlling in range",
            says="stress-relief counts while the controlling thermocouples are in range",
        ),
    ),
    good=(
        Good(
            (
                ("  hold counts         while all in range\n", ""),
                ("730 degC for 2 h", "730 degC for 2 h counts from all in range"),
            )
        ),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    counts = treatment.entry.hold_count
    if not heats(treatment):
        return
    if counts == _CONTROLLING and edge_monitors(treatment.joint, "soak edge"):
        case.add(
            RULE.found(
                f"the hold of {treatment.name} counts while the controlling thermocouples are in "
                "range, whatever the edge of the soak band is at",
                treatment.place("hold_count"),
                address=treatment.address,
                basis="practice",
            )
        )
    if counts is not None:
        return
    for segment in treatment.entry.segments:
        if isinstance(segment, Hold) and segment.after is None:
            case.add(
                RULE.found(
                    f"the hold of {treatment.name} does not say when its time counts",
                    segment.place(),
                    address=treatment.address,
                )
            )
            return
