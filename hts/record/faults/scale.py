"""Readings at an end of the scale: open circuits with break detection."""

from __future__ import annotations

import numpy as np

from hts.record.faults.fault import Fault, fault
from hts.record.faults.fault_kinds import (
    HIGH,
    LEFT_OUT,
    MEDIUM,
    OPEN_DOWNSCALE,
    OPEN_UPSCALE,
    WRONG_UNIT,
    FaultKind,
)
from hts.record.faults.signals import Chain, Mask, Signals, runs
from hts.record.faults.stack import Stack, in_any
from hts.record.record import OUTSIDE

#: K above all that the part reaches, and below the air: no part comes there. Basis: practice.
_ABOVE, _BELOW = 150.0, 25.0
#: K. What the reading of an open circuit may wander at the end of the scale. Basis: practice.
_PINNED = 8.0
#: Rows. Shorter is a spike. Basis: practice, ours.
_LEAST = 4
#: degC. Lower ends of scales that lie near the air: 0 degC and 0 degF. Basis: practice, ours.
_ZEROS = (0.0, -17.8)
_NEAR_ZERO = 0.1
#: degC under which a pair reversed on a part at 60 degC and more reads (derived, type K).
_REVERSED = -50.0


def open_circuits(signals: Signals) -> list[Fault]:
    """One fault for each time a thermocouple goes to an end of the scale."""
    air, planned = signals.air(), _planned(signals)
    found: list[Fault] = []
    for chain in signals.chains.values():
        lowest, highest = chain.extremes
        if not chain.whole:
            lowest, highest = float(np.fmin.reduce(chain.every)), float(np.fmax.reduce(chain.every))
        values = chain.every
        if highest > planned + _ABOVE:
            reference = signals.reference(chain.tag)
            hottest = float(np.nanmax(reference)) if np.isfinite(reference).any() else planned
            high = max(hottest, planned) + _ABOVE
            if highest > high:
                found += _at(signals, chain, values > high, OPEN_UPSCALE)
        # A chain read in another unit goes below zero with the air.
        other_unit = any(
            one.kind == WRONG_UNIT.name and one.tag in ("", chain.tag) for one in signals.found
        )
        if lowest < max(air - _BELOW, _NEAR_ZERO) and not other_unit:
            low = values < air - _BELOW
            for zero in _ZEROS:
                if air > zero + _PINNED:
                    low |= np.abs(values - zero) < _NEAR_ZERO
            found += _at(signals, chain, low, OPEN_DOWNSCALE)
    return found


def may_be_open(stack: Stack) -> Mask:
    """Those in which one is ever near an end of the scale."""
    high = stack.highest > _planned(stack.like) + _ABOVE
    return in_any(high | (stack.lowest < np.maximum(stack.air - _BELOW, _NEAR_ZERO)))


def _planned(signals: Signals) -> float:
    """degC, the hottest the program asks for; 0 where there is none."""
    if signals.plan is None:
        return 0.0
    return max((span.high or span.end or span.start for span in signals.plan.spans), default=0.0)


def _at(signals: Signals, chain: Chain, mask: Mask, kind: FaultKind) -> list[Fault]:
    found: list[Fault] = []
    if signals.gone is not None:
        mask = mask & ~signals.gone
    known = np.flatnonzero(np.isfinite(chain.every))
    # Cells with nothing in them do not end a stretch.
    for first, last in runs(mask[known]):
        rows = known[first : last + 1]
        values = chain.raw[rows]
        settled = values[len(values) // 4 :]
        wander = float(settled.max() - settled.min())
        impossible = bool(np.all(chain.status[rows] == OUTSIDE))
        whole = len(rows) == len(known)
        if len(rows) < _LEAST and not whole:
            continue
        if wander > _PINNED and not impossible:
            continue
        # A circuit that closes jumps to where the part is; one that is off goes on from there.
        after = chain.every[known[last + 1 : last + 2]] if kind is OPEN_DOWNSCALE else values[:0]
        if first == 0 and np.any(np.abs(after - values[-1]) <= _PINNED):
            continue
        start = _risen(signals, chain, int(known[first]))
        begin, end = (float(signals.elapsed[at]) for at in (start, rows[-1]))
        before = chain.values[start - 1] if start > 0 else np.nan
        # A broken circuit is driven there at once; metal that is far too hot climbs.
        if kind is OPEN_UPSCALE and abs(float(np.median(settled)) - before) <= _PINNED:
            continue
        level = signals.degrees(float(np.median(settled)))
        sentence = f"stands at {level}"
        if np.isfinite(before):
            sentence = f"goes from {signals.degrees(before)} to {level} and stands"
            if kind is OPEN_DOWNSCALE and float(settled.max()) < _REVERSED:
                sentence += "; legs changed over, a pair reversed on a hot part, read so as well"
        elif kind is OPEN_DOWNSCALE and float(settled.max()) < 0:
            sentence += " from the first row; a reversed pair on a hot part reads so too"
        confidence = HIGH if np.isfinite(before) or impossible else MEDIUM
        found.append(fault(kind, chain.tag, begin, end, sentence, confidence, LEFT_OUT))
    return found


def _risen(signals: Signals, chain: Chain, row: int) -> int:
    """The row at which the way to the end of the scale began: break detection takes seconds."""
    while row > 1:
        step = abs(chain.raw[row - 1] - chain.raw[row - 2])
        if not step > max(_PINNED, signals.elapsed[row - 1] - signals.elapsed[row - 2]):
            break
        row -= 1
    return row
