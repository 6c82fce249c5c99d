"""Rows that were not measured: a recorder that hangs, rows that stand there a second time.

All go by noise. That of a thermocouple is never the same at two times; a record without any, as a
computed one, tells nothing of that and is left alone.
"""

from __future__ import annotations

from collections.abc import Callable
from math import erf, pi, sqrt

import numpy as np
from numpy.typing import NDArray

from hts.record.faults.every_reading import every_reading, step_numbers, steps_of
from hts.record.faults.fault import Fault, Spell, fault_of_all
from hts.record.faults.fault_kinds import FROZEN, REPEATED
from hts.record.faults.hung import hangs, jumped
from hts.record.faults.matrix import middle
from hts.record.faults.noise import lively, noises
from hts.record.faults.row_numbers import (
    BESIDE,
    CHANCE,
    COUNTED,
    check_numbers_in,
    check_numbers_of,
    comes_by_chance,
)
from hts.record.faults.signals import Mask, Rows, Signals, ends_of_runs, runs
from hts.record.faults.stack import Stack
from hts.record.judging.words import time
from hts.record.record import Floats

#: Rows that all chains must stand still for. Basis: practice, no source.
_STILL = 5
#: Least likelihood that all chains show the same in two rows that is counted with.
#: Basis: practice, ours.
_SELDOM = 0.02
#: s. What is to pass for hung by its length. Basis: practice.
_HUNG = 600.0
#: s. In less than that metal that is kept stands still for a recorder of tenths. Basis: practice,
#: and an open log of a fire test, read each second (tests/record/open_logs), before it is lit.
_SHORT = 60.0
#: degC, as which nothing is heated yet: what is not recorded then is not asked for. Practice, ours.
_COLD = 50.0
#: Rows that are as the one before from which it is told. Basis: practice, ours.
_OFTEN = 10
#: Rows either side that tell how often a chain repeats itself there, and times what is expected by
#: chance that there must be. Basis: practice, ours.
_ABOUT, _EXPECTED = 150, 3.0
#: Rows that must repeat one after the other. Basis: practice, ours.
_BLOCK = 10
#: Rows of a block whose steps are other ones than those of the row before, from which on steps that
#: come again are worth a look. Basis: practice, ours.
_CHANGES = 5


def frozen(signals: Signals) -> list[Fault]:
    """Times in which every reading repeats itself: the recorder or its link hung."""
    values = every_reading(signals)
    if values is None:
        return []
    same = _same_as_before(steps_of(signals, values))
    if signals.gone is not None:
        same &= ~signals.gone[1:]
    stretches = runs(same, _STILL)
    if not stretches:
        return []
    long = np.zeros(len(same), dtype=bool)
    for first, last in stretches:
        long[first : last + 1] = True
    alive = lively(signals, long)
    chance = max(_SELDOM, float(np.mean(same[~long])) if (~long).any() else 1.0)
    chance = max(chance, float(np.prod(_stays(signals))))
    least = max(_SHORT, signals.record.interval * 3)
    spells = []
    for first, last in stretches:
        count = last - first + 1
        second = max((b - a + 1 for a, b in stretches if a != first), default=1)
        start, end = float(signals.elapsed[first]), float(signals.elapsed[last + 1])
        if end - start <= least:
            continue
        by_chance = chance**count * len(same) if alive else 1.0
        if np.mean(jumped(signals, values, last + 1)) > 0.5 or (
            first > 0
            and float(np.median(values[:, first])) > _COLD
            and (
                by_chance < CHANCE
                or (
                    end - start >= _HUNG
                    and hangs(signals, values, same, long, (first, last, second))
                )
            )
        ):
            spells.append(Spell(float(signals.elapsed[first + 1]), end))
    if not spells:
        return []
    lost = sum(spell.end - spell.start for spell in spells)
    said = f"all {len(values)} thermocouples repeat their readings for {time(lost)}"
    if len(spells) > 1:
        said += f", in {len(spells)} stretches"
    return [fault_of_all(FROZEN, said, spells)]


def may_stand_still(stack: Stack) -> Mask:
    """Those in which enough rows are as the one before."""
    same = np.ones((len(stack), stack.steps.shape[2]), dtype=np.bool_)
    for steps in stack.steps:
        same &= np.abs(steps) < 1e-9
        if not same.any():
            break
    return np.asarray(np.count_nonzero(same, axis=1) >= min(_STILL, _OFTEN))


def _stays(signals: Signals) -> Floats:
    """How likely each chain shows the same in two rows where what it measures lies in the middle of
    a digit, and stays there (derived, for a normal distribution)."""
    chains = [one for one in signals.chains.values() if np.isfinite(one.values).any()]
    over = np.maximum(noises(signals, chains), 1e-9)
    over /= np.maximum(np.array([one.resolution for one in chains]), 1e-9)
    middle = np.array([erf(0.5 / (one * sqrt(2))) for one in over])
    return np.asarray(
        np.maximum(middle**2, np.minimum(1 / (2 * over * sqrt(pi)), 1.0) * (over > 1))
    )


def as_the_row_before(signals: Signals) -> list[Fault]:
    """Rows that are the one before once more, here and there: a block written twice row by row, or
    a recorder that reads less often than it writes."""
    values = every_reading(signals)
    if values is None:
        return []
    same = _same_as_before(steps_of(signals, values))
    if same[:1].any():
        same[: len(same) if same.all() else int(np.argmin(same))] = False  # nothing is heated yet
    if np.count_nonzero(same) < _OFTEN:
        return []
    chains = [one for one in signals.chains.values() if one.resolution]
    # Two readings of noise are rounded to one digit so often (derived, for a normal distribution),
    noise = np.maximum(noises(signals, chains), 1e-9)
    digits = np.array([one.resolution for one in chains])
    derived = np.minimum(digits / (2 * noise * np.sqrt(np.pi)), 1.0)
    steps = signals.matrix.steps[[one.row for one in chains]]
    # and each is the same in so many of the rows about: noise comes and goes, and hides in digits.
    beside = _share_beside(np.abs(steps) < 1e-9, ~same)
    rows, lasts = np.flatnonzero(same), _lasts(same)
    likely = np.log(np.maximum(derived[:, None], beside(rows)))
    # One that stands still by itself, before and after as well, or is not read says nothing.
    tells = np.array([(np.isfinite(its) & (_lasts(its == 0) <= lasts + 2))[rows] for its in steps])
    by_row = np.sum(likely * tells, axis=0)
    seldom = by_row <= np.log(_SELDOM)
    count = int(np.count_nonzero(seldom))
    if count < _OFTEN:
        return []
    every = np.log(np.maximum(derived[:, None], beside(np.arange(len(same)))))
    by_chance = float(np.sum(np.exp(np.sum(every, axis=0))))
    if count < _EXPECTED * by_chance:
        return []
    same[rows[~seldom]] = False
    # As many as that, where so few are expected (derived: the tail of a Poisson distribution).
    tail = count * (np.log(by_chance / count) + 1) - by_chance
    likely_in_all = float(np.sum(by_row[seldom])) + np.log(len(same))
    if tail > np.log(CHANCE) or likely_in_all > np.log(CHANCE):
        return []
    spells = [
        Spell(float(signals.elapsed[first + 1]), float(signals.elapsed[last + 1]))
        for first, last in runs(same)
    ]
    return [fault_of_all(REPEATED, f"{count} rows repeat the one before, digit for digit", spells)]


def _share_beside(same: Mask, counted: Mask) -> Callable[[Rows], Floats]:
    """The part of the rows about some rows, of those that count, in which each chain is as in the
    row before [chains, some rows]."""
    sums = np.zeros((len(same) + 1, len(counted) + 1))
    np.cumsum(np.vstack((same & counted, counted)), axis=1, out=sums[:, 1:])

    def beside(rows: Rows) -> Floats:
        first, after = np.maximum(rows - _ABOUT, 0), np.minimum(rows + _ABOUT + 1, len(counted))
        about = np.take(sums, after, axis=1) - np.take(sums, first, axis=1)
        return np.asarray((about[:-1] + 1) / (about[-1] + 2), dtype=np.float64)

    return beside


def _lasts(mask: Mask) -> Rows:
    """How long the run of True is that each row stands in; 0 where it stands in none."""
    length = np.zeros(len(mask), dtype=np.intp)
    first, last = ends_of_runs(mask)
    length[mask] = np.repeat(last - first + 1, last - first + 1)
    return length


def repeated(signals: Signals) -> list[Fault]:
    """Blocks of rows that stand in the record a second time, with other times; or do so with an
    amount added to each reading."""
    values = every_reading(signals)
    if values is None or values.shape[0] < 2 or values.shape[1] < 3 * _BLOCK:
        return []
    found = []
    for start, last, source in _come_again(signals, values, values, check_numbers_of(values)):
        said = f"{last - start + 1} rows repeat, digit for digit, those from {{}} on"
        found.append(_block(signals, said, start, last, source))
    if found:
        return found
    # What is added to all that follows does not show in the steps from row to row.
    steps = steps_of(signals, values)
    for start, last, source in _come_again(
        signals, steps, values, step_numbers(signals, steps), _CHANGES
    ):
        rows = np.arange(start, last + 2)
        by = float(np.median(values[:, rows] - values[:, rows - start + source]))
        said = f"{len(rows)} rows repeat those from {{}} on, each reading "
        said += f"{signals.words.difference(abs(by), places=1)} {'higher' if by > 0 else 'lower'}"
        found.append(_block(signals, said, start, last + 1, source))
    return found


def _block(signals: Signals, said: str, start: int, last: int, source: int) -> Fault:
    spell = Spell(float(signals.elapsed[start]), float(signals.elapsed[last]))
    began = signals.record.clock(float(signals.elapsed[source]))
    return fault_of_all(REPEATED, said.format(began), [spell])


def _blocks_come_again(numbers: Floats) -> Mask:
    """Whether any block comes again that goes from one of these check numbers [records, steps] to
    another in most of its rows; two of one number may yet be unlike."""
    blocks, changes = _blocks_of(numbers)
    blocks = np.where(changes >= _CHANGES, blocks, -np.arange(blocks.shape[1]))
    blocks.sort(axis=1)
    return np.asarray(np.any(blocks[:, 1:] == blocks[:, :-1], axis=1))


def _blocks_of(numbers: Floats) -> tuple[NDArray[np.int64], Floats]:
    """A number for the block that begins with each of these [records, rows], and how often they
    change within it."""
    changes: Floats = np.zeros_like(numbers)
    np.cumsum(numbers[:, 1:] != numbers[:, :-1], axis=1, out=changes[:, 1:])
    # Whole numbers that run over do so alike.
    whole = numbers.astype(np.int64)
    count = numbers.shape[1] - _BLOCK + 1
    blocks = whole[:, :count].copy()
    for row in range(1, _BLOCK):
        blocks *= 31
        blocks += whole[:, row : row + count]
    return blocks, changes[:, _BLOCK - 1 :] - changes[:, : 1 - _BLOCK]


def _come_again(
    signals: Signals, columns: Floats, values: Floats, numbers: Floats, least: int = 1
) -> list[tuple[int, int, int]]:
    """First and last of the columns [chains, columns] that are as earlier ones, and from which on,
    where chance does not make it and one block at the least changes so often; `numbers` are their
    check numbers, `values` degC those of the rows they begin with."""
    starts, source = _first_blocks(numbers, least)
    late = np.zeros(len(numbers), dtype=np.intp)
    if len(starts):
        off = np.abs(middle(values[:, starts]) - middle(values[:, source]))
        may = (starts - source >= _BLOCK) & (off <= BESIDE)
        starts, source = starts[may], source[may]
        at, there = (its[:, None] + np.arange(_BLOCK) for its in (starts, source))
        same = np.rint(columns[:, at] * COUNTED) == np.rint(columns[:, there] * COUNTED)
        late[starts] = np.where(same.all(axis=(0, 2)), starts - source, 0)
    if not late.any():
        return []
    levels = middle(values[:, : columns.shape[1]])
    _, number = np.unique(numbers, return_inverse=True)
    alive = lively(signals, np.zeros(len(signals.elapsed) - 1, dtype=bool))
    found = []
    for start, end in runs(late > 0):
        last = end + _BLOCK - 1
        lasts = float(signals.elapsed[last] - signals.elapsed[start])
        if not alive and lasts < _HUNG:
            continue
        from_row = start - int(late[start])
        rows = slice(start, last + 1)
        if not comes_by_chance(number.reshape(-1), levels, rows, from_row):
            found.append((start, last, from_row))
    return found


def _first_blocks(numbers: Floats, least: int) -> tuple[Rows, Rows]:
    """Where blocks of rows begin that change and come again by their check numbers [rows], and the
    first place of each."""
    blocks, changes = _blocks_of(numbers[None])
    starts = np.flatnonzero(changes[0])
    blocks = blocks[0, starts]
    in_order = np.sort(blocks)
    twice = in_order[1:][in_order[1:] == in_order[:-1]]
    if not len(twice):
        return starts[:0], starts[:0]
    at = np.minimum(np.searchsorted(twice, blocks), len(twice) - 1)
    again = np.flatnonzero(twice[at] == blocks)
    starts = starts[again]
    if changes[0, starts].max() < least:
        return starts[:0], starts[:0]
    _, first, which = np.unique(blocks[again], return_index=True, return_inverse=True)
    return starts, starts[first[which.reshape(-1)]]


def may_be_repeated(stack: Stack) -> Mask:
    """Those in which rows enough for a block have the check number of another row, or a block of
    steps from row to row has that of another."""
    numbers, steps = check_numbers_in(stack.values), stack.step_numbers
    numbers.sort(axis=1)
    # Of rows that are not alone with their number half and more stand beside their like.
    twice = np.count_nonzero(numbers[:, 1:] == numbers[:, :-1], axis=1)
    return np.asarray((2 * twice >= _BLOCK) | _blocks_come_again(steps))


def _same_as_before(steps: Floats) -> Mask:
    """Whether each row after the first is as the one before."""
    same = np.ones(steps.shape[1], dtype=np.bool_)
    for one in steps:
        same &= np.abs(one) < 1e-9
        if not same.any():
            break
    return same
