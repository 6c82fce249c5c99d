"""A thermocouple that leaps up to a level, stands at it but for its noise, and leaps down from it
again: readings that were too low, written over with one figure or kept from falling below it.

Metal goes neither so far in a row nor so straight in between, and what was only lifted goes on as
the metal does. That it comes to the same level it leaves tells the one from the other.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from hts.record.faults.by_changes import by_changes
from hts.record.faults.fault import Fault, Spell
from hts.record.faults.signals import Chain, Mask, Signals
from hts.record.faults.stack import Stack, in_any
from hts.record.faults.written_over import written_over
from hts.record.judging.words import time
from hts.record.record import Floats

#: K, times its noise, and last digits that it leaps by at the least, and rows in which a recorder
#: that smooths has done so. Basis: practice, ours.
_LEAST, _TIMES, _DIGITS, _SMOOTHS = 5.0, 8.0, 4.0, 5
#: s it stands, the s and rows beside each leap in which it is level, and rows of a block of those.
#: Basis: practice, no source.
_LASTS, _BESIDE, _ROWS, _BLOCK = 900.0, 600.0, 30, 10
#: Times what noise and rounding make of the means of blocks that these vary by; noise, in last
#: digits, that rounding makes at the least (derived: 0.29), and last digits of a mean of rounded
#: readings that are not noisy. Basis: practice, ours.
_VARIES, _ROUNDED, _OF_MEANS = 1.8, 0.3, 0.12
#: Last digits, and K, that the level it leaves may be off the one it came to.
_SAME, _SAME_BY = 1.5, 0.5


def levelled(signals: Signals) -> list[Fault]:
    """One fault for each thermocouple that stood at a level so."""
    if signals.arc_heats or not np.any(signals.matrix.largest_steps >= _LEAST):
        return []
    found = []
    noise = signals.matrix.noise
    for chain in signals.chains.values():
        if not chain.held or not chain.resolution or signals.explained(chain.tag):
            continue
        least = max(_LEAST, _TIMES * float(noise[chain.row]), _DIGITS * chain.resolution)
        if not signals.matrix.largest_steps[chain.row] >= least:
            continue
        spells = _spells(signals, chain, least, float(noise[chain.row]))
        if spells and not by_changes(chain):
            found.append(_fault(signals, chain, spells))
    return found


def may_be_levelled(stack: Stack) -> Mask:
    """Those in which one that is held leaps so far."""
    held = stack.rows(one.held for one in stack.chains)
    return in_any(stack.largest_steps[held] >= _LEAST)


def _spells(signals: Signals, chain: Chain, least: float, noise: float) -> list[tuple[int, int]]:
    """First and last row of each stretch at one level."""
    steps, elapsed = signals.matrix.steps[chain.row], signals.elapsed
    with np.errstate(invalid="ignore"):
        rows = np.flatnonzero(np.abs(steps) >= least)
    parts = np.split(rows, np.flatnonzero(np.diff(rows) > _SMOOTHS) + 1)
    beside = max(_ROWS, int(_BESIDE / signals.record.interval))
    found = []
    for one, other in pairwise(parts):
        first, last = int(one[-1]) + 1, int(other[0])
        if steps[one].sum() < least or steps[other].sum() > -least:
            continue
        if elapsed[last] - elapsed[first] < _LASTS or last - first < 2 * _BLOCK:
            continue
        # What a recorder smooths comes to it a few rows later.
        begins = chain.values[first + _SMOOTHS : last + 1][:beside]
        ends = chain.values[first : last + 1 - _SMOOTHS][-beside:]
        off = abs(float(np.median(begins)) - float(np.median(ends)))
        if off <= max(_SAME * chain.resolution, _SAME_BY) and all(
            _is_level(part, noise, chain.resolution) for part in (begins, ends)
        ):
            found.append((first, last))
    return found


def _is_level(values: Floats, noise: float, digit: float) -> bool:
    """Whether the means of its blocks vary by no more than noise and rounding make."""
    count = len(values) // _BLOCK
    if count < 2 or not np.isfinite(values).all():
        return False
    means = values[: count * _BLOCK].reshape(count, _BLOCK).mean(axis=1)
    usual = np.hypot(max(noise, _ROUNDED * digit) / np.sqrt(_BLOCK), _OF_MEANS * digit)
    return bool(np.std(means) <= _VARIES * usual)


def _fault(signals: Signals, chain: Chain, stretches: list[tuple[int, int]]) -> Fault:
    times = signals.elapsed
    spells = tuple(Spell(float(times[first]), float(times[last])) for first, last in stretches)
    level = float(np.median(chain.values[stretches[0][0] : stretches[0][1] + 1]))
    lasts = sum(spell.end - spell.start for spell in spells)
    sentence = (
        f"leaps up to {signals.words.temperature(level)}, stands at that but for its noise for "
        f"{time(lasts)}, and leaps down again, as no metal does"
    )
    return written_over(chain, sentence, spells)
