"""The time of a hold begins and stands still by the same thermocouples."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Hold

_FOR = "730 degC for 2 h"
#: How a hold says when its time begins -> how the treatment says while it counts.
_SAME = {
    "all in range": "while all in range",
    "controlling in range": "while controlling in range",
}

RULE = Rule(
    "Y142",
    "hold-counted-two-ways",
    "warning",
    summary="A hold whose time begins with all thermocouples in range and counts while the "
    "controlling ones are, or the other way round.",
    why="The record is judged by one of the two, and the crew counts by the other: the coldest place "
    "gets too little time.",
    fix="Say the same in both places: `counts from all in range`, `hold counts while all in range`.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            ((_FOR, f"{_FOR} counts from controlling in range"),),
            at="controlling in range",
            says="from controlling in range and counts while all in range",
        ),
    ),
    good=(Good(((_FOR, f"{_FOR} counts from all in range"),)),),
    agrees=(Agreement("cycle.hold.counts from", "cycle.hold counts", "by the same ones"),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    entry = treatment.entry
    if not entry.sound or not heats(treatment) or entry.hold_count is None:
        return
    for hold in entry.segments:
        if not isinstance(hold, Hold) or hold.after is None:
            continue
        if _SAME[hold.after] != entry.hold_count:
            case.add(
                RULE.found(
                    f"the hold of {treatment.name} begins to count from {hold.after} and counts "
                    f"{entry.hold_count}",
                    hold.place("after"),
                    address=treatment.address,
                    others=[Label(entry.place("hold_count"), "while it counts")],
                    basis=RULE.basis,
                )
            )
