"""Traces of a chart: told apart, thinned without loss, and where their tags stand."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from hts.paper.drawings.style import BLACK, BLUE, GREEN, ORANGE, SKY, VERMILLION, Line
from hts.record.record import Floats

#: Traces are told apart by colour and dashes together, so that they are in black and white too.
_COLOURS = (BLUE, VERMILLION, GREEN, BLACK, ORANGE, SKY)
_DASHES: tuple[tuple[float, ...], ...] = (
    (),
    (2.0, 0.8),
    (0.6, 0.6),
    (3.0, 0.7, 0.6, 0.7),
)
_TRACE = 0.3


def line(index: int) -> Line:
    colour = _COLOURS[index % len(_COLOURS)]
    return Line(_TRACE, _DASHES[(index // len(_COLOURS)) % len(_DASHES)], colour)


def thinned(times: Floats, values: Floats, seconds: float) -> tuple[Floats, Floats]:
    """The highest and the lowest reading of every `seconds`, in their order; a stretch without a
    reading keeps one blank."""
    bins = (times / seconds).astype(np.int64)
    first = np.flatnonzero(np.r_[True, np.diff(bins) > 0])
    low = np.where(np.isnan(values), np.inf, values)
    high = np.where(np.isnan(values), -np.inf, values)
    least, most = np.minimum.reduceat(low, first), np.maximum.reduceat(high, first)
    blank = ~np.isfinite(least)
    pairs = np.stack([least, most], axis=1)
    rising = values[first] <= values[np.r_[first[1:], values.size] - 1]
    pairs[~rising] = pairs[~rising][:, ::-1]
    pairs[blank] = np.nan
    return np.repeat(times[first], 2), pairs.ravel()


def spread(wanted: Sequence[float], pitch: float, bottom: float) -> list[float]:
    """Places at least `pitch` apart, as near to the rising `wanted` as a single pass down and one
    up make them, none below `bottom`."""
    places: list[float] = []
    for y in wanted:
        places.append(max(y, places[-1] + pitch) if places else y)
    limit = bottom
    for index in range(len(places) - 1, -1, -1):
        places[index] = min(places[index], limit)
        limit = places[index] - pitch
    return places
