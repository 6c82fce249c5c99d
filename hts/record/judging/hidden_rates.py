"""What rates the line through the readings leaves open: over-rates it may have smoothed away.

A corner is only taken where it pays for itself (hts.record.judging.corners). An over-rate too small
or too short for that still tilts the readings of its time against the line; and one smaller yet
does not show at all, which is told.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from hts.record.judging.courses import SAME, Course, limits_at
from hts.record.judging.evidence import Evidence
from hts.record.judging.limits import Piece
from hts.record.judging.line import Line
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
#: Readings that are the least to tell a rate.
_FEW = 4


class Hidden(NamedTuple):
    """`when` readings rise by `rate` K/h, give or take `unsure` (95 %), faster than the line."""

    when: Stretch
    rate: float
    unsure: float


def smallest_seen(line: Line, interval: float, seconds: float) -> float:
    """K/h. What a rate must go beyond those beside it, for so many seconds, to surely show.

    Readings in digits may all be rounded the same way until the excess has made a whole one.
    """
    unsure = line.noise * np.sqrt(12 * interval / seconds) / seconds * _HOUR
    return float(_SEEN * unsure + line.digit / seconds * _HOUR)


def hidden(
    evidence: Evidence, tag: str, line: Line, found: Course, limits: list[Piece], seconds: float
) -> Hidden | None:
    """The window of `seconds` whose readings are tilted most against the line, where that is no
    chance, and they may have gone over the limit by it. None nearly always."""
    times, values = evidence.times, evidence.of(tag)
    known = ~np.isnan(values)
    if not known.all():
        times, values = times[known], values[known]
    if len(times) < _FEW or times[-1] - times[0] < seconds:
        return None
    off = values - np.interp(times, line.times, line.values)
    # Readings within r of a line tilt by no more than 3 r over a window's length (derived).
    most = 3 * float(np.max(np.abs(off))) / seconds * _HOUR
    slightest = _SURE * line.noise * np.sqrt(12 * evidence.record.interval / seconds) / seconds
    if most <= slightest * _HOUR / 2:
        return None
    starts: Floats = np.arange(times[0], times[-1] - seconds, seconds / _OVERLAP)
    first = np.searchsorted(times, starts, "left")
    after = np.searchsorted(times, starts + seconds, "right")
    enough = after - first >= _FEW
    starts, first, after = starts[enough], first[enough], after[enough]
    if not len(starts):
        return None
    t = (times - times[len(times) // 2]) / seconds
    st, stt = (its[after] - its[first] for its in map(_running, (t, t * t)))
    spread = np.maximum(stt - st * st / (after - first), 1e-12)
    # No window is faster than the fastest stretch in it, and readings within r of the line tilt by
    # no more than r sqrt(n / spread) (derived: Cauchy and Schwarz).
    steepest = float(np.max(np.abs(off)) * np.sqrt(np.max((after - first) / spread)))
    fastest = float(np.max(found.ratio, initial=0.0))
    if fastest + steepest / seconds * _HOUR / min(piece.limit for piece in limits) <= 1:
        return None
    off = off if found.rising else -off
    sy, sty = (its[after] - its[first] for its in map(_running, (off, t * off)))
    tilt = (sty - st * sy / (after - first)) / spread / seconds * _HOUR
    doubt = line.noise / np.sqrt(spread) / seconds * _HOUR
    ratio = found.ratio_from(starts, seconds)
    middle = np.interp(starts + seconds / 2, line.times, line.values)
    over = ratio + tilt / limits_at(middle, limits) > 1 + SAME
    # Rounding alone tilts them by up to a digit over the window (derived).
    chance = _SURE * doubt + line.digit / seconds * _HOUR
    over &= (tilt > chance) & found.moving(starts, seconds)
    if not over.any():
        return None
    worst = int(np.argmax(np.where(over, tilt / doubt, -np.inf)))
    when = Stretch(float(starts[worst]), float(starts[worst]) + seconds)
    return Hidden(when, float(tilt[worst]), 2 * float(doubt[worst]))


def _running(values: Floats) -> Floats:
    sums = np.zeros(len(values) + 1)
    np.cumsum(values, out=sums[1:])
    return sums
