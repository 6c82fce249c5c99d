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

from collections.abc import Iterator
from functools import lru_cache, partial
from math import inf, sqrt

import numpy as np
from numpy.typing import NDArray

from hts.record.judging.line import Fit, Line, LineOf, joined
from hts.record.judging.noise import ROUNDING, last_digits, noise_levels
from hts.record.record import Floats

Rows = NDArray[np.intp]

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
#: Digits. Readings this near to a line lie on it but for their rounding, and it has no corner: half
#: a digit is rounding alone (derived), the rest is for noise that rounding hides.
_EXPLAINED = 0.8


def corners(times: Floats, values: Floats) -> Line:
    """The line through readings [rows] without blanks, of three rows and more, times rising."""
    return corners_of_all(times, values[None, :])[0]


def corners_of_all(times: Floats, values: Floats) -> list[Line]:
    """The same of several traces at the same times, [traces, rows]."""
    digits = last_digits(values)
    noises = noise_levels(values, digits)
    usual = np.median(noises, axis=1).tolist()
    sums = _Sums(times, values, noises)
    found = []
    searched = _search(sums, len(values), len(times))
    placed = _merged(sums, _placed(sums, searched, len(times)), len(times))
    for at, edges in enumerate(placed):
        digit = float(digits[at])
        line = partial(sums.line, at)
        if usual[at] <= ROUNDING * digit * (1 + 1e-9):
            edges = _straight(times, values[at], line, edges, _EXPLAINED * digit)
        found.append(joined(times, noises[at], digit, line, edges))
    return found


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

    def line(self, trace: int, first: int, after: int) -> Fit:
        """The line of least squares through these rows of a trace."""
        sums = self._sums[:, trace, after] - self._sums[:, trace, first]
        w, wt, wtt, wy, wty, wyy = sums.tolist()
        stt = wtt - wt * wt / w
        slope = (wty - wt * wy / w) / stt if stt > 0 else 0.0
        off = max(wyy - wy * wy / w - slope * slope * stt, 0.0)
        return Fit(
            slope / self.scale,
            wy / w + float(self.base[trace]),
            wt / w * self.scale + self.middle,
            1 / sqrt(stt) / self.scale if stt > 0 else inf,
            off,
            after - first,
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


def _merged(sums: _Sums, edges: list[list[int]], rows: int) -> list[list[int]]:
    """Without the stretches that do not pay for themselves: where one corner does nearly as well as
    the two round a stretch it stands for both. A corner that lay between two rows it was looked for
    at has got two."""
    reach = max(_NEAR, _REACH * rows // _CANDIDATES)
    charge = _CHARGE * np.log(rows)
    found = [list(its) for its in edges]
    due = [(at, k) for at, its in enumerate(found) for k in range(1, len(its) - 2)]
    while due:
        # The best of each trace at a time: what has been merged changes what stands beside it.
        saved = _savings(sums, found, due, reach)
        best: dict[int, tuple[float, int, int]] = {}
        for (at, k), (worse, row) in zip(due, saved, strict=True):
            if worse < charge and worse < best.get(at, (inf, 0, 0))[0]:
                best[at] = (worse, k, row)
        for at, (_, k, row) in best.items():
            found[at][k : k + 2] = [row]
        due = [(at, k) for at in best for k in range(1, len(found[at]) - 2)]
    return found


def _savings(
    sums: _Sums, edges: list[list[int]], pairs: list[tuple[int, int]], reach: int
) -> list[tuple[float, int]]:
    """For each (trace, corner) how much worse one corner does than it and the next one together,
    in noise variances, and at which row it does best."""
    places = np.array([edges[at][k - 1 : k + 3] for at, k in pairs])
    trace = np.array([at for at, _ in pairs])
    first, one, two, after = places.T
    low, high = np.maximum(one - reach, first + 2), np.minimum(two + reach, after - 2)
    # In a long stretch only near its ends: a corner in its midst would have been found there.
    inner = np.minimum(one + reach, two), np.maximum(two - reach, one)
    spans = [np.unique(np.r_[low[i] : inner[0][i] + 1, inner[1][i] : high[i] + 1])
             for i in range(len(pairs))]  # fmt: skip
    counts = np.array([len(span) for span in spans])
    of = np.repeat(np.arange(len(pairs)), counts)
    rows = np.concatenate(spans) if spans else np.empty(0, dtype=np.intp)
    off = sums.parted(trace[of], first[of], rows, after[of])
    now = sums.parted(trace, first, one, two) + sums.parted(trace, two, after, after)
    begins = np.cumsum(counts) - counts
    found = []
    for i, (begin, count) in enumerate(zip(begins.tolist(), counts.tolist(), strict=True)):
        if not count:
            found.append((inf, int(one[i])))
            continue
        at = begin + int(np.argmin(off[begin : begin + count]))
        found.append((float(off[at] - now[i]), int(rows[at])))
    return found


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
        off = values[first:after] - (line.level + line.slope * (times[first:after] - line.at))
        if np.max(np.abs(off)) <= reach:
            del kept[k]
            k = max(1, k - 1)
        else:
            k += 1
    return kept
