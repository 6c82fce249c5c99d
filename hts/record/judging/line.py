"""A line with corners, from the straight stretches the readings of a trace were parted into."""

from __future__ import annotations

from itertools import pairwise
from math import copysign, inf, pi
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from hts.record.judging.fits import Fit, Rows, Traces
from hts.record.judging.noise import ROUNDING
from hts.record.record import Floats

#: Standard uncertainties of a gap between two lines that make it a step of the readings.
_STEP = 3.0
#: Times that corners are put where their lines cross.
_ROUNDS = 3
#: Noise variances by which two lines that meet may suit the readings less than two that do not:
#: four for a parameter less, at 95 % (normal distribution).
_WORSE = 4.0


class Line(NamedTuple):
    """`times` s and `values` degC of the corners and both ends [n]; `doubt` s, the standard
    uncertainty of the time of each corner [n], 0 at the ends. `noise` K, the median of the
    readings', and `digit` K the last they are given in; `slopes` K/s of the stretches and their
    standard uncertainties `slack` [n - 1]."""

    times: Floats
    values: Floats
    doubt: Floats
    noise: float
    slack: Floats
    digit: float

    @property
    def slopes(self) -> Floats:
        return np.asarray(np.diff(self.values) / np.diff(self.times), dtype=np.float64)


class _Stretches:
    """The stretches of all traces, one after another [k], and their lines."""

    def __init__(self, traces: Traces, edges: Rows, counts: Rows) -> None:
        self.counts = counts
        self.trace = np.repeat(np.arange(len(counts)), counts)
        last = np.cumsum(counts + 1) - 1
        self.first, self.after = np.delete(edges, last), np.delete(edges, last - counts)
        found = traces.lines(self.trace, self.first, self.after)
        self.slope, self.level, self.at, self.slack, self.off = found
        rows = self.after - self.first
        self.ratio = np.where(
            rows > 2, np.sqrt(np.maximum(1.0, self.off / np.maximum(rows - 2, 1))), 1.0
        )
        #: s, of the first and last row of each.
        begins = traces.begins[self.trace]
        self.begins, self.ends = (
            traces.times[begins + self.first],
            traces.times[begins + self.after - 1],
        )

    def on(self, times: Floats) -> Floats:
        """degC of each line at a time, s, of its own."""
        return np.asarray(self.level + self.slope * (times - self.at), dtype=np.float64)


def joined(traces: Traces, edges: list[list[int]]) -> list[Line]:
    """The lines of the stretches of each trace, made to meet where they cross."""
    counts = np.array([len(its) - 1 for its in edges])
    flat = np.array([row for its in edges for row in its], dtype=np.intp)
    for _ in range(_ROUNDS):
        moved = _crossed(traces, flat, counts)
        if (moved == flat).all():
            break
        flat = moved
    found = _Stretches(traces, flat, counts)
    unsure = _unsure(traces, found)
    # Of each corner, by the stretch before it; what stands at the end of a trace means nothing.
    middle = (found.ends + np.roll(found.begins, -1)) / 2
    bend = found.slope - np.roll(found.slope, -1)
    gap = np.roll(found.on(np.roll(middle, 1)), -1) - found.on(middle)
    off = np.hypot(unsure, np.roll(unsure, -1))
    at, level, doubt, plain = _plainly(found, middle, bend, gap, off)
    slack = found.slack * found.ratio
    lines = []
    stop = 0
    for trace, count in enumerate(counts.tolist()):
        its, points = slice(stop, stop + count), slice(stop + trace, stop + trace + count + 1)
        stop += count
        digit = float(traces.digit[trace])
        line = at[points], level[points], doubt[points]
        if not plain[its].all():
            corners = zip(*(one[its].tolist() for one in (middle, bend, gap, off)), strict=True)
            times = found.begins[its].tolist(), found.ends[its].tolist()
            met = _meeting(_fits(found, its), list(corners), *times, digit)
            line = np.array(met[0]), np.array(met[1]), np.array(met[2])
        moments = (line[0][1:] + line[0][:-1]) / 2
        its_slack = np.interp(moments, found.at[its], slack[its])
        lines.append(Line(*line, float(traces.usual[trace]), its_slack, digit))
    return lines


def _plainly(
    found: _Stretches, middle: Floats, bend: Floats, gap: Floats, off: Floats
) -> tuple[Floats, Floats, Floats, NDArray[np.bool_]]:
    """What `_meeting` tells of all traces, as if all lines met where they cross: times, values and
    doubts, of each trace one more than it has stretches; and whether that holds of each stretch and
    the next, as it does nearly always."""
    trace, stretches = found.trace, np.arange(len(found.trace))
    last = np.append(trace[1:] != trace[:-1], True)
    first = np.roll(last, 1)
    with np.errstate(divide="ignore", invalid="ignore"):
        crossing = gap / bend
        doubt = off / np.abs(bend)
    times = np.where(last, found.ends, middle + crossing)
    before = np.where(first, found.begins, np.roll(times, 1))
    step = np.roll(found.begins, -1) - found.ends
    room = np.minimum(np.roll(found.begins, -1) - before, np.roll(found.ends, -1) - found.ends)
    near = np.abs(crossing) <= np.maximum(2 * step, 0.5 * room)
    plain = (near | last) & (times > before)
    level = found.on(times)
    beyond = np.roll(found.on(np.roll(times, 1)), -1)
    level = np.where(last, level, (level + beyond) / 2)
    at, levels, doubts = np.zeros((3, len(trace) + len(found.counts)))
    points = stretches + trace + 1
    at[points], levels[points], doubts[points] = times, level, np.where(last, 0.0, doubt)
    starts = stretches[first] + trace[first]
    at[starts], levels[starts] = found.begins[first], found.on(found.begins)[first]
    return at, levels, doubts, plain


def _fits(found: _Stretches, its: slice) -> list[Fit]:
    figures = (
        found.slope,
        found.level,
        found.at,
        found.slack,
        found.off,
        found.after - found.first,
    )
    return [Fit(*one) for one in zip(*(each[its].tolist() for each in figures), strict=True)]


def _meeting(
    lines: list[Fit],
    corners: list[tuple[float, float, float, float]],
    begins: list[float],
    ends: list[float],
    digit: float,
) -> tuple[list[float], list[float], list[float]]:
    """Times s, values degC and doubts s of the corners of one trace and its ends. `corners` are
    for each but the last line, towards the next: the time half way, the bend K/s, the gap K, and
    the standard uncertainty of that; `begins` and `ends` s, the first and last rows."""
    at, level, doubt = [begins[0]], [lines[0].on(begins[0])], [0.0]
    for k in range(1, len(lines)):
        one, two = lines[k - 1], lines[k]
        before, after = ends[k - 1], begins[k]
        middle, bend, gap, off = corners[k - 1]
        step = after - before
        crossing = gap / bend if bend else inf
        reach = max(2 * step, 0.5 * min(after - at[-1], ends[k] - before))
        if abs(crossing) > reach and abs(gap) <= _STEP * off + digit and bend:
            # No step: two lines that cross at so small an angle that it may be anywhere near.
            crossing = copysign(reach, crossing)
        if abs(crossing) <= reach and middle + crossing > at[-1]:
            crossing += middle
            at.append(crossing)
            level.append((one.on(crossing) + two.on(crossing)) / 2)
            doubt.append(off / abs(bend))
        else:
            # A step, where something happened between two readings: both sides are kept.
            first, second = max(before, at[-1] + 1e-6), max(after, at[-1] + 2e-6)
            at += [first, second]
            level += [one.on(first), two.on(second)]
            doubt += [step / 12**0.5] * 2
    last = ends[-1]
    at.append(last if last > at[-1] else at[-1] + 1e-6)
    level.append(lines[-1].on(last))
    doubt.append(0.0)
    return at, level, doubt


def _crossed(traces: Traces, edges: Rows, counts: Rows) -> Rows:
    """The edges of all traces, each put where the lines beside it cross, if that is near. Of the
    rows about a corner those are first chosen whose noise suits the lines best, which bends the
    lines."""
    lines = _Stretches(traces, edges, counts)
    one = np.flatnonzero(lines.trace[1:] == lines.trace[:-1])
    two = one + 1
    first, edge, after, trace = (
        lines.first[one],
        lines.first[two],
        lines.after[two],
        lines.trace[one],
    )
    row = _where_they_cross(traces, lines, one)
    near = np.abs(row - edge) <= (after - edge) // 2
    # Only those that would move: most stand where their lines cross.
    due = np.flatnonzero(near & (row != edge) & (after - row >= 2) & (row >= 0))
    # What stands before one is where it was, or has been put where its own lines cross.
    put = np.concatenate((row[:1], row[:-1]))[due]
    first, edge, after, trace, row = (its[due] for its in (first, edge, after, trace, row))
    twice = np.tile(np.array((trace, edge, row, after)), 2)
    suits = _suits(traces, np.hstack((first, put)), *twice)
    staying, having_moved = suits.reshape(2, -1)
    # Each trace has one edge more than it has stretches.
    at = two[due] + trace
    moved = edges.copy()
    moved[at[staying]] = row[staying]
    # Few hang on whether the one before has moved, and those in order.
    for k in np.flatnonzero(staying != having_moved).tolist():
        before_moved = moved[at[k] - 1] != edges[at[k] - 1]
        moved[at[k]] = row[k] if having_moved[k] == before_moved else edge[k]
    return moved


def _suits(
    traces: Traces, before: Rows, trace: Rows, edge: Rows, row: Rows, after: Rows
) -> NDArray[np.bool_]:
    """Whether a corner between two others may go from an edge to a row: near enough, and the lines
    on either side suit the readings hardly worse."""
    room = np.minimum(edge - before, after - edge) // 2
    found = (np.abs(row - edge) <= room) & (row - before >= 2)
    some = np.flatnonzero(found)
    if len(some):
        trace, before, edge, row, after = (its[some] for its in (trace, before, edge, row, after))
        begins, ends = np.hstack((before, row, before, edge)), np.hstack((row, after, edge, after))
        off = traces.off(np.tile(trace, 4), begins, ends).reshape(4, -1)
        found[some] = off[0] + off[1] <= off[2] + off[3] + _WORSE
    return np.asarray(found)


def _where_they_cross(traces: Traces, lines: _Stretches, one: Rows) -> Rows:
    """The row at which each line crosses the next; -1 where they do not."""
    two = one + 1
    bend = lines.slope[one] - lines.slope[two]
    middle = (lines.ends[one] + lines.begins[two]) / 2
    levels = [lines.level[k] + lines.slope[k] * (middle - lines.at[k]) for k in (one, two)]
    with np.errstate(divide="ignore", invalid="ignore"):
        crossing = middle + (levels[1] - levels[0]) / bend
    part = traces.part[lines.trace[one]]
    row = np.full(len(one), -1, dtype=np.intp)
    borders = np.searchsorted(part, np.arange(len(traces.parts) + 1))
    for number, (a, b) in enumerate(pairwise(borders.tolist())):
        row[a:b] = np.searchsorted(traces.parts[number].times, crossing[a:b])
    row[bend == 0] = -1
    return row


def _unsure(traces: Traces, found: _Stretches) -> Floats:
    """K, the standard uncertainty of the line of each stretch at its end.

    Noise alone makes 2 / sqrt(n) of one reading's (least squares). Rounding is noise of its own
    only where readings fall anywhere between two digits: those of a ramp that climbs by nearly
    whole digits, halves or thirds from row to row are all rounded the same way, and the line with
    them. The error of rounding is a sawtooth, its harmonic k of height digit / (pi k); noise of s
    takes exp(-2 (pi k s / digit)^2) of it, and n readings whose phase goes on by a fixed part of a
    digit the sum of a geometric row (Widrow and Kollar, Quantization Noise, 2008).
    """
    rows = found.after - found.first
    begins = traces.begins[found.trace] + found.first
    noise = found.ratio * np.add.reduceat(traces.noise, begins) / rows
    squared = 4 * noise**2 / rows
    digit = traces.digit[found.trace]
    rounded = (digit > 0) & (rows > 1)
    digit, rows = np.where(rounded, digit, 1.0), np.maximum(rows, 2)
    own = np.maximum(noise**2 - (ROUNDING * digit) ** 2, 0.0)
    each = found.slope * (found.ends - found.begins) / (rows - 1) / digit
    more = np.zeros(len(rows))
    for k in (1, 2, 3, 4):
        damped = np.exp(-2 * (pi * k / digit) ** 2 * own)
        kept = 4 / np.maximum(rows * np.abs(np.sin(pi * k * each)), 4.0)
        more += (digit / (pi * k) * damped * kept) ** 2 / 2
    return np.asarray(np.sqrt(squared + np.where(rounded, more, 0.0)), dtype=np.float64)
