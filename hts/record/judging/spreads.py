"""Differences between thermocouples while heating and cooling, and during the hold."""

from __future__ import annotations

from functools import partial

import numpy as np

from hts.record.judging.evidence import Evidence
from hts.record.judging.excused import excused_times
from hts.record.judging.hold_clocks import went_cold
from hts.record.judging.stretches import Flags, Rows, beyond
from hts.record.judging.verdict import (
    NOT_SHOWN,
    SAME,
    Failure,
    HoldClock,
    Outcome,
    Text,
    Verdict,
)
from hts.record.judging.words import time
from hts.record.plan import Bound
from hts.record.record import Floats

HEATING, HOLDING = "spread while heating and cooling", "spread during the hold"


def verdicts(evidence: Evidence, clocks: list[HoldClock]) -> list[Verdict]:
    """A verdict on each spread that is limited."""
    plan = evidence.plan
    holding = _holding(evidence, clocks)
    found = []
    if plan.heating_spreads:
        ramping = np.zeros(len(evidence.times), dtype=np.bool_)
        ramping[evidence.record.between(*evidence.controlled)] = True
        ramping &= ~holding
        found += [_verdict(evidence, HEATING, each, ramping) for each in plan.heating_spreads]
    kept = _kept(evidence, clocks)
    found += [_verdict(evidence, HOLDING, each, holding, kept) for each in plan.holding_spreads]
    return found


def _verdict(
    evidence: Evidence, name: str, bound: Bound, during: Flags, whole: Flags | None = None
) -> Verdict:
    """`whole` is the time with what is excused in it: the true spread is told all the same."""
    plan = evidence.plan
    distance = float(bound.within.value) if bound.within is not None else None
    pairs = plan.pairs_within(distance)
    rows = np.flatnonzero(during)
    outcome: Outcome = NOT_SHOWN
    actual: Text = "no part of the record shows it"
    failures: tuple[Failure, ...] = ()
    if not pairs:
        actual = "no two required thermocouples are so near to each other"
    elif len(rows):
        spread, at = _widest(evidence, pairs, during)
        if at is not None:
            if spread[at] > bound.value + SAME:
                failures = _failures(evidence, spread, pairs, bound)
            first, last = float(evidence.times[rows[0]]), float(evidence.times[rows[-1]])
            outcome, blanks = evidence.outcome(bool(failures), first, last)
            actual = partial(_actual, evidence, pairs, bound, spread, at, during, whole, blanks)
    return Verdict(
        name,
        plan.address,
        partial(_specified, evidence, bound),
        actual,
        outcome,
        None,
        failures,
        bound.why,
    )


def _specified(evidence: Evidence, bound: Bound) -> str:
    words = evidence.words
    specified = f"at most {words.limit(bound.written)}"
    return specified if bound.within is None else f"{specified} within {words.limit(bound.within)}"


def _actual(
    evidence: Evidence,
    pairs: list[tuple[int, int]],
    bound: Bound,
    spread: Floats,
    at: int,
    during: Flags,
    whole: Flags | None,
    blanks: str,
) -> str:
    """The greatest spread, in row `at`."""
    words, when = evidence.words, float(evidence.times[at])
    hot, cold = (
        evidence.name(evidence.required[k].tag, when) for k in _pair(evidence.values, pairs, at)
    )
    actual = (
        f"{words.difference(float(spread[at]), bound.value)} ({hot} to {cold}) at "
        f"{evidence.clock(when)}{_by_zone(evidence, np.flatnonzero(during), bound)}"
    )
    if whole is not None and np.any(whole & ~during):
        most = float(np.fmax.reduce(_widest(evidence, pairs, whole & ~during)[0]))
        if not np.isnan(most):
            actual += f"; {words.difference(most)} while interrupted"
    return actual + blanks


def _widest(
    evidence: Evidence,
    pairs: list[tuple[int, int]],
    during: Flags,
) -> tuple[Floats, int | None]:
    """The greatest difference in each row (NaN outside `during`), and the row of the most."""
    values = evidence.values
    count = len(evidence.required)
    if len(pairs) == count * (count - 1) // 2:
        spread = evidence.spread
    else:
        spread = np.full(len(evidence.times), -np.inf)
        for i, j in pairs:
            np.fmax(spread, np.abs(values[i] - values[j]), out=spread)
        spread[np.isinf(spread)] = np.nan
    spread = np.where(during, spread, np.nan)
    most = np.fmax.reduce(spread)
    if np.isnan(most):
        return spread, None
    return spread, int(np.argmax(spread == most))


def _pair(values: Floats, pairs: list[tuple[int, int]], at: int) -> tuple[int, int]:
    """The pair that differs most in a row, the hotter first."""
    row = values[:, at].tolist()
    # What compares with nothing is no difference.
    i, j = max(pairs, key=lambda pair: max(-1.0, abs(row[pair[0]] - row[pair[1]])))
    return (i, j) if row[i] >= row[j] else (j, i)


def _failures(
    evidence: Evidence, spread: Floats, pairs: list[tuple[int, int]], bound: Bound
) -> tuple[Failure, ...]:
    words, found = evidence.words, []
    for stretch in beyond(evidence.times, spread, bound.value, evidence.longest_gap):
        part = evidence.record.between(*stretch)
        at = part.start + int(np.nanargmax(spread[part]))
        i, j = _pair(evidence.values, pairs, at)
        tags = (evidence.required[i].tag, evidence.required[j].tag)
        found.append(
            Failure(
                tags,
                stretch.start,
                stretch.end,
                f"{evidence.name(tags[0], stretch.start)} was up to "
                f"{words.difference(float(spread[at]), bound.value)} above "
                f"{evidence.name(tags[1], stretch.start)}, limit "
                f"{words.limit(bound.written)}, for {time(stretch.length)} from "
                f"{evidence.clock(stretch.start)} to {evidence.clock(stretch.end)}",
            )
        )
    return tuple(found)


def _by_zone(evidence: Evidence, rows: Rows, bound: Bound) -> str:
    """`; zone top 12.0 K, zone bottom 9.4 K`: the greatest difference inside each zone."""
    found = []
    for zone, inside in evidence.inside_zones.items():
        widest = float(np.fmax.reduce(inside[rows]))
        if not np.isnan(widest):
            found.append(f"zone {zone} {evidence.words.difference(widest, bound.value)}")
    return f"; {', '.join(found)}" if found else ""


def _kept(evidence: Evidence, clocks: list[HoldClock]) -> Flags:
    """From the arrival of all to the last moment in range."""
    flags: Flags = np.zeros(len(evidence.times), dtype=np.bool_)
    for clock in clocks:
        if clock.arrived is not None and clock.left is not None:
            flags[evidence.record.between(clock.arrived, clock.left)] = True
    return flags


def _holding(evidence: Evidence, clocks: list[HoldClock]) -> Flags:
    """The same without what a loss of power excuses, and without going cold in between."""
    flags = _kept(evidence, clocks)
    for clock in clocks:
        for one in (*excused_times(evidence, clock), *went_cold(evidence, clock)):
            flags[evidence.record.between(*one)] = False
    return flags
