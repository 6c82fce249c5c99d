"""Rows that stand there a second time with other readings: where all step in one row, rows from
another time begin or end, and the noise of the rows beside that seam is the noise of those rows.

Noise is never the same at two times, and what was added to each reading does not hide it: a digit
more or less, an amount for each column, digits rounded once more.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from hts.record.faults.fault import Fault, Spell, fault_of_all
from hts.record.faults.fault_kinds import REPEATED
from hts.record.faults.noise import noises
from hts.record.faults.signals import Mask, Rows, Signals
from hts.record.faults.stack import Stack
from hts.record.judging.words import time
from hts.record.record import Floats

#: Standard deviations of what all make of noise together, by which they step in a row, and last
#: digits that noise is at the least: rounding makes 0.29. Basis: practice, ours; derived.
_STEPS, _ROUNDED = 8.0, 0.3
#: Seams that are looked at, rows that lie between two, chains it takes, and standard deviation of
#: their noise over the last digit. Basis: practice, ours.
_SEAMS, _BETWEEN, _ENOUGH, _LIVELY = 6, 10, 3, 0.45
#: Rows beside a seam whose noise is looked for, and rows that are no other time. Basis: practice,
#: ours.
_WINDOW, _NEAR = 60, 15
#: How like the noise of the other time is, what that is over how like it is elsewhere, and over the
#: next best: metal that goes to and fro evenly is like itself at many times. Basis: practice, ours.
_ALIKE, _FAR, _NEXT = 0.4, 8.0, 2.0
#: Rows by which the block is followed, and the part of that likeness it keeps. Basis: practice.
_BLOCK, _KEEPS = 20, 0.5


class _Found(NamedTuple):
    """Rows of the window at the seam, how many rows before (or after) it is as those, and how like
    those it is."""

    first: int
    last: int
    ago: int
    alike: float


def seams(signals: Signals) -> list[Fault]:
    """One fault of the record as a whole."""
    held = [one for one in signals.chains.values() if one.held and one.resolution]
    held = [one for one in held if not signals.faulty(one.tag)]
    if len(held) < _ENOUGH or any(one.kind == REPEATED.name for one in signals.found):
        return []
    values = signals.rows(signals.matrix.values, held)
    digits = np.array([one.resolution for one in held])
    noise = np.maximum(noises(signals, held), _ROUNDED * digits)
    rows = _seams(_in_step(values.mean(axis=0), noise.mean(axis=0), len(held)))
    lively = noise >= _LIVELY * digits
    if not len(rows) or np.count_nonzero(lively) < 2:
        return []
    bends = np.diff(values[lively], 2) / (np.sqrt(6) * noise[lively][:, None])
    bends = np.clip(np.nan_to_num(bends), -3, 3)
    best: _Found | None = None
    for row in rows.tolist():
        for first in (row + 2, row - 3 - _WINDOW):
            its = _elsewhere(bends, first)
            if its is not None and (best is None or its.alike > best.alike):
                best = its
    if best is None:
        return []
    first, last = _followed(bends, best)
    spell = Spell(*(float(signals.elapsed[row]) for row in (first, last)))
    other = float(signals.elapsed[first - best.ago] - signals.elapsed[first])
    said = (
        f"the rows of {time(spell.end - spell.start)} have the noise of those {time(abs(other))} "
        f"{'before' if other < 0 else 'later'}: they stand there twice, a little changed"
    )
    return [fault_of_all(REPEATED, said, [spell])]


def may_have_seams(stack: Stack) -> Mask:
    """Those in which all step in a row."""
    held = stack.rows(one.held for one in stack.chains)
    if len(held) < _ENOUGH:
        return stack.none
    noise = np.maximum(stack.noise[held], _ROUNDED * stack.digits[held]).mean(axis=0)
    steps = _in_step(stack.values[held].mean(axis=0), noise[:, None], len(held))
    return np.asarray((steps > _STEPS).any(axis=1))


def _in_step(middle: Floats, noise: Floats, count: int) -> Floats:
    """Standard deviations that the mean of so many chains [.., rows] steps by beside the steps
    around, from each row but the first to the next."""
    off = np.diff(middle, 3) / 2
    return np.asarray(np.abs(off) / (noise * np.sqrt(3 / count)))


def _seams(steps: Floats) -> Rows:
    """The rows before the largest steps, apart from each other."""
    with np.errstate(invalid="ignore"):
        rows = np.flatnonzero(steps > _STEPS)
    found: list[int] = []
    for row in rows[np.argsort(-steps[rows])].tolist():
        if all(abs(row - one) > _BETWEEN for one in found):
            found.append(row)
    return np.array(found[:_SEAMS], dtype=np.intp) + 1


def _elsewhere(bends: Floats, first: int) -> _Found | None:
    """Where the noise of a window is once more, and nowhere else nearly as much."""
    last = first + _WINDOW
    if first < 0 or last > bends.shape[1]:
        return None
    window = bends[:, first:last]
    products = np.sum(
        [np.correlate(its, part, "valid") for its, part in zip(bends, window, strict=True)], axis=0
    )
    power = np.append(0.0, np.cumsum(np.square(bends).sum(axis=0)))
    size = np.sqrt(np.square(window).sum() * (power[_WINDOW:] - power[:-_WINDOW]))
    alike = products / np.maximum(size, 1e-9)
    alike[max(0, first - _NEAR) : first + _NEAR] = 0.0
    usual = 1.4826 * float(np.median(np.abs(alike[alike != 0]))) if alike.any() else 1.0
    at = int(np.argmax(alike))
    most = float(alike[at])
    alike[max(0, at - 4) : at + 5] = 0.0
    next_best = float(alike.max())
    if most < max(_ALIKE, _FAR * usual, _NEXT * next_best):
        return None
    return _Found(first, last, first - at, most)


def _followed(bends: Floats, found: _Found) -> tuple[int, int]:
    """The first and the last row of the block, as far as it is like those."""
    first, last, ago, count = found.first, found.last, found.ago, bends.shape[1]

    def like(at: int) -> bool:
        rows = slice(at, at + _BLOCK)
        others = slice(at - ago, at - ago + _BLOCK)
        if min(at, at - ago) < 0 or max(at, at - ago) + _BLOCK > count:
            return False
        one, two = bends[:, rows], bends[:, others]
        size = float(np.sqrt(np.square(one).sum() * np.square(two).sum()))
        return float((one * two).sum()) >= _KEEPS * found.alike * size

    while last - first < abs(ago) and like(last):
        last += _BLOCK
    while last - first < abs(ago) and like(first - _BLOCK):
        first -= _BLOCK
    return first, last
