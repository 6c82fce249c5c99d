"""The last digit that a recorder writes, from what it wrote."""

from __future__ import annotations

import numpy as np

from hts.record.faults.matrix import highest_of
from hts.record.record import Floats

#: K. Finer digits are those of a conversion from another unit. Basis: practice, ours.
_FINEST = 0.01
#: Rows it is taken from at the most, and every how many of them.
_ROWS, _SAMPLED = 20000, 2000
#: Readings that a digit is guessed from, which the others then confirm; 1/1000 K are counted; and
#: the part of a digit that floats are off.
_GUESSED, _COUNTED, _EXACT = 64, 1000, 1e-6
#: Chains that are looked at at once, for so few readings stay where they are quickly had.
_AT_ONCE = 12


def last_digits(values: Floats) -> Floats:
    """K, of the readings of each chain [chains, rows]; 0 where nothing changes."""
    rows = values.shape[1]
    samples = values[:, : _ROWS : max(1, min(rows, _ROWS) // _SAMPLED)]
    if not samples.size:
        return np.zeros(len(values))
    guessed = _guessed(samples[:, :_GUESSED])
    with np.errstate(invalid="ignore", divide="ignore"):
        counts = (_COUNTED / guessed)[:, None]
    off = np.concatenate(
        [
            _off(samples[at : at + _AT_ONCE], counts[at : at + _AT_ONCE])
            for at in range(0, len(samples), _AT_ONCE)
        ]
    )
    # What all are whole multiples of, and some by their differences show, is the digit.
    sure = (off <= _EXACT) & (guessed >= _FINEST * _COUNTED)
    return np.array(
        [
            guess / _COUNTED if known else last_digit(sample)
            for guess, known, sample in zip(guessed.tolist(), sure.tolist(), samples, strict=True)
        ]
    )


def _off(samples: Floats, counts: Floats) -> Floats:
    """By how much each is off whole numbers at the most, so many to a kelvin."""
    with np.errstate(invalid="ignore"):
        counted = samples * counts
        whole = np.rint(counted)
        return highest_of(np.abs(np.subtract(counted, whole, out=whole), out=whole))


def _guessed(first: Floats) -> Floats:
    """1/1000 K, by a few readings; 0 where these do not change or are not known."""
    known = np.isfinite(first)
    begins = first[np.arange(len(first)), np.argmax(known, axis=1)]
    begins = np.where(np.isnan(begins), 0.0, begins)
    first = np.where(known, first, begins[:, None])
    counted = np.rint(first * _COUNTED).astype(np.int64)
    digits = np.gcd.reduce(counted - counted[:, :1], axis=1)
    return np.asarray(digits, dtype=np.float64)


def last_digit(sample: Floats) -> float:
    """The same of one chain, in full."""
    steps = np.diff(np.unique(np.round(sample[np.isfinite(sample)], 6)))
    if not len(steps):
        return 0.0
    # Of a few readings on a ramp no two need be neighbours: the digit is what all share.
    shared = float(np.gcd.reduce(np.round(steps * _COUNTED).astype(np.int64))) / _COUNTED
    return shared if shared >= _FINEST else float(steps.min())
