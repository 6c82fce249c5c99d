"""Single readings that no metal can follow."""

from __future__ import annotations

import numpy as np

from hts.record.faults.fault import Fault, fault
from hts.record.faults.fault_kinds import HIGH, LEFT_OUT, MEDIUM, SPIKES
from hts.record.faults.signals import Chain, Mask, Signals, spells
from hts.record.faults.stack import Stack, in_any
from hts.record.record import Floats

#: K. Smaller excursions are noise. Basis: practice, no source.
_LEAST = 20.0
#: Rows. What stays longer is a change of level, and no spike. Basis: practice, ours.
_LONGEST = 3
#: K off from which nothing but a fault is left to explain it. Basis: practice, no source.
_CERTAIN = 50.0


def spikes(signals: Signals) -> list[Fault]:
    """One fault for each thermocouple with spikes."""
    found = []
    calm = signals.matrix.whole & (signals.matrix.largest_steps <= _LEAST)
    for chain in signals.chains.values():
        if calm[chain.row]:
            continue
        off = _off(chain, signals)
        if off is None:
            continue
        mask: Mask = off != 0
        if not mask.any():
            continue
        where = spells(signals.elapsed, mask)
        farthest = float(off[int(np.argmax(np.abs(off)))])
        count = int(mask.sum())
        readings = "1 reading stands" if count == 1 else f"{count} readings stand"
        sign = "+" if farthest > 0 else ""
        most = f"{sign}{signals.kelvin(farthest)}"
        sentence = f"{readings} off those before and after, by {most} at most"
        confidence = HIGH if abs(farthest) >= _CERTAIN else MEDIUM
        found.append(
            fault(
                SPIKES,
                chain.tag,
                where[0].start,
                where[-1].end,
                sentence,
                confidence,
                LEFT_OUT,
                where,
            )
        )
    return found


def may_have_spikes(stack: Stack) -> Mask:
    """Those in which two neighbours are far apart."""
    return in_any(stack.largest_steps > _LEAST)


def _off(chain: Chain, signals: Signals) -> Floats | None:
    """K by which each reading stands off the line between the readings round it, 0 for most; None
    where no two neighbours are far apart."""
    every, times = chain.every, signals.elapsed
    steps = np.diff(every)
    largest = float(np.maximum(steps.max(), -steps.min()))
    if largest <= _LEAST:
        return None
    if largest > _LEAST:  # and nowhere NaN
        return _off_line(every, times, signals.quick())
    rows = np.flatnonzero(np.isfinite(every))
    known = every[rows]
    if not np.any(np.abs(np.diff(known)) > _LEAST):
        return None
    off = np.zeros(len(every))
    off[rows] = _off_line(known, times[rows], signals.quick())
    return off


def _off_line(values: Floats, times: Floats, quick: float) -> Floats:
    """The same of readings without gaps."""
    off = np.zeros(len(values))
    if len(values) < 5:
        return off
    steps, dt = np.diff(values), np.diff(times)
    least = np.maximum(_LEAST, 2 * quick * dt)
    leaps = np.flatnonzero(np.abs(steps) > least)
    done = -1
    for leap in leaps.tolist():
        if leap < done:
            continue
        start = float(values[leap])
        # It is back within a few rows, near where it was: a spike. Otherwise it is a new level.
        for back in range(leap + 2, min(leap + 2 + _LONGEST, len(values))):
            passed = float(times[back] - times[leap])
            off_by = float(np.abs(values[leap + 1 : back] - start).min())
            near = 0.3 * off_by + min(quick * passed, 0.2 * off_by)
            if abs(float(values[back]) - start) <= near:
                line = np.interp(times[leap + 1 : back], times[[leap, back]], values[[leap, back]])
                off[leap + 1 : back] = values[leap + 1 : back] - line
                done = back
                break
    off[np.abs(off) < _LEAST] = 0.0
    return off
