"""The hold: its time against the least and the most, and the mean temperature of it."""

from __future__ import annotations

import numpy as np

from hts.checking.govern.sources import Authority
from hts.job.compiler.why import Why
from hts.record.judging.evidence import Evidence
from hts.record.judging.guard import Guard, guarded
from hts.record.judging.hold_clocks import Held, counting
from hts.record.judging.hold_courses import hold_course
from hts.record.judging.stretches import between, total, union
from hts.record.judging.verdict import (
    MET,
    NOT_MET,
    NOT_SHOWN,
    SAME,
    SAME_TIME,
    Failure,
    HoldClock,
    Outcome,
    Stretch,
    Verdict,
)
from hts.record.judging.words import time
from hts.record.plan import HOLD, Span, Watched
from hts.record.record import Floats
from hts.science.metallurgy.qualification import PIECES_ORIGIN


def verdicts(
    evidence: Evidence,
    holds: tuple[Held, ...],
    clocks: list[HoldClock],
    drawn_in: list[HoldClock],
    guard: Guard,
) -> list[Verdict]:
    """For each hold its time; `drawn_in` are the clocks within the guard band."""
    found: list[Verdict] = []
    by_mean = evidence.plan.by_mean
    for index, (hold, clock, strict) in enumerate(zip(holds, clocks, drawn_in, strict=True)):
        found.append(_least(evidence, hold, clock, strict, guard))
        if hold.longest is not None:
            during = hold_course(evidence, holds, clocks, index) if len(holds) > 1 else None
            found.append(_longest(evidence, hold, during))
        if by_mean is not None:
            found.append(_mean(evidence, hold, clock, guard, by_mean))
    return found


def _name(evidence: Evidence, hold: Held, words: str) -> str:
    """`hold time`, with the step where the program has several holds."""
    steps = [span.number for span in evidence.plan.spans if span.action == HOLD]
    numbers = [span.number for span in hold.spans]
    return words if numbers == steps else f"{words}, step {numbers[0]}"


def _range(evidence: Evidence, hold: Held) -> str:
    window = hold.spans[0].step.window
    assert window is not None
    return evidence.words.range(window)


def _least(
    evidence: Evidence, hold: Held, clock: HoldClock, strict: HoldClock, guard: Guard
) -> Verdict:
    plan = evidence.plan
    who = "all required" if plan.counts_all else "the controlling"
    least = hold.least
    step = next((span.step for span in hold.spans if span.step.least is not None), None)

    def specified() -> str:
        shown = f"{who} in {_range(evidence, hold)}"
        if step is not None and step.least is not None and least is not None:
            shown += f" for at least {time(least)}"
        return shown if plan.adds_up else f"{shown} in one piece"

    outcome: Outcome = MET
    failures: tuple[Failure, ...] = ()
    if not clock.complete:
        outcome = _short(evidence, clock)
        failures = (_failure(evidence, clock, outcome),)
    why = step.least_why if step is not None else hold.spans[0].step.window_why[0]
    if why is not None and plan.stated("interrupted_hold") is None:
        note = (
            f"not said to add up: in one piece, though {PIECES_ORIGIN.standard} ask for no single "
            "piece"
        )
        why = why._replace(note=f"{why.note}; {note}" if why.note else note)
    return Verdict(
        _name(evidence, hold, "hold time"),
        plan.address,
        specified,
        lambda: _clock_words(evidence, clock),
        outcome,
        guarded(guard, outcome, strict.complete),
        failures,
        why,
    )


def _clock_words(evidence: Evidence, clock: HoldClock) -> str:
    if clock.arrived is None or clock.since is None:
        return "never in range together"
    pieces = f" in {len(clock.intervals)} pieces" if len(clock.intervals) > 1 else ""
    last = f"; {clock.last} came last" if clock.last else ""
    ended = (
        f"; {time(total(clock.lost))} in range besides, ended by leaving the range"
        if clock.lost
        else ""
    )
    return (
        f"{time(clock.total, clock.least)}{pieces}, {evidence.clock(clock.since)} to "
        f"{evidence.clock(clock.intervals[-1].end)}{last}{ended}{_lowest(evidence, clock)}"
    )


def _lowest(evidence: Evidence, clock: HoldClock) -> str:
    """`; lowest 655.0 degC (T3) at …`: the true lowest from first to last in range, also while it
    was excused, where it lies below the range."""
    assert clock.arrived is not None and clock.left is not None
    rows = evidence.record.between(clock.arrived, clock.left)
    together = evidence.counting[0][rows]
    if len(together) and together.min() >= clock.low - SAME:
        return ""
    found: tuple[float, str, float] | None = None
    for one, values in zip(evidence.required, evidence.values, strict=True):
        part = values[rows]
        if not evidence.counts(one) or np.isnan(part).all():
            continue
        at = int(np.nanargmin(part))
        if found is None or part[at] < found[0]:
            found = (float(part[at]), one.tag, float(evidence.times[rows][at]))
    if found is None or found[0] >= clock.low - SAME:
        return ""
    value, tag, at_time = found
    shown = evidence.words.temperature(value, clock.low)
    return f"; lowest {shown} ({evidence.name(tag, at_time)}) at {evidence.clock(at_time)}"


def _short(evidence: Evidence, clock: HoldClock) -> Outcome:
    """Whether a hold is too short, or only not shown to be long enough: it is the latter where
    the time without readings could make up for what lacks."""
    start, end = 0.0, evidence.record.end
    if clock.arrived is not None and clock.left is not None:
        start, end = clock.arrived, clock.left
    blind = list(evidence.row_gaps)
    for thermocouple in evidence.required:
        if evidence.counts(thermocouple):
            blind += evidence.missing(thermocouple.tag)
    touching = [gap for gap in blind if gap.end >= start and gap.start <= end]
    if not touching:
        return NOT_MET
    pieces = union([*clock.lost, *clock.intervals, *touching])
    could_be = total(counting(evidence, pieces, clock.least))
    return NOT_SHOWN if could_be >= (clock.least or 0.0) - SAME_TIME else NOT_MET


def _failure(evidence: Evidence, clock: HoldClock, outcome: Outcome) -> Failure:
    words = evidence.words
    end = evidence.record.end
    if clock.arrived is None or clock.left is None:
        coldest = next(
            (thermocouple for thermocouple in evidence.required if thermocouple.tag == clock.worst),
            None,
        )
        if coldest is None:
            return Failure((), 0.0, end, "no thermocouple the hold counts by is recorded")
        return Failure((coldest.tag,), 0.0, end, _never(evidence, clock, coldest))
    counted = time(clock.total, clock.least)
    sentence = f"all required thermocouples were in range together for {counted}"
    if clock.least is not None:
        sentence += f" of {time(clock.least)}"
    if not evidence.plan.adds_up and clock.lost:
        sentence += " in one piece"
    sentence += f", from {evidence.clock(clock.arrived)} to {evidence.clock(clock.left)}"
    tags = (clock.worst,) if clock.worst else (clock.last,) if clock.last else ()
    gaps = between(sorted([*clock.lost, *clock.intervals]))
    if outcome == NOT_SHOWN:
        blind = [
            thermocouple.tag
            for thermocouple in evidence.required
            if evidence.missing(thermocouple.tag)
        ]
        sentence += f"; readings of {', '.join(blind) if blind else 'all'} are missing"
    elif clock.worst and gaps:
        longest = max(gaps, key=lambda one: one.length)
        sentence += (
            f"; {clock.worst} was out of range longest, {time(total(gaps))} lost, most of it from "
            f"{evidence.clock(longest.start)} to {evidence.clock(longest.end)}"
        )
    elif clock.last:
        sentence += f"; {clock.last} came into the range last, at {words.edge(clock.low)}"
    return Failure(tags, clock.arrived, clock.left, sentence)


def _never(evidence: Evidence, clock: HoldClock, thermocouple: Watched) -> str:
    words, values = evidence.words, evidence.of(thermocouple.tag)
    if np.all(np.isnan(values)):
        return f"{thermocouple.tag} has no reading, so the hold cannot count"
    peak = float(np.nanmax(values))
    if peak < clock.low:
        return (
            f"{thermocouple.tag} reached {words.temperature(peak, clock.low)}, the range begins at "
            f"{words.edge(clock.low)}"
        )
    return (
        f"at no time were all in range together; the highest reading of {thermocouple.tag} was "
        f"the lowest of all"
    )


def _longest(evidence: Evidence, hold: Held, during: list[Stretch] | None) -> Verdict:
    """The longest any required thermocouple was at or above the range, against the most; `during`
    is the course of the hold for each, where the program has others."""
    assert hold.longest is not None
    span = next(span for span in hold.spans if span.longest is not None)
    most = evidence.plan.longest_of(span.step)
    outcome: Outcome = MET
    failures: tuple[Failure, ...] = ()

    def actual() -> str:
        lasted, tag, _ = at_temperature(evidence, hold.low, during)
        return f"{time(lasted, hold.longest)} ({tag})" if tag else "no reading"

    if not _surely_shorter(evidence, hold.low, hold.longest):
        outcome, failures = _too_long(evidence, hold, span, hold.longest, during)
    return Verdict(
        _name(evidence, hold, "longest hold"),
        evidence.plan.address,
        lambda: f"in {_range(evidence, hold)} for at most {_most(hold, span)}",
        actual,
        outcome,
        None,
        failures,
        most.why if most is not None else None,
    )


def _surely_shorter(evidence: Evidence, low: float, most: float) -> bool:
    """Whether from when the first of all was at `low` to when the last was is no longer."""
    if not (evidence.complete and evidence.required):
        return False
    hot, times = np.flatnonzero(evidence.highest >= low - SAME), evidence.times
    if not len(hot):
        return True
    # From the row before, for the line that leads in, to the one after.
    begin, end = max(int(hot[0]) - 1, 0), min(int(hot[-1]) + 1, len(times) - 1)
    return float(times[end] - times[begin]) <= most


def _too_long(
    evidence: Evidence, hold: Held, span: Span, most: float, during: list[Stretch] | None
) -> tuple[Outcome, tuple[Failure, ...]]:
    longest, tag, when = at_temperature(evidence, hold.low, during)
    if not tag:
        return NOT_SHOWN, ()
    if longest <= most + SAME_TIME:
        return MET, ()
    sentence = (
        f"{tag} was at {evidence.words.edge(hold.low)} or above for {time(longest, most)}, "
        f"{time(most)} is the most, from "
        f"{evidence.clock(when.start)} to {evidence.clock(when.end)}"
    )
    outcome: Outcome = NOT_MET
    if hold.open_ended:
        # More may have been the time of a step that has no most: nothing tells them apart.
        outcome = NOT_SHOWN
        sentence += f"; the readings do not tell how much of it was step {span.number}"
    return outcome, (Failure((tag,), when.start, when.end, sentence),)


def _most(hold: Held, span: Span) -> str:
    """`3 h`; `3 h in step 3, 5 h with the steps beside it` where some of them state no most."""
    assert hold.longest is not None and span.longest is not None
    if not hold.open_ended:
        return time(hold.longest)
    stated = [one for one in hold.spans if one.longest is not None]
    own = ", ".join(f"{time(one.longest or 0.0)} in step {one.number}" for one in stated)
    return f"{own}, {time(hold.longest)} in all steps of it"


def at_temperature(
    evidence: Evidence, low: float, during: list[Stretch] | None = None
) -> tuple[float, str, Stretch]:
    """The longest time a required thermocouple was at `low` or above, which one, from when to
    when; time without readings between two such readings is counted in. `during` is the time that
    is looked at of each, all of it where there is none."""
    found = (0.0, "", Stretch(0.0, 0.0))
    if evidence.complete and evidence.required and during is None:
        all_above = evidence.values - (low - SAME)
        lasts = _time_above(evidence.times, all_above)
        row = int(np.argmax(lasts))
        return float(lasts[row]), evidence.required[row].tag, _hot(evidence.times, all_above[row])
    for row, (thermocouple, values) in enumerate(
        zip(evidence.required, evidence.values, strict=True)
    ):
        times = evidence.times
        blank = np.isnan(values)
        if blank.any():
            # No gap is too long here: what may have been at temperature has used up the time.
            times, values = times[~blank], values[~blank]
        if not len(times):
            continue
        if during is not None:
            times, values = _cut(times, values, during[row])
        above = values - (low - SAME)
        lasted = float(_time_above(times, above))
        if not found[1] or lasted > found[0]:
            found = (lasted, thermocouple.tag, _hot(times, above))
    return found


def _hot(times: Floats, above: Floats) -> Stretch:
    """From the first reading that is not below zero to the last."""
    hot = np.flatnonzero(above >= 0)
    return Stretch(float(times[hot[0]]), float(times[hot[-1]])) if len(hot) else Stretch(0.0, 0.0)


def _cut(times: Floats, values: Floats, during: Stretch) -> tuple[Floats, Floats]:
    """The part of a line that lies in a time, with its ends on the line."""
    ends = np.clip(during, times[0], times[-1])
    inner = times[(times > ends[0]) & (times < ends[1])]
    at = np.concatenate((ends[:1], inner, ends[1:]))
    return at, np.interp(at, times, values)


def _time_above(times: Floats, above: Floats) -> Floats:
    """s in which the lines between readings [..., rows] are not below zero."""
    good = above >= 0
    part = (good[..., 1:] & good[..., :-1]).astype(np.float64)
    crossed = good[..., 1:] != good[..., :-1]
    one, other = above[..., :-1][crossed], above[..., 1:][crossed]
    most = np.maximum(one, other)
    part[crossed] = most / (most - np.minimum(one, other))
    # No dot product: the threads it is dealt out to cost more than they save.
    return np.asarray(np.sum(part * np.diff(times), axis=-1))


def _mean(evidence: Evidence, hold: Held, clock: HoldClock, guard: Guard, by: Authority) -> Verdict:
    """The mean of the highest and the lowest thermocouple while the hold counted."""
    window = hold.spans[0].step.window
    assert window is not None
    mean = mean_temperature(evidence, clock)
    outcome: Outcome = NOT_SHOWN
    actual = "never in range together"
    drawn = False
    if mean is not None:
        outcome = MET if hold.low - 1e-6 <= mean <= hold.high + 1e-6 else NOT_MET
        drawn = hold.low + guard.width <= mean <= hold.high - guard.width
        actual = f"{evidence.words.temperature(mean)}, mean of highest and lowest"
    return Verdict(
        _name(evidence, hold, "holding temperature"),
        evidence.plan.address,
        f"mean of highest and lowest in {_range(evidence, hold)}",
        actual,
        outcome,
        guarded(guard, outcome, drawn),
        (),
        Why(source=by.name, edition=by.edition, citation="holding", basis="published"),
    )


def mean_temperature(evidence: Evidence, clock: HoldClock) -> float | None:
    """degC: half the sum of the highest and the lowest required reading, averaged over the time
    the hold counted; None where it never did."""
    lowest, highest = evidence.lowest, evidence.highest
    weighted = lasted = 0.0
    for interval in clock.intervals:
        part = evidence.record.between(interval.start, interval.end)
        middle = (lowest[part] + highest[part]) / 2
        known = ~np.isnan(middle)
        times = evidence.times[part][known]
        if len(times) > 1:
            weighted += float(np.trapezoid(middle[known], times))
            lasted += float(times[-1] - times[0])
    return weighted / lasted if lasted else None
