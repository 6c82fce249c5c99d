"""A program stays below the rate it must not pass."""

from __future__ import annotations

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import heats
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "Y139",
    "program-at-the-limit",
    "advice",
    summary="A margin of nothing between the rate the controller is set to and the rate allowed.",
    why="Metal follows a program unevenly: set to the limit itself, it passes it each time a zone "
    "catches up.",
    fix="State a margin the controller can keep, such as `rate margin 10 %`.",
    source="common practice, no source",
    basis="practice",
    about=("cycle.rate margin",),
    bad=(Bad((("  rate margin         10 %", "  rate margin         0 %"),), at="0 %"),),
    good=(Good((("  rate margin         10 %", "  rate margin         5 %"),)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    cycle = treatment.cycle
    if cycle is None or not heats(treatment) or cycle.rate_margin is None:
        return
    if not cycle.rate_margin.value:
        case.add(
            RULE.found(
                f"the program of {treatment.name} runs at the rate allowed itself, without a margin",
                cycle.place("rate_margin"),
                address=treatment.address,
                basis=RULE.basis,
            )
        )
