"""A thermocouple that for a time runs on a straight line to the last digit, away from the others
and back to them: a line drawn between two readings, in place of those between.

Where all have lines so, that is told by the noise (hts.record.faults.filled_in). Metal that goes
its own way does not leave the others at a corner and come back to them on a line.
"""

from __future__ import annotations

import numpy as np

from hts.record.faults.fault import Fault, fault
from hts.record.faults.fault_kinds import FILLED_IN, HIGH, LEFT_OUT
from hts.record.faults.signals import Chain, Mask, Signals
from hts.record.faults.stack import Stack, in_any, lasting
from hts.record.judging.words import time
from hts.record.record import Floats

#: Coarse rows of the lines that are looked for. Basis: practice, ours.
_LENGTHS = (16, 32, 64)
#: K, and last digits, by which the others must leave a line from one end of it to the other.
#: Basis: practice, no source.
_LEAVE, _DIGITS = 6.0, 5.0
#: K, and last digits, that a line rises or falls by: one that is level is told by what stands
#: still. Basis: practice, no source.
_SLOPES = 8.0
#: Last digits that readings may be off a line fitted to them (derived: they are rounded by a half),
#: and how many rows and s it takes.
_OFF, _ROWS, _LASTS = 0.75, 12, 900.0
#: The part of what it is off by at the most, that it may be off by at its ends, and from which it
#: is on one side of the others; how often it may go from side to side: where zones hunt one goes
#: to and fro. Basis: practice, no source.
_BACK, _ASIDE, _SIDES = 0.35, 0.2, 2
#: The part of what it is off by at the most, and last digits, from which it has left them, and the
#: part of the line in which it does, from either end. Basis: practice, no source.
_LEFT, _LEFT_DIGITS, _SOON = 0.1, 1.5, 0.25
#: The same part, by which it may draw apart in a quarter of that time before and after.
#: Basis: practice, no source.
_KEEPS = 0.25
#: K, and part, put down to floats.
_BY_ROUNDING = 1e-6


def drawn_in(signals: Signals) -> list[Fault]:
    """One fault for each thermocouple with such a line, the longest."""
    held = [one for one in signals.chains.values() if one.held and one.resolution]
    held = [one for one in held if not signals.explained(one.tag)]
    if len(held) < 2:
        return []
    looked_at = _may_run_straight(signals, held)
    if not looked_at:
        return []
    middles = signals.middles(held)
    sampled, around = (its[looked_at] for its in (middles.courses, middles.without_each))
    held = [held[at] for at in looked_at]
    digits = np.array([one.resolution for one in held])
    times = signals.elapsed[signals.coarse]
    found = []
    suspects: dict[int, list[tuple[int, int]]] = {}
    for length in _LENGTHS:
        if length >= len(times):
            break
        own, others = (_bows(its, times, length) for its in (sampled, around))
        with np.errstate(invalid="ignore"):
            straight = np.abs(own) <= 1.5 * digits[:, None]
            bent = np.abs(others) >= np.maximum(_LEAVE, _DIGITS * digits)[:, None] / 2
        may = straight & bent
        for at in np.flatnonzero(may.any(axis=1)).tolist():
            best = int(np.argmax(np.where(may[at], np.abs(others[at]), 0.0)))
            suspects.setdefault(at, []).append((best, best + length))
    for at, windows in suspects.items():
        lines = (_of(signals, held[at], around[at], *window) for window in reversed(windows))
        found += [line for line in lines if line is not None][:1]
    return found


def _may_run_straight(signals: Signals, chains: list[Chain]) -> list[int]:
    """Which of them are ever as straight from row to row as a line is, for as long as the shortest
    that is looked for, all looked at together."""
    least = _least_rows(signals)
    if least is None:
        return list(range(len(chains)))
    digits = np.array([one.resolution for one in chains])
    bends = np.abs(signals.rows(signals.matrix.bends, chains))
    ends = np.ones((len(bends), bends.shape[1] + 1), dtype=np.bool_)
    ends[:, :-1] = bends > _bent(digits)[:, None]
    at = np.flatnonzero(ends)
    long = np.diff(np.append(-1, at)) >= least
    return sorted(set((at[long] // ends.shape[1]).tolist()))


def may_be_drawn_in(stack: Stack) -> Mask:
    """Those in which one that is held is ever as straight for so long."""
    held = stack.rows(one.held for one in stack.chains)
    least = _least_rows(stack.like)
    if least is None:
        return ~stack.none
    straight = stack.far[held] <= _bent(stack.digits[held])[:, :, None]
    return in_any(lasting(straight, least - 1))


def _least_rows(signals: Signals) -> int | None:
    """Rows of the shortest line that is looked for; None where rows are not read evenly."""
    steps = np.diff(signals.elapsed)
    windows = signals.coarse[_LENGTHS[0] :] - signals.coarse[: -_LENGTHS[0]]
    if not len(windows) or np.ptp(steps) > _BY_ROUNDING * steps[0]:
        return None
    return int(windows.min())


def _bent(digits: Floats) -> Floats:
    """K that a bend of a line is at the most: each of three readings is off the line by so much at
    the most, the one between counts twice."""
    return np.asarray(4 * _OFF * digits + _BY_ROUNDING)


def _bows(courses: Floats, times: Floats, length: int) -> Floats:
    """K that each is off the line between two rows so far apart, in the middle between the two
    [courses, rows - length]."""
    half = length // 2
    begin, middle, end = courses[:, :-length], courses[:, half : half - length], courses[:, length:]
    way = (times[half : half - length] - times[:-length]) / (times[length:] - times[:-length])
    return np.asarray(middle - begin - way * (end - begin), dtype=np.float64)


def _of(signals: Signals, chain: Chain, around: Floats, first: int, last: int) -> Fault | None:
    """`first` and `last` are coarse rows within the line, which is followed to its ends."""
    rows = _line(signals, chain, int(signals.coarse[first]), int(signals.coarse[last]))
    if rows is None:
        return None
    begin, end = rows
    elapsed = signals.elapsed
    lasts = float(elapsed[end] - elapsed[begin])
    rise = float(chain.values[end] - chain.values[begin])
    if lasts < _LASTS or end - begin < _ROWS:
        return None
    if abs(rise) < max(_SLOPES, _SLOPES * chain.resolution):
        return None
    within = np.arange(begin, end + 1, max(1, (end - begin) // 200))
    off = chain.values[within] - np.interp(elapsed[within], elapsed[signals.coarse], around)
    off = off[np.isfinite(off)]
    if len(off) < _ROWS:
        return None
    usual = (float(np.mean(off[:2])) + float(np.mean(off[-2:]))) / 2
    bow = off - usual
    far = float(np.abs(bow).max())
    ends = abs(float(np.mean(off[:2])) - float(np.mean(off[-2:])))
    if far < max(_LEAVE, _DIGITS * chain.resolution):
        return None
    sides = np.sign(bow[np.abs(bow) > _ASIDE * far])
    if np.count_nonzero(np.diff(sides)) > _SIDES or ends > _BACK * far:
        return None
    # It leaves the others where the line begins, and is back where it ends: where it has been with
    # them on the line, it is they who left.
    left = np.flatnonzero(np.abs(bow) >= max(_LEFT * far, _LEFT_DIGITS * chain.resolution))
    if max(left[0], len(bow) - 1 - left[-1]) > _SOON * len(bow):
        return None
    # Before it and after it keeps with them: what draws apart all the time is of the metal.
    quarter = (end - begin) // 4
    for one, other in (
        (max(begin - quarter, 0), begin),
        (end, min(end + quarter, len(elapsed) - 1)),
    ):
        two = np.array([one, other])
        apart = chain.values[two] - np.interp(elapsed[two], elapsed[signals.coarse], around)
        if abs(float(apart[1] - apart[0])) > _KEEPS * far:
            return None
    words = signals.words
    sentence = (
        f"runs straight to the last digit from {words.temperature(float(chain.values[begin]))} to "
        f"{words.temperature(float(chain.values[end]))} in {time(lasts)}, up to "
        f"{signals.kelvin(far)} off those beside it, and with them before and after"
    )
    return fault(
        FILLED_IN, chain.tag, float(elapsed[begin]), float(elapsed[end]), sentence, HIGH, LEFT_OUT
    )


def _line(signals: Signals, chain: Chain, first: int, last: int) -> tuple[int, int] | None:
    """The first and the last row of the straight line that these two are on; None where it is
    none."""
    if not _straight(signals, chain, first, last):
        return None
    for step in _halves(len(chain.values)):
        while first - step >= 0 and _straight(signals, chain, first - step, last):
            first -= step
        while last + step < len(chain.values) and _straight(signals, chain, first, last + step):
            last += step
    return first, last


def _halves(rows: int) -> list[int]:
    steps, step = [], max(1, rows // 8)
    while step:
        steps.append(step)
        step //= 2
    return steps


def _straight(signals: Signals, chain: Chain, first: int, last: int) -> bool:
    values = chain.values[first : last + 1]
    times = signals.elapsed[first : last + 1] - signals.elapsed[first]
    if len(values) < 3 or not np.isfinite(values).all():
        return False
    slope, level = np.polyfit(times, values, 1)
    return bool(np.max(np.abs(values - level - slope * times)) <= _OFF * chain.resolution)
