"""A trace of readings as a line with corners: its straight stretches, without its noise.

The estimator behind every rate. The noise of the readings is measured from the bends between
neighbouring readings; the line is the one whose squared distances from the readings, counted in
that noise, and a charge for each corner come to the least (least squares with the number of
stretches chosen by a penalty, Schwarz 1978; the search is the dynamic program of Bellman 1961).
Neighbouring stretches meet where their lines cross. So a rate is that of a whole straight stretch,
however short or long a window it is asked over, and how long a part was too fast is the time
between two corners: neither hangs on a window, on how much too fast, or on what came before.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import accumulate, pairwise
from math import inf, sqrt
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from hts.record.record import Floats

Rows = NDArray[np.intp]

#: Rows at which a corner is looked for at first; it is then put where it fits best.
_CANDIDATES = 200
#: Charge of a stretch in noise variances, times the logarithm of the rows: a line has two
#: parameters and its end is a third (Schwarz), and noise of real recorders is not quite without
#: memory, hence more. Basis: practice, no source; `tests/record/judging/test_corners.py` holds it.
_CHARGE = 5.0
#: K. No reading is better than this, whatever its last digit says.
_LEAST_NOISE = 1e-4
#: Standard deviation of rounding to a last digit, in digits (derived: 1 / sqrt(12)).
_ROUNDING = 0.29
#: Digits. Readings this near to a line lie on it but for their rounding, and it has no corner: half
#: a digit is rounding alone (derived), the rest is for noise that rounding hides.
_EXPLAINED = 0.8
#: Rows over which noise is taken to be of one kind.
_BLOCK = 60


class Line(NamedTuple):
    """`times` s and `values` degC of the corners and both ends [n]; `doubt` s, the standard
    uncertainty of the time of each corner [n], 0 at the ends. `noise` K, the median of the
    readings'; `slopes` K/s of the stretches and their standard uncertainties `slack` [n - 1]."""

    times: Floats
    values: Floats
    doubt: Floats
    noise: float
    slack: Floats

    @property
    def slopes(self) -> Floats:
        return np.asarray(np.diff(self.values) / np.diff(self.times), dtype=np.float64)


def corners(times: Floats, values: Floats) -> Line:
    """The line through readings [rows] without blanks, of three rows and more, times rising."""
    return corners_of_all(times, values[None, :])[0]


def corners_of_all(times: Floats, values: Floats) -> list[Line]:
    """The same of several traces at the same times, [traces, rows]."""
    noises = [noise_of(one) for one in values]
    sums = [_Sums(times, one, noise) for one, noise in zip(values, noises, strict=True)]
    found = []
    placed = _placed(sums, _search(sums, len(times)))
    for one, noise, its, edges in zip(values, noises, sums, placed, strict=True):
        digit = _digit(one)
        if np.median(noise) <= _ROUNDING * digit * (1 + 1e-9):
            edges = _straight(times, one, its, edges, _EXPLAINED * digit)
        found.append(_joined(times, one, noise, its, edges))
    return found


def noise_of(values: Floats) -> Floats:
    """K, the standard deviation of the noise round each row [rows]."""
    bends = np.abs(np.diff(values, 2))
    digit = _digit(values)
    least = max(_LEAST_NOISE, _ROUNDING * digit)
    if not len(bends):
        return np.full(len(values), least)
    # Blocks as alike in size as can be: `longer` of them have a row more.
    blocks = max(1, len(bends) // _BLOCK)
    size, longer = divmod(len(bends), blocks)
    medians = np.concatenate(
        (
            np.median(bends[: longer * (size + 1)].reshape(longer, size + 1), axis=1),
            np.median(bends[longer * (size + 1) :].reshape(blocks - longer, size), axis=1),
        )
    )
    # A second difference of noise has six times its variance; 1.4826 makes the median of absolute
    # values a standard deviation (normal distribution).
    sizes = [size + 1] * longer + [size] * (blocks - longer)
    found = np.repeat(1.4826 * medians / np.sqrt(6), sizes)
    found = np.concatenate((found[:1], found, found[-1:]))
    return np.asarray(np.maximum(found, least), dtype=np.float64)


def _digit(values: Floats) -> float:
    """The last digit of the readings, K: the least step between two that differ."""
    known = np.unique(np.round(values, 6))
    return float(np.diff(known).min()) if len(known) > 1 else 0.0


class _Sums:
    """Running sums, for the line of least squares through any run of rows at once."""

    def __init__(self, times: Floats, values: Floats, noise: Floats) -> None:
        self.middle = float(times[len(times) // 2])
        self.base = float(np.mean(values))
        t, y, w = times - self.middle, values - self.base, 1 / noise**2
        self.scale = max(float(t[-1] - t[0]), 1.0)
        t = t / self.scale
        self._sums = np.zeros((6, len(t) + 1))
        np.cumsum((w, w * t, w * t * t, w * y, w * t * y, w * y * y), axis=1, out=self._sums[:, 1:])

    def moments(self, first: int, after: int) -> Floats:
        found: Floats = self._sums[:, after] - self._sums[:, first]
        return found

    def between(self, marks: Rows, after: Rows, first: Rows) -> Floats:
        """Squared distances in noise variances of the rows from marks `first` to before marks
        `after`."""
        sums = np.ascontiguousarray(self._sums[:, marks])
        return _distances(sums.take(after, 1) - sums.take(first, 1))

    def parted(self, first: int, after: int, rows: slice, out: Floats) -> None:
        """Into `out` [2, 6, rows] the sums of rows `first` to before each of `rows`, and from there
        to before `after`."""
        at = self._sums[:, rows]
        np.subtract(at, self._sums[:, first, None], out=out[0])
        np.subtract(self._sums[:, after, None], at, out=out[1])

    def line(self, first: int, after: int) -> tuple[float, float, float, float]:
        """Slope K/s, value degC at the mean time, that time s, and standard uncertainty K/s."""
        w, wt, wtt, wy, wty, _ = self.moments(first, after).tolist()
        stt = wtt - wt * wt / w
        slope = (wty - wt * wy / w) / stt if stt > 0 else 0.0
        slack = 1 / sqrt(stt) / self.scale if stt > 0 else inf
        return (
            slope / self.scale,
            wy / w + self.base,
            wt / w * self.scale + self.middle,
            slack,
        )


def _distances(moments: Floats) -> Floats:
    """Squared distances from the line of least squares, by the six sums [6, ...]."""
    w, wt, wtt, wy, wty, wyy = moments
    stt = wtt - wt * wt / w
    sty = wty - wt * wy / w
    # Where there is nothing to tell, nothing is off.
    explained = np.divide(sty * sty, stt, out=np.zeros_like(stt), where=stt > 0)
    return np.asarray(np.maximum(wyy - wy * wy / w - explained, 0.0), dtype=np.float64)


def _search(traces: list[_Sums], rows: int) -> list[list[int]]:
    """Of each trace the first rows of the stretches, and the row after the last."""
    marks, after, first = _marks(rows)
    charge = _CHARGE * np.log(rows)
    count = len(marks)
    # Of all stretches at once: one call of many is far quicker than many of few. Those that end at
    # one mark lie side by side.
    costs = np.array([sums.between(marks, after, first) for sums in traces]) + charge
    best = np.full((len(traces), count), np.inf)
    best[:, 0] = 0.0
    came = np.zeros((len(traces), count), dtype=np.intp)
    every = np.arange(len(traces))
    begin = 0
    for at in range(1, count):
        found = best[:, :at] + costs[:, begin : begin + at]
        begin += at
        came[:, at] = one = found.argmin(axis=1)
        best[:, at] = found[every, one]
    return [_back(marks, its) for its in came]


def _back(marks: Rows, came: Rows) -> list[int]:
    at = len(marks) - 1
    edges = [int(marks[at])]
    while at > 0:
        at = int(came[at])
        edges.append(int(marks[at]))
    return edges[::-1]


@lru_cache(maxsize=16)
def _marks(rows: int) -> tuple[Rows, Rows, Rows]:
    """The rows a corner is looked for at, and every pair of them, the later first."""
    marks = np.unique(np.linspace(0, rows, min(rows // 2, _CANDIDATES) + 1).astype(np.intp))
    after, first = np.tril_indices(len(marks), -1)
    return marks, after, first


class _Placing:
    """The corners of one trace while each is put between its neighbours at the row where both lines
    fit best, one after the other and three times round."""

    def __init__(self, sums: _Sums, edges: list[int]) -> None:
        self.sums = sums
        self.edges = edges
        self.rows = slice(0, 0)
        self._k = 0
        self._round = 0
        self._moved = False
        self._settled: dict[int, tuple[int, int, int]] = {}

    def next(self) -> bool:
        """Goes on to the next corner that may move, between `before` and `after` to one of `rows`;
        False where all have their places."""
        while True:
            self._k += 1
            if self._k >= len(self.edges) - 1:
                self._round += 1
                if self._round == 3 or not self._moved:
                    return False
                self._k, self._moved = 0, False
                continue
            before, edge, after = self.edges[self._k - 1 : self._k + 2]
            if self._settled.get(self._k) == (before, edge, after):
                continue  # nothing about it has moved since
            reach = max(8, (after - before) // 2)
            first = max(before + 2, edge - reach)
            last = min(after - 2, edge + reach)
            if first <= last:
                self.before, self.after, self.rows = before, after, slice(first, last + 1)
                return True

    def put(self, row: int) -> None:
        edge = self.edges[self._k]
        if row != edge:
            self._moved = True
            self.edges[self._k] = row
        else:
            self._settled[self._k] = (self.before, edge, self.after)


def _placed(sums: list[_Sums], edges: list[list[int]]) -> list[list[int]]:
    """The corners of every trace put in place: in step, since a call of many is far quicker than
    many of few."""
    placing = [_Placing(*one) for one in zip(sums, edges, strict=True)]
    going = [one for one in placing if one.next()]
    while going:
        ends = list(accumulate(one.rows.stop - one.rows.start for one in going))
        begins = [0, *ends[:-1]]
        both = np.empty((2, 6, ends[-1]))
        for one, begin, end in zip(going, begins, ends, strict=True):
            one.sums.parted(one.before, one.after, one.rows, both[:, :, begin:end])
        left, right = _distances(both.transpose(1, 0, 2))
        off = left + right
        for one, begin, end in zip(going, begins, ends, strict=True):
            one.put(one.rows.start + int(off[begin:end].argmin()))
        going = [one for one in going if one.next()]
    return edges


def _straight(
    times: Floats, values: Floats, sums: _Sums, edges: list[int], reach: float
) -> list[int]:
    """Without the corners that rounding alone explains: a slope beside a whole number of digits
    for each step reads like stretches of two slopes."""
    kept = list(edges)
    k = 1
    while k < len(kept) - 1:
        first, after = kept[k - 1], kept[k + 1]
        line = sums.line(first, after)
        off = values[first:after] - (line[1] + line[0] * (times[first:after] - line[2]))
        if np.max(np.abs(off)) <= reach:
            del kept[k]
            k = max(1, k - 1)
        else:
            k += 1
    return kept


def _joined(times: Floats, values: Floats, noise: Floats, sums: _Sums, edges: list[int]) -> Line:
    """The lines of the stretches, made to meet where they cross."""
    lines = [sums.line(a, b) for a, b in pairwise(edges)]
    at, level, doubt = [float(times[0])], [_on(lines[0], float(times[0]))], [0.0]
    for k in range(1, len(lines)):
        one, two = lines[k - 1], lines[k]
        before, after = float(times[edges[k] - 1]), float(times[edges[k]])
        bend = one[0] - two[0]
        gap = _on(two, (before + after) / 2) - _on(one, (before + after) / 2)
        step = after - before
        unsure = float(noise[edges[k]]) * 2 / np.sqrt(min(edges[k] - edges[k - 1],
                                                          edges[k + 1] - edges[k]))  # fmt: skip
        crossing = (before + after) / 2 + (gap / bend if bend else np.inf)
        reach = max(2 * step, 0.5 * min(after - at[-1], float(times[edges[k + 1] - 1]) - before))
        if abs(crossing - (before + after) / 2) <= reach and crossing > at[-1]:
            at.append(crossing)
            level.append((_on(one, crossing) + _on(two, crossing)) / 2)
            doubt.append(float(np.hypot(unsure / abs(bend), 0.0)))
        else:
            # A step, where something happened between two readings: both sides are kept.
            first, second = max(before, at[-1] + 1e-6), max(after, at[-1] + 2e-6)
            at += [first, second]
            level += [_on(one, first), _on(two, second)]
            doubt += [step / np.sqrt(12)] * 2
    last = float(times[-1])
    if last <= at[-1]:
        last = at[-1] + 1e-6
    at.append(last)
    level.append(_on(lines[-1], float(times[-1])))
    doubt.append(0.0)
    slack = np.interp(
        (np.array(at)[1:] + np.array(at)[:-1]) / 2,
        [one[2] for one in lines],
        [one[3] for one in lines],
    )
    return Line(np.array(at), np.array(level), np.array(doubt), float(np.median(noise)), slack)


def _on(line: tuple[float, float, float, float], at: float) -> float:
    return line[1] + line[0] * (at - line[2])
