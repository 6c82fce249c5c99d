"""The clock of the recorder was set during the run, or runs at another rate than what it counts."""

from __future__ import annotations

import numpy as np

from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import CLOCK_JUMP, CLOCK_RATE, HIGH, KEPT, LOW
from hts.record.faults.signals import Chain, Mask, Signals, runs
from hts.record.faults.stack import Stack
from hts.record.judging.words import time
from hts.record.reading.stamps import COUNTS
from hts.record.record import Floats, Gap, Series, duration

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

#: s in the units that a time is counted in; where a column states none it may be any of these.
_SECONDS = {"s": 1.0, "sec": 1.0, "ms": 0.001, "min": 60.0, "h": 3600.0, "hr": 3600.0, "d": 86400.0}
#: Part by which a clock and a count may pass at two rates, and s by which they must be apart at the
#: end: one that counts rows by their nominal interval is off by less. Quartz is right to 1e-4.
#: Basis: practice, no source.
_RATE, _APART = 0.005, 60.0
#: Rates beyond which a column counts something else; part of what they are apart that they may be
#: off an even rate, and intervals: a count that stands still in a gap is no slow one. Readings it
#: takes. Basis: practice, ours.
_ANY_RATE, _EVEN, _INTERVALS, _ENOUGH = (0.8, 1.25), 0.1, 2.0, 20
#: Rows over which the time from row to row is taken, to within which part recorders keep it, times
#: it must be another for and s, to within how many s of their middle whole seconds lie (derived),
#: and part of the rows that must. Basis: practice, ours.
_ROWS, _KEEPS, _OTHER, _LASTS, _WHOLE, _MOST = 10, 0.02, 3, 600.0, 1.0, 0.95
#: K that the part may be apart where the time from row to row changes and changes back.
#: Basis: practice, ours.
_HELD = 15.0
#: s that recorders can be set to: what divides a minute, and whole minutes. Basis: practice.
_MINUTE = 60.0


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


def clock_rate(signals: Signals) -> list[Fault]:
    """The clock of the file and a time counted beside it pass at two rates: the one or the other
    is wrong, and with it every time and rate."""
    found = []
    for column in signals.record.unmapped.values():
        if column.column.casefold() in COUNTS:
            told = _apart(signals, column)
            if told:
                found.append(_rate(0.0, signals.record.end, told))
    return found


def _rate(start: float, end: float, told: str) -> Fault:
    return Fault(CLOCK_RATE.name, "", (), start, end, told, HIGH, KEPT)


def clock_stretched(signals: Signals) -> list[Fault]:
    """Rows stand apart by one time throughout, but for a part of a hold: there by one that no
    recorder can be set to. Their times were worked out, and how long the hold was with them."""
    usual, elapsed = signals.record.interval, signals.elapsed
    if len(elapsed) < _OTHER * _ROWS:
        return []
    apart = np.diff(elapsed)
    other = np.abs(apart - usual) > _KEEPS * usual
    if np.count_nonzero(other) < _ROWS:
        return []
    mean = (elapsed[_ROWS:] - elapsed[:-_ROWS]) / _ROWS
    found = []
    for first, last in runs(np.abs(mean - usual) > _KEEPS * usual, (_OTHER - 1) * _ROWS):
        # The means at both ends are of rows on either side.
        rows = np.flatnonzero(other[first : last + _ROWS]) + first
        begin, end = int(rows[0]), int(rows[-1]) + 1
        sides = apart[max(0, begin - _ROWS) : begin], apart[end : end + _ROWS]
        if not all(len(side) == _ROWS and np.ptp(side) <= _KEEPS * usual for side in sides):
            continue
        lasts = float(elapsed[end] - elapsed[begin])
        its = apart[begin:end]
        # All but the rows at which it changes.
        whole = np.abs(its - np.median(its)) <= _WHOLE
        each = float(its[whole].mean())
        if lasts < _LASTS or whole.mean() < _MOST or _may_be_set(each, _WHOLE / (end - begin)):
            continue
        with np.errstate(invalid="ignore"):
            went = np.abs(signals.matrix.values[:, end] - signals.matrix.values[:, begin])
        if not float(np.nanmedian(went)) <= _HELD:
            continue
        told = (
            f"rows stand {usual:g} s apart, but {each:.4g} s from "
            f"{signals.record.clock(float(elapsed[begin]))} to "
            f"{signals.record.clock(float(elapsed[end]))}, in the midst of a hold"
        )
        found.append(_rate(float(elapsed[begin]), float(elapsed[end]), told))
    return found


def may_be_stretched(stack: Stack) -> Mask:
    """All or none: records of a stack are read at the same times."""
    return np.full(len(stack), bool(clock_stretched(stack.like)))


def _may_be_set(seconds: float, within: float) -> bool:
    """Whether a recorder can be set to read so often, to `within` s."""
    minute = _MINUTE * max(1, round(seconds / _MINUTE)) / max(1, round(_MINUTE / seconds))
    return abs(seconds - minute) <= within


def _apart(signals: Signals, column: Series) -> str:
    """What a column counts and how long it is by the clock; "" where both pass at one rate, or it
    counts something else."""
    known = np.isfinite(column.values)
    if np.count_nonzero(known) < _ENOUGH:
        return ""
    clock = signals.elapsed[known] - signals.elapsed[known][0]
    counts = column.values[known] - column.values[known][0]
    unit = _SECONDS.get(column.unit.strip("[]() .").casefold())
    fitting = [
        second
        for second in ([unit] if unit else _SECONDS.values())
        if _ANY_RATE[0] <= float(counts[-1]) * second / float(clock[-1]) <= _ANY_RATE[1]
    ]
    if not fitting:
        return ""
    counted = counts * fitting[0]
    rate = float(counted[-1] / clock[-1])
    apart = abs(float(counted[-1] - clock[-1]))
    if apart < max(_APART, _RATE * float(clock[-1]), _INTERVALS * signals.record.interval):
        return ""
    if not _even(counted - rate * clock, apart, signals.record.interval):
        return ""
    return (
        f"the clock goes on by {time(float(clock[-1]))} while {column.column} counts "
        f"{time(float(counted[-1]))}, the farther apart the longer it runs: one of them is "
        f"{abs(1 - rate):.1%} off"
    )


def _even(off: Floats, apart: float, interval: float) -> bool:
    return float(np.max(np.abs(off))) <= max(_EVEN * apart, _INTERVALS * interval)
