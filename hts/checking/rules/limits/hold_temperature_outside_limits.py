"""The range of a hold lies within what governs it."""

from __future__ import annotations

from hts.base.quantities import Interval
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against
from hts.checking.rules.helpers.steps import holds
from hts.checking.rules.rule import Bad, Good, Rule
from hts.language.model.joint import Treatment

RULE = Rule(
    "L201",
    "hold-temperature-outside-limits",
    "error",
    summary="A hold range that goes beyond what the books and procedures allow.",
    why="Too cold, and nothing is relieved or tempered; too hot, and strength is lost.",
    fix="Keep the range within the limits, or write `hold by rule`.",
    source="the governing books and procedures",
    basis="derived",
    bad=(
        Bad((("700 .. 730 degC", "650 .. 730 degC"),), at="650 .. 730 degC"),
        Bad((("700 .. 730 degC", "710 .. 770 degC"),), at="710 .. 770 degC"),
        Bad(
            (("edition 2018", "edition 2016"), ("700 .. 730 degC", "650 .. 730 degC")),
            at="650 .. 730 degC",
        ),
        Bad(
            (
                ("  hold  700 .. 730 degC", "  hold  600 .. 650 degC"),
                ("  heat  to 715 degC", "  heat  to 625 degC"),
            ),
            at="600 .. 650 degC",
        ),
    ),
    good=(Good((("700 .. 730 degC", "by rule"),)),),
)


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    word = "bake temperature" if treatment.is_bake else "hold temperature"
    governing = case.limits(treatment.joint, treatment).of(word)
    for hold, held in holds(case, treatment):
        if not isinstance(hold.range, Interval):
            continue
        assert held.low is not None and held.high is not None
        found = against(
            RULE,
            governing,
            "minimum",
            held.low,
            hold.place("range"),
            address=treatment.address,
            what="the bottom of the hold range",
        ) or against(
            RULE,
            governing,
            "maximum",
            held.high,
            hold.place("range"),
            address=treatment.address,
            what="the top of the hold range",
        )
        if found is not None:
            case.add(found)
