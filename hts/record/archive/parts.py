"""Logs that are parts of one run: one follows the other, or two recorders ran side by side."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite
from statistics import median
from typing import NamedTuple

import numpy as np

from hts.record.record import Floats, Record

#: Intervals between rows, at most, from one file to the next of one recorder.
_NEXT = 3.0
#: s that may pass between two parts where the metal is warm on both sides, and degC that is warm:
#: the recorder was off for a while, but nobody has begun anew. Basis: practice, no source.
_PAUSE, _WARM = 3600.0, 60.0
#: Part of the shorter of two logs side by side that both show.
_TOGETHER = 0.5
#: Rows at an end of a log that tell how warm it was.
_ROWS = 5


class Extent(NamedTuple):
    """What of a log tells whether another goes on with it: the joint and cycle it is judged as;
    `start` and `end` s of its own clock, `zoned` where that states its zone; `interval` s; its
    thermocouples, and the median of them at the first and the last rows, degC."""

    run: tuple[str, str]
    start: float
    end: float
    zoned: bool
    interval: float
    tags: frozenset[str]
    first: float
    last: float


def extent(record: Record, run: tuple[str, str]) -> Extent | None:
    """None for a log without dates, which cannot be put beside another."""
    if record.start is None:
        return None
    start = record.start
    zoned = start.tzinfo is not None
    begins = start.timestamp() if zoned else (start - start.min).total_seconds()
    read = {tag: one.values for tag, one in record.series.items() if _any_known(one.values)}
    return Extent(
        run,
        begins,
        begins + record.end + sum(jump.by for jump in record.jumps),
        zoned,
        record.interval,
        frozenset(read),
        _median([values[:_ROWS] for values in read.values()]),
        _median([values[-_ROWS:] for values in read.values()]),
    )


def parts(extents: Sequence[Extent | None]) -> list[list[int]]:
    """Which logs are parts of one run: lists of two and more indices, in the order of time."""
    order = sorted(
        (at for at, one in enumerate(extents) if one is not None),
        key=lambda at: (extents[at].run, extents[at].start),  # type: ignore[union-attr]
    )
    groups: list[list[int]] = []
    for at in order:
        one = extents[at]
        assert one is not None
        before = [extents[other] for other in groups[-1]] if groups else []
        if any(other is not None and _one_run(other, one) for other in before):
            groups[-1].append(at)
        else:
            groups.append([at])
    return [group for group in groups if len(group) > 1]


def _one_run(earlier: Extent, later: Extent) -> bool:
    if earlier.run != later.run or earlier.zoned != later.zoned:
        return False
    pause = later.start - earlier.end
    if not earlier.tags & later.tags:
        shorter = min(earlier.end - earlier.start, later.end - later.start)
        return bool(earlier.tags and later.tags) and -pause >= _TOGETHER * shorter
    if later.end <= earlier.end:
        return False  # a copy, or an excerpt
    if pause <= _NEXT * max(earlier.interval, later.interval):
        return True
    return pause <= _PAUSE and min(earlier.last, later.first) >= _WARM


def _any_known(values: Floats) -> bool:
    return bool(len(values)) and (isfinite(values[0]) or bool(np.isfinite(values).any()))


def _median(values: list[Floats]) -> float:
    together = [one for its in values for one in its.tolist() if isfinite(one)]
    return float(median(together)) if together else np.nan
