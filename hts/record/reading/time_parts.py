"""A time in five or six columns: year, month, day, hour, minute and second."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from hts.record.record import Floats

if TYPE_CHECKING:
    import polars as pl

_YEAR, _MONTH, _DAY = (
    {"year", "yyyy", "yr", "yy"},
    {"month", "mm", "mon", "mo"},
    {"day", "dd", "dy"},
)
_HOUR, _MINUTE = {"hour", "hours", "hh", "hr", "h"}, {"minute", "minutes", "min", "mm", "mi", "mn"}
_SECOND = {"second", "seconds", "sec", "ss", "sc"}
#: The order of the dates there are, as places of year, month and day.
_ORDERS = (((_YEAR, _MONTH, _DAY), (0, 1, 2)), ((_DAY, _MONTH, _YEAR), (2, 1, 0)),
           ((_MONTH, _DAY, _YEAR), (2, 0, 1)))  # fmt: skip


@lru_cache(maxsize=64)
def columns(names: tuple[str, ...]) -> tuple[int, ...]:
    """The columns of year, month, day, hour, minute and, where there is one, second; else none."""
    words = [name.strip().casefold() for name in names]
    for first in range(len(words) - 4):
        for date, places in _ORDERS:
            wanted = (*date, _HOUR, _MINUTE)
            if all(word in names_of for word, names_of in zip(words[first:], wanted, strict=False)):
                found = (*(first + place for place in places), first + 3, first + 4)
                more = words[first + 5 : first + 6]
                return (*found, first + 5) if more and more[0] in _SECOND else found
    return ()


def wall(frame: pl.DataFrame, at: tuple[int, ...]) -> Floats:
    """Seconds from 1970 by the clock, float64 [rows]; NaN where the parts make no time."""
    import polars as pl

    parts = [
        np.array(
            frame[str(column)].cast(pl.String).str.strip_chars().cast(pl.Float64, strict=False),
            dtype=np.float64,
        )
        for column in at
    ]
    year, month, day, hour, minute = parts[:5]
    second = parts[5] if len(parts) > 5 else np.zeros_like(year)
    return seconds_from_1970(
        np.where(year < 100, year + 2000, year), month, day, hour, minute, second
    )


def seconds_from_1970(
    year: Floats, month: Floats, day: Floats, hour: Floats, minute: Floats, second: Floats
) -> Floats:
    """Seconds from 1970 by the clock, float64 [rows]; NaN where the parts make no time, and before
    1970 and from 2170 on. A text is not given to numpy as a date: what is none among 500 rows and
    more ends the process there."""
    good = (year >= 1970) & (year < 2170) & (month >= 1) & (month <= 12) & (day >= 1)
    good &= (
        (hour >= 0) & (hour < 24) & (minute >= 0) & (minute < 60) & (second >= 0) & (second < 61)
    )
    months = np.where(good, (year - 1970) * 12 + month - 1, 0).astype("timedelta64[M]")
    start = np.datetime64("1970-01", "M") + months
    days = start.astype("datetime64[D]").astype(np.int64)
    length = (start + 1).astype("datetime64[D]").astype(np.int64) - days
    good &= day <= length
    seconds = (days + day - 1) * 86400.0 + hour * 3600 + minute * 60 + second
    return np.where(good, seconds, np.nan)
