"""What a hold comes to: its range, its setpoint, its time."""

from __future__ import annotations

from typing import NamedTuple

from hts.base.quantities import TEMPERATURE, Interval, Quantity
from hts.base.quantities.number import round_to
from hts.checking.govern import JointLimits
from hts.job.compiler.errors import CannotCompile
from hts.job.compiler.units import Units
from hts.job.compiler.why import Why, demanded, derived, stated
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.segments import Cool, Heat, Hold, Segment
from hts.limits.quantities import Direction


class HoldPlan(NamedTuple):
    """A hold with every value known. `least` None: it lasts until something else happens."""

    window: Interval
    window_why: tuple[Why, ...]
    target: Quantity
    target_why: Why
    least: Quantity | None
    least_why: Why | None
    longest: Quantity | None
    note: str = ""


def plan(
    hold: Hold, before: Segment | None, limits: JointLimits, units: Units, where: str
) -> HoldPlan:
    """A hold of a bake or cycle. Raises CannotCompile where no rule gives what is `by rule`."""
    bake = limits.treatment is not None and limits.treatment.is_bake
    temperature, time = (
        ("bake temperature", "bake time") if bake else ("hold temperature", "hold time")
    )
    window, least = limits.hold_range(hold), limits.hold_time(hold)
    lacking = [
        f"{where}: no rule gives the {what}"
        for what, value in ((temperature, window), (time, least))
        if value is None
    ]
    if window is None or least is None:
        raise CannotCompile(lacking)
    target, target_why = _target(hold, before, window, units)
    if not window.contains(target):
        raise CannotCompile([f"{where}: the target {target} lies outside {window.show()}"])
    longest = hold.longest
    if longest is None:
        ruled = limits.derived(time, "maximum")
        longest = ruled.value if ruled is not None and isinstance(ruled.value, Quantity) else None
    if longest is not None and longest < least:
        raise CannotCompile([f"{where}: the hold is at least {least} and at most {longest}"])
    return HoldPlan(
        printed(window, limits, temperature, temperature),
        _window_why(hold, limits, temperature),
        target,
        target_why,
        least,
        _time_why(hold, limits, time),
        longest,
        f"time counts from: {hold.after}" if hold.after else "",
    )


def printed(window: Interval, limits: JointLimits, least: str, most: str) -> Interval:
    """A range with the figures of the other system that codes print for its two ends."""
    assert window.low is not None and window.high is not None
    return Interval(
        limits.printed(window.low, least, "minimum"), limits.printed(window.high, most, "maximum")
    )


def _target(
    hold: Hold, before: Segment | None, window: Interval, units: Units
) -> tuple[Quantity, Why]:
    """The setpoint: stated; else where the step before goes to, if that is well inside the range;
    else the middle of the range."""
    if hold.target is not None:
        return hold.target, stated(hold, "target", str(hold.target))
    low, high = window.low, window.high
    assert low is not None and high is not None
    if isinstance(before, Heat | Cool) and before.to is not None and low < before.to < high:
        return before.to, stated(before, "to", f"the step before goes to {before.to}")
    return middle(window, units), derived(
        "middle of the hold range, rounded inside it", f"({low} + {high}) / 2"
    )


def middle(window: Interval, units: Units) -> Quantity:
    """The middle of a range, in as few decimals as stay inside it."""
    assert window.low is not None and window.high is not None
    unit = units.first(TEMPERATURE)
    exact = (window.low.to(unit) + window.high.to(unit)) / 2
    for places in range(3):
        rounded = Quantity.of(round_to(exact, places), unit, TEMPERATURE)
        if window.contains(rounded):
            return rounded
    return Quantity.of(exact, unit, TEMPERATURE)


def _window_why(hold: Hold, limits: JointLimits, word: str) -> tuple[Why, ...]:
    if isinstance(hold.range, Interval):
        return (stated(hold, "range", hold.range.show()),)
    return tuple(
        why
        for direction in ("minimum", "maximum")
        if (why := _ruled(limits, word, direction)) is not None
    )


def _time_why(hold: Entry, limits: JointLimits, word: str) -> Why | None:
    time = getattr(hold, "time", None)
    if isinstance(time, Quantity):
        return stated(hold, "time", str(time))
    return _ruled(limits, word, "minimum")


def _ruled(limits: JointLimits, word: str, direction: Direction) -> Why | None:
    found = limits.derived(word, direction)
    return demanded(found.demand, direction) if found is not None else None
