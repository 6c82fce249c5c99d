"""The clock of the recorder was set during the run."""

from __future__ import annotations

import numpy as np

from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import CLOCK_JUMP, HIGH, KEPT, LOW
from hts.record.faults.signals import Chain, Signals
from hts.record.record import Gap, duration

#: s. Clocks are changed by whole half-hours when it is for the zone or the season.
#: Basis: practice, ours.
_HALF_HOUR = 1800.0
#: K a part must have gone in a gap for its readings to tell that there was none. Basis: practice.
_TELLS = 20.0
#: Part of that which it went, at most, when only the clock moved. Basis: practice, no source.
_WENT = 0.35
#: K against the course before and after from which the part did something else in the gap, as
#: without power: a clock that is set moves no metal. Basis: practice, ours.
_AGAINST = 5.0


def clock_jumps(signals: Signals) -> list[Fault]:
    """Times the clock was set back, which the reader has followed, and set forward."""
    record = signals.record
    found = [
        _fault(jump.at, jump.at, f"the clock is set back by {duration(-jump.by)}", HIGH)
        for jump in record.jumps
    ]
    for gap in record.gaps:
        one = _forward(signals, gap)
        if one is not None:
            found.append(one)
    return found


def _forward(signals: Signals, gap: Gap) -> Fault | None:
    length = gap.end - gap.start
    row = int(np.searchsorted(signals.elapsed, gap.end))
    usual = signals.record.interval
    whole = round((length - usual) / _HALF_HOUR)
    exact = whole > 0 and abs(length - usual - whole * _HALF_HOUR) <= max(1.0, 0.6 * usual)
    moves = [
        move for move in (_move(signals, chain, row) for chain in signals.chains.values()) if move
    ]
    if moves and float(np.median([-went * np.sign(due) for due, went in moves])) >= _AGAINST:
        return None
    ratios = [went / due for due, went in moves if abs(due) >= _TELLS]
    tells = len(ratios) * 2 > len(moves)
    ahead = f"the clock goes ahead by {duration(length - usual)}"
    if tells and float(np.median(ratios)) <= _WENT:
        due = float(np.median([abs(due) for due, _ in moves]))
        went = float(np.median([abs(went) for _, went in moves]))
        sentence = f"{ahead} while readings go on by {signals.kelvin(went)}, where "
        sentence += f"{signals.kelvin(due)} were due"
        return _fault(gap.start, gap.end, sentence, HIGH)
    if exact and not tells:
        return _fault(gap.start, gap.end, f"{ahead}, to the interval; readings do not tell", LOW)
    return None


def _move(signals: Signals, chain: Chain, row: int) -> tuple[float, float] | None:
    """K due over the gap by the slopes before and after it, and K gone; None where not known."""
    before, after = slice(max(0, row - 12), row), slice(row, row + 12)
    slopes = []
    for side in (before, after):
        times, values = signals.elapsed[side], chain.values[side]
        good = np.isfinite(values)
        if good.sum() < 5:
            return None
        slopes.append(float(np.polyfit(times[good] - times[good][0], values[good], 1)[0]))
    last = chain.values[before][np.isfinite(chain.values[before])][-1]
    first = chain.values[after][np.isfinite(chain.values[after])][0]
    if slopes[0] * slopes[1] <= 0:
        return None
    smaller = min(slopes, key=abs)
    due = smaller * float(signals.elapsed[row] - signals.elapsed[row - 1])
    return due, float(first - last)


def _fault(start: float, end: float, sentence: str, confidence: str) -> Fault:
    return Fault(CLOCK_JUMP.name, "", (), start, end, sentence, confidence, KEPT)
