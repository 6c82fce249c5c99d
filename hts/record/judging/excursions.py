"""The time outside the range of a hold against what is tolerated."""

from __future__ import annotations

import numpy as np

from hts.record.judging.evidence import Evidence
from hts.record.judging.hold_clocks import hold_end, interrupted
from hts.record.judging.stretches import below, total, touch, union, within
from hts.record.judging.temperatures import exceeding
from hts.record.judging.verdict import (
    MET,
    NOT_MET,
    NOT_SHOWN,
    SAME_TIME,
    Failure,
    HoldClock,
    Stretch,
    Verdict,
)
from hts.record.judging.words import time


def above_range(evidence: Evidence, top: float) -> list[Failure]:
    """Every time a thermocouple on the part was above the hottest hold range."""
    return exceeding(evidence, evidence.on_part, top, "the top of the range")


def below_range(evidence: Evidence, clock: HoldClock) -> list[Failure]:
    """Every time one the clock hangs on was below its range, from the arrival of all until the
    time asked for was complete; interruptions of the hold are no excursions."""
    end = hold_end(clock)
    if clock.arrived is None or end is None:
        return []
    words, found = evidence.words, []
    broken = interrupted(evidence, clock)
    held = evidence.record.between(clock.arrived, end)
    rows = held
    # A row either side, for the lines that lead in and out.
    rows = slice(max(rows.start - 1, 0), rows.stop + 1)
    for thermocouple, values in zip(evidence.required, evidence.values, strict=True):
        if (
            not evidence.counts(thermocouple)
            or not np.fmin.reduce(values[held], initial=np.inf) < clock.low
        ):
            continue
        cold = below(evidence.times[rows], values[rows], clock.low, evidence.longest_gap)
        for stretch in within(cold, clock.arrived, end):
            if stretch.start >= end or any(touch(stretch, thermocouple) for thermocouple in broken):
                continue
            lowest = float(np.nanmin(values[evidence.record.between(*stretch)], initial=np.inf))
            if lowest == np.inf:
                continue
            found.append(
                Failure(
                    (thermocouple.tag,),
                    stretch.start,
                    stretch.end,
                    f"{evidence.name(thermocouple.tag, stretch.start)} was down to "
                    f"{words.temperature(lowest, clock.low)}, range from "
                    f"{words.edge(clock.low)}, for {time(stretch.length)} from "
                    f"{evidence.clock(stretch.start)} to {evidence.clock(stretch.end)}",
                )
            )
    return found


def verdict(evidence: Evidence, clocks: list[HoldClock], high: list[Failure]) -> Verdict | None:
    """The time outside the hold range against what is tolerated; None where nothing is."""
    plan, words = evidence.plan, evidence.words
    each, whole = plan.excursion_each, plan.excursion_total
    if each is None and whole is None:
        return None
    low = [failure for clock in clocks for failure in below_range(evidence, clock)]
    found = [*low, *high]
    out = union(Stretch(one.start, one.end) for one in found)
    longest = max((one.length for one in out), default=0.0)
    lasted = total(out)
    too_long = each is not None and longest > each.value + SAME_TIME
    too_much = whole is not None and lasted > whole.value + SAME_TIME
    specified = [f"at most {words.limit(each.written)} each time"] if each is not None else []
    specified += [f"at most {words.limit(whole.written)} in total"] if whole is not None else []
    outcome, blanks = evidence.outcome(too_long or too_much, *_held(evidence, clocks))
    if outcome == MET and all(clock.arrived is None for clock in clocks):
        outcome = NOT_SHOWN
    bound = whole or each
    assert bound is not None
    actual = "none"
    if out:
        limit = whole.value if whole is not None else None
        actual = f"{time(lasted, limit)} in total, longest {time(longest)}"
    actual += blanks
    return Verdict(
        "time outside the hold range",
        plan.address,
        ", ".join(specified),
        actual,
        outcome,
        None,
        tuple(sorted(found, key=lambda one: one.start)) if outcome == NOT_MET else (),
        bound.why,
    )


def _held(evidence: Evidence, clocks: list[HoldClock]) -> Stretch:
    """From the first arrival in a range until the last hold was complete, or else to the end."""
    arrived = [clock.arrived for clock in clocks if clock.arrived is not None]
    start, end = evidence.controlled
    last = clocks[-1] if clocks else None
    if last is not None and last.left is not None and last.complete:
        end = last.left
    return Stretch(min(arrived, default=start), end)
