"""The mean of several thermocouples in the hold, against the range the text gives it."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from hts.job.compiler.why import stated
from hts.language.vocabulary.allowances import MeanOfHold
from hts.record.judging.evidence import Evidence
from hts.record.judging.guard import Guard, guarded
from hts.record.judging.hold_clocks import counting
from hts.record.judging.stretches import beyond, inside, total, union, within
from hts.record.judging.verdict import (
    MET,
    NOT_MET,
    NOT_SHOWN,
    SAME_TIME,
    Failure,
    HoldClock,
    Outcome,
    Stretch,
    Verdict,
)
from hts.record.judging.words import time
from hts.record.plan import CONTROLS
from hts.record.record import Floats


def verdicts(evidence: Evidence, clocks: list[HoldClock], guard: Guard) -> list[Verdict]:
    """One for each mean the text asks for, in each hold its range has a part in; in the first
    where it has in none, for what is asked for is judged.

    The mean at each moment is to be in its range for as long as the hold is asked to last, while
    each thermocouple is in that of the hold; and it is never above.
    """
    found = []
    for mean in evidence.plan.means:
        low, high = _ends(mean)
        its = [clock for clock in clocks if low < clock.high and high > clock.low]
        found += [_one(evidence, mean, clock, guard) for clock in its or clocks[:1]]
    return found


def _ends(mean: MeanOfHold) -> tuple[float, float]:
    """degC."""
    low, high = mean.ends
    return float(low.value), float(high.value)


def _one(evidence: Evidence, mean: MeanOfHold, clock: HoldClock, guard: Guard) -> Verdict:
    words = evidence.words
    low, high = _ends(mean)
    values = _mean(evidence, mean.of or "all")
    lasted = _lasting(evidence, values, clock, low, high)
    least = clock.least or 0.0
    specified = f"mean of {mean.of} in {words.range(mean.range)}"
    if clock.least is not None:
        specified += f" for at least {time(clock.least)}"
    hot = [
        _above(evidence, mean, values, one)
        for one in beyond(evidence.times, values, high, evidence.longest_gap)
    ]
    outcome: Outcome = MET
    actual = "never in range together"
    failures = list(hot)
    if clock.arrived is None or clock.left is None:
        outcome = NOT_SHOWN
    else:
        actual = f"{time(lasted, clock.least)}{_extremes(evidence, values, clock)}"
        if lasted < least - SAME_TIME:
            # The time without readings could make up for what lacks.
            blind = within(evidence.blanks, clock.arrived, clock.left)
            could_be = _lasting(evidence, values, clock, low, high, blind)
            outcome = NOT_SHOWN if blind and could_be >= least - SAME_TIME else NOT_MET
            sentence = (
                f"the mean of {mean.of} was in {words.range(mean.range)} for "
                f"{time(lasted, clock.least)} of {time(least)}"
            )
            failures.append(Failure((), clock.arrived, clock.left, sentence))
    if hot:
        outcome = NOT_MET
    width = guard.width
    drawn = _lasting(evidence, values, clock, low + width, high - width) >= least - SAME_TIME
    return Verdict(
        f"mean of the hold, {mean.of}",
        evidence.plan.address,
        specified,
        actual,
        outcome,
        guarded(guard, outcome, drawn),
        tuple(failures) if outcome != MET else (),
        stated(mean, "range", str(mean.range)),
    )


def _mean(evidence: Evidence, of: str) -> Floats:
    """The mean in each row [rows], degC, NaN where one of them is not known."""
    if of == "highest and lowest":
        return np.asarray((evidence.highest + evidence.lowest) / 2)
    rows = [
        number
        for number, thermocouple in enumerate(evidence.required)
        if of == "all" or thermocouple.duty == CONTROLS
    ]
    if not rows:
        return np.full(len(evidence.times), np.nan)
    return np.asarray(np.mean(evidence.values[rows], axis=0))


def _lasting(
    evidence: Evidence,
    values: Floats,
    clock: HoldClock,
    low: float,
    high: float,
    blind: Iterable[Stretch] = (),
) -> float:
    """s for which the mean was in its range while each was in that of the hold, or no reading says
    that it was not."""
    good = inside(evidence.times, values, values, low, high, evidence.longest_gap)
    held = sorted([*clock.intervals, *clock.lost])
    pieces = [part for one in held for part in within(good, one.start, one.end) if part.length > 0]
    return total(counting(evidence, union([*pieces, *blind]), clock.least))


def _extremes(evidence: Evidence, values: Floats, clock: HoldClock) -> str:
    """`, between 698.2 and 704.0 degC` while the hold counted."""
    parts = [values[evidence.record.between(*one)] for one in clock.intervals]
    known = np.concatenate(parts) if parts else np.empty(0)
    known = known[~np.isnan(known)]
    if not len(known):
        return ""
    low, high = (evidence.words.temperature(float(v)) for v in (known.min(), known.max()))
    return f"; between {low} and {high}"


def _above(evidence: Evidence, mean: MeanOfHold, values: Floats, when: Stretch) -> Failure:
    words = evidence.words
    part = evidence.record.between(*when)
    top = _ends(mean)[1]
    most = float(np.nanmax(values[part], initial=-np.inf))
    sentence = (
        f"the mean of {mean.of} was up to {words.temperature(most, top)}, at most "
        f"{words.edge(top)}, for {time(when.length)} from {evidence.clock(when.start)} to "
        f"{evidence.clock(when.end)}"
    )
    return Failure((), when.start, when.end, sentence)
