"""Means of neighbouring readings: a line is laid through a trace, not through its noise."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from hts.record.record import Floats


class Trace(NamedTuple):
    """Traces of mean readings, degC [..., rows], each at the mean of their times, s, [rows] where
    no reading is missing and of the shape of `values` else."""

    times: Floats
    values: Floats


class Means:
    """Means over `half` rows either side, fewer towards the ends of the record.

    Times are averaged with the readings: a straight line stays just what it was, whatever the
    steps between its readings.
    """

    def __init__(self, times: Floats, half: int) -> None:
        self._times = times
        self._half = half
        rows = np.arange(len(times))
        reach = np.minimum(half, np.minimum(rows, len(times) - 1 - rows))
        self._low, self._high = rows - reach, rows + reach + 1
        self._mean_times = self._sums(times) / (self._high - self._low) if half else times

    def of(self, values: Floats) -> Trace:
        """The traces of some thermocouples, [..., rows]; blanks stay blanks, and are not averaged
        with others."""
        if not self._half:
            return Trace(self._times, values)
        blank = np.isnan(values)
        if not blank.any():
            return Trace(self._mean_times, self._sums(values) / (self._high - self._low))
        count = self._sums(~blank)
        with np.errstate(invalid="ignore", divide="ignore"):
            times = self._sums(np.where(blank, 0.0, self._times)) / count
            means = self._sums(np.where(blank, 0.0, values)) / count
        return Trace(np.where(blank, np.nan, times), np.where(blank, np.nan, means))

    def _sums(self, values: Floats) -> Floats:
        running = np.zeros((*values.shape[:-1], values.shape[-1] + 1))
        np.cumsum(values, axis=-1, dtype=np.float64, out=running[..., 1:])
        found: Floats = running[..., self._high] - running[..., self._low]
        return found
