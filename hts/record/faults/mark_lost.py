"""The decimal mark is lost for a time: from one row to the next every number of the file is ten
times the one before, or a hundred times, and later it is not. The hot and the cold go by one
factor, which no metal and no other fault of a recorder does.
"""

from __future__ import annotations

import numpy as np

from hts.record.faults.fault import Fault, Spell, fault_of_all
from hts.record.faults.fault_kinds import WRONG_SCALE
from hts.record.faults.signals import Chain, Mask, Signals
from hts.record.faults.stack import Stack
from hts.record.judging.words import time
from hts.record.reading.units import temperature_unit
from hts.record.record import Floats

#: Times that numbers are larger by for places lost, and the part they may be off by that: the metal
#: moves meanwhile. Basis: derived; practice, ours.
_TIMES, _OFF = (10.0, 100.0, 1000.0), 0.06
#: Times that the numbers go by in the first row at the least, and rows in which a recorder that
#: smooths has come to them. Basis: practice, ours.
_LEAPS, _SETTLES = 1.4, 6
#: K that half of them go by in a row then: cold ones go from 20 to 200. Basis: practice, ours.
_GOES = 10.0
#: Times that they go by from row to row while it still smooths: 3 in a hundred are 20 K and more.
_CREEPS = 1.03
#: Numbers that are so small tell nothing, chains it takes, and part of them it is so of.
#: Basis: practice, ours.
_SMALL, _ENOUGH, _MOST = 10.0, 2, 0.9


def mark_lost(signals: Signals) -> list[Fault]:
    """One fault of the record as a whole."""
    matrix = signals.matrix
    chains = list(signals.chains.values())
    leaps = np.count_nonzero(matrix.largest_steps >= _GOES)
    if all(one.whole for one in chains) and 2 * leaps < max(len(chains), 1):
        return []
    if len(chains) < _ENOUGH or len(signals.elapsed) < 2 * _SETTLES:
        return []
    numbers = np.array([_numbers(signals, one) for one in chains])
    with np.errstate(invalid="ignore", divide="ignore"):
        known = np.where(numbers > _SMALL, numbers, np.nan)
        grown = np.count_nonzero(known[:, 1:] >= _LEAPS * known[:, :-1], axis=0)
    found, times, after = [], 0.0, 0
    for row in np.flatnonzero(2 * grown >= len(chains)).tolist():
        if row < after:
            continue
        factor = next((one for one in _TIMES if _goes_by(known, row, one)), 0.0)
        if factor:
            after = _back(known, row, factor)
            found.append(Spell(*(float(signals.elapsed[at]) for at in (row + 1, after))))
            times = factor
    if not found:
        return []
    lost = sum(spell.end - spell.start for spell in found)
    said = f"all numbers are {times:.0f} times as large for {time(lost)}: the decimal mark is lost"
    return [fault_of_all(WRONG_SCALE, said, found)]


def may_lose_the_mark(stack: Stack) -> Mask:
    """Those in which half leap by so much."""
    leaps = stack.largest_steps >= _GOES
    return np.asarray(2 * np.count_nonzero(leaps, axis=0) >= len(stack.chains))


def _numbers(signals: Signals, chain: Chain) -> Floats:
    """Its readings as the numbers of the file."""
    unit = temperature_unit(signals.record.series[chain.tag].unit)
    values = chain.every
    if unit == "degF":
        return values * 1.8 + 32
    return values + 273.15 if unit == "K" else values


def _goes_by(known: Floats, row: int, factor: float) -> bool:
    """Whether the numbers after a row are so many times those of it."""
    there = known[:, row + 1 : row + 1 + _SETTLES]
    with np.errstate(invalid="ignore"):
        off = np.abs(there / (factor * known[:, row : row + 1]) - 1)
    off = np.fmin.reduce(off, axis=1)
    off = off[np.isfinite(off)]
    return len(off) >= _ENOUGH and bool(np.mean(off <= _OFF) >= _MOST)


def _back(known: Floats, row: int, factor: float) -> int:
    """The last row before most numbers are small again, as far as a recorder smooths it."""
    with np.errstate(invalid="ignore"):
        large = known[:, row + 1 :] > known[:, row : row + 1] * np.sqrt(factor)
    most = np.count_nonzero(large, axis=0) * 2 < np.count_nonzero(np.isfinite(known[:, row]))
    # One that smooths comes to it by and by.
    most[: int(np.argmin(most))] = False
    if not most.any():
        return int(known.shape[1] - 1)
    first = row + 1 + int(np.argmax(most))
    # What still comes down is none of the metal.
    while first + 1 < known.shape[1]:
        down = np.count_nonzero(known[:, first] >= _CREEPS * known[:, first + 1])
        if 2 * down < len(known):
            break
        first += 1
    return max(first - 1, row + 1)
