"""Which limits on a rate readings show to be kept by themselves, so that no line need be drawn.

Means over a few rows each rise in no window by as much as its limit allows, less a margin of their
noise: neither from its first to its last, nor from its first two to its last two, which a rise that
begins and ends with the window bears on most. What the line through the same readings rises by
(hts.record.judging.corners) is a mean of theirs over more rows, and less. Most of the runs that
keep their limits are told by this, in a tenth of the time that the lines take; of the others,
whatever becomes of them, the lines decide.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import pi, sqrt

import numpy as np

from hts.record.judging.courses import COVERAGE
from hts.record.judging.evidence import Evidence
from hts.record.judging.hidden_rates import TOO_COARSE, smallest_seen
from hts.record.judging.limits import Piece, least_hours
from hts.record.judging.noise import ROUNDING, last_digits
from hts.record.judging.stretches import Flags
from hts.record.judging.verdict import Stretch
from hts.record.plan import HEAT
from hts.record.record import Floats

_HOUR = 3600.0
#: Means in a window.
_PARTS = 6
#: Rows over which noise is taken to be of one kind, and the fewest of a record.
_BLOCK = 60
#: Readings that are enough to tell their last digit, or a multiple of it.
_DIGITS = 50
#: Readings that are looked at together at the most: they lie in the near memory of the processor.
_TOGETHER = 60_000
#: Times the mean step between rows that the longest may be: windows are as many rows as they take
#: at the longest, and what they may rise by hangs on how long each truly is.
_EVEN = 1.5


def plainly_kept(
    runs: Sequence[tuple[Evidence, Sequence[Stretch]]],
    limited: Mapping[str, Sequence[Piece]],
    seconds: float,
    told: float,
) -> list[set[str]]:
    """Of each run, with the times that holds were in their ranges, the actions whose limits it is
    plain from the readings to have kept over every window of `seconds`, and to have come under in
    one that it is told over, of `told` s. Runs of one plan; those read at the same times are looked
    at together."""
    found: list[set[str]] = [set() for _ in runs]
    for some in _alike([evidence for evidence, _ in runs], seconds, told):
        values = np.concatenate([runs[at][0].values for at in some])
        first = runs[some[0]][0]
        means = Means(first.times, values, seconds, told)
        traces = len(first.required)
        for action, limits in limited.items():
            kept, moves = means.kept(limits, 1.0 if action == HEAT else -1.0)
            for number, at in enumerate(some):
                its = slice(number * traces, (number + 1) * traces)
                if kept[its].all() and means.outside(runs[at][1])[moves[its].any(axis=0)].any():
                    found[at].add(action)
    return found


def _alike(runs: Sequence[Evidence], seconds: float, told: float) -> Iterator[list[int]]:
    """Those that are complete and read evenly and often, and of them a few at a time that are read
    at the same times."""
    alike: dict[bytes, list[int]] = {}
    for at, one in enumerate(runs):
        if one.required and one.complete and _suits(one.times, seconds, told):
            alike.setdefault(one.times.tobytes(), []).append(at)
    for its in alike.values():
        some = max(1, _TOGETHER // runs[its[0]].values.size)
        yield from (its[at : at + some] for at in range(0, len(its), some))


def _suits(times: Floats, seconds: float, told: float) -> bool:
    rows = len(times)
    if rows < _BLOCK:
        return False
    long, longest = float(times[-1] - times[0]), float(np.diff(times).max())
    often = 0 < _PARTS * longest <= seconds and 3 * max(seconds, told) <= long
    return often and longest * (rows - 1) <= _EVEN * long


class Means:
    """Readings [traces, rows] without blanks at `times` s, about even ones, in windows of `seconds`
    and in those that rates are told over, `told` s."""

    def __init__(self, times: Floats, values: Floats, seconds: float, told: float) -> None:
        traces, rows = values.shape
        self._interval = float(np.diff(times).max())
        self._seconds = seconds
        #: Rows of a mean, and means in a window of either kind.
        self._rows = int(seconds / self._interval / _PARTS)
        self._parts, self._told = (int(t / self._interval / self._rows) for t in (seconds, told))
        whole = rows // self._rows * self._rows
        self._values = values[:, :whole].reshape(traces, -1, self._rows).mean(axis=2)
        self._at = times[:whole].reshape(-1, self._rows).mean(axis=1) / _HOUR
        begins, ends = times[: whole : self._rows], times[self._rows - 1 : whole : self._rows]
        self._begins, self._ends = begins[: -self._told], ends[self._told :]
        self._digits = last_digits(values[:, :: max(1, rows // _DIGITS)])
        # As in hts.record.judging.noise, but what is far off counts in full, and the worst block
        # stands for all.
        bends = np.abs(np.diff(values, 2, axis=1))
        blocks = np.arange(0, max(1, rows - 2 - _BLOCK // 2), _BLOCK)
        mean = np.add.reduceat(bends, blocks, axis=1) / np.diff(blocks, append=rows - 2)
        self._noise = np.maximum(sqrt(pi / 12) * mean.max(axis=1), ROUNDING * self._digits)

    def kept(self, limits: Sequence[Piece], sign: float) -> tuple[Flags, Flags]:
        """Of each trace whether it surely kept the limits on heating (`sign` 1) or cooling (-1)
        [traces], and in which windows that rates are told over it surely moved that way [traces,
        windows]."""
        least = min(piece.limit for piece in limits)
        hours = sign * least_hours(self._values, list(limits))
        # What goes back in the range of a hold makes up for nothing.
        gone = np.zeros_like(hours)
        np.cumsum(np.maximum(np.diff(hours, axis=1), 0.0), axis=1, out=gone[:, 1:])
        two = (gone[:, 1:] + gone[:, :-1]) / 2
        margin = self._unsure(self._rows) / least
        kept = _most(gone, self._at, self._parts) + margin <= 0.0
        at_two = (self._at[1:] + self._at[:-1]) / 2
        kept &= _most(two, at_two, self._parts - 2) + self._unsure(2 * self._rows) / least <= 0.0
        # The median of the noise of all rows is at most twice their mean.
        seen = smallest_seen(2 * self._noise, self._digits, self._interval, self._seconds)
        kept &= seen <= TOO_COARSE * least
        moves = hours[:, self._told :] - hours[:, : -self._told] > margin[:, None]
        return kept, moves

    def outside(self, kept: Sequence[Stretch]) -> Flags:
        """Whether those windows lie outside what was kept in the range of a hold [windows]."""
        found = np.full(len(self._begins), True)
        for one in kept:
            found &= (self._ends <= one.start) | (self._begins >= one.end)
        return found

    def _unsure(self, rows: int) -> Floats:
        """K [traces], by how much the difference of two means of so many rows may be off: noise, or
        where all are rounded the same way a digit."""
        noise = COVERAGE * self._noise * sqrt(2 / rows)
        return np.asarray(np.maximum(noise, self._digits), dtype=np.float64)


def _most(of: Floats, at: Floats, step: int) -> Floats:
    """The most that is gained in so many steps over what their time allows, at h [traces]."""
    gained = of[:, step:] - of[:, :-step]
    gained -= at[step:] - at[:-step]
    found: Floats = gained.max(axis=1)
    return found
