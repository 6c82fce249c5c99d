"""Rows told from each other by numbers: the same for the same, so that rows that come again are
found among many in one sorting; and how likely it is that they do by chance."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from hts.record.record import Floats

Rows = NDArray[np.intp]

#: K. What is at the same level. Basis: practice, ours.
BESIDE = 8.0
#: How likely it may be by chance in a whole record. Basis: practice, ours.
CHANCE = 1e-3
#: Parts of a kelvin in which rows are the same.
COUNTED = 1e4
#: Rows that are counted at once.
_AT_ONCE = 4096


def check_numbers_in(courses: Floats) -> Floats:
    """Check numbers of each record [records, rows] of courses [chains, records, rows]."""
    chains, records, rows = courses.shape
    return check_numbers_of(courses.reshape(chains, -1)).reshape(records, rows)


def _check_numbers(columns: Floats) -> Floats:
    """A number for each column of whole numbers [parts, columns], the same for the same: whole and
    below 2^53, so that floats are exact; those of a column are below 2^25."""
    return np.asarray(_weights(len(columns)) @ columns, dtype=np.float64)


def check_numbers_of(values: Floats) -> Floats:
    """The same of readings, some rows at a time: so few stay where they are quickly had."""
    count = values.shape[1]
    parts = [values[:, at : at + _AT_ONCE] for at in range(0, count, _AT_ONCE)]
    return np.concatenate([_check_numbers(np.rint(part * COUNTED)) for part in parts])


@lru_cache(maxsize=16)
def _weights(count: int) -> Floats:
    return np.random.RandomState(1).randint(1, 2 ** (28 - count.bit_length()), count).astype(float)


def first_alike(columns: Floats) -> Rows:
    """For each column of whole numbers [parts, columns] the first that is the same."""
    _, first, which = np.unique(_check_numbers(columns), return_index=True, return_inverse=True)
    source = np.asarray(first[which.reshape(-1)], dtype=np.intp)
    if np.array_equal(columns[:, source], columns):
        return source
    # Two that are unlike have the same number.
    rows = np.ascontiguousarray(columns.T)
    _, first, which = np.unique(rows, axis=0, return_index=True, return_inverse=True)
    return np.asarray(first[which.reshape(-1)], dtype=np.intp)


def comes_by_chance(number: Rows, level: Floats, rows: slice, source: int) -> bool:
    """Whether rows may come again by chance, those from `source` on: by how often each comes at its
    level, and elsewhere after the one before it, for what hardly moves goes on as it was. As rows
    hang together in more than that, as if there were half of them."""
    again = number[rows]
    beside = np.abs(level - np.median(level[rows])) <= BESIDE
    likely = np.bincount(number)[again] / max(int(np.count_nonzero(beside)), 1)
    likely = np.minimum(likely, 1.0)
    beside[rows] = False
    beside[source : source + len(again)] = False
    ours = np.zeros(len(number), dtype=np.bool_)
    ours[again[:-1]] = True
    elsewhere = np.flatnonzero(ours[number[:-1]])
    elsewhere = elsewhere[beside[elsewhere] & beside[elsewhere + 1]]
    if len(elsewhere):
        now, after = number[elsewhere], number[elsewhere + 1]
        there = np.bincount(now, minlength=len(number))[again[:-1]]
        pairs, how_many = np.unique(now * len(number) + after, return_counts=True)
        here = again[:-1] * len(number) + again[1:]
        at = np.minimum(np.searchsorted(pairs, here), len(pairs) - 1)
        follow = np.where(pairs[at] == here, how_many[at], 0)
        likely[1:] = (follow + likely[1:]) / (there + 1)
    return bool(0.5 * np.sum(np.log(likely)) + 2 * np.log(len(number)) > np.log(CHANCE))
