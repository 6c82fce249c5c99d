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

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import islice
from math import inf

import numpy as np
from numpy.typing import NDArray

from hts.record.judging.fits import Part, Rows, Traces, distances
from hts.record.judging.line import Line, joined
from hts.record.judging.noise import ROUNDING
from hts.record.record import Floats

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
#: Noise variances by which a beginning of a stretch must be dearer than a corner there to be
#: forgotten: many times what rounding makes of the sums. Derived.
_DEARER = 1.0
#: Digits. Readings this near to a line lie on it but for their rounding, and it has no corner: half
#: a digit is rounding alone (derived), the rest is for noise that rounding hides.
_EXPLAINED = 0.8
#: Rows of all traces, from which on they are enough to be looked at together: many more are too
#: large for the near memory of the processor.
TOGETHER = 150_000


def corners(times: Floats, values: Floats) -> Line:
    """The line through readings [rows] without blanks, of three rows and more, times rising."""
    return corners_of_all([Part(times, values[None, :])])[0][0]


def corners_of_all(parts: Sequence[Part]) -> list[list[Line]]:
    """The lines of each trace of each part. Parts of one run, or of many: those that are alike in
    what is looked for are done together."""
    alike: dict[tuple[int, tuple[tuple[int, int], ...]], list[int]] = {}
    for at, part in enumerate(parts):
        rows = len(part.times)
        strides = tuple((step, rounds) for _, step, rounds in _strides(rows))
        alike.setdefault((len(_marks(rows)), strides), []).append(at)
    found: list[list[Line]] = [[] for _ in parts]
    for group in alike.values():
        for some in _batches(parts, group):
            lines = iter(_lines(Traces([parts[at] for at in some])))
            for at in some:
                found[at] = [next(lines) for _ in parts[at].values]
    return found


def _batches(parts: Sequence[Part], group: list[int]) -> Iterator[list[int]]:
    batch: list[int] = []
    size = 0
    for at in group:
        batch.append(at)
        size += parts[at].values.size
        if size >= TOGETHER:
            yield batch
            batch, size = [], 0
    if batch:
        yield batch


def _lines(traces: Traces) -> list[Line]:
    edges = _merged(traces, _placed(traces, _search(traces)))
    coarse = traces.usual <= ROUNDING * traces.digit * (1 + 1e-9)
    for trace in np.flatnonzero(coarse).tolist():
        edges[trace] = _straight(traces, trace, edges[trace])
    return joined(traces, edges)


def _charges(traces: Traces) -> Floats:
    return np.asarray(_CHARGE * np.log(traces.rows), dtype=np.float64)


def _search(traces: Traces) -> list[list[int]]:
    """Of each trace the first rows of the stretches, and the row after the last."""
    marks = np.stack([_marks(rows) for rows in traces.rows.tolist()])
    at_marks = traces.sums(np.arange(len(marks)), marks)
    return _back(marks, _came(at_marks, _charges(traces)))


def _came(at_marks: Floats, charges: Floats) -> Rows:
    """For each mark of each trace the one at which the best stretch to it begins, by the sums at
    the marks [6, traces, marks].

    A stretch that begins at s and ends at t or later is never better than one from s to t and
    another on from there, once a corner at t is worth more than what the line from s is off by: for
    two lines are never farther from the readings than one. Then no stretch from s is looked at any
    more (Killick, Fearnhead and Eckley 2012).
    """
    every, count = np.arange(at_marks.shape[1]), at_marks.shape[2]
    charge = charges[:, None, None]
    of_trace = every[:, None] * count
    came = np.zeros(at_marks.shape[1:], dtype=np.intp)
    # The beginnings that are still looked at, in order, and what each has cost; inf: none.
    live = np.zeros((len(every), 1), dtype=np.intp)
    spent = np.zeros(live.shape)
    # Some ends at once: a call of many is far quicker than many of few.
    for begin in range(1, count, _AT_ONCE):
        ends = np.arange(begin, min(begin + _AT_ONCE, count))
        old, new = live.shape[1], np.broadcast_to(ends, (len(every), len(ends)))
        live = np.concatenate((live, new), axis=1)
        spent = np.concatenate((spent, np.full(new.shape, np.inf)), axis=1)
        starts = at_marks.reshape(6, -1).take(of_trace + live, axis=1)
        off = distances(at_marks[:, :, ends, None] - starts[:, :, None, :])
        whole = off + charge
        ones = np.empty(new.shape, dtype=np.intp)
        for at in range(len(ends)):
            found = spent[:, : old + at] + whole[:, at, : old + at]
            ones[:, at] = one = found.argmin(axis=1)
            spent[:, old + at] = found[every, one]
        came[:, ends] = np.take_along_axis(live, ones, axis=1)
        dearer = spent[:, :-1] + off[:, -1, :-1] > spent[:, -1:] + _DEARER
        kept = np.concatenate((~dearer, np.full((len(every), 1), True)), axis=1)
        most = int(kept.sum(axis=1).max())
        order = np.argsort(~kept, axis=1, kind="stable")[:, :most]
        spent[~kept] = np.inf
        live = np.take_along_axis(live, order, axis=1)
        spent = np.take_along_axis(spent, order, axis=1)
    return came


def _back(marks: Rows, came: Rows) -> list[list[int]]:
    """The rows of the marks one comes by on the way back from the last of each trace."""
    every = np.arange(len(marks))
    at = np.full(len(marks), marks.shape[1] - 1)
    way = [at]
    while at.any():
        at = came[every, at]
        way.append(at)
    passed = np.zeros(marks.shape, dtype=np.bool_)
    passed[every, np.array(way)] = True
    counts = np.cumsum(passed.sum(axis=1))
    return [its.tolist() for its in np.split(marks[passed], counts[:-1])]


@lru_cache(maxsize=256)
def _marks(rows: int) -> Rows:
    """The rows a corner is looked for at."""
    return np.unique(np.linspace(0, rows, min(rows // 2, _CANDIDATES) + 1).astype(np.intp))


def _placed(traces: Traces, edges: list[list[int]]) -> list[list[int]]:
    """The corners of every trace, each put between its neighbours at the row where both lines fit
    best: every other corner at once, the rest after them, and that three times round."""
    flat = np.array([edge for its in edges for edge in its])
    counts = np.array([len(its) for its in edges])
    trace = np.repeat(np.arange(len(edges)), counts)
    ends = np.cumsum(counts) - counts
    number = np.arange(len(flat)) - ends[trace]
    # [traces, strides, 3]; of all traces that are done together the strides are alike.
    strides = np.array([_strides(rows) for rows in traces.rows.tolist()])
    for at, (_, step, rounds) in enumerate(strides[0].tolist()):
        reach = strides[:, at, 0]
        # Corners about which something has moved since they were put, as at first all have.
        due = np.full(len(flat), True)
        for half in [1, 0] * rounds:
            due[ends] = due[ends - 1] = False
            corners = np.flatnonzero(due & (number % 2 == half))
            due[corners] = False
            moved = corners[_put(traces, flat, trace, corners, reach, step)]
            due[moved - 1] = due[moved] = due[moved + 1] = True
    rows = flat.tolist()
    return [
        rows[end : end + count] for end, count in zip(ends.tolist(), counts.tolist(), strict=True)
    ]


@lru_cache(maxsize=256)
def _strides(rows: int) -> tuple[tuple[int, int, int], ...]:
    """How far corners may go, by steps of how many rows, and how many times: by a few great steps
    first where a record has many rows."""
    reach = _reach(rows)
    found = []
    while (step := reach // _STEPS) > 1:
        found.append((reach, step, 1))
        reach = 2 * step
    return (*found, (reach, 1, _ROUNDS))


def _reach(rows: int) -> int:
    return max(_NEAR, _REACH * rows // _CANDIDATES)


def _put(
    traces: Traces, flat: Rows, trace: Rows, corners: Rows, most: Rows, step: int
) -> NDArray[np.bool_]:
    """Moves corners no two of which are neighbours, `most` rows [traces] at the most and by whole
    steps, and tells which have moved."""
    if not len(corners):
        return np.zeros(0, dtype=np.bool_)
    first, edge, after = flat[corners - 1], flat[corners], flat[corners + 1]
    reach = np.clip((after - first) // 2, _NEAR, most[trace[corners]])
    # Of no reach is one with no row to go to.
    low = np.minimum(np.maximum(first + 2, edge - reach), edge)
    high = np.maximum(np.minimum(after - 2, edge + reach), edge)
    low, high = edge - (edge - low) // step * step, edge + (high - edge) // step * step
    flat[corners], _ = traces.best_corners(trace[corners], first, low, high, after, step)
    return np.asarray(flat[corners] != edge)


def _merged(traces: Traces, edges: list[list[int]]) -> list[list[int]]:
    """Without the stretches that do not pay for themselves: where one corner does nearly as well as
    the two round a stretch it stands for both. A corner that lay between two rows it was looked for
    at has got two."""
    charge = _charges(traces)
    found = [list(its) for its in edges]
    # Of each trace, for each four edges one after another: a stretch between two corners, and the
    # ends of those beside it.
    saved: list[list[tuple[float, int]]] = [[] for _ in found]
    due = [(at, 0, max(0, len(its) - 3)) for at, its in enumerate(found)]
    while due:
        told = _savings(traces, [(at, found[at][a : b + 3]) for at, a, b in due], charge)
        # The best of each trace at a time: what has been merged changes what stands beside it.
        new = []
        for at, begin, stop in due:
            its = saved[at]
            its[begin:begin] = islice(told, stop - begin)
            worse = [one for one, _ in its]
            if worse and (least := min(worse)) < charge[at]:
                k = worse.index(least)
                found[at][k + 1 : k + 3] = [its[k][1]]
                begin = max(0, k - 2)
                new.append((at, begin, min(k + 2, len(its) - 1)))
                del its[begin : k + 3]
        due = new
    return found


def _savings(
    traces: Traces, edges: list[tuple[int, list[int]]], charge: Floats
) -> Iterator[tuple[float, int]]:
    """For each four edges one after another, of a trace each, how much worse one corner does than
    the two, in noise variances, and at which row it does best; without end where it is sure to be
    more than a charge."""
    flat = np.array([row for _, its in edges for row in its], dtype=np.intp)
    number = np.repeat(np.arange(len(edges)), [len(its) for _, its in edges])
    begin = np.flatnonzero(number[3:] == number[:-3])
    if not len(begin):
        return iter(())
    trace = np.array([at for at, _ in edges])[number[begin]]
    first, one, two, after = (flat[begin + at] for at in range(4))
    reach = np.maximum(_NEAR, _REACH * traces.rows[trace] // _CANDIDATES)
    low, high = np.maximum(one - reach, first + 2), np.minimum(two + reach, after - 2)
    # In a long stretch only near its ends: a corner in its midst would have been found there.
    until, again = np.minimum(one + reach, two), np.maximum(two - reach, one)
    begins, ends = (two, first, until, first, high), (after, low, after, again, after)
    last, *apart = traces.off(np.tile(trace, 5), np.hstack(begins), np.hstack(ends)).reshape(5, -1)
    now = traces.parted(trace, first, one, two) + last
    # A line through more rows is never nearer to them: with a corner up to `until` the rows after
    # it have one line, and with one from `again` on those before it.
    least = np.minimum(apart[0] + apart[1], apart[2] + apart[3])
    worse, rows = np.full(len(begin), inf), one.copy()
    due = np.flatnonzero(least - now <= charge[trace] + _DEARER)
    if len(due):
        trace, first, after, low, high, until, again = (
            its[due] for its in (trace, first, after, low, high, until, again)
        )
        lows = np.hstack((low, np.maximum(again, until + 1)))
        twice = (np.hstack((its, its)) for its in (after, now[due] + charge[trace] + _DEARER))
        (near, far), (near_off, far_off) = (
            found.reshape(2, -1)
            for found in traces.best_corners_within(
                np.tile(trace, 2), np.tile(first, 2), lows, np.hstack((until, high)), *twice
            )
        )
        rows[due] = np.where(far_off < near_off, far, near)
        worse[due] = np.minimum(near_off, far_off) - now[due]
    return zip(worse.tolist(), rows.tolist(), strict=True)


def _straight(traces: Traces, trace: int, edges: list[int]) -> list[int]:
    """Without the corners that rounding alone explains: a slope beside a whole number of digits
    for each step reads like stretches of two slopes."""
    begin, reach = traces.begins[trace], _EXPLAINED * float(traces.digit[trace])
    kept = list(edges)
    k = 1
    while k < len(kept) - 1:
        first, after = kept[k - 1], kept[k + 1]
        line = traces.line(trace, first, after)
        rows = slice(begin + first, begin + after)
        off = traces.values[rows] - (line.level + line.slope * (traces.times[rows] - line.at))
        if np.max(np.abs(off)) <= reach:
            del kept[k]
            k = max(1, k - 1)
        else:
            k += 1
    return kept
