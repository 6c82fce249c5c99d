"""The range of a hold lies within what governs it."""

from __future__ import annotations

from hts.base.findings import Finding
from hts.base.quantities import Interval
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import against, cited, places, shown
from hts.checking.rules.helpers.steps import holds
from hts.checking.rules.rule import Bad, Edge, Good, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Hold
from hts.limits import Demand, Governing
from hts.limits.demand import size

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
        Bad(
            (("edition 2018", "edition 2016"), ("700 .. 730 degC", "650 .. 730 degC")),
            at="650 .. 730 degC",
            says="is 650 degC (1202 degF) … at least 675 degC (1250 degF)",
        ),
        Bad(
            (
                ("  hold  700 .. 730 degC", "  hold  600 .. 650 degC"),
                ("  heat  to 715 degC", "  heat  to 625 degC"),
            ),
            at="600 .. 650 degC",
            says="is 600 degC (1112 degF) … at least 675 degC (1250 degF)",
        ),
    ),
    edges=(
        Edge(
            (("700 .. 730 degC", "{} .. 730 degC"),),
            keeps="675",
            breaks="674",
            says="is 674 degC (1245 degF) … at least 675 degC (1250 degF)",
        ),
        Edge(
            (("700 .. 730 degC", "710 .. {}"),),
            keeps="760 degC",
            breaks="761 degC",
            says="is 761 degC (1402 degF) … at most 760 degC (1400 degF)",
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
        found = found or _meets_neither(governing, held, hold, treatment)
        if found is not None:
            case.add(found)


def _meets_neither(
    governing: Governing | None, held: Interval, hold: Hold, treatment: Treatment
) -> Finding | None:
    """Of two limits that exclude each other, such as those of two metals, one has to be kept."""
    assert held.low is not None and held.high is not None
    for low, high in governing.exclusive() if governing is not None else ():
        least, greatest = low.bounds["minimum"], high.bounds["maximum"]
        if size(held.low) < size(least) and size(held.high) > size(greatest):
            return RULE.found(
                f"the hold range, {held.show()}, keeps neither of two limits that exclude each "
                f"other: at least {shown(least)} ({cited(low.limit.source)}{_of(low)}) and at most "
                f"{shown(greatest)} ({cited(high.limit.source)}{_of(high)})",
                hold.place("range"),
                address=treatment.address,
                others=[*places(low.limit.source), *places(high.limit.source)],
            )
    return None


def _of(demand: Demand) -> str:
    return f", {demand.side} side" if demand.side else ""
