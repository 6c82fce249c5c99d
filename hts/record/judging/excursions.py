"""The time outside the range of a hold against what is tolerated: none, where nothing is said."""

from __future__ import annotations

import numpy as np

from hts.job.compiler.program import PREHEAT
from hts.job.compiler.why import practice
from hts.record.judging.evidence import Evidence
from hts.record.judging.excused import excused
from hts.record.judging.hold_clocks import hold_end
from hts.record.judging.stretches import below, total, union, within, without
from hts.record.judging.temperatures import exceeding, on_part_above
from hts.record.judging.verdict import (
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
    """Every time a thermocouple on the part was above the hottest hold range; one in doubt proves
    nothing."""
    found = on_part_above(evidence, top, "the top of the range")
    return [failure for failure in found if not evidence.doubtful.intersection(failure.tags)]


def above_its_own(evidence: Evidence, clock: HoldClock, went_on: bool) -> list[Failure]:
    """Every time a required thermocouple was above the range of a hold that is not the hottest,
    and all came back into it: what goes on to the next step only leaves it. Where none went on to
    that, what comes back may be the cooling."""
    end = clock.left if went_on else hold_end(clock)
    if clock.since is None or end is None:
        return []
    during = Stretch(clock.since, end)
    found = exceeding(evidence, evidence.required, clock.high, "the top of the range", during)
    return [
        failure
        for failure in found
        if failure.end - failure.start > SAME_TIME
        and not evidence.doubtful.intersection(failure.tags)
    ]


def below_range(evidence: Evidence, clock: HoldClock) -> tuple[list[Failure], list[Stretch]]:
    """Every time a required one was below the range, from when the pieces that count began until
    the time asked for was complete; and apart from those the times that a loss of power excuses.
    One the clock does not hang on may come into the range late, but has to come."""
    end = hold_end(clock)
    if clock.since is None or end is None:
        return [], []
    words, found, forgiven = evidence.words, [], []
    held = evidence.record.between(clock.since, end)
    rows = held
    # A row either side, for the lines that lead in and out.
    rows = slice(max(rows.start - 1, 0), rows.stop + 1)
    allowed = excused(evidence, clock)
    for thermocouple, values, free in zip(evidence.required, evidence.values, allowed, strict=True):
        if not np.fmin.reduce(values[held], initial=np.inf) < clock.low:
            continue
        cold = below(evidence.times[rows], values[rows], clock.low, evidence.longest_gap)
        # The ways in and out end and begin just there, as near as floating point tells.
        cold = [one for one in cold if one.end > clock.since + SAME_TIME]
        cold = [one for one in within(cold, clock.since, end) if one.start < end - SAME_TIME]
        if not evidence.counts(thermocouple):
            cold = [one for one in cold if one.start > clock.since or one.end >= end - SAME_TIME]
        forgiven += [part for stretch in cold for part in within(free, *stretch)]
        for stretch in without(cold, free):
            lowest = float(np.nanmin(values[evidence.record.between(*stretch)], initial=np.inf))
            if lowest == np.inf:
                ends = np.interp(stretch, evidence.times[rows], values[rows])
                lowest = float(np.nanmin(ends)) if not np.isnan(ends).all() else np.inf
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
    return found, union(forgiven)


def verdict(evidence: Evidence, clocks: list[HoldClock], high: list[Failure]) -> Verdict | None:
    """The time outside the hold range against what is tolerated; None where there is no hold."""
    plan, words = evidence.plan, evidence.words
    each, whole = plan.excursion_each, plan.excursion_total
    if not clocks or (each is None and whole is None and plan.kind == PREHEAT):
        return None
    found: list[Failure] = list(high)
    forgiven: list[Stretch] = []
    top = max(clock.high for clock in clocks)
    for number, clock in enumerate(clocks):
        went_on = all(later.arrived is not None for later in clocks[number + 1 :])
        found += above_its_own(evidence, clock, went_on) if clock.high < top else []
        more, excuses = below_range(evidence, clock)
        found += more
        forgiven += excuses
    out = union(Stretch(one.start, one.end) for one in found)
    longest = max((one.length for one in out), default=0.0)
    lasted = total(out)
    too_long = each is not None and longest > each.value + SAME_TIME
    too_much = whole is not None and lasted > whole.value + SAME_TIME
    if each is None and whole is None:
        too_much = bool(found)
    specified = [f"at most {words.limit(each.written)} each time"] if each is not None else []
    specified += [f"at most {words.limit(whole.written)} in total"] if whole is not None else []
    outcome, blanks = evidence.outcome(too_long or too_much, *_held(evidence, clocks))
    if outcome != NOT_MET and all(clock.arrived is None for clock in clocks):
        outcome = NOT_SHOWN
    bound = whole or each
    actual = "none"
    if out:
        total_limit, each_limit = (one.value if one is not None else 0.0 for one in (whole, each))
        actual = f"{time(lasted, total_limit)} in total, longest {time(longest, each_limit)}"
    if forgiven:
        actual += f"; {time(total(union(forgiven)))} more below it by loss of power"
    actual += blanks
    return Verdict(
        "time outside the hold range",
        plan.address,
        ", ".join(specified) or "none: no excursion is allowed for",
        actual,
        outcome,
        None,
        tuple(sorted(found, key=lambda one: one.start)) if outcome == NOT_MET else (),
        bound.why if bound is not None else practice("0", "assumed: the specification allows none"),
    )


def _held(evidence: Evidence, clocks: list[HoldClock]) -> Stretch:
    """From the first arrival in a range until the last hold was complete, or else to the end."""
    arrived = [clock.arrived for clock in clocks if clock.arrived is not None]
    start, end = evidence.controlled
    last = clocks[-1] if clocks else None
    if last is not None and last.left is not None and last.complete:
        end = last.left
    return Stretch(min(arrived, default=start), end)
