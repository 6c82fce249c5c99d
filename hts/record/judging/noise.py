"""What readings are good to: their noise, and the last digit they are given in."""

from __future__ import annotations

from math import pi

import numpy as np

from hts.record.record import Floats

#: K. No reading is better than this, whatever its last digit says.
_LEAST_NOISE = 1e-4
#: Standard deviation of rounding to a last digit, in digits (derived: 1 / sqrt(12)).
ROUNDING = 0.29
#: Rows over which noise is taken to be of one kind, and times the median of its bends that one may
#: count for.
_BLOCK, _FAR = 60, 5.0
#: K. Finer digits are those of a conversion; and readings that are enough to tell them.
#: Basis: practice, ours.
_FINEST, _DIGITS = 0.01, 400


def noise_levels(values: Floats, digits: Floats) -> Floats:
    """K, the standard deviation of the noise round each row of several traces [traces, rows], by
    their last digits [traces]."""
    least = np.maximum(_LEAST_NOISE, ROUNDING * digits)[:, None]
    bends = np.abs(np.diff(values, 2, axis=1))
    traces, rows = bends.shape
    if not rows:
        return np.repeat(least, values.shape[1], axis=1)
    # Blocks as alike in size as can be: `longer` of them have a row more.
    blocks = max(1, rows // _BLOCK)
    size, longer = divmod(rows, blocks)
    first, rest = np.split(bends, [longer * (size + 1)], axis=1)
    means = np.concatenate(
        (
            _typical(first.reshape(traces, longer, size + 1), digits),
            _typical(rest.reshape(traces, blocks - longer, size), digits),
        ),
        axis=1,
    )
    # A second difference of noise has six times its variance, and the mean of its absolute values
    # is sqrt(2 / pi) of its standard deviation (normal distribution).
    sizes = [size + 1] * longer + [size] * (blocks - longer)
    sizes[0] += 1
    sizes[-1] += 1
    found = np.repeat(means * np.sqrt(pi / 12), sizes, axis=1)
    return np.asarray(np.maximum(found, least), dtype=np.float64)


def _typical(bends: Floats, digits: Floats) -> Floats:
    """The mean of bends [traces, blocks, rows] over the rows, of which a few that are far greater
    count for no more than the rest. Not the median: of readings in whole digits that is a whole
    digit, or none."""
    if not bends.size:
        return np.empty(bends.shape[:2])
    rows = bends.shape[2]
    ordered = np.sort(bends, axis=2)
    median = (ordered[:, :, (rows - 1) // 2] + ordered[:, :, rows // 2]) / 2
    most = _FAR * median[:, :, None] + 2 * digits[:, None, None]
    return np.asarray(np.minimum(bends, most).mean(axis=2))


def last_digits(values: Floats) -> Floats:
    """The last digit of the readings of each trace [traces, rows], K: the greatest step all
    differences are multiples of, in degC or in degF; the least difference where there is none."""
    some = values[:, :: max(1, values.shape[1] // _DIGITS)]
    # Steps from each reading to the next greater; none where two are the same.
    steps = np.diff(np.round(np.sort(some, axis=1), 6), axis=1)
    found = np.zeros(len(values))
    due = np.arange(len(values))
    for scale in (1.0, 1.8):
        counts = steps[due] * scale / _FINEST
        whole = np.round(counts)
        fit = (np.abs(counts - whole) < 1e-3 * scale / _FINEST * 0.01 + 1e-3).all(axis=1)
        digits = np.gcd.reduce(whole[fit].astype(np.int64), axis=1)
        found[due[fit]] = digits * _FINEST / scale
        due = due[~fit]
    for trace in due.tolist():
        found[trace] = steps[trace][steps[trace] > 0].min()
    return found
