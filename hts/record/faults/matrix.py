"""What all chains read in one array, and what several detectors ask of it, worked out once.

Much here tells a detector at little cost that a chain cannot have its fault; what is left is looked
at in full. Nothing it passes over would be found in full (tests/record/faults/test_screens.py).
"""

from __future__ import annotations

from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from hts.record.faults.row_numbers import check_numbers_of
from hts.record.record import Floats

Rows = NDArray[np.intp]
Mask = NDArray[np.bool_]


#: Standard deviations at which a bend is cut off: steps that all share are no noise.
#: Basis: practice, ours.
CUT = 4.0
#: Part that is put down to floats.
_BY_ROUNDING = 1e-9


class Matrix:
    """`values` [chains, rows] degC, NaN where nothing is known; `coarse` are the rows that slow
    changes are looked at on; `digits` K the last digit of each [chains]. Nobody writes to any of
    its arrays."""

    def __init__(self, values: Floats, coarse: Rows, digits: Floats) -> None:
        self.values = values
        self.coarse = coarse
        self.digits = digits

    @cached_property
    def steps(self) -> Floats:
        """K from each row to the next [chains, rows - 1]."""
        return np.asarray(np.diff(self.values, axis=1), dtype=np.float64)

    @cached_property
    def bends(self) -> Floats:
        """K from each step to the next [chains, rows - 2]."""
        return np.asarray(np.diff(self.steps, axis=1), dtype=np.float64)

    @cached_property
    def step_numbers(self) -> Floats:
        """Check numbers of the steps from row to row, of all chains together [rows - 1]."""
        return check_numbers_of(self.steps)

    @cached_property
    def noise(self) -> Floats:
        """K, the standard deviation of the noise of each, from the bends; wild ones are cut off
        [chains]."""
        bends = np.abs(self.bends)
        if not self.gapless:
            its_bends = zip(bends, 3 * self.digits, strict=True)
            return np.array([spread(its[np.isfinite(its)], float(at)) for its, at in its_bends])
        if not bends.size:
            return np.zeros(len(bends))
        most = np.maximum(3 * self.digits, CUT * 1.4826 * medians_as_far(bends))
        np.minimum(bends, most[:, None], out=bends)
        return np.asarray(np.sqrt(np.mean(np.square(bends, out=bends), axis=1) / 6))

    @cached_property
    def whole(self) -> Mask:
        """Whether a chain has a reading in every row [chains]."""
        return np.asarray(np.isfinite(self.values.sum(axis=1)))

    @cached_property
    def gapless(self) -> bool:
        """Whether all have."""
        return bool(self.whole.all())

    @cached_property
    def largest_steps(self) -> Floats:
        """K, how far each goes from a row to the next at the most, up or down [chains]; 0 where
        that is not known."""
        if self.steps.size == 0:
            return np.zeros(len(self.values))
        most = np.maximum(highest_of(self.steps), -lowest_of(self.steps))
        return np.where(np.isnan(most), 0.0, most)

    @cached_property
    def sampled(self) -> Floats:
        """The values on the coarse rows [chains, coarse rows]."""
        return np.ascontiguousarray(np.take(self.values, self.coarse, axis=1))

    @cached_property
    def smooth(self) -> Floats:
        """Means over the rows between two coarse rows [chains, coarse rows]: noise averages out."""
        edges = self.coarse
        if self.gapless:
            counts = np.append(edges[1:], self.values.shape[1]) - edges
            sums = np.add.reduceat(self.values, edges, axis=1)
            return np.asarray(sums / counts, dtype=np.float64)
        sums = np.add.reduceat(np.nan_to_num(self.values), edges, axis=1)
        counts = np.add.reduceat(np.isfinite(self.values).astype(float), edges, axis=1)
        with np.errstate(invalid="ignore", divide="ignore"):
            found: Floats = np.where(counts > 0, sums / counts, np.nan)
        return found


class Middles:
    """Medians of several courses on the same rows [courses, rows], of all and of all but one."""

    def __init__(self, courses: Floats) -> None:
        self.courses = courses

    @cached_property
    def _sorted(self) -> Floats:
        return _in_order(self.courses)

    @cached_property
    def of_all(self) -> Floats:
        return _middle_of(self._sorted)

    @cached_property
    def without_each(self) -> Floats:
        """Of all but one, for each [courses, rows]; it takes two."""
        courses, count = self.courses, len(self.courses)
        if np.isnan(self._sorted[-1]).any():
            rest = [middle(np.delete(courses, at, axis=0)) for at in range(count)]
            return np.array(rest)
        # Of those in order, all from the one that is left out on move up by a place.
        both = [
            np.where(courses <= self._sorted[at], self._sorted[at + 1], self._sorted[at])
            for at in sorted({(count - 2) // 2, (count - 1) // 2})
        ]
        return both[0] if len(both) == 1 else np.asarray((both[0] + both[1]) / 2)

    @cached_property
    def farthest(self) -> Floats:
        """K, how far each is from the median of the others at the most [courses]; NaN where that is
        not known."""
        return highest_of(np.abs(self.courses - self.without_each))


def highest_of(values: Floats) -> Floats:
    """The highest of each row [rows, values], NaN left aside."""
    highest: Floats = values.max(axis=1)
    # Leaving NaN aside takes several times as long; most have none.
    return np.fmax.reduce(values, axis=1) if np.isnan(highest).any() else highest


def lowest_of(values: Floats) -> Floats:
    """The lowest of each row [rows, values], NaN left aside."""
    lowest: Floats = values.min(axis=1)
    return np.fmin.reduce(values, axis=1) if np.isnan(lowest).any() else lowest


def middle(values: Floats) -> Floats:
    """Median over the first axis, NaN left aside."""
    return _middle_of(_in_order(values))


def _in_order(values: Floats) -> Floats:
    """Sorted over the first axis, NaN last."""
    if len(values) == 1:
        return values
    if len(values) == 2:
        # Two, as a zone often has, are put in order at a fraction of what sorting takes.
        return np.array((np.fmin(*values), np.maximum(*values)))
    return np.sort(values, axis=0)


def _middle_of(values: Floats) -> Floats:
    """The same of those in order."""
    rows = len(values)
    if not np.isnan(values[-1]).any():
        return np.asarray((values[(rows - 1) // 2] + values[rows // 2]) / 2, dtype=np.float64)
    count = np.isfinite(values).sum(axis=0)
    at = np.arange(values.shape[1])
    low, high = np.maximum(count - 1, 0) // 2, count // 2
    high = np.minimum(high, rows - 1)
    found: Floats = np.where(count > 0, (values[low, at] + values[high, at]) / 2, np.nan)
    return found


def spread(bends: Floats, least: float) -> float:
    """K, the standard deviation of noise that makes such bends, those cut off that are larger than
    `least` K and than all but a few."""
    if not len(bends):
        return 0.0
    # The variance of a second difference of noise is six times its own.
    most = max(least, CUT * 1.4826 * float(np.median(bends)))
    return float(np.sqrt(np.mean(np.minimum(bends, most) ** 2) / 6))


def medians_as_far(bends: Floats) -> Floats:
    """Median of each row [rows, values] where something is to be cut off by it; else so much of it
    as tells that nothing is: half of the values are no less."""
    enough = bends.max(axis=1) / (CUT * 1.4826) * (1 + _BY_ROUNDING)
    half = bends.shape[1] - (bends.shape[1] - 1) // 2
    wild = np.count_nonzero(bends >= enough[:, None], axis=1) < half
    if wild.any():
        enough[wild] = medians(bends[wild])
    return np.asarray(enough, dtype=np.float64)


def medians(values: Floats) -> Floats:
    """Median of each row [rows, values], all known."""
    count = values.shape[1]
    in_order = np.partition(values, (count - 1) // 2, axis=1)
    low = in_order[:, (count - 1) // 2]
    high = low if count % 2 else in_order[:, count // 2 :].min(axis=1)
    return np.asarray((low + high) / 2, dtype=np.float64)


def beside_steps(steps: Floats) -> Floats:
    """K by which each step is off what it would have been by the steps around [.., steps]; the
    first two and the last two tell nothing."""
    around = steps[..., :-4] + steps[..., 4:]
    around /= 2
    return np.asarray(np.subtract(steps[..., 2:-2], around, out=around), dtype=np.float64)
