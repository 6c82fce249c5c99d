"""What rates the line through the readings leaves open: over-rates it may have smoothed away.

A corner is only taken where it pays for itself (hts.record.judging.corners). An over-rate too small
or too short for that still tilts the readings of its time against the line; and one smaller yet
does not show at all, which is told.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from math import sqrt
from typing import NamedTuple, TypeVar

import numpy as np

from hts.record.judging.courses import SAME, Course, limits_at
from hts.record.judging.evidence import Evidence
from hts.record.judging.limits import Piece
from hts.record.judging.line import Line
from hts.record.judging.side_by_side import Rows
from hts.record.judging.verdict import Stretch
from hts.record.record import Floats

_HOUR = 3600.0
#: Standard uncertainties of a rate by which readings must be tilted against the line. Some hundred
#: windows of a dozen thermocouples are looked at in one record: by chance one in a hundred records
#: has one so far off (normal distribution).
_SURE = 4.0
#: The same, for what would surely have been seen: five in six of those that tilt by one more.
_SEEN = 5.0
#: Windows that begin within the length of one.
_OVERLAP = 4
#: Readings that are looked at together at the most.
_TOGETHER = 50_000
#: Readings that are the least to tell a rate.
_FEW = 4


#: Parts of a limit beyond it that do not show in the readings: these are too coarse to show that
#: the limit was kept. Basis: practice, ours.
TOO_COARSE = 0.5


_Name = TypeVar("_Name")
_Kelvin = TypeVar("_Kelvin", float, Floats)


class Hidden(NamedTuple):
    """`when` readings rise by `rate` K/h, give or take `unsure` (95 %), faster than the line."""

    when: Stretch
    rate: float
    unsure: float


def smallest_seen(noise: _Kelvin, digit: _Kelvin, interval: float, seconds: float) -> _Kelvin:
    """K/h. What a rate must go beyond those beside it, for so many seconds, to surely show.

    Readings in digits may all be rounded the same way until the excess has made a whole one.
    """
    unsure = noise * sqrt(12 * interval / seconds) / seconds * _HOUR
    return _SEEN * unsure + digit / seconds * _HOUR


class _Tilted(NamedTuple):
    """Of windows [k] the starts s, how much faster their readings rise than the line through them,
    and the standard uncertainty of that, K/h; `chance` is as much as they may by chance."""

    starts: Floats
    tilt: Floats
    doubt: Floats
    chance: Floats


class Hiding:
    """The readings of the required thermocouples beside the lines through them, in windows of
    `seconds`: looked at once for heating and cooling."""

    def __init__(self, evidence: Evidence, seconds: float) -> None:
        self._evidence, self._seconds = evidence, seconds

    def found(self, tag: str, line: Line, found: Course, limits: list[Piece]) -> Hidden | None:
        """The window whose readings are tilted most against the line, where that is no chance, and
        they may have gone over the limit by it. None nearly always."""
        its = self._tilted.get(tag)
        if its is None:
            return None
        seconds = self._seconds
        tilt = its.tilt if found.rising else -its.tilt
        ratio = found.ratio_from(its.starts, seconds)
        middle = np.interp(its.starts + seconds / 2, line.times, line.values)
        over = ratio + tilt / limits_at(middle, limits) > 1 + SAME
        over &= (tilt > its.chance) & found.moving(its.starts, seconds)
        if not over.any():
            return None
        worst = int(np.argmax(np.where(over, tilt / its.doubt, -np.inf)))
        start = float(its.starts[worst])
        when = Stretch(start, start + seconds)
        return Hidden(when, float(tilt[worst]), 2 * float(its.doubt[worst]))

    @cached_property
    def _tilted(self) -> dict[str, _Tilted]:
        """The thermocouples with a window that is tilted by more than chance, either way."""
        evidence, lines = self._evidence, self._lines
        blank = [not evidence.complete and bool(np.isnan(values).any()) for _, values, _ in lines]
        whole = [one for one, its in zip(lines, blank, strict=True) if not its]
        found = self._among(evidence.times, whole) if whole else {}
        for one, its in zip(lines, blank, strict=True):
            if its:
                known = ~np.isnan(one[1])
                found |= self._among(evidence.times[known], [(one[0], one[1][known], one[2])])
        return found

    @property
    def _lines(self) -> list[tuple[str, Floats, Line]]:
        """Of each thermocouple that has a line its tag, readings [rows] and line."""
        evidence = self._evidence
        return [
            (one.tag, evidence.of(one.tag), line)
            for one, line in zip(evidence.required, evidence.lines, strict=True)
            if line is not None
        ]

    def _among(
        self, times: Floats, traces: Sequence[tuple[_Name, Floats, Line]]
    ) -> dict[_Name, _Tilted]:
        """Those among traces, of a name, readings [rows] and line each, read at the same times."""
        seconds = self._seconds
        if len(times) < _FEW or times[-1] - times[0] < seconds:
            return {}
        starts: Floats = np.arange(times[0], times[-1] - seconds, seconds / _OVERLAP)
        first = np.searchsorted(times, starts, "left")
        after = np.searchsorted(times, starts + seconds, "right")
        enough = after - first >= _FEW
        starts, first, after = starts[enough], first[enough], after[enough]
        if not len(starts):
            return {}
        rows, within = after - first, _Within(first, after)
        t = (times - times[len(times) // 2]) / seconds
        st, stt = (within.summed(its) for its in (t, t * t))
        spread = np.maximum(stt - st * st / rows, 1e-12)
        found = {}
        some = max(1, _TOGETHER // len(times))
        for group in (traces[at : at + some] for at in range(0, len(traces), some)):
            off = np.stack([y - np.interp(times, line.times, line.values) for _, y, line in group])
            sy, sty = (within.summed(its) for its in (off, t * off))
            noise, digit = np.array([(line.noise, line.digit) for _, _, line in group]).T[
                :, :, None
            ]
            tilt = (sty - st * sy / rows) / spread / seconds * _HOUR
            doubt = noise / np.sqrt(spread) / seconds * _HOUR
            # Rounding alone tilts them by up to a digit over the window (derived).
            chance = _SURE * doubt + digit / seconds * _HOUR
            for at in np.flatnonzero((np.abs(tilt) > chance).any(axis=1)).tolist():
                found[group[at][0]] = _Tilted(starts, tilt[at], doubt[at], chance[at])
        return found


def look_together(hiding: Sequence[Hiding]) -> None:
    """Looks at several runs, in windows of one length, those read at the same times at once."""
    alike: dict[bytes, list[Hiding]] = {}
    for one in hiding:
        if one._evidence.complete:
            alike.setdefault(one._evidence.times.tobytes(), []).append(one)
    for some in alike.values():
        traces = [
            ((at, tag), values, line)
            for at, one in enumerate(some)
            for tag, values, line in one._lines
        ]
        tilted = some[0]._among(some[0]._evidence.times, traces)
        for at, one in enumerate(some):
            one._tilted = {tag: its for (of, tag), its in tilted.items() if of == at}


class _Within:
    """The rows from each of `first` to before `after`: few windows, that overlap."""

    def __init__(self, first: Rows, after: Rows) -> None:
        borders = np.unique(np.concatenate((first, after)))
        self._first, self._after = (np.searchsorted(borders, one) for one in (first, after))
        self._all, self._borders = slice(borders[0], borders[-1]), borders[:-1] - borders[0]

    def summed(self, values: Floats) -> Floats:
        """The sums of the rows [..., rows] in each."""
        sums = np.zeros((*values.shape[:-1], len(self._borders) + 1))
        parts = np.add.reduceat(values[..., self._all], self._borders, axis=-1)
        np.cumsum(parts, axis=-1, out=sums[..., 1:])
        return np.asarray(sums[..., self._after] - sums[..., self._first])
