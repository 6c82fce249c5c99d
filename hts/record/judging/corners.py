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

from collections.abc import Callable, Iterator
from functools import lru_cache, partial
from itertools import pairwise
from math import inf, sqrt
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from hts.record.record import Floats

Rows = NDArray[np.intp]
LineOf = Callable[[int, int], tuple[float, float, float, float]]

#: Rows at which a corner is looked for at first; it is then put where it fits best.
_CANDIDATES = 200
#: Ends of stretches that are weighed at once.
_AT_ONCE = 12
#: Steps that a corner is moved by at the most, either way.
_STEPS = 32
#: Rows one may go however near its neighbours are.
_NEAR = 8
#: Times that all corners are put in place, and how many of the distances between two candidates one
#: may go each time: the best of the candidates is hardly ever farther from the best of the rows.
_ROUNDS, _REACH = 3, 4
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
    digits = _digits(values)
    noises = noise_levels(values, digits)
    usual = np.median(noises, axis=1).tolist()
    sums = _Sums(times, values, noises)
    found = []
    searched = _search(sums, len(values), len(times))
    for at, edges in enumerate(_placed(sums, searched, len(times))):
        digit = float(digits[at])
        line = partial(sums.line, at)
        if usual[at] <= _ROUNDING * digit * (1 + 1e-9):
            edges = _straight(times, values[at], line, edges, _EXPLAINED * digit)
        found.append(_joined(times, noises[at], usual[at], line, edges))
    return found


def noise_levels(values: Floats, digits: Floats) -> Floats:
    """K, the standard deviation of the noise round each row of several traces [traces, rows], by
    their last digits [traces]."""
    least = np.maximum(_LEAST_NOISE, _ROUNDING * digits)[:, None]
    bends = np.abs(np.diff(values, 2, axis=1))
    traces, rows = bends.shape
    if not rows:
        return np.repeat(least, values.shape[1], axis=1)
    # Blocks as alike in size as can be: `longer` of them have a row more.
    blocks = max(1, rows // _BLOCK)
    size, longer = divmod(rows, blocks)
    first, rest = np.split(bends, [longer * (size + 1)], axis=1)
    medians = np.concatenate(
        (
            np.median(first.reshape(traces, longer, size + 1), axis=2),
            np.median(rest.reshape(traces, blocks - longer, size), axis=2),
        ),
        axis=1,
    )
    # A second difference of noise has six times its variance; 1.4826 makes the median of absolute
    # values a standard deviation (normal distribution).
    sizes = [size + 1] * longer + [size] * (blocks - longer)
    sizes[0] += 1
    sizes[-1] += 1
    found = np.repeat(1.4826 * medians / np.sqrt(6), sizes, axis=1)
    return np.asarray(np.maximum(found, least), dtype=np.float64)


def _digits(values: Floats) -> Floats:
    """The last digit of the readings of each trace, K: the least step between two that differ."""
    steps = np.diff(np.sort(np.round(values, 6), axis=1), axis=1)
    least = np.min(steps, axis=1, initial=np.inf, where=steps > 0)
    return np.asarray(np.where(np.isinf(least), 0.0, least), dtype=np.float64)


class _Sums:
    """Running sums of every trace, [traces, rows + 1] each, for the line of least squares through
    any run of rows: of the weights w and of w t, w t t, w y, w t y, w y y."""

    def __init__(self, times: Floats, values: Floats, noises: Floats) -> None:
        self.middle = float(times[len(times) // 2])
        self.base = np.mean(values, axis=1)
        t, y, w = times - self.middle, values - self.base[:, None], 1 / noises**2
        self.scale = max(float(t[-1] - t[0]), 1.0)
        t = t / self.scale
        wt, wy = w * t, w * y
        self._sums = np.zeros((6, len(values), len(t) + 1))
        for its, out in zip((w, wt, wt * t, wy, wt * y, wy * y), self._sums, strict=True):
            np.cumsum(its, axis=1, out=out[:, 1:])

    def at(self, rows: Rows) -> Floats:
        """The sums up to each of `rows`, [6, traces, rows]."""
        return np.ascontiguousarray(self._sums.take(rows, axis=2))

    def parted(self, trace: Rows, first: Rows, rows: Rows, after: Rows) -> Floats:
        """Squared distances with a corner at each of `rows`: those of the rows from `first` to
        before it, and from there to before `after`, of a trace each."""
        flat = self._sums.reshape(6, -1)
        of_trace = trace * self._sums.shape[2]
        at, begin, end = (flat.take(of_trace + its, axis=1) for its in (rows, first, after))
        return _distances(at - begin) + _distances(end - at)

    def line(self, trace: int, first: int, after: int) -> tuple[float, float, float, float]:
        """Slope K/s, value degC at the mean time, that time s, and standard uncertainty K/s."""
        sums = self._sums[:, trace, after] - self._sums[:, trace, first]
        w, wt, wtt, wy, wty, _ = sums.tolist()
        stt = wtt - wt * wt / w
        slope = (wty - wt * wy / w) / stt if stt > 0 else 0.0
        slack = 1 / sqrt(stt) / self.scale if stt > 0 else inf
        return (
            slope / self.scale,
            wy / w + float(self.base[trace]),
            wt / w * self.scale + self.middle,
            slack,
        )


def _distances(moments: Floats) -> Floats:
    """Squared distances in noise variances from the line of least squares, by the six sums
    [6, ...], which are overwritten. Where there are no rows the number means nothing."""
    w, wt, wtt, wy, wty, wyy = moments
    # In place: most of the time of judging goes into these few lines.
    w = np.where(w > 0, w, np.inf)
    mean = wt / w
    wtt -= np.multiply(wt, mean, out=wt)
    wty -= np.multiply(wy, mean, out=mean)
    wyy -= np.multiply(wy, np.divide(wy, w, out=w), out=w)
    # Where there is nothing to tell, nothing is off.
    wtt[wtt <= 0] = np.inf
    wty *= np.divide(wty, wtt, out=wtt)
    wyy -= wty
    found: Floats = np.maximum(wyy, 0.0, out=wyy)
    return found


def _search(sums: _Sums, traces: int, rows: int) -> list[list[int]]:
    """Of each trace the first rows of the stretches, and the row after the last."""
    marks = _marks(rows)
    charge = _CHARGE * np.log(rows)
    count = len(marks)
    best = np.full((traces, count), np.inf)
    best[:, 0] = 0.0
    came = np.zeros((traces, count), dtype=np.intp)
    every = np.arange(traces)
    at_marks = sums.at(marks)
    # Some ends at once: a call of many is far quicker than many of few, and too many are too large
    # for the near memory of the processor.
    for begin in range(1, count, _AT_ONCE):
        end = min(begin + _AT_ONCE, count)
        costs = _distances(at_marks[:, :, begin:end, None] - at_marks[:, :, None, :end]) + charge
        for at in range(begin, end):
            found = best[:, :at] + costs[:, at - begin, :at]
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
def _marks(rows: int) -> Rows:
    """The rows a corner is looked for at."""
    return np.unique(np.linspace(0, rows, min(rows // 2, _CANDIDATES) + 1).astype(np.intp))


def _placed(sums: _Sums, edges: list[list[int]], rows: int) -> list[list[int]]:
    """The corners of every trace, each put between its neighbours at the row where both lines fit
    best: every other corner at once, the rest after them, and that three times round."""
    flat = np.array([edge for its in edges for edge in its])
    trace = np.repeat(np.arange(len(edges)), [len(its) for its in edges])
    number = np.concatenate([np.arange(len(its)) for its in edges])
    ends = np.flatnonzero(number == 0)
    for reach, step, rounds in _strides(rows):
        # Corners about which something has moved since they were put, as at first all have.
        due = np.full(len(flat), True)
        for half in [1, 0] * rounds:
            due[ends] = due[ends - 1] = False
            corners = np.flatnonzero(due & (number % 2 == half))
            due[corners] = False
            moved = corners[_put(sums, flat, trace, corners, reach, step)]
            due[moved - 1] = due[moved] = due[moved + 1] = True
    parts = np.split(flat, ends[1:])
    return [part.tolist() for part in parts]


def _strides(rows: int) -> Iterator[tuple[int, int, int]]:
    """How far corners may go, by steps of how many rows, and how many times: by a few great steps
    first where a record has many rows."""
    reach = max(_NEAR, _REACH * rows // _CANDIDATES)
    while (step := reach // _STEPS) > 1:
        yield reach, step, 1
        reach = 2 * step
    yield reach, 1, _ROUNDS


def _put(
    sums: _Sums, flat: Rows, trace: Rows, corners: Rows, most: int, step: int
) -> NDArray[np.bool_]:
    """Moves corners no two of which are neighbours, `most` rows at the most and by whole steps, and
    tells which have moved."""
    first, edge, after = flat[corners - 1], flat[corners], flat[corners + 1]
    reach = np.clip((after - first) // 2, _NEAR, most)
    # Of no reach is one with no row to go to.
    low = np.minimum(np.maximum(first + 2, edge - reach), edge)
    high = np.maximum(np.minimum(after - 2, edge + reach), edge)
    low, high = edge - (edge - low) // step * step, edge + (high - edge) // step * step
    counts = (high - low) // step + 1
    begins = np.cumsum(counts) - counts
    of = np.repeat(np.arange(len(corners)), counts)
    rows = (np.arange(len(of)) - begins[of]) * step + low[of]
    off = sums.parted(trace[corners][of], first[of], rows, after[of])
    least = np.minimum.reduceat(off, begins) if len(of) else off
    hits = np.flatnonzero(off == least[of])
    _, nearest = np.unique(of[hits], return_index=True)
    flat[corners] = rows[hits[nearest]]
    return np.asarray(flat[corners] != edge)


def _straight(
    times: Floats, values: Floats, line_of: LineOf, edges: list[int], reach: float
) -> list[int]:
    """Without the corners that rounding alone explains: a slope beside a whole number of digits
    for each step reads like stretches of two slopes."""
    kept = list(edges)
    k = 1
    while k < len(kept) - 1:
        first, after = kept[k - 1], kept[k + 1]
        line = line_of(first, after)
        off = values[first:after] - (line[1] + line[0] * (times[first:after] - line[2]))
        if np.max(np.abs(off)) <= reach:
            del kept[k]
            k = max(1, k - 1)
        else:
            k += 1
    return kept


def _joined(times: Floats, noise: Floats, usual: float, line_of: LineOf, edges: list[int]) -> Line:
    """The lines of the stretches, made to meet where they cross; `usual` is the median noise."""
    lines = [line_of(a, b) for a, b in pairwise(edges)]
    at, level, doubt = [float(times[0])], [_on(lines[0], float(times[0]))], [0.0]
    for k in range(1, len(lines)):
        one, two = lines[k - 1], lines[k]
        before, after = float(times[edges[k] - 1]), float(times[edges[k]])
        bend = one[0] - two[0]
        gap = _on(two, (before + after) / 2) - _on(one, (before + after) / 2)
        step = after - before
        shorter = min(edges[k] - edges[k - 1], edges[k + 1] - edges[k])
        unsure = float(noise[edges[k]]) * 2 / sqrt(shorter)
        crossing = (before + after) / 2 + (gap / bend if bend else inf)
        reach = max(2 * step, 0.5 * min(after - at[-1], float(times[edges[k + 1] - 1]) - before))
        if abs(crossing - (before + after) / 2) <= reach and crossing > at[-1]:
            at.append(crossing)
            level.append((_on(one, crossing) + _on(two, crossing)) / 2)
            doubt.append(unsure / abs(bend))
        else:
            # A step, where something happened between two readings: both sides are kept.
            first, second = max(before, at[-1] + 1e-6), max(after, at[-1] + 2e-6)
            at += [first, second]
            level += [_on(one, first), _on(two, second)]
            doubt += [step / sqrt(12)] * 2
    last = float(times[-1])
    if last <= at[-1]:
        last = at[-1] + 1e-6
    at.append(last)
    level.append(_on(lines[-1], float(times[-1])))
    doubt.append(0.0)
    corners_at = np.array(at)
    slack = np.interp(
        (corners_at[1:] + corners_at[:-1]) / 2,
        [one[2] for one in lines],
        [one[3] for one in lines],
    )
    return Line(corners_at, np.array(level), np.array(doubt), usual, slack)


def _on(line: tuple[float, float, float, float], at: float) -> float:
    return line[1] + line[0] * (at - line[2])
