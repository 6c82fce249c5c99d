"""Where the course of a hold ends and that of the next begins, for each thermocouple.

What is at or above the foot of a hold is at its temperature, the overshoot too. Only where the
program holds again, hotter or as hot, is some of that time the time of another hold.
"""

from __future__ import annotations

import numpy as np

from hts.record.judging.evidence import Evidence
from hts.record.judging.hold_clocks import Held
from hts.record.judging.verdict import HoldClock, Stretch
from hts.record.record import Floats


def hold_course(
    evidence: Evidence, holds: tuple[Held, ...], clocks: list[HoldClock], index: int
) -> list[Stretch]:
    """The time that is the course of one hold, for each required thermocouple: from where it left
    the hold before to where it left for the next. Holds whose ranges cannot be told apart, with no
    cooling between, have one course together."""
    courses = []
    for values in evidence.values:
        start, end = 0.0, evidence.record.end
        for number in range(len(holds) - 1):
            border = _border(evidence, holds, clocks, number, values)
            if border is None:
                continue
            if number < index:
                start = max(start, border)
            else:
                end = min(end, border)
        courses.append(Stretch(start, max(start, end)))
    return courses


def _border(
    evidence: Evidence,
    holds: tuple[Held, ...],
    clocks: list[HoldClock],
    number: int,
    values: Floats,
) -> float | None:
    """s. When one thermocouple left a hold for the next; None where nothing tells them apart."""
    hold, following = holds[number], holds[number + 1]
    known = ~np.isnan(values)
    times, values = evidence.times[known], values[known]
    if not len(times):
        return None
    cooled = hold.cooled is not None and hold.cooled < min(hold.low, following.low)
    level = None if cooled else _between(hold, following)
    if not cooled and level is None:
        return None
    begun = clocks[number].arrived
    reached = next((one.arrived for one in clocks[number + 1 :] if one.arrived is not None), None)
    if reached is None and level is not None and following.low > hold.low:
        # Not all came into the next hold: this one left when it was more than half way there.
        half = (level + max(following.low, level)) / 2
        there = np.flatnonzero((values >= half) & (times >= (begun or 0.0)))
        reached = float(times[there[0]]) if len(there) else None
    until = int(
        np.searchsorted(times, evidence.record.end if reached is None else reached, "right")
    )
    if not until:
        return None
    if cooled:
        if reached is None:
            return None
        first = int(np.searchsorted(times, clocks[number].left or 0.0))
        if first >= until:
            return reached
        return float(times[first + int(np.argmin(values[first:until]))])
    assert level is not None
    if following.low > hold.low:
        under = np.flatnonzero(values[:until] <= level)
        return _crossed(times, values, int(under[-1]), level) if len(under) else 0.0
    above = np.flatnonzero(values[:until] >= max(hold.low, level))
    if not len(above):
        return 0.0
    down = np.flatnonzero(values[above[-1] :] <= level)
    if not len(down):
        return None
    return _crossed(times, values, int(above[-1] + down[0]) - 1, level)


def _between(hold: Held, following: Held) -> float | None:
    """degC that parts two holds: the edge of the one that is left, or of the one come down to.
    Ranges that overlap are parted half way between their middles, where neither range has the
    middle of the other in it."""
    low, high = sorted((hold, following), key=lambda one: one.low)
    if low.high <= high.low:
        return low.high
    middles = (low.low + low.high) / 2, (high.low + high.high) / 2
    if middles[0] < high.low and middles[1] > low.high:
        return sum(middles) / 2
    return None


def _crossed(times: Floats, values: Floats, row: int, level: float) -> float:
    """When the line from a row to the next passes a level; at the row where there is no next."""
    if row < 0 or row + 1 >= len(times):
        return float(times[max(row, 0)])
    one, other = float(values[row]), float(values[row + 1])
    if one == other:
        return float(times[row])
    part = min(1.0, max(0.0, (level - one) / (other - one)))
    return float(times[row] + part * (times[row + 1] - times[row]))
