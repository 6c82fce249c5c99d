"""Rows put in the order of time: sorted, repeated rows dropped, a clock that was set followed."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from hts.record.reading.gaps import STEPS
from hts.record.record import Floats, Jump, duration

Rows = NDArray[np.intp]

#: Part of the rows with the time of the row before from which the clock is coarser than the rows
#: are apart. Basis: practice, ours.
_OFTEN = 0.25
#: Of a day: a clock without a date that falls by more has passed midnight.
_HALF_A_DAY = 43200.0
_DAY = 86400.0
#: Intervals between the rows before and after midnight, at the most. Basis: practice, ours.
_AT_MIDNIGHT = 6.0


class Ordered(NamedTuple):
    """`rows` are the rows kept, in the order of time, and `seconds` their strictly increasing
    times. `jumps` are at those times."""

    rows: Rows
    seconds: Floats
    jumps: tuple[Jump, ...]
    notes: tuple[str, ...]


def ordered(
    seconds: Floats,
    of_day: bool,
    same: Callable[[], NDArray[np.uint64]],
    say: Callable[[float], str],
) -> Ordered:
    """`seconds` [rows] as read; `same` gives a number for each row that only equal rows share;
    `say` shows a time."""
    rows: Rows = np.arange(len(seconds), dtype=np.intp)
    steps = np.diff(seconds)
    if np.all(steps > 0):
        return Ordered(rows, seconds, (), ())
    notes: list[str] = []
    if np.count_nonzero(steps < 0) > len(steps) / 2 and not of_day:
        rows = rows[::-1]
        seconds = seconds[::-1]
        notes.append("Rows are newest first and are reversed.")
    if of_day:
        passed = np.diff(seconds, prepend=seconds[0]) < -_HALF_A_DAY
        seconds = seconds + np.cumsum(passed) * _DAY
    elif begins_again(seconds):
        notes.append("The date is not carried on past midnight: the hours are counted on.")
        seconds = seconds + np.cumsum(np.diff(seconds, prepend=seconds[0]) < 0) * _DAY
    prints = same()
    seconds, jumps = _follow(seconds, prints[rows], say, notes)
    steps = np.diff(seconds)
    if np.any(steps < 0):
        moved = int(np.count_nonzero(steps < 0))
        notes.append(f"Rows not in the order of time are sorted: {moved} times one is earlier.")
        order = np.argsort(seconds, kind="stable")
        rows, seconds = rows[order], seconds[order]
    rows, seconds = _without_repeats(rows, seconds, prints, say, notes)
    return Ordered(rows, seconds, tuple(jumps), tuple(notes))


def begins_again(seconds: Floats) -> bool:
    """Whether a clock goes back by all but a whole day wherever it goes back, and shows no more
    than one day; not where its end leads to its beginning, as with the parts of a day in the wrong
    order."""
    known = seconds[np.isfinite(seconds)]
    steps = np.diff(known)
    if not np.any(steps < 0) or not np.any(steps > 0) or known.max() - known.min() > _DAY:
        return False
    near = _AT_MIDNIGHT * float(np.median(steps[steps > 0]))
    return bool(steps[steps < 0].max() <= near - _DAY) and not 0.0 < known[0] - known[-1] <= near


def _follow(
    seconds: Floats, prints: NDArray[np.uint64], say: Callable[[float], str], notes: list[str]
) -> tuple[Floats, list[Jump]]:
    """Where the clock was set back the record runs on, one interval later."""
    steps = np.diff(seconds)
    back = np.flatnonzero(steps < 0)
    jumps: list[Jump] = []
    # A clock is set a few times at most; rows in disorder go back often.
    if not len(back) or len(back) > max(3, len(steps) // 200):
        return seconds, jumps
    interval = float(np.median(steps[steps > 0])) if np.any(steps > 0) else 1.0
    seconds = seconds.copy()
    ends = [*(back[1:] + 1).tolist(), len(seconds)]
    begin = 0
    for row, end in zip((back + 1).tolist(), ends, strict=True):
        before, later = slice(begin, row), slice(row, end)
        if not _passed_twice(seconds[before], seconds[later], prints[before], prints[later]) and (
            not _before_all(seconds[before], seconds[later], interval)
        ):
            continue
        by = float(seconds[row] - seconds[row - 1]) - interval
        notes.append(
            f"The clock goes back by {duration(-by)} after {say(float(seconds[row - 1]))}; the "
            "record is taken to run on, one interval later. How long the break was is not recorded."
        )
        seconds[row:] -= by
        jumps.append(Jump(float(seconds[row]), by))
        begin = row
    return seconds, jumps


def _passed_twice(
    before: Floats, later: Floats, prints: NDArray[np.uint64], later_prints: NDArray[np.uint64]
) -> bool:
    """Whether a stretch of time was passed twice, with other readings: the clock was set back.

    Rows out of order fill a stretch that is empty, and repeated rows are equal."""
    low, high = later[0], min(before.max(), later.max())
    once = (before >= low) & (before <= high)
    if np.count_nonzero(once) < 2:
        return False
    again = (later >= low) & (later <= high) & _covered(later, before)
    if np.count_nonzero(again) < 2:
        return False
    return not np.isin(later_prints[again], prints[once]).all()


def _before_all(before: Floats, later: Floats, interval: float) -> bool:
    """Whether what comes later is dated before all else, and does not lead up to it, as the parts
    of a file in the wrong order do."""
    return bool(later.max() + STEPS * interval < before.min())


def _covered(times: Floats, rows: Floats) -> NDArray[np.bool_]:
    """Which times lie at a row, or between two of them that have no gap between."""
    rows = np.unique(rows)
    if len(rows) < 2:
        return np.isin(times, rows)
    steps = np.diff(rows)
    after = np.clip(np.searchsorted(rows, times), 1, len(rows) - 1)
    return np.isin(times, rows) | (steps[after - 1] <= STEPS * np.median(steps))


def _without_repeats(
    rows: Rows,
    seconds: Floats,
    prints: NDArray[np.uint64],
    say: Callable[[float], str],
    notes: list[str],
) -> tuple[Rows, Floats]:
    repeat = np.diff(seconds, prepend=-np.inf) == 0
    if not repeat.any():
        return rows, seconds
    equal = repeat & (prints[rows] == np.roll(prints[rows], 1))
    if equal.any():
        count, at = int(equal.sum()), say(float(seconds[equal][0]))
        notes.append(f"{count} repeated rows are dropped, the first at {at}.")
        rows, seconds = rows[~equal], seconds[~equal]
        repeat = np.diff(seconds, prepend=-np.inf) == 0
    # With two rows between ticks of the clock and less at both ends it is not quite the half.
    if repeat.sum() >= _OFTEN * len(seconds) and not repeat.all():
        notes.append("Several rows have the same time: they are spread evenly up to the next time.")
        return rows, _spread(seconds, ~repeat)
    if repeat.any():
        count, at = int(repeat.sum()), say(float(seconds[repeat][0]))
        notes.append(
            f"{count} rows have the time of the row before and other readings; all of them count, "
            f"each between its time and the next, the first such time is {at}."
        )
        return rows, _between(seconds, ~repeat)
    return rows, seconds


def _between(seconds: Floats, begins: NDArray[np.bool_]) -> Floats:
    """Rows of one time at equal distances up to the next time, or for as long as rows mostly are
    apart: two that contradict each other count both, in whatever order they stand."""
    first = np.flatnonzero(begins)
    counts = np.diff(first, append=len(seconds))
    steps = np.diff(seconds[first])
    typical = float(np.median(steps)) if len(steps) else 1.0
    apart = np.minimum(np.append(steps, typical), typical) / counts
    within = np.arange(len(seconds)) - np.repeat(first, counts)
    found: Floats = seconds + within * np.repeat(apart, counts)
    return found


def _spread(seconds: Floats, begins: NDArray[np.bool_]) -> Floats:
    """Rows between two times of a coarse clock, at equal distances."""
    first = np.flatnonzero(begins)
    counts = np.diff(first, append=len(seconds))
    steps = np.diff(seconds[first]) / counts[:-1]
    typical = float(np.median(steps))
    # The first and the last group may be cut short by the start and the end of the record.
    steps = np.append(steps, typical)
    starts = seconds[first].copy()
    if counts[0] * typical < seconds[first[1]] - starts[0]:
        steps[0] = typical
        starts[0] = seconds[first[1]] - counts[0] * typical
    within = np.arange(len(seconds)) - np.repeat(first, counts)
    spread: Floats = np.repeat(starts, counts) + within * np.repeat(steps, counts)
    return spread
