"""Stretches of time in which readings, joined by straight lines, lie where they should."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from hts.record.judging.verdict import SAME, Stretch
from hts.record.record import Floats

Flags = NDArray[np.bool_]
Rows = NDArray[np.intp]


def inside(
    times: Floats, lowest: Floats, highest: Floats, low: float, high: float, longest_gap: float
) -> list[Stretch]:
    """When `lowest` is at least `low` and `highest` at most `high`, ends included.

    Shapes: all arrays [rows]; `times` s, the others degC, NaN where nothing is known. For the
    lowest and highest of several thermocouples the straight line errs on the safe side. Nothing
    counts next to a NaN, or across a step of time longer than `longest_gap` s.
    """
    low, high = low - SAME, high + SAME
    good = (lowest >= low) & (highest <= high)
    joined = np.diff(times) <= longest_gap
    first, second = good[:-1], good[1:]
    start = np.where(first, 0.0, 1.0)
    end = np.where(second, 1.0, 0.0)
    has = first & second & joined
    # Only where the range is entered, left, or crossed between two readings is there more to it.
    crossed = np.flatnonzero(
        joined
        & ~(first & second)
        & ((lowest[:-1] >= low) | (lowest[1:] >= low))
        & ((highest[:-1] <= high) | (highest[1:] <= high))
    )
    if len(crossed):
        up = _part(lowest[crossed] - low, lowest[crossed + 1] - low)
        down = _part(high - highest[crossed], high - highest[crossed + 1])
        begin, finish = np.maximum(up[0], down[0]), np.minimum(up[1], down[1])
        start[crossed], end[crossed] = begin, finish
        has[crossed] = finish >= begin
    return _runs(times, has, start, end)


def beyond(times: Floats, values: Floats, limit: float, longest_gap: float) -> list[Stretch]:
    """When `values` [rows] exceed `limit` between readings of which one does so at least."""
    if not np.any(values > limit + SAME):
        return []
    unbounded = np.where(np.isnan(values), np.nan, -np.inf)
    found = inside(times, values, unbounded, limit + 2 * SAME, np.inf, longest_gap)
    # A single reading with nothing known beside it exceeds the limit for no known time, but does.
    lone = np.flatnonzero(values > limit + SAME)
    covered = _covered(times[lone], found)
    return sorted([*found, *(Stretch(t, t) for t in times[lone][~covered].tolist())])


def below(times: Floats, values: Floats, limit: float, longest_gap: float) -> list[Stretch]:
    """When `values` fall below `limit`."""
    return beyond(times, -values, -limit, longest_gap)


def within(stretches: Iterable[Stretch], start: float, end: float) -> list[Stretch]:
    """The parts of the stretches between two times."""
    return [
        Stretch(max(stretch.start, start), min(stretch.end, end))
        for stretch in stretches
        if max(stretch.start, start) <= min(stretch.end, end)
    ]


def without(stretches: Iterable[Stretch], taken: Iterable[Stretch]) -> list[Stretch]:
    """The parts of the stretches that lie in none of `taken`, which are in order and apart; a
    stretch without length stays where nothing covers it."""
    found = []
    cuts = list(taken)
    for one in stretches:
        start = one.start
        covered = False
        for cut in cuts:
            if cut.end < start or cut.start > one.end:
                continue
            if cut.start > start:
                found.append(Stretch(start, cut.start))
            start = max(start, cut.end)
            covered = True
        if start < one.end or (not covered and start == one.end):
            found.append(Stretch(start, one.end))
    return found


def touch(stretch: Stretch, other: Stretch) -> bool:
    """Whether two stretches have a moment in common."""
    return stretch.start <= other.end and other.start <= stretch.end


def union(stretches: Iterable[Stretch]) -> list[Stretch]:
    """The stretches with those that touch made one."""
    merged: list[Stretch] = []
    for stretch in sorted(stretches):
        if merged and stretch.start <= merged[-1].end:
            merged[-1] = Stretch(merged[-1].start, max(merged[-1].end, stretch.end))
        else:
            merged.append(stretch)
    return merged


def between(stretches: list[Stretch]) -> list[Stretch]:
    """What lies between stretches that are in order."""
    return [Stretch(a.end, b.start) for a, b in pairwise(stretches)]


def total(stretches: Iterable[Stretch]) -> float:
    return sum(stretch.length for stretch in stretches)


def runs(flags: Flags) -> list[tuple[int, int]]:
    """First and last index of each run of True."""
    edges = np.flatnonzero(np.diff(np.concatenate(([False], flags, [False])).astype(np.int8)))
    return [(int(a), int(b) - 1) for a, b in zip(edges[::2], edges[1::2], strict=True)]


def _part(before: Floats, after: Floats) -> tuple[Floats, Floats]:
    """The part, 0 to 1, of each step in which a line from `before` to `after` is not negative."""
    with np.errstate(invalid="ignore", divide="ignore"):
        zero = before / (before - after)
    start = np.where(before >= 0, 0.0, np.where(after >= 0, zero, 2.0))
    end = np.where(after >= 0, 1.0, np.where(before >= 0, zero, -1.0))
    # An open side (infinite) is never crossed.
    return np.where(np.isnan(start), 2.0, start), np.where(np.isnan(end), -1.0, end)


def _runs(times: Floats, has: Flags, start: Floats, end: Floats) -> list[Stretch]:
    if not np.any(has):
        return []
    linked = has[1:] & has[:-1] & (end[:-1] >= 1.0) & (start[1:] <= 0.0)
    first = has.copy()
    first[1:] &= ~linked
    last = has.copy()
    last[:-1] &= ~linked
    step = np.diff(times)
    a, b = np.flatnonzero(first), np.flatnonzero(last)
    begins = times[a] + start[a] * step[a]
    ends = times[b] + end[b] * step[b]
    return [Stretch(x, y) for x, y in zip(begins.tolist(), ends.tolist(), strict=True) if y > x]


def _covered(points: Floats, stretches: list[Stretch]) -> Flags:
    if not stretches:
        return np.zeros(len(points), dtype=np.bool_)
    starts = np.array([stretch.start for stretch in stretches])
    ends = np.array([stretch.end for stretch in stretches])
    at = np.searchsorted(starts, points, "right") - 1
    covered: Flags = (at >= 0) & (points <= ends[np.maximum(at, 0)])
    return covered
