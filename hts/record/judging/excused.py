"""What a loss of power excuses: the time it was really off, and the way back that is allowed.

Only what it explains: a thermocouple that was out of range before, one that goes on falling when
the power is back, and all that is out of range after the time a way back takes, are not excused.
"""

from __future__ import annotations

import numpy as np

from hts.record.judging.evidence import Evidence
from hts.record.judging.limits import limit_at, pieces
from hts.record.judging.stretches import union
from hts.record.judging.verdict import SAME, HoldClock, Stretch
from hts.record.plan import HEAT
from hts.record.record import Floats

_HOUR = 3600.0
#: The way back may take so many times what it takes at the rate allowed, and as long more, s, as
#: the power was off, until controllers have settled, this at most. Basis: practice, no source.
_SLOWER, _SETTLES = 2.0, 600.0
#: K/h for the way back where no rate is limited. Basis: practice, no source.
_FREE = 100.0
#: K that the hottest of the part must have fallen by for the power to have been off, and how long,
#: s, it may be off without that. Basis: practice: a lagged part at 600 degC loses 50 K/h and more.
_FALLS, _BRIEF = 3.0, 600.0
#: A place may lose so many times what the hottest one loses, and a few K anyway; more is not the
#: power alone. Basis: practice, no source.
_FASTER, _ANYWAY = 3.0, 5.0


def excused(evidence: Evidence, clock: HoldClock) -> list[list[Stretch]]:
    """For each required thermocouple the times it may be below the range of a hold."""
    found: list[list[Stretch]] = [[] for _ in evidence.required]
    for cut in evidence.power_cuts:
        off = really_off(evidence, cut)
        most = max(_ANYWAY, _FASTER * _fall(evidence, off))
        for mine, values in zip(found, evidence.values, strict=True):
            on_its_way = bool(mine) and mine[-1].end >= off.start
            one = _of(evidence, values, off, clock.low, most, on_its_way)
            if one is not None:
                mine.append(one)
    return [union(one) for one in found] if evidence.power_cuts else found


def excused_times(evidence: Evidence, clock: HoldClock) -> list[Stretch]:
    """The times any of the thermocouples is excused."""
    return union(one for all_of in excused(evidence, clock) for one in all_of)


def really_off(evidence: Evidence, cut: Stretch) -> Stretch:
    """The part of a noted loss of power in which the whole part cooled, as it does without."""
    rows = evidence.record.between(*cut)
    hottest = np.fmax.reduce(evidence.values[:, rows], initial=-np.inf)
    known = np.flatnonzero(np.isfinite(hottest))
    if len(known) < 2:
        return Stretch(cut.start, min(cut.end, cut.start + _BRIEF))
    lowest = int(known[np.argmin(hottest[known])])
    if hottest[known[0]] - hottest[lowest] < _FALLS:
        return Stretch(cut.start, min(cut.end, cut.start + _BRIEF))
    fell_until = float(evidence.times[rows][lowest]) + 2 * evidence.record.interval
    return Stretch(cut.start, min(cut.end, fell_until))


def _fall(evidence: Evidence, off: Stretch) -> float:
    """K, by how much the hottest fell meanwhile."""
    rows = evidence.record.between(*off)
    hottest = np.fmax.reduce(evidence.values[:, rows], initial=-np.inf)
    known = hottest[np.isfinite(hottest)]
    return max(0.0, float(known[0] - known[-1])) if len(known) else 0.0


def _of(
    evidence: Evidence, values: Floats, off: Stretch, low: float, most: float, on_its_way: bool
) -> Stretch | None:
    """`most` K is what a loss of power explains."""
    known = ~np.isnan(values)
    if not known.any():
        return None
    times = evidence.times[known]
    before, after = np.interp((off.start, off.end), times, values[known])
    if before < low - SAME and not on_its_way:
        return None  # cold before the power was lost
    depth = max(0.0, low - max(float(after), float(before) - most))
    if not depth:
        return off
    limits = pieces(evidence.plan, HEAT)
    rate = limit_at(limits, low).limit if limits else _FREE
    settling = min(_SETTLES, off.length)
    return Stretch(off.start, off.end + _SLOWER * depth / rate * _HOUR + settling)
