"""Limits on rates, each from the temperature on at which it counts."""

from __future__ import annotations

from hts.base.findings import Finding
from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.against import breaks, broken
from hts.checking.rules.helpers.steps import Step, steps
from hts.checking.rules.rule import Rule
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Hold
from hts.limits import Demand
from hts.limits.quantities import Direction


def hottest_of(step: Step) -> Quantity | None:
    """The hot end of a step: where heating leads to, where cooling comes from."""
    return step.end if step.segment.words == ("heat",) else step.high


def counts_in(demand: Demand, step: Step) -> bool:
    """Whether part of a step lies above the temperature from which a limit counts."""
    top = hottest_of(step)
    return demand.above is None or (top is not None and demand.above < top)


def rate_findings(
    rule: Rule, case: Case, treatment: Treatment, words: str, direction: Direction
) -> list[Finding]:
    """Stated rates of the heating or cooling steps of a cycle that break a limit.

    A bake is no post-weld heat treatment: the limits on rates are not for it.
    """
    found: list[Finding] = []
    if treatment.is_bake:
        return found
    governing = case.limits(treatment.joint, treatment).of(f"{words}ing rate")
    if governing is None or governing.setter(direction) is None or governing.conflict():
        return found
    for step in steps(case, treatment):
        segment = step.segment
        if isinstance(segment, Hold) or segment.words != (words,):
            continue
        rate = segment.rate
        if not isinstance(rate, Quantity):
            continue
        demands = [d for d in broken(governing, direction, rate) if counts_in(d, step)]
        if demands:
            first = demands[0]
            above = f" above {first.above.both()}" if first.above is not None else ""
            found.append(
                breaks(
                    rule,
                    demands,
                    direction,
                    rate,
                    segment.place("rate"),
                    address=treatment.address,
                    what=f"the {words}ing rate{above}",
                )
            )
    return found
