"""The steps of a treatment, each with the temperatures it runs between."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from hts.base.quantities import Interval, Quantity
from hts.checking.govern.case import Case
from hts.language.model.joint import Joint, Treatment
from hts.language.vocabulary.segments import Cool, Heat, Hold, Segment

#: Purposes of treatments that cool from above the critical range, as fast as their metal asks for.
FROM_ABOVE = ("normalizing", "normalize and temper", "solution treatment", "other")


class Step(NamedTuple):
    """A segment and where it begins and ends; None where that is unknown, as ambient is.

    After a hold the part is anywhere between ``low`` and ``high``.
    """

    segment: Segment
    low: Quantity | None
    high: Quantity | None
    end: Quantity | None


def steps(case: Case, treatment: Treatment) -> Iterator[Step]:
    """The steps in their order. What follows a hold in a mistaken unit, or a step that leads the
    wrong way, begins at an unknown temperature: the mistake is told once."""
    low: Quantity | None = None
    high: Quantity | None = None
    for segment in treatment.entry.segments:
        if isinstance(segment, Hold):
            held = hold_range(case, treatment, segment)
            yield Step(segment, low, high, held.high if held else None)
            low, high = (held.low, held.high) if held else (None, None)
        else:
            step = Step(segment, low, high, segment.to)
            yield step
            low = high = None if backwards(step) else segment.to


def backwards(step: Step) -> bool:
    """Whether a heating step leads down, or a cooling step up."""
    if step.end is None or step.low is None or step.high is None:
        return False
    if isinstance(step.segment, Heat):
        return step.end <= step.low
    return isinstance(step.segment, Cool) and step.end >= step.high


def holds(case: Case, treatment: Treatment) -> Iterator[tuple[Hold, Interval]]:
    """The holds whose range is known and believable."""
    for segment in treatment.entry.segments:
        if isinstance(segment, Hold):
            held = hold_range(case, treatment, segment)
            if held is not None:
                yield segment, held


def hold_range(case: Case, treatment: Treatment, hold: Hold) -> Interval | None:
    """Range of a hold; None where it is unknown, open or plainly in the wrong unit."""
    held = case.limits(treatment.joint, treatment).hold_range(hold)
    if held is None or held.low is None or held.high is None or mistaken_unit(treatment, held):
        return None
    return held


def mistaken_unit(treatment: Treatment, held: Interval) -> str:
    """The unit that was probably meant, "" where the range is believable as written.

    Post-weld heat treatment lies within 550 to 815 degC, which is about 1100 to 1425 degF for the
    ranges most used: numbers of the one with the unit of the other are believed to be a slip. From
    memory.
    """
    low, high = held.low, held.high
    if treatment.is_bake or low is None or high is None:
        return ""
    if high.unit.symbol == "degC" and low.to("degC") >= 1100 and high.to("degC") <= 1425:
        return "degF"
    if high.unit.symbol == "degF" and low.to("degF") >= 550 and high.to("degF") <= 815:
        return "degC"
    return ""


def heats(treatment: Treatment) -> bool:
    """Whether it is a treatment, and not the claim that none is required."""
    return treatment.cycle is None or treatment.cycle.not_required is None


def treated(joint: Joint) -> list[Treatment]:
    """The cycles that heat the joint after welding."""
    return [cycle for cycle in joint.cycles if heats(cycle)]


def hottest(case: Case, treatment: Treatment) -> tuple[Hold, Quantity] | None:
    """The hold with the highest top, and that top."""
    found: tuple[Hold, Quantity] | None = None
    for hold, held in holds(case, treatment):
        assert held.high is not None
        if found is None or held.high > found[1]:
            found = hold, held.high
    return found
