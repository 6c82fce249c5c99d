"""How long a treatment takes at least."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from hts.base.quantities import Quantity
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.steps import Step, steps
from hts.language.model.joint import Treatment
from hts.language.vocabulary.segments import Heat, Hold


def least_time(case: Case, treatment: Treatment) -> int:
    """Minutes, rounded up: the holds, and the steps with a fastest rate as far as it is known where
    they begin. What is free takes no time here."""
    hours = Fraction(0)
    for step in steps(case, treatment):
        if isinstance(step.segment, Hold):
            time = case.limits(treatment.joint, treatment).hold_time(step.segment)
            hours += time.to("h") if time is not None else 0
        else:
            hours += _ramp(step)
    return ceil(hours * 60)


def _ramp(step: Step) -> Fraction:
    """Hours, from the end that is nearer where a step may begin anywhere in a range."""
    segment = step.segment
    if isinstance(segment, Hold) or segment.to is None or not isinstance(segment.rate, Quantity):
        return Fraction(0)
    up = isinstance(segment, Heat)
    begin = _hotter(step.high, segment.above) if up else step.low
    end = segment.to if up else _hotter(segment.to, segment.above)
    if begin is None or end is None:
        return Fraction(0)
    way = end - begin if up else begin - end
    return max(Fraction(0), way.to("K")) / segment.rate.to("degC/h")


def _hotter(one: Quantity | None, other: Quantity | None) -> Quantity | None:
    return max((each for each in (one, other) if each is not None), default=None)
