"""A line with corners, from the straight stretches the readings of a trace were parted into."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from math import copysign, exp, hypot, inf, pi, sin, sqrt
from typing import NamedTuple

import numpy as np

from hts.record.judging.noise import ROUNDING
from hts.record.record import Floats

#: Standard uncertainties of a gap between two lines that make it a step of the readings.
_STEP = 3.0
#: Times that corners are put where their lines cross.
_ROUNDS = 3
#: Noise variances by which two lines that meet may suit the readings less than two that do not:
#: four for a parameter less, at 95 % (normal distribution).
_WORSE = 4.0


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


#: The line of the rows from one to before another.
LineOf = Callable[[int, int], Fit]


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


def joined(times: Floats, noise: Floats, digit: float, line_of: LineOf, edges: list[int]) -> Line:
    """The lines of the stretches, made to meet where they cross; `digit` is the last of the
    readings, K."""
    for _ in range(_ROUNDS):
        lines = [line_of(a, b) for a, b in pairwise(edges)]
        moved = _crossed(times, line_of, lines, edges)
        if moved == edges:
            break
        edges = moved
    lines = [line_of(a, b) for a, b in pairwise(edges)]
    usual = float(np.median(noise))
    unsure = [
        _unsure(times[a:b], line.slope, line.ratio * float(np.mean(noise[a:b])), digit)
        for line, (a, b) in zip(lines, pairwise(edges), strict=True)
    ]
    at, level, doubt = [float(times[0])], [lines[0].on(float(times[0]))], [0.0]
    for k in range(1, len(lines)):
        one, two = lines[k - 1], lines[k]
        before, after = float(times[edges[k] - 1]), float(times[edges[k]])
        middle, step = (before + after) / 2, after - before
        bend = one.slope - two.slope
        gap = two.on(middle) - one.on(middle)
        off = hypot(unsure[k - 1], unsure[k])
        crossing = gap / bend if bend else inf
        reach = max(2 * step, 0.5 * min(after - at[-1], float(times[edges[k + 1] - 1]) - before))
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
            doubt += [step / sqrt(12)] * 2
    last = float(times[-1])
    if last <= at[-1]:
        last = at[-1] + 1e-6
    at.append(last)
    level.append(lines[-1].on(float(times[-1])))
    doubt.append(0.0)
    corners_at = np.array(at)
    slack = np.interp(
        (corners_at[1:] + corners_at[:-1]) / 2,
        [one.at for one in lines],
        [one.slack * one.ratio for one in lines],
    )
    return Line(corners_at, np.array(level), np.array(doubt), usual, slack, digit)


def _crossed(times: Floats, line_of: LineOf, lines: list[Fit], edges: list[int]) -> list[int]:
    """The edges, each put where the lines beside it cross, if that is near. Of the rows about a
    corner those are first chosen whose noise suits the lines best, which bends the lines."""
    moved = list(edges)
    for k in range(1, len(edges) - 1):
        one, two = lines[k - 1], lines[k]
        bend = one.slope - two.slope
        middle = float(times[edges[k] - 1] + times[edges[k]]) / 2
        if not bend:
            continue
        crossing = middle + (two.on(middle) - one.on(middle)) / bend
        reach = min(edges[k] - moved[k - 1], edges[k + 1] - edges[k]) // 2
        row = int(np.searchsorted(times, crossing))
        if abs(row - edges[k]) <= reach and row - moved[k - 1] >= 2 and edges[k + 1] - row >= 2:
            parts = (moved[k - 1], row), (row, edges[k + 1])
            now = (moved[k - 1], edges[k]), (edges[k], edges[k + 1])
            then = sum(line_of(*part).off for part in parts)
            if then <= sum(line_of(*part).off for part in now) + _WORSE:
                moved[k] = row
    return moved


def _unsure(times: Floats, slope: float, noise: float, digit: float) -> float:
    """K, the standard uncertainty of the line of a stretch at its end.

    Noise alone makes 2 / sqrt(n) of one reading's (least squares). Rounding is noise of its own
    only where readings fall anywhere between two digits: those of a ramp that climbs by nearly
    whole digits, halves or thirds from row to row are all rounded the same way, and the line with
    them. The error of rounding is a sawtooth, its harmonic k of height digit / (pi k); noise of s
    takes exp(-2 (pi k s / digit)^2) of it, and n readings whose phase goes on by a fixed part of a
    digit the sum of a geometric row (Widrow and Kollar, Quantization Noise, 2008).
    """
    rows = len(times)
    found = 4 * noise**2 / rows
    if digit and rows > 1:
        own = max(noise**2 - (ROUNDING * digit) ** 2, 0.0)
        each = slope * float(times[-1] - times[0]) / (rows - 1) / digit
        for k in (1, 2, 3, 4):
            damped = exp(-2 * (pi * k / digit) ** 2 * own)
            kept = 4 / max(rows * abs(sin(pi * k * each)), 4.0)
            found += (digit / (pi * k) * damped * kept) ** 2 / 2
    return sqrt(found)
