"""The course of each thermocouple as a line with corners, and the rates along it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import isfinite, nan
from typing import NamedTuple

import numpy as np

from hts.record.judging.corners import corners_of_all
from hts.record.judging.fits import Part, Rows
from hts.record.judging.limits import Piece, least_hours
from hts.record.judging.line import Line
from hts.record.judging.side_by_side import Moments, SideBySide, line_of, moments, ordered
from hts.record.judging.stretches import Flags, beyond
from hts.record.judging.verdict import Stretch
from hts.record.record import Floats

HOUR = 3600.0
#: Readings fewer than this between two gaps are joined as they are.
_FEW = 3
#: A stretch that needs less time than it took by no more than this part is at its limit.
SAME = 1e-6
#: Part of a limit from which a stretch goes on with a rise: slower, and the hold has begun.
#: Basis: practice, ours.
_ON_ITS_WAY = 0.25
#: Where a line has fewer ranges than another: nothing lies in it.
_NO_RANGE = (nan, nan, nan, nan)
#: Standard uncertainties either side of a figure in which the true one lies (95 %, normal).
COVERAGE = 2.0


class Range(NamedTuple):
    """The range of a hold, degC, and the time it was kept: moving within is no heating."""

    low: float
    high: float
    during: Stretch


class Windows(NamedTuple):
    """Windows of one length [m]: their starts s, how many times faster than allowed each is, and
    the standard uncertainty of that."""

    starts: Floats
    ratio: Floats
    slack: Floats


class Course(NamedTuple):
    """Stretches of straight line, in order and without a break, n of them.

    `times` s, `values` degC [n + 1]; `needed` hours that each takes at the limits [n], negative
    against the action; `slack` the standard uncertainty of that over the time taken [n];
    `doubt` s, the standard uncertainty of when a corner was [n + 1]; `kept` the times a hold was
    in its range, in which moving is no heating; `rising` for heating.
    """

    times: Floats
    values: Floats
    needed: Floats
    slack: Floats
    doubt: Floats
    kept: tuple[Stretch, ...] = ()
    rising: bool = True

    @property
    def ratio(self) -> Floats:
        """How many times faster than allowed each stretch is."""
        return np.asarray(self.needed / np.diff(self.times) * HOUR, dtype=np.float64)

    def over(self, seconds: float) -> Windows:
        """Windows of `seconds` that begin where their rate can be greatest."""
        return windows_of([self], seconds)[0]

    def ratio_from(self, starts: Floats, seconds: float) -> Floats:
        """How many times faster than allowed windows of `seconds` are."""
        hours = np.concatenate(([0.0], np.cumsum(self.needed)))
        then, before = (np.interp(at, self.times, hours) for at in (starts + seconds, starts))
        return np.asarray((then - before) / seconds * HOUR, dtype=np.float64)

    def moving(self, starts: Floats, seconds: float) -> Flags:
        """Whether windows of `seconds` lie outside what was kept in the range of a hold."""
        found = np.full(len(starts), True)
        for kept in self.kept:
            found &= (starts + seconds <= kept.start) | (starts >= kept.end)
        return found

    def rise(self, start: float, end: float) -> float:
        """K/h between two times, positive upwards."""
        one, two = np.interp((start, end), self.times, self.values)
        return float((two - one) / (end - start) * HOUR)


class Readings(NamedTuple):
    """`times` s [rows], and `values` degC [traces, rows], NaN where there is none; a gap longer
    than `longest_gap` s parts them."""

    times: Floats
    values: Floats
    longest_gap: float


def lines_of(records: Sequence[Readings]) -> list[list[Line | None]]:
    """The line through the readings of each trace of each record that there are: corners where
    they bend, and straight over the time without readings; None where there are no two."""
    pieces = [_pieces(one) for one in records]
    wanted = [part for its in pieces for _, parts in its for part in parts]
    long = [part for part in wanted if len(part.times) >= _FEW]
    made = iter(corners_of_all(long))
    lines: list[list[Line | None]] = []
    for one, its in zip(records, pieces, strict=True):
        found: list[Line | None] = [None] * len(one.values)
        for rows, parts in its:
            every = [next(made) if len(p.times) >= _FEW else _as_they_are(p) for p in parts]
            for at, row in enumerate(rows):
                found[row] = _whole([part[at] for part in every])
        lines.append(found)
    return lines


def _pieces(one: Readings) -> list[tuple[list[int], list[Part]]]:
    """Traces that are read at the same times, and their readings part by part between gaps."""
    blank = np.isnan(one.values)
    whole = np.flatnonzero(~blank.any(axis=1)).tolist()
    found = [(whole, _between_gaps(one, slice(None), whole))] if whole else []
    for row in range(len(one.values)):
        if row not in whole:
            known = np.flatnonzero(~blank[row])
            found.append(([row], _between_gaps(one, known, [row])))
    return [(rows, parts) for rows, parts in found if sum(len(p.times) for p in parts) > 1]


def _between_gaps(one: Readings, known: slice | Rows, rows: list[int]) -> list[Part]:
    times, values = one.times[known], one.values[rows][:, known]
    breaks = np.flatnonzero(np.diff(times) > one.longest_gap) + 1
    return [
        Part(times[a:b], values[:, a:b]) for a, b in pairwise([0, *breaks.tolist(), len(times)])
    ]


def _as_they_are(part: Part) -> list[Line]:
    none = np.zeros(len(part.times))
    return [Line(part.times, one, none, 0.0, none[1:], 0.0) for one in part.values]


def _whole(parts: list[Line]) -> Line:
    if len(parts) == 1:
        return parts[0]
    slack: list[float] = []
    for number, part in enumerate(parts):
        slack += [0.0] if number else []
        slack += part.slack.tolist()
    return Line(
        np.concatenate([part.times for part in parts]),
        np.concatenate([part.values for part in parts]),
        np.concatenate([part.doubt for part in parts]),
        max(part.noise for part in parts),
        np.array(slack),
        max(part.digit for part in parts),
    )


def course(line: Line, limits: Sequence[Piece], sign: float, ranges: Sequence[Range]) -> Course:
    """The course of one line."""
    return courses([line], limits, sign, [ranges])[0]


def courses(
    lines: Sequence[Line], limits: Sequence[Piece], sign: float, ranges: Sequence[Sequence[Range]]
) -> list[Course]:
    """The lines cut where a limit begins or ends and where a hold does; `sign` 1 for heating, -1
    for cooling, and `ranges` those of each line."""
    if not lines:
        return []
    of_line = SideBySide.lines([line.times for line in lines])
    values = np.concatenate([line.values for line in lines])
    held = list(_held(ranges))
    cut = ordered(np.concatenate([of_line.moments, *_cuts(of_line, values, limits, held)]))
    found = SideBySide(cut)
    place = of_line.place(cut)
    all_values = of_line.at(place, values)
    one, two = found.stretches, found.stretches + 1
    needed = sign * np.diff(least_hours(all_values, list(limits)))[one]
    middle = (found.times[two] + found.times[one]) / 2
    # Each line has a stretch less than it has corners.
    slack = np.concatenate([line.slack for line in lines])[place.corner[one] - found.of[one]]
    slack = slack * HOUR / limits_at((all_values[two] + all_values[one]) / 2, limits)
    for its in held:
        low, high, start, stop = its[:, found.of[one]]
        kept = (middle >= start) & (middle <= stop)
        low, high = low - 1e-6, high + 1e-6
        for end in (all_values[one], all_values[two]):
            kept &= (end >= low) & (end <= high)
        if sign > 0:
            rates = needed / (found.times[two] - found.times[one]) * HOUR
            kept &= ~_on_its_way(rates, kept, found.of[one])
        needed[kept] = slack[kept] = 0.0
    doubt = np.zeros(len(cut))
    doubt[np.searchsorted(cut, of_line.moments)] = np.concatenate([line.doubt for line in lines])
    corners = [
        slice(a, b + 1) for a, b in zip(found.first.tolist(), found.last.tolist(), strict=True)
    ]
    stretches = [slice(its.start - at, its.stop - 1 - at) for at, its in enumerate(corners)]
    return [
        Course(
            found.times[all_corners],
            all_values[all_corners],
            needed[its],
            slack[its],
            doubt[all_corners],
            tuple(one.during for one in ranges[at]),
            sign > 0,
        )
        for at, (all_corners, its) in enumerate(zip(corners, stretches, strict=True))
    ]


def _on_its_way(rates: Floats, kept: Flags, line: Rows) -> Flags:
    """The stretches in the range of a hold in which a rise goes on that began out of it, or with
    which one begins that ends out of it: that is heating, wherever the edge of the range lies.
    `rates` are times the limit."""
    rising = rates >= _ON_ITS_WAY
    found = np.zeros(len(kept), dtype=np.bool_)
    for step in (1, -1):
        within, rises, of = kept[::step], rising[::step], line[::step]
        goes_on = within[1:] & rises[1:] & rises[:-1] & (of[1:] == of[:-1])
        for at in (np.flatnonzero(goes_on & ~within[:-1]) + 1).tolist():
            while at <= len(goes_on) and goes_on[at - 1]:
                found[::step][at] = True
                at += 1
    return found


def _held(ranges: Sequence[Sequence[Range]]) -> Iterator[Floats]:
    """Low and high ends, and from when to when they were kept, of the first range of each line
    [4, lines], then of the second and so on; NaN where a line has no such."""
    for at in range(max(map(len, ranges))):
        yield np.array(
            [(its[at].low, its[at].high, *its[at].during) if at < len(its) else _NO_RANGE
             for its in ranges]
        ).T  # fmt: skip


def _cuts(
    of_line: SideBySide, values: Floats, limits: Sequence[Piece], held: Sequence[Floats]
) -> Iterator[Moments]:
    """Where the lines cross an edge of a limit or of a hold, and where a hold begins and ends."""
    first, last = of_line.times[of_line.first], of_line.times[of_line.last]
    edges = {edge for piece in limits for edge in (piece.low, piece.high)}
    of_each = [np.full(len(first), edge) for edge in filter(isfinite, edges)]
    of_each += [end for its in held for end in its[:2]]
    one = of_line.stretches
    before, after = values[one], values[one + 1]
    begins, step = of_line.times[one], of_line.times[one + 1] - of_line.times[one]
    for edge in (its[of_line.of[one]] for its in of_each):
        at = np.flatnonzero((before - edge) * (after - edge) < 0)
        part = (edge[at] - before[at]) / (after[at] - before[at])
        yield moments(of_line.of[one[at]], begins[at] + part * step[at])
    for moment in (moment for its in held for moment in its[2:]):
        lines = np.flatnonzero((first < moment) & (moment < last))
        yield moments(lines, moment[lines])


def windows_of(found: Sequence[Course], seconds: float) -> list[Windows]:
    """Of each course the windows of `seconds` that begin where their rate can be greatest."""
    if not found:
        return []
    of_course = SideBySide.lines([one.times for one in found])
    starts = np.concatenate((of_course.times, of_course.times - seconds))
    line = np.concatenate((of_course.of, of_course.of))
    first, last = of_course.times[of_course.first], of_course.times[of_course.last]
    within = (starts >= first[line] - 1e-9) & (starts <= last[line] - seconds + 1e-9)
    begin = ordered(moments(line[within], starts[within]))
    line, starts = line_of(begin), begin.imag
    before, then = (of_course.place(one) for one in (begin, moments(line, starts + seconds)))
    steps = np.diff(of_course.times)[of_course.stretches]
    ratio, slack = (
        (of_course.at(then, its) - of_course.at(before, its)) / seconds
        for its in (
            of_course.sums(np.concatenate([one.needed for one in found])),
            of_course.sums(steps * np.concatenate([one.slack for one in found])),
        )
    )
    ratio *= HOUR
    borders = pairwise(np.searchsorted(line, np.arange(len(found) + 1)).tolist())
    return [Windows(starts[a:b], ratio[a:b], slack[a:b]) for a, b in borders]


def _ever_over(found: Sequence[Course]) -> list[int]:
    """The courses with a stretch over the limit."""
    if not found:
        return []
    counts = np.array([len(one.needed) for one in found])
    begins = np.cumsum(counts) - counts
    steps = np.diff(np.concatenate([one.times for one in found]))
    # Between one course and the next there is no stretch.
    steps = np.delete(steps, np.cumsum(counts + 1)[:-1] - 1)
    ratio = np.concatenate([one.needed for one in found]) / steps * HOUR
    return np.flatnonzero(np.logical_or.reduceat(ratio > 1 + SAME, begins)).tolist()


def limits_at(celsius: Floats, limits: Sequence[Piece]) -> Floats:
    """K/h, the limit in force at each temperature; without end where there is none."""
    found = np.full(len(celsius), np.inf)
    for piece in limits:
        found[(celsius > piece.low) & (celsius < piece.high)] = piece.limit
    return found


def windows_over(found: Sequence[Course], seconds: float) -> list[list[Stretch]]:
    """When any window of so many seconds of each course was over its limit, from its beginning to
    its end."""
    over: list[list[Stretch]] = [[] for _ in found]
    # A window is as fast as the mean of what lies in it.
    some = _ever_over(found)
    windows = windows_of([found[at] for at in some], seconds)
    for at, (starts, ratio, _) in zip(some, windows, strict=True):
        if len(starts) < 2:
            over[at] = [Stretch(float(s), float(s) + seconds) for s in starts[ratio > 1 + SAME]]
        else:
            its = beyond(starts, ratio, 1 + SAME, np.inf)
            over[at] = [Stretch(one.start, one.end + seconds) for one in its]
    return over
