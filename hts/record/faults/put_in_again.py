"""Blocks of rows that were put in again, told by what changes in them: the last row first, or as
they stood where so little changes from row to row that no ten rows on end tell them apart.

A block is the changes in it and the rows between them. Nothing that is measured goes back by the
way it came, on every channel and to the row.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hts.record.faults.every_reading import every_reading, step_numbers, steps_of
from hts.record.faults.fault import Fault, Spell, fault_of_all
from hts.record.faults.fault_kinds import REPEATED
from hts.record.faults.noise import lively
from hts.record.faults.row_numbers import (
    BESIDE,
    COUNTED,
    comes_by_chance,
    first_alike,
)
from hts.record.faults.signals import Mask, Rows, Signals
from hts.record.faults.stack import Stack
from hts.record.record import Floats

_Whole = NDArray[np.int64]

#: Changes of a block that are looked for, those a block has at the least, and the rows it spans.
#: Basis: practice, ours.
_BLOCK, _CHANGES, _ROWS = 6, 10, 20
#: Times that channels turn round within a block, without which a course that somebody worked out
#: may be alike on its two sides. Basis: practice, ours.
_TURNS = 6


def put_in_again(signals: Signals) -> list[Fault]:
    """Blocks that come again backwards, or by their few changes."""
    values = every_reading(signals)
    if values is None or values.shape[1] < 2 * _ROWS:
        return []
    steps = steps_of(signals, values)
    numbers = step_numbers(signals, steps)
    told = any(fault.kind == REPEATED.name for fault in signals.found)
    if told or not _may_come_again(numbers):
        return []
    return _found(signals, values, steps, numbers)


def may_be_put_in_again(stack: Stack) -> Mask:
    """Those in which changes enough are, up or down, as others are."""
    numbers = np.abs(stack.step_numbers)
    numbers.sort(axis=1)
    return np.asarray(_pairs_in(numbers) >= _CHANGES // 2)


def _may_come_again(numbers: Floats) -> bool:
    return bool(_pairs_in(np.sort(np.abs(numbers))) >= _CHANGES // 2)


def _pairs_in(in_order: Floats) -> Rows:
    """How many of these numbers are as the one before, and not 0 [.., numbers]."""
    alike = (in_order[..., 1:] == in_order[..., :-1]) & (in_order[..., 1:] > 0)
    return np.asarray(np.count_nonzero(alike, axis=-1))


def _found(signals: Signals, values: Floats, steps: Floats, numbers: Floats) -> list[Fault]:
    at = np.flatnonzero(numbers)
    if len(at) < 2 * _BLOCK:
        return []
    whole, apart = numbers[at].astype(np.int64), np.diff(at)
    ahead = _blocks(whole, apart)
    back = _blocks(-whole[::-1], apart[::-1])[::-1]
    # Each change up or down with its like, and with what lies before it.
    both = first_alike(np.rint(np.hstack((steps[:, at], -steps[:, at])) * COUNTED))
    _, kind = np.unique(np.append(0, apart) * len(both) + both[: len(at)], return_inverse=True)
    levels = np.median(values[:, at], axis=0)
    alive = lively(signals, np.zeros(steps.shape[1], dtype=np.bool_))
    faults = []
    for backwards, blocks in ((True, back), (False, ahead)):
        source = _last_alike(ahead, blocks)
        # As the block goes on, what it comes from goes on, or goes back.
        number = np.arange(len(source))
        along = np.where(source >= 0, number + source if backwards else number - source, -1)
        edges = np.flatnonzero(np.diff(along)) + 1
        for first, after in zip([0, *edges.tolist()], [*edges.tolist(), len(along)], strict=True):
            last = after + _BLOCK - 2
            if along[first] < 0 or last - first < _CHANGES - 1 or at[last] - at[first] < _ROWS:
                continue
            start = int(source[after - 1] if backwards else source[first])
            if abs(levels[first] - levels[source[first]]) > BESIDE:
                continue
            its = steps[:, at[first] : at[last] + 1]
            if not (alive or _turns(its) >= _TURNS):
                continue
            if not _alike(steps, at[start], its, backwards):
                continue
            if comes_by_chance(kind.reshape(-1), levels, slice(first + 1, last + 1), start):
                continue
            faults.append(
                _fault(signals, int(at[first]), int(at[last]) + 1, int(at[start]), backwards)
            )
        if faults:
            break
    return faults


def _fault(signals: Signals, first: int, last: int, source: int, backwards: bool) -> Fault:
    begins = source + last - first if backwards else source
    clock = signals.record.clock(float(signals.elapsed[begins]))
    said = f"{last - first + 1} rows go back the way of those up to {clock}, the last of them first"
    if not backwards:
        said = f"{last - first + 1} rows repeat, change by change, those from {clock} on"
    spell = Spell(float(signals.elapsed[first]), float(signals.elapsed[last]))
    return fault_of_all(REPEATED, said, [spell])


def _blocks(whole: _Whole, apart: Rows) -> _Whole:
    """A number for the block of changes that begins with each, and the rows between them."""
    count = len(whole) - _BLOCK + 1
    blocks = whole[:count].copy()
    for change in range(1, _BLOCK):
        # Whole numbers that run over do so alike.
        blocks = blocks * 1000003 + apart[change - 1 : change - 1 + count]
        blocks = blocks * 1000003 + whole[change : change + count]
    return np.asarray(blocks)


def _last_alike(sources: _Whole, blocks: _Whole) -> Rows:
    """The last of the sources that ends before each block and is as it is; -1 without one."""
    count = len(blocks)
    _, number = np.unique(np.concatenate((sources, blocks)), return_inverse=True)
    number = number.reshape(-1)
    its = np.sort(number[:count] * count + np.arange(count))
    before = number[count:] * count + np.arange(count) - _BLOCK
    found = its[np.maximum(np.searchsorted(its, before, side="right") - 1, 0)]
    there = (found // count == number[count:]) & (found <= before)
    return np.where(there, found % count, -1)


def _turns(steps: Floats) -> int:
    """How often channels go up after they went down, or down after they went up."""
    turns = 0
    for its in np.sign(steps):
        its = its[its != 0]
        turns += int(np.count_nonzero(its[1:] != its[:-1]))
    return turns


def _alike(steps: Floats, source: int, its: Floats, backwards: bool) -> bool:
    there = steps[:, source : source + its.shape[1]]
    if backwards:
        there = -there[:, ::-1]
    return bool(np.array_equal(np.rint(there * COUNTED), np.rint(its * COUNTED)))
