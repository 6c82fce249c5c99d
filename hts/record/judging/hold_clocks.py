"""Where the holds of the program lie in the record, and when their clocks ran."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from hts.job.compiler.program import PREHEAT
from hts.language.vocabulary.interruptions import PowerLoss
from hts.record.judging.beyond_readings import welding_began
from hts.record.judging.evidence import Evidence
from hts.record.judging.stretches import between, inside, total, within
from hts.record.judging.verdict import SAME, SAME_TIME, HoldClock, Segment, Stretch
from hts.record.plan import COOL, FROM_ALL, HOLD, Plan, Span

RESTART = "restart the cycle"
#: s in the range, and out of it again, that are noise at its edge, and how long that may go on.
#: Basis: practice, no source.
_HOVERS, _CREEPS = 180.0, 900.0


class Held(NamedTuple):
    """Neighbouring holds of one range; `spans` are theirs, `low` to `high` degC.

    `longest` s is the most of all of them together; where `open_ended`, some of them state none and
    count with their least, so that more may be theirs. `cooled` is the temperature the part goes
    below before the next hold, None where the next is entered by its range alone.
    """

    low: float
    high: float
    least: float | None
    longest: float | None
    spans: tuple[Span, ...]
    cooled: float | None
    open_ended: bool = False


def held(plan: Plan) -> tuple[Held, ...]:
    """The holds of a plan in their order."""
    found: list[Held] = []
    coldest: float | None = None
    for span in plan.spans:
        if span.action != HOLD:
            if span.action == COOL and span.end is not None:
                coldest = span.end if coldest is None else min(coldest, span.end)
            continue
        assert span.low is not None and span.high is not None
        last = found[-1] if found else None
        if (
            last is not None
            and last.spans[-1].number == span.number - 1
            and (last.low, last.high) == (span.low, span.high)
        ):
            found[-1] = _joined(last, span)
            continue
        if last is not None:
            found[-1] = last._replace(cooled=coldest)
        found.append(Held(span.low, span.high, span.least, span.longest, (span,), None))
        coldest = None
    return tuple(found)


def clocks(evidence: Evidence, holds: tuple[Held, ...], width: float = 0.0) -> list[HoldClock]:
    """The clock of each hold; `width` K is the guard band by which the ranges are drawn in."""
    begin = restarted(evidence)
    made: list[HoldClock] = []
    running = [_running(evidence, hold, width) for hold in holds]
    for index, hold in enumerate(holds):
        stop = _first_arc(evidence)
        begin = max(begin, _counts_from(evidence, hold, begin))
        if index + 1 < len(holds):
            stop = _next(evidence, hold, running[index + 1], running[index], begin)
        intervals = within(running[index], begin, stop)
        made.append(
            _clock(evidence, hold, [interval for interval in intervals if interval.length > 0])
        )
        begin = stop
    return made


def _first_arc(evidence: Evidence) -> float:
    """s. Until when a preheat is soaked: the soak is before the arc, where a note tells of that;
    else the end of the record."""
    end = evidence.record.end
    began = welding_began(evidence) if evidence.plan.kind == PREHEAT else None
    return end if began is None else min(end, began)


def segments(evidence: Evidence, plan: Plan, made: list[HoldClock]) -> list[Segment]:
    """Heating, holds and cooling as recognised, each from the end of the one before."""
    found: list[Segment] = []
    at = evidence.times[0].item()
    end = evidence.record.end
    spans = list(plan.spans)
    for hold, clock in zip(held(plan), made, strict=True):
        if clock.arrived is None or clock.left is None:
            break
        before = [span for span in spans if span.number < hold.spans[0].number]
        if before and clock.arrived > at:
            found.append(Segment(at, clock.arrived, before[0].number, before[-1].action))
        found.append(Segment(clock.arrived, clock.left, hold.spans[0].number, HOLD))
        at = clock.left
        spans = [span for span in spans if span.number > hold.spans[-1].number]
    if spans and end > at:
        found.append(Segment(at, end, spans[0].number, spans[0].action))
    return found


def counting(evidence: Evidence, pieces: list[Stretch], least: float | None) -> tuple[Stretch, ...]:
    """The pieces in range that count as one hold: all of them where the text says that they add
    up; else one, for any time out of range ends the count, tolerated or not. Of several the first
    that was long enough; else the one that is going on at the end of the record; else the longest.
    """
    if not pieces or evidence.plan.adds_up:
        return tuple(_entered_for_good(pieces, least))
    complete = next((one for one in pieces if one.length >= (least or 0.0) - SAME_TIME), None)
    if complete is None and pieces[-1].end >= evidence.record.end - SAME_TIME:
        complete = pieces[-1]
    return (complete or max(pieces, key=lambda one: one.length),)


def _entered_for_good(pieces: list[Stretch], least: float | None) -> list[Stretch]:
    """Without the moments at the entry of the range in which one that creeps into it crosses its
    edge to and fro with its noise, where the hold is long enough without them: it was not in it."""
    for first in range(len(pieces)):
        goes_on = first + 1 < len(pieces)
        hovers = goes_on and (
            pieces[first].length <= _HOVERS
            and pieces[first + 1].start - pieces[first].end <= _HOVERS
            and pieces[first + 1].end - pieces[0].start <= _CREEPS + pieces[first + 1].length
        )
        if not hovers:
            rest = pieces[first:]
            return rest if total(rest) >= (least or 0.0) - SAME_TIME else pieces
    return pieces


def hold_end(clock: HoldClock) -> float | None:
    """When the time asked for was complete; the last moment that counted where it never was."""
    if clock.least is None or not clock.complete:
        return clock.intervals[-1].end if clock.intervals else None
    counted = 0.0
    for interval in clock.intervals:
        counted += interval.length
        if counted >= clock.least - SAME_TIME:
            return interval.end - (counted - clock.least)
    return clock.left


def went_cold(evidence: Evidence, clock: HoldClock) -> list[Stretch]:
    """The times between the pieces of a hold in which all went below where control ends."""
    cold = evidence.plan.control_end
    if cold is None:
        return []
    found = []
    for one in between(sorted([*clock.lost, *clock.intervals])):
        rows = evidence.highest[evidence.record.between(*one)]
        if np.any(rows <= cold):
            found.append(one)
    return found


def restarted(evidence: Evidence) -> float:
    """s. From when a hold may count: after the last power cut, where that restarts the cycle."""
    rule = evidence.plan.stated("power_loss")
    again = isinstance(rule, PowerLoss) and rule.action == RESTART
    return max((cut.end for cut in evidence.power_cuts if again), default=0.0)


def _joined(last: Held, span: Span) -> Held:
    times = [one for one in (last.least, span.least) if one is not None]
    spans = (*last.spans, span)
    stated = [one.longest for one in spans if one.longest is not None]
    others = [one.least or 0.0 for one in spans if one.longest is None]
    return last._replace(
        least=sum(times) if times else None,
        longest=sum(stated) + sum(others) if stated else None,
        spans=spans,
        open_ended=bool(stated and others),
    )


def _running(evidence: Evidence, hold: Held, width: float) -> list[Stretch]:
    lowest, highest = evidence.counting
    return inside(
        evidence.times,
        lowest,
        highest,
        hold.low + width,
        hold.high - width,
        evidence.longest_gap,
    )


def _counts_from(evidence: Evidence, hold: Held, begin: float) -> float:
    """From when a hold may count that goes by the controlling ones once all have been in range."""
    plan = evidence.plan
    if plan.counts_all or plan.counts_from(hold.spans[0]) != FROM_ALL:
        return begin
    everyone = inside(
        evidence.times,
        evidence.lowest,
        evidence.highest,
        hold.low,
        hold.high,
        evidence.longest_gap,
    )
    return next((max(one.start, begin) for one in everyone if one.end > begin), np.inf)


def _next(
    evidence: Evidence, hold: Held, later: list[Stretch], own: list[Stretch], begin: float
) -> float:
    """Where the next hold takes over: when all are in its range, after this one was reached and,
    where the program cools between, after the part was more than half way down."""
    reached = next((one.start for one in own if one.end > begin), None)
    if reached is None:
        return begin
    if hold.cooled is not None:
        half = (hold.cooled + hold.low) / 2
        with np.errstate(invalid="ignore"):
            cold = np.flatnonzero((evidence.highest <= half) & (evidence.times > reached))
        reached = float(evidence.times[cold[0]]) if len(cold) else evidence.record.end
    return next(
        (max(one.start, reached) for one in later if one.end > reached), evidence.record.end
    )


def _clock(evidence: Evidence, hold: Held, intervals: list[Stretch]) -> HoldClock:
    arrived = intervals[0].start if intervals else None
    left = intervals[-1].end if intervals else None
    last, worst = _named(evidence, hold, arrived, left)
    counted = counting(evidence, intervals, hold.least)
    return HoldClock(
        hold.low,
        hold.high,
        counted,
        total(counted),
        arrived,
        left,
        hold.least,
        hold.longest,
        last,
        worst,
        tuple(one for one in intervals if one not in counted),
    )


def _named(
    evidence: Evidence, hold: Held, arrived: float | None, left: float | None
) -> tuple[str, str]:
    """The one that alone came into range last, and the one out of it longest in between."""
    rows = [i for i, thermocouple in enumerate(evidence.required) if evidence.counts(thermocouple)]
    if not rows:
        return "", ""
    if arrived is None or left is None:
        tags = [evidence.required[i].tag for i in rows]
        return "", min(tags, key=lambda tag: evidence.peak(tag) or (-np.inf, 0.0))
    part = evidence.record.between(arrived, left)
    before = slice(0, max(part.start, 1))
    seen = evidence.values[rows, before]
    out_before = (seen < hold.low - SAME) | np.isnan(seen)
    lasts = [np.flatnonzero(flags)[-1] if flags.any() else -1 for flags in out_before]
    held_values = evidence.values[rows, part]
    out = ~((held_values >= hold.low - SAME) & (held_values <= hold.high + SAME))
    counts = out.sum(axis=1)
    latest = [row for row, at in zip(rows, lasts, strict=True) if at == max(lasts)]
    last = evidence.required[latest[0]].tag if len(latest) == 1 else ""
    worst = evidence.required[rows[int(np.argmax(counts))]].tag if counts.any() else ""
    return last, worst
