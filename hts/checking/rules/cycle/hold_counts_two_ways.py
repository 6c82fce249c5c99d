"""The clock of a hold starts and runs by the same thermocouples."""

from __future__ import annotations

from hts.base.findings import Label
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Hold

_HOLD = "hold  700 .. 730 degC for 2 h"
#: What the words of a hold and those of a treatment have in common.
_SAME = {"all in range": "while all in range", "controlling in range": "while controlling in range"}

RULE = Rule(
    "Y141",
    "hold-counts-two-ways",
    "warning",
    summary="A hold whose time begins by one set of thermocouples and runs by another.",
    why="Whoever reads the chart counts from the first or from the last: the coldest place gets less "
    "time than is asked for.",
    fix="Say one and the same in both places; what counts by all starts by all.",
    source="common practice, no source",
    basis="practice",
    bad=(
        Bad(
            ((_HOLD, f"{_HOLD} counts from controlling in range"),),
            at="controlling in range",
            says="counts from controlling in range … while all in range",
        ),
    ),
    good=(Good(((_HOLD, f"{_HOLD} counts from all in range"),)),),
    agrees=(
        Agreement("cycle.hold.counts from", "cycle.hold counts", "the same thermocouples"),
        Agreement("bake.hold.counts from", "bake.hold counts", "the same thermocouples"),
    ),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    counts = treatment.entry.hold_count
    if counts is None:
        return
    for segment in treatment.entry.segments:
        if isinstance(segment, Hold) and segment.after and _SAME[segment.after] != counts:
            case.add(
                RULE.found(
                    f"the hold of {treatment.name} counts from {segment.after}, and its time runs "
                    f"{counts}",
                    segment.place("after"),
                    address=treatment.address,
                    others=[Label(treatment.place("hold_count"), "how it runs")],
                    basis=RULE.basis,
                )
            )
