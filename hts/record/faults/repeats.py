"""Rows that were not measured: a recorder that hangs, rows that stand there a second time.

All go by noise. That of a thermocouple is never the same at two times; a record without any, as a
computed one, tells nothing of that and is left alone.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from math import erf, pi, sqrt

import numpy as np

from hts.record.faults.fault import Fault, Spell, fault_of_all
from hts.record.faults.fault_kinds import FROZEN, REPEATED
from hts.record.faults.hung import hangs, jumped
from hts.record.faults.noise import lively, noises
from hts.record.faults.signals import Mask, Rows, Signals, ends_of_runs, runs
from hts.record.faults.stack import Stack
from hts.record.judging.words import time
from hts.record.record import Floats

#: Rows that all chains must stand still for, and how likely that may be by chance in a whole
#: record. Basis: practice, no source.
_STILL, _CHANCE = 5, 1e-3
#: Least likelihood that all chains show the same in two rows that is counted with.
#: Basis: practice, ours.
_SELDOM = 0.02
#: K. What is at the same level. Basis: practice, ours.
_BESIDE = 8.0
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
#: Parts of a kelvin in which rows are the same.
_COUNTED = 1e4
#: Rows that are counted at once.
_AT_ONCE = 4096


def frozen(signals: Signals) -> list[Fault]:
    """Times in which every reading repeats itself: the recorder or its link hung."""
    values = _matrix(signals)
    if values is None:
        return []
    same = _same_as_before(_steps(signals, values))
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
                by_chance < _CHANCE
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
    values = _matrix(signals)
    if values is None:
        return []
    same = _same_as_before(_steps(signals, values))
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
    if tail > np.log(_CHANCE) or likely_in_all > np.log(_CHANCE):
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
    values = _matrix(signals)
    if values is None or values.shape[0] < 2 or values.shape[1] < 3 * _BLOCK:
        return []
    found = []
    for start, last, source in _come_again(signals, values, values):
        said = f"{last - start + 1} rows repeat, digit for digit, those from {{}} on"
        found.append(_block(signals, said, start, last, source))
    if found:
        return found
    # What is added to all that follows does not show in the steps from row to row.
    steps = _steps(signals, values)
    if not _blocks_come_again(_check_numbers_of(steps)[None]).any():
        return []
    for start, last, source in _come_again(signals, steps, values):
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


def _check_numbers_in(courses: Floats) -> Floats:
    """Check numbers of each record [records, rows] of courses [chains, records, rows]."""
    chains, records, rows = courses.shape
    return _check_numbers_of(courses.reshape(chains, -1)).reshape(records, rows)


def _blocks_come_again(numbers: Floats) -> Mask:
    """Whether any block comes again that goes from one of these check numbers [records, steps] to
    another in most of its rows; two of one number may yet be unlike."""
    changes: Floats = np.zeros_like(numbers)
    np.cumsum(numbers[:, 1:] != numbers[:, :-1], axis=1, out=changes[:, 1:])
    lively = changes[:, _BLOCK - 1 :] - changes[:, : 1 - _BLOCK] >= _CHANGES
    # Whole numbers that run over do so alike.
    whole = numbers.astype(np.int64)
    count = numbers.shape[1] - _BLOCK + 1
    blocks = whole[:, :count]
    for row in range(1, _BLOCK):
        blocks = blocks * 31 + whole[:, row : row + count]
    blocks = np.sort(np.where(lively, blocks, -np.arange(count)), axis=1)
    return np.asarray(np.any(blocks[:, 1:] == blocks[:, :-1], axis=1))


def _come_again(signals: Signals, columns: Floats, values: Floats) -> list[tuple[int, int, int]]:
    """First and last of the columns [chains, columns] that are as earlier ones, and from which on,
    where chance does not make it; `values` degC are those of the rows they begin with."""
    again = np.flatnonzero(_may_come_again(_check_numbers_of(columns)))
    starts = again[: 1 - _BLOCK][again[_BLOCK - 1 :] - again[: 1 - _BLOCK] == _BLOCK - 1]
    if not len(starts):
        return []
    number = np.arange(columns.shape[1])
    number[again] = again[_first_alike(np.rint(columns[:, again] * _COUNTED))]
    blocks = number[starts[:, None] + np.arange(_BLOCK)]
    source = starts[_first_alike(blocks.T.astype(np.float64))]
    moving = np.any(blocks != blocks[:, :1], axis=1)
    levels = np.median(values[:, : columns.shape[1]], axis=0)
    moving &= np.abs(levels[starts] - levels[source]) <= _BESIDE
    late = np.zeros(columns.shape[1], dtype=np.intp)
    late[starts] = np.where(moving & (starts - source >= _BLOCK), starts - source, 0)
    if not late.any():
        return []
    alive = lively(signals, np.zeros(len(signals.elapsed) - 1, dtype=bool))
    found = []
    for start, end in runs(late > 0):
        last = end + _BLOCK - 1
        lasts = float(signals.elapsed[last] - signals.elapsed[start])
        from_row = start - int(late[start])
        chance = _by_chance(number, levels, slice(start, last + 1), from_row)
        if not chance and (alive or lasts >= _HUNG):
            found.append((start, last, from_row))
    return found


def may_be_repeated(stack: Stack) -> Mask:
    """Those in which rows enough for a block have the check number of another row, or a block of
    steps from row to row has that of another."""
    numbers, steps = _check_numbers_in(stack.values), _check_numbers_in(stack.steps)
    numbers.sort(axis=1)
    # Of rows that are not alone with their number half and more stand beside their like.
    twice = np.count_nonzero(numbers[:, 1:] == numbers[:, :-1], axis=1)
    return np.asarray((2 * twice >= _BLOCK) | _blocks_come_again(steps))


def _may_come_again(numbers: Floats) -> Mask:
    """Whether each row has a check number that another has, too; two of one number may yet be
    unlike."""
    in_order = np.sort(numbers)
    twice = in_order[1:][in_order[1:] == in_order[:-1]]
    if not len(twice):
        return np.zeros(len(numbers), dtype=np.bool_)
    at = np.minimum(np.searchsorted(twice, numbers), len(twice) - 1)
    return np.asarray(twice[at] == numbers)


def _check_numbers(columns: Floats) -> Floats:
    """A number for each column of whole numbers [parts, columns], the same for the same: whole and
    below 2^53, so that floats are exact; those of a column are below 2^25."""
    return np.asarray(_weights(len(columns)) @ columns, dtype=np.float64)


def _check_numbers_of(values: Floats) -> Floats:
    """The same of readings, some rows at a time: so few stay where they are quickly had."""
    count = values.shape[1]
    parts = [values[:, at : at + _AT_ONCE] for at in range(0, count, _AT_ONCE)]
    return np.concatenate([_check_numbers(np.rint(part * _COUNTED)) for part in parts])


@lru_cache(maxsize=16)
def _weights(count: int) -> Floats:
    return np.random.RandomState(1).randint(1, 2 ** (28 - count.bit_length()), count).astype(float)


def _first_alike(columns: Floats) -> Rows:
    """For each column of whole numbers [parts, columns] the first that is the same."""
    _, first, which = np.unique(_check_numbers(columns), return_index=True, return_inverse=True)
    source = np.asarray(first[which.reshape(-1)], dtype=np.intp)
    if np.array_equal(columns[:, source], columns):
        return source
    # Two that are unlike have the same number.
    rows = np.ascontiguousarray(columns.T)
    _, first, which = np.unique(rows, axis=0, return_index=True, return_inverse=True)
    return np.asarray(first[which.reshape(-1)], dtype=np.intp)


def _by_chance(number: Rows, level: Floats, rows: slice, source: int) -> bool:
    """Whether rows may come again by chance, those from `source` on: by how often each comes at its
    level, and elsewhere after the one before it, for what hardly moves goes on as it was. As rows
    hang together in more than that, as if there were half of them."""
    again = number[rows]
    beside = np.abs(level - np.median(level[rows])) <= _BESIDE
    counts = np.bincount(number)[again] / max(int(np.count_nonzero(beside)), 1)
    beside[rows] = False
    beside[source : source + len(again)] = False
    elsewhere = np.flatnonzero(beside[1:] & beside[:-1])
    now, after = number[elsewhere], number[elsewhere + 1]
    likely = np.minimum(counts, 1.0)
    for row, (one, other) in enumerate(
        zip(again[:-1].tolist(), again[1:].tolist(), strict=True), 1
    ):
        there = now == one
        follows = np.count_nonzero(after[there] == other) + likely[row]
        likely[row] = follows / (np.count_nonzero(there) + 1)
    return bool(0.5 * np.sum(np.log(likely)) + 2 * np.log(len(number)) > np.log(_CHANCE))


def _matrix(signals: Signals) -> Floats | None:
    """What every thermocouple reads, [chains, rows], blanks as 0 K; None where too little is."""
    matrix = signals.matrix
    chains = matrix.values
    if not matrix.gapless:
        chains = chains[np.isfinite(chains).any(axis=1)]
    if len(chains) < 2 or len(signals.elapsed) < 2 * _STILL:
        return None
    if matrix.gapless:
        return chains
    return np.where(np.isnan(chains), -273.15, chains)


def _steps(signals: Signals, values: Floats) -> Floats:
    known = values is signals.matrix.values
    steps = signals.matrix.steps if known else np.diff(values, axis=1)
    return np.asarray(steps, dtype=np.float64)


def _same_as_before(steps: Floats) -> Mask:
    """Whether each row after the first is as the one before."""
    same = np.ones(steps.shape[1], dtype=np.bool_)
    for one in steps:
        same &= np.abs(one) < 1e-9
        if not same.any():
            break
    return same
