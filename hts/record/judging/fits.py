"""Lines of least squares through any runs of rows of many traces at once.

Traces of records of any length lie one after another in one array of running sums, so that a call
does for all of them what would be a call for each.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import inf, isqrt, sqrt
from typing import NamedTuple

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray

from hts.record.judging.noise import last_digits, noise_levels
from hts.record.record import Floats

Rows = NDArray[np.intp]

#: Rows that are reckoned with together: their sums lie in the near memory of the processor.
_NEAR_MEMORY = 16_384
#: Rows that are left out together, at the least.
_LEAST_BLOCK = 8


class Part(NamedTuple):
    """Readings without blanks, of three rows and more: `times` s [rows], rising, and `values` degC
    [traces, rows]."""

    times: Floats
    values: Floats


class Fit(NamedTuple):
    """The line of least squares through a run of rows: `slope` K/s, `level` degC at the mean time
    `at` s; `slack` K/s, the standard uncertainty of the slope by the noise, and `off` the squared
    distances of the readings in noise variances; `rows` how many they are."""

    slope: float
    level: float
    at: float
    slack: float
    off: float
    rows: int

    def on(self, time: float) -> float:
        """degC of the line at a time, s."""
        return self.level + self.slope * (time - self.at)

    @property
    def ratio(self) -> float:
        """How many times less sure the line is than its noise tells, for the readings lie farther
        off it (Birge 1932)."""
        return sqrt(max(1.0, self.off / (self.rows - 2))) if self.rows > 2 else 1.0


class Traces:
    """The traces of several parts, numbered one after another, n in all.

    `rows`, `begins` [n]: how many rows a trace has, and where its first stands when the rows of
    all lie one after another; `digit` [n] K, the last of its readings; `noise` [rows of all] K.
    `times` and `values` of the same length. `part` [n] tells of which part a trace is.
    """

    def __init__(self, parts: Sequence[Part]) -> None:
        self.parts = parts
        counts = [len(one.values) for one in parts]
        self.part = np.repeat(np.arange(len(parts)), counts)
        self.rows = np.repeat([len(one.times) for one in parts], counts)
        self.begins = np.cumsum(self.rows) - self.rows
        self.times = _flat([np.broadcast_to(p.times, p.values.shape) for p in parts])
        self.values = _flat([p.values for p in parts])
        # A row more for each trace: what stands before its first.
        self._begins = self.begins + np.arange(len(self.rows))
        self._middle = np.repeat([float(p.times[len(p.times) // 2]) for p in parts], counts)
        self._scale = np.repeat([max(float(p.times[-1] - p.times[0]), 1.0) for p in parts], counts)
        self._base, self.digit, self.usual = np.zeros((3, len(self.rows)))
        self.noise = np.zeros(len(self.values))
        # Behind the last as many as a window that begins in it may reach beyond it.
        beyond = int(self.rows.max(initial=0))
        self._sums = np.zeros((6, len(self.values) + len(self.rows) + beyond))
        # Those of as many rows that stand side by side, together.
        borders = np.flatnonzero(np.diff(self.rows)) + 1
        for first, after in pairwise([0, *borders.tolist(), len(self.rows)]):
            rows = int(self.rows[first])
            some = max(1, _NEAR_MEMORY // rows)
            for at in range(first, after, some):
                self._take(slice(at, min(at + some, after)), rows)

    def _take(self, its: slice, rows: int) -> None:
        """Digits, noise and running sums of traces of so many rows."""
        traces = its.stop - its.start
        begin, of = int(self.begins[its.start]), int(self._begins[its.start])
        all_rows = slice(begin, begin + traces * rows)
        times, values = (one[all_rows].reshape(traces, rows) for one in (self.times, self.values))
        self.digit[its] = last_digits(values)
        noise = noise_levels(values, self.digit[its])
        self.noise[all_rows] = noise.ravel()
        self.usual[its] = np.median(noise, axis=1)
        self._base[its] = np.mean(values, axis=1)
        t = (times - self._middle[its, None]) / self._scale[its, None]
        y = values - self._base[its, None]
        block = self._sums[:, of : of + traces * (rows + 1)].reshape(6, traces, rows + 1)
        _sum_up(t, y, 1 / noise**2, block)

    def sums(self, trace: Rows, rows: Rows) -> Floats:
        """The sums of each trace up to each of `rows` [traces, k], [6, traces, k]: of the weights
        w and of w t, w t t, w y, w t y, w y y."""
        found: Floats = self._sums.take(self._begins[trace][:, None] + rows, axis=1)
        return found

    def parted(self, trace: Rows, first: Rows, rows: Rows, after: Rows) -> Floats:
        """Squared distances with a corner at each of `rows`: those of the rows from `first` to
        before it, and from there to before `after`, of a trace each."""
        of = self._begins[trace]
        at, begin, end = (self._sums.take(of + its, axis=1) for its in (rows, first, after))
        return distances(at - begin) + distances(end - at)

    def best_corners(
        self, trace: Rows, first: Rows, low: Rows, high: Rows, after: Rows, step: int = 1
    ) -> tuple[Rows, Floats]:
        """Of the rows from `low` to `high` by a step the first at which a corner does best between
        the rows from `first` to before `after`, of a trace each, and the squared distances with
        it; without end where `high` is before `low`."""
        of = self._begins[trace]
        width = max(1, int((high - low).max()) // step + 1)
        # Windows of one width, out of which the shorter leave a part: rows that stand side by side
        # are fetched many times sooner together than one by one.
        windows = sliding_window_view(self._sums, (width - 1) * step + 1, axis=1)[:, :, ::step]
        rows, least = np.empty_like(low), np.empty(len(low))
        some = max(1, _NEAR_MEMORY // width)
        for its in (slice(at, at + some) for at in range(0, len(low), some)):
            at = windows[:, of[its] + low[its]]
            begin, end = (
                self._sums.take(of[its] + one[its], axis=1)[:, :, None] for one in (first, after)
            )
            off = distances(at - begin)
            off += distances(np.subtract(end, at, out=at))
            off[np.arange(width) * step > (high - low)[its, None]] = inf
            best = off.argmin(axis=1)
            rows[its] = low[its] + best * step
            least[its] = np.take_along_axis(off, best[:, None], axis=1)[:, 0]
        return rows, least

    def best_corners_within(
        self, trace: Rows, first: Rows, low: Rows, high: Rows, after: Rows, most: Floats
    ) -> tuple[Rows, Floats]:
        """The same where that comes to no more than `most`; elsewhere perhaps without end.

        A line through more rows is never nearer to them: of the rows between two that stand some
        rows apart none does better than the lines up to the one and from the other on.
        """
        rows, least = low.copy(), np.full(len(low), inf)
        block = max(_LEAST_BLOCK, isqrt(max(0, int((high - low).max(initial=0)))))
        blocks = np.arange(max(0, int((high - low).max(initial=0))) // block + 2)
        border = np.minimum(low[:, None] + blocks * block, high[:, None])
        of = self._begins[trace]
        at = self._sums.take(of[:, None] + border, axis=1)
        begin, end = (self._sums.take(of + its, axis=1)[:, :, None] for its in (first, after))
        before = distances(at[:, :, :-1] - begin)
        beyond = distances(end - at[:, :, 1:])
        its = low[:, None] + blocks[:-1] * block
        due = (before + beyond <= most[:, None]) & (its <= high[:, None])
        of_all, number = np.nonzero(due)
        if len(of_all):
            begins = its[of_all, number]
            ends = np.minimum(begins + block - 1, high[of_all])
            told = self.best_corners(trace[of_all], first[of_all], begins, ends, after[of_all])
            # Of several that do as well the first, as without blocks.
            order = np.lexsort((number, told[1], of_all))
            of_each, place = np.unique(of_all[order], return_index=True)
            rows[of_each], least[of_each] = (found[order[place]] for found in told)
        return rows, least

    def off(self, trace: Rows, first: Rows, after: Rows) -> Floats:
        """Squared distances of the rows from `first` to before `after`, of a trace each, from
        their line, in noise variances."""
        return self._fitted(trace, first, after)[-1]

    def lines(self, trace: Rows, first: Rows, after: Rows) -> tuple[Floats, ...]:
        """The figures of a Fit, without its rows, of many lines at once [k] each."""
        w, wt, wy, stt, slope, off = self._fitted(trace, first, after)
        told = stt > 0
        scale = self._scale[trace]
        return (
            slope / scale,
            wy / w + self._base[trace],
            wt / w * scale + self._middle[trace],
            np.where(told, 1 / np.sqrt(np.where(told, stt, 1.0)) / scale, inf),
            off,
        )

    def _fitted(self, trace: Rows, first: Rows, after: Rows) -> tuple[Floats, ...]:
        """The sums of w, w t and w y, the squares of t about their mean, the slope, and the squared
        distances, of many lines at once."""
        of = self._begins[trace]
        w, wt, wtt, wy, wty, wyy = self._sums.take(of + after, axis=1) - self._sums.take(
            of + first, axis=1
        )
        stt = wtt - wt * wt / w
        told = stt > 0
        slope = np.where(told, (wty - wt * wy / w) / np.where(told, stt, 1.0), 0.0)
        off = np.maximum(wyy - wy * wy / w - slope * slope * stt, 0.0)
        return w, wt, wy, stt, slope, off

    def line(self, trace: int, first: int, after: int) -> Fit:
        """The line of least squares through these rows of a trace."""
        lines = self.lines(np.array([trace]), np.array([first]), np.array([after]))
        slope, level, at, slack, off = (float(its[0]) for its in lines)
        return Fit(slope, level, at, slack, off, after - first)


def _flat(of_parts: Sequence[Floats]) -> Floats:
    return np.concatenate([one.ravel() for one in of_parts])


def _sum_up(t: Floats, y: Floats, w: Floats, out: Floats) -> None:
    """Running sums [6, traces, rows + 1], in place."""
    wt, wy = w * t, w * y
    for its, running in zip((w, wt, wt * t, wy, wt * y, wy * y), out, strict=True):
        np.cumsum(its, axis=1, out=running[:, 1:])


def distances(moments: Floats) -> Floats:
    """Squared distances in noise variances from the line of least squares, by the six sums
    [6, ...], which are overwritten. Where there are no rows the number means nothing."""
    w, wt, wtt, wy, wty, wyy = moments
    # In place: most of the time of judging goes into these few lines.
    np.copyto(w, inf, where=w <= 0)
    mean = wt / w
    wtt -= np.multiply(wt, mean, out=wt)
    wty -= np.multiply(wy, mean, out=mean)
    wyy -= np.multiply(wy, np.divide(wy, w, out=w), out=w)
    # Where there is nothing to tell, nothing is off.
    np.copyto(wtt, inf, where=wtt <= 0)
    wty *= np.divide(wty, wtt, out=wtt)
    wyy -= wty
    found: Floats = np.maximum(wyy, 0.0, out=wyy)
    return found
