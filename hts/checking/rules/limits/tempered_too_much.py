"""All treatments together do not temper the steel more than what governs it allows."""

from __future__ import annotations

from math import ceil

from hts.base.quantities import Interval
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import cited
from hts.checking.rules.rule import Edge, Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Hold
from hts.limits.demand import size

RULE = Rule(
    "L229",
    "tempered-too-much",
    "error",
    summary="Holds that temper the steel more than its limit, the treatments before included.",
    why="Tempered further than it was made, the steel loses the strength the design counts on.",
    fix="Lower the top of the hold or shorten it, or prove the properties and have the limit "
    "changed by whoever set it.",
    source="the governing books and procedures",
    basis="derived",
    edges=(
        Edge(
            (("  hold time        at most 6 h", "  tempering parameter at most {}"),),
            keeps="20.37",
            breaks="20.36",
            at="700 .. 730 degC",
            base="procedure",
            says="20.37 … at most 20.36",
        ),
    ),
)

_HOUR = 3600


@RULE.for_treatment
def check(case: Case, treatment: Treatment) -> None:
    governing = case.limits(treatment.joint, treatment).of("tempering parameter")
    demand = governing.setter("maximum") if governing is not None else None
    if demand is None:
        return
    spent = _spent(case, treatment)
    earlier = [
        (float(one.at.value), float(one.time.value) / _HOUR)
        for one in treatment.joint.entry.earlier
        if one.at is not None and one.time.value > 0
    ]
    # Of several cycles of a joint each comes after those written before it.
    for cycle in treatment.joint.cycles:
        if cycle is treatment:
            break
        earlier += _spent(case, cycle)
    if not spent or treatment.is_bake:
        return
    from hts.science.metallurgy.tempering import total

    reference = max(spent)[0]
    worth = total([*spent, *earlier], reference).parameter / 1000
    most = float(size(demand.bounds["maximum"]))
    if worth <= most:
        return
    before = " with the treatments before" if earlier else ""
    case.add(
        RULE.found(
            f"the tempering parameter of {treatment.joint.name} can reach {ceil(worth * 100) / 100:.2f}{before}, but "
            f"{cited(demand.limit.source)} allows at most {most:g}",
            next(iter(_holds(treatment))).place("range"),
            address=treatment.address,
            notes=[
                "top of each hold range for its longest time; T (20 + lg t) / 1000, K and h, all "
                f"treatments added as hours at {reference:g} degC"
            ],
        )
    )


def _holds(treatment: Treatment) -> list[Hold]:
    return [
        hold
        for hold in treatment.entry.segments
        if isinstance(hold, Hold) and isinstance(hold.range, Interval)
    ]


def _spent(case: Case, treatment: Treatment) -> list[tuple[float, float]]:
    """degC and h of each hold at its most: the top of its range for the longest it may last."""
    found = []
    for hold in _holds(treatment):
        time = hold.longest or case.limits(treatment.joint, treatment).hold_time(hold)
        high = hold.range.high if isinstance(hold.range, Interval) else None
        if high is not None and time is not None and time.value > 0:
            found.append((float(high.value), float(time.value) / _HOUR))
    return found
