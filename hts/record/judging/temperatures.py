"""Temperatures against their limits: the hold range, critical temperatures, things nearby."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from hts.base.quantities import Quantity
from hts.job.compiler.why import stated
from hts.job.demands.critical import Margin
from hts.language.vocabulary.joint import Nearby
from hts.record.judging.evidence import Evidence
from hts.record.judging.guard import Guard, guarded
from hts.record.judging.stretches import beyond, total, union, within
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
from hts.record.plan import Watched

_DOUBT = "; which of two is wrong is not known"


def highest(
    evidence: Evidence, clocks: list[HoldClock], high: list[Failure], guard: Guard
) -> Verdict | None:
    """The highest reading of the run against the top of the hottest range."""
    if not clocks:
        return None
    plan, words = evidence.plan, evidence.words
    top = max(clock.high for clock in clocks)
    span = next(span for span in plan.holds if span.high == top)
    assert span.step.window is not None and span.step.window.high is not None
    peak = evidence.top
    actual = "no reading"
    outcome: Outcome = NOT_SHOWN
    failures: tuple[Failure, ...] = ()
    specified = f"at most {words.limit(span.step.window.high)}"
    if peak is not None:
        actual = _peak_words(evidence, peak, top)
        above = union(Stretch(one.start, one.end) for one in high)
        lasted, longest = total(above), max((one.length for one in above), default=0.0)
        each, whole = plan.excursion_each, plan.excursion_total
        too_hot = bool(high) and (
            (each is None and whole is None)
            or (each is not None and longest > each.value + SAME_TIME)
            or (whole is not None and lasted > whole.value + SAME_TIME)
        )
        outcome, blanks = evidence.outcome(too_hot, *evidence.controlled)
        failures = tuple(high) if too_hot else ()
        if high and not too_hot:
            actual += f", above for {time(lasted)}, within the allowance"
        if outcome == MET and peak[0] > top + SAME and not high:
            outcome = NOT_SHOWN
            actual += _DOUBT
        actual += blanks
    alarm = span.step.alarm_high
    if peak is not None and alarm is not None and peak[0] > float(alarm.value) + SAME:
        actual += f"; above the alarm {words.limit(alarm)}"
    why = span.step.window_why[-1] if span.step.window_why else None
    return Verdict(
        "highest temperature",
        plan.address,
        specified,
        actual,
        outcome,
        guarded(guard, outcome, peak is not None and peak[0] <= top - guard.width + SAME),
        failures,
        why,
    )


def critical(evidence: Evidence, guard: Guard) -> list[Verdict]:
    """The highest reading against the lower critical and the tempering temperature of each side,
    less the margin kept from them."""
    return [_critical(evidence, guard, one) for one in evidence.plan.margins]


def _critical(evidence: Evidence, guard: Guard, margin: Margin) -> Verdict:
    words = evidence.words

    def specified() -> str:
        shown = f"at most {words.limit(margin.limit)}"
        if margin.kept is None:
            return shown
        return f"{shown}, {words.limit(margin.kept)} below {words.limit(margin.figure)}"

    bound = float(margin.limit.value)
    peak = evidence.top
    failures = on_part_above(evidence, bound, f"the limit by {margin.name}")
    sound = [one for one in failures if not evidence.doubtful.intersection(one.tags)]
    outcome, blanks = evidence.outcome(bool(sound), *evidence.controlled)
    more = blanks
    if peak is None:
        outcome = NOT_SHOWN
    elif failures and not sound:
        outcome = NOT_SHOWN
        more += _DOUBT
    return Verdict(
        f"margin below {margin.name}",
        evidence.plan.address,
        specified,
        "no reading" if peak is None else lambda: _peak_words(evidence, peak, bound) + more,
        outcome,
        guarded(guard, outcome, peak is not None and peak[0] <= bound - guard.width + SAME),
        tuple(failures),
        margin.why,
    )


def nearby(evidence: Evidence) -> list[Verdict]:
    """What is close by and may not get as hot."""
    return [
        _nearby(evidence, item, item.at_most)
        for item in evidence.plan.sheet.joint.entry.nearby
        if item.at_most is not None and not item.removed
    ]


def _nearby(evidence: Evidence, item: Nearby, at_most: Quantity) -> Verdict:
    words, limit = evidence.words, float(at_most.value)
    watching = evidence.plan.watching(item)
    known = [
        thermocouple for thermocouple in watching if thermocouple.tag in evidence.record.series
    ]
    peak = evidence.highest_of(known)
    name = item.what if not watching else f"{item.what} ({', '.join(o.tag for o in watching)})"
    if peak is None:
        actual = "nothing recorded watches it" if not watching else "no reading"
        outcome: Outcome = NOT_SHOWN
        failures: list[Failure] = []
    else:
        failures = exceeding(evidence, known, limit, f"the limit for {item.what}")
        actual = _peak_words(evidence, peak, limit)
        blind = [gap for one in known for gap in evidence.missing(one.tag)]
        outcome = NOT_MET if failures else NOT_SHOWN if blind else MET
        if blind and not failures:
            actual += f"; no reading for {time(total(union(blind)))}"
        doubt = evidence.doubt_of(one.tag for one in known)
        outcome = NOT_SHOWN if doubt else outcome
        actual += doubt
    return Verdict(
        f"temperature of {name}",
        evidence.plan.joint,
        f"at most {words.limit(at_most)}",
        actual,
        outcome,
        None,
        tuple(failures),
        stated(item, "at_most", f"at most {at_most}"),
    )


def on_part_above(evidence: Evidence, limit: float, what: str) -> list[Failure]:
    """Every time one on the part was above a limit; `what` says what the limit is."""
    if evidence.top is None or evidence.top[0] <= limit + SAME:
        return []
    return exceeding(evidence, evidence.on_part, limit, what)


def exceeding(
    evidence: Evidence,
    ones: Iterable[Watched],
    limit: float,
    what: str,
    during: Stretch | None = None,
) -> list[Failure]:
    """Every time one of them was above a limit; `what` says what the limit is, and `during` when it
    holds, always where that is not given."""
    words, found = evidence.words, []
    for one in ones:
        peak = evidence.peak(one.tag)
        if peak is None or peak[0] <= limit + SAME:
            continue
        values = evidence.of(one.tag)
        hot = beyond(evidence.times, values, limit, evidence.longest_gap)
        for stretch in hot if during is None else within(hot, *during):
            part = evidence.record.between(*stretch)
            most = float(np.nanmax(values[part], initial=-np.inf))
            found.append(
                Failure(
                    (one.tag,),
                    stretch.start,
                    stretch.end,
                    f"{evidence.name(one.tag, stretch.start)} was up to "
                    f"{words.temperature(most, limit)}, {what} is {words.edge(limit)}, "
                    f"for {time(stretch.length)} from {evidence.clock(stretch.start)} "
                    f"to {evidence.clock(stretch.end)}",
                )
            )
    return sorted(found, key=lambda failure: failure.start)


def _peak_words(evidence: Evidence, peak: tuple[float, str, float], limit: float) -> str:
    value, tag, at = peak
    shown = evidence.words.temperature(value, limit)
    return f"{shown} ({evidence.name(tag, at)}) at {evidence.clock(at)}"
