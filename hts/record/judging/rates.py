"""Heating and cooling rates over a window of time, against limits that hang on temperature.

The limit is taken as the least time that a change of temperature may take: where no rate is
limited a change takes no time, so a window that reaches into a free stretch is judged by the part
of it that is limited, and windows across several limits need no special case.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from hts.job.compiler.why import Why
from hts.record.judging.evidence import Evidence
from hts.record.judging.limits import Piece, counted_from, least_hours, limit_at, pieces
from hts.record.judging.means import Means, Trace
from hts.record.judging.stretches import Rows, runs, union
from hts.record.judging.verdict import (
    NOT_SHOWN,
    Failure,
    HoldClock,
    Stretch,
    Verdict,
)
from hts.record.judging.words import time
from hts.record.plan import COOL, HEAT, Plan, Watched
from hts.record.record import Floats

_HOUR = 3600.0
#: A window that needs less time than allowed by no more than this part of it is at the limit.
_SAME = 1e-6
#: Readings worked on at once: few enough to stay in the fast memory of a processor.
_TOGETHER = 30_000
#: Part of the window, either side of each of its ends, whose readings are averaged for that end.
#: The noise of two single readings would pass for a rate. Common practice, no source: a ruler is
#: laid through the middle of a trace.
END = 0.1


class Window(NamedTuple):
    """Windows of time: rows `first` to `last` [windows]; `firsts` and `lasts` pick the same, as
    slices where these are without a break."""

    first: Rows
    last: Rows
    firsts: slice | Rows
    lasts: slice | Rows


class Course(NamedTuple):
    """What the windows say of one thermocouple: what is needed at the limits over the time taken
    [windows], and the hours taken, negative for cooling; `values` are its readings [rows]."""

    values: Floats
    ratio: Floats
    took: Floats

    def rate(self, window: Window, at: int) -> float:
        """K/h in one of the windows, positive in the direction of the action."""
        rise = self.values[window.last[at]] - self.values[window.first[at]]
        return float(rise / self.took[at])


def windows(times: Floats, seconds: float, longest_gap: float) -> Window:
    """For each row the first row at least `seconds` later, where no gap makes that far later."""
    # Clocks of recorders jitter; a reading that misses the window by a little ends it all the same.
    last = np.searchsorted(times, times + seconds * (1 - 1e-6), "left")
    first = np.flatnonzero(last < len(times))
    last = np.maximum(last[first], first + 1)
    inside = last < len(times)
    first, last = first[inside], last[inside]
    took = times[last] - times[first]
    near = took <= seconds + longest_gap
    first, last = first[near], last[near]
    return Window(first, last, _pick(first), _pick(last))


def _pick(rows: Rows) -> slice | Rows:
    if len(rows) and rows[-1] - rows[0] == len(rows) - 1 and np.all(np.diff(rows) == 1):
        return slice(int(rows[0]), int(rows[-1]) + 1)
    return rows


def end_rows(plan: Plan, interval: float) -> int:
    """Rows either side of an end of a window that are averaged for it."""
    return int(END * plan.window.value / interval) if interval > 0 else 0


def verdicts(evidence: Evidence, clocks: list[HoldClock]) -> list[Verdict]:
    """A verdict on heating and one on cooling, where the program limits their rate."""
    found = []
    window: Window | None = None
    traces: list[Trace] = []
    for action in (HEAT, COOL):
        limits = pieces(evidence.plan, action)
        if not limits:
            continue
        if window is None:
            window = windows(evidence.times, evidence.plan.window.value, evidence.longest_gap)
            means = Means(evidence.times, end_rows(evidence.plan, evidence.record.interval))
            # Short ones together; where one has blanks, each by itself: then their times differ.
            count = max(1, _TOGETHER // len(evidence.times)) if evidence.complete else 1
            parts = range(0, len(evidence.values), count)
            traces = [means.of(evidence.values[at : at + count]) for at in parts]
        found.append(_verdict(evidence, clocks, action, limits, window, traces))
    return found


def _verdict(
    evidence: Evidence,
    clocks: list[HoldClock],
    action: str,
    limits: list[Piece],
    window: Window,
    traces: list[Trace],
) -> Verdict:
    plan, words = evidence.plan, evidence.words
    allowance = plan.excursion_each
    failures: list[Failure] = []
    tolerated: list[Failure] = []
    fastest: tuple[float, float, str, int] | None = None
    holds = _holds(evidence, clocks, window)
    courses = (one for trace in traces for one in _courses(trace, action, limits, window, holds))
    for thermocouple, course in zip(evidence.required, courses, strict=True):
        if not len(course.ratio):
            continue
        worst = int(np.argmax(course.ratio))
        most = float(course.ratio[worst])
        if not most > 0:
            continue
        if fastest is None or most > fastest[0]:
            fastest = (most, course.rate(window, worst), thermocouple.tag, int(window.first[worst]))
        if most > 1 + _SAME:
            over, within_allowance = _failures(evidence, thermocouple, course, limits, window)
            failures += over
            tolerated += within_allowance
    specified = "; ".join(_limit_words(evidence, piece) for piece in limits)
    specified += f", over {words.limit(plan.window.written)}"
    if allowance is not None:
        specified += f", beyond it no longer than {words.limit(allowance.written)} each time"
    outcome, blanks = evidence.outcome(bool(failures), *_phase(evidence, clocks, action))
    if fastest is None:
        actual, outcome = "no stretch of the record shows it", NOT_SHOWN
    else:
        actual = (
            f"fastest {words.rate(fastest[1])} "
            f"({evidence.name(fastest[2], float(evidence.times[fastest[3]]))}) from "
            f"{evidence.clock(float(evidence.times[fastest[3]]))}"
        )
        if tolerated and not failures:
            actual += f"; {len(tolerated)} times beyond the limit within the allowance"
        actual += blanks
    return Verdict(
        "heating rate" if action == HEAT else "cooling rate",
        plan.address,
        specified,
        actual,
        outcome,
        None,
        tuple(sorted(failures, key=lambda one: one.start)),
        _why(limits),
    )


def _phase(evidence: Evidence, clocks: list[HoldClock], action: str) -> Stretch:
    """From when to when the part is heated, or cooled, as far as its limits are concerned."""
    arrived = [clock.arrived for clock in clocks if clock.arrived is not None]
    left = [clock.left for clock in clocks if clock.left is not None]
    start, end = evidence.controlled
    if action == HEAT:
        return Stretch(start, max(arrived, default=end))
    return Stretch(max(left, default=start), end)


def _courses(
    trace: Trace, action: str, limits: list[Piece], window: Window, holds: list[_Hold]
) -> Iterator[Course]:
    """Of each thermocouple of `trace`, [thermocouples, rows]."""
    took = _took(trace.times, action, window)
    ratio = _ratio(trace.values, took, limits, window, holds)
    for row, values in enumerate(trace.values):
        yield Course(values, ratio[row], took if took.ndim == 1 else took[row])


def _took(times: Floats, action: str, window: Window) -> Floats:
    """Hours of each window, negative for cooling; NaN where it has none."""
    took = (times[..., window.lasts] - times[..., window.firsts]) / _HOUR
    # Blanks can leave the same readings to both ends of a window: that is none.
    took[took <= 0] = np.nan
    return took if action == HEAT else -took


class _Hold(NamedTuple):
    """The range of a hold, degC, and the windows that lie within its time."""

    low: float
    high: float
    during: slice


def _holds(evidence: Evidence, clocks: list[HoldClock], window: Window) -> list[_Hold]:
    found = []
    for clock in clocks:
        if clock.arrived is not None and clock.left is not None:
            part = evidence.record.between(clock.arrived, clock.left)
            first = int(np.searchsorted(window.first, part.start))
            last = int(np.searchsorted(window.last, part.stop))
            found.append(_Hold(clock.low, clock.high, slice(first, last)))
    return found


def _ratio(
    values: Floats, took: Floats, limits: list[Piece], window: Window, holds: list[_Hold]
) -> Floats:
    """For each window, [thermocouples, windows]: hours needed at the limits over hours taken.

    0 where a reading is missing, and where the part only moves within the range of a hold.
    """
    hours = least_hours(values, limits)
    ratio = hours[..., window.lasts] - hours[..., window.firsts]
    ratio /= took
    ratio[np.isnan(ratio)] = 0.0
    for hold in holds:
        first = values[..., window.firsts][..., hold.during]
        last = values[..., window.lasts][..., hold.during]
        held = (first >= hold.low) & (first <= hold.high) & (last >= hold.low) & (last <= hold.high)
        ratio[..., hold.during][held] = 0.0
    return ratio


def _failures(
    evidence: Evidence,
    thermocouple: Watched,
    course: Course,
    limits: list[Piece],
    window: Window,
) -> tuple[list[Failure], list[Failure]]:
    """The stretches in which a thermocouple was too fast: those that count, those tolerated."""
    values, ratio = course.values, course.ratio
    times, words, allowance = evidence.times, evidence.words, evidence.plan.excursion_each
    failures: list[Failure] = []
    tolerated: list[Failure] = []
    for first, last in runs(ratio > 1 + _SAME):
        worst = first + int(np.argmax(ratio[first : last + 1]))
        start, end = float(times[window.first[first]]), float(times[window.last[last]])
        # How long it lasted is told by the middles of the windows, which all lie within it.
        lasted = float(
            times[window.first[last]] + times[window.last[last]]
            - times[window.first[first]] - times[window.last[first]]
        ) / 2  # fmt: skip
        top = float(max(values[window.first[worst]], values[window.last[worst]]))
        limit = limit_at(limits, top)
        # A window partly in a free stretch is not faster than the limit over all of it.
        rate = max(course.rate(window, worst), float(ratio[worst]) * limit.limit)
        tag = evidence.name(thermocouple.tag, start)
        verb = "rose" if limit.span.action == HEAT else "fell"
        sentence = (
            f"{tag} {verb} {words.rate(rate, limit.limit)} over "
            f"{words.limit(evidence.plan.window.written)}, limit "
            f"{words.rate(limit.limit)}{counted_from(words, limit)}, "
            f"from {evidence.clock(start)} to {evidence.clock(end)}"
        )
        if allowance is not None:
            sentence += f": {time(lasted, allowance.value)} too fast"
        failure = Failure((thermocouple.tag,), start, end, sentence)
        excused = allowance is not None and lasted <= allowance.value + 1e-6
        (tolerated if excused else failures).append(failure)
    return failures, tolerated


def _limit_words(evidence: Evidence, piece: Piece) -> str:
    words = evidence.words
    limit = piece.span.step.limit
    assert limit is not None
    shown = f"at most {words.limit(limit)}{counted_from(words, piece)}"
    return shown if piece.high == np.inf else f"{shown} to {words.edge(piece.high)}"


def _why(limits: list[Piece]) -> Why | None:
    return min(limits, key=lambda piece: piece.limit).span.step.limit_why


def too_fast(verdicts: list[Verdict]) -> list[Stretch]:
    """When heating was too fast, for the rule on what is done then."""
    return union(
        Stretch(failure.start, failure.end)
        for verdict in verdicts
        if verdict.requirement == "heating rate"
        for failure in verdict.failures
    )
