"""Clock times of a zone as UTC, over the change to and from summer time."""

from __future__ import annotations

import re
from datetime import UTC, datetime, timedelta, timezone, tzinfo
from typing import NamedTuple
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

import numpy as np

from hts.record.errors import RecordError
from hts.record.record import Floats


class Placed(NamedTuple):
    """UTC in seconds from 1970, and sentences on what had to be supposed."""

    seconds: Floats
    notes: tuple[str, ...]


def zone_named(text: str) -> tzinfo:
    """ "Europe/Oslo", "UTC", "+01:00" or "UTC+1". Raises RecordError."""
    plain = text.strip()
    offset = re.fullmatch(r"(?:UTC|GMT)?\s*([+-])(\d{1,2})(?::?(\d{2}))?", plain)
    if plain in ("Z", "UTC", "GMT"):
        return UTC
    if offset:
        minutes = int(offset[2]) * 60 + int(offset[3] or 0)
        if minutes < 24 * 60:
            return timezone((-1 if offset[1] == "-" else 1) * timedelta(minutes=minutes))
    else:
        try:
            return ZoneInfo(plain)
        except (ZoneInfoNotFoundError, ValueError, OSError):
            pass
    raise RecordError(
        "", f"{text!r} is not a time zone", 'use a name as "Europe/Oslo", or "+01:00"'
    )


def in_zone(wall: Floats, zone: tzinfo) -> Placed:
    """Clock times in the order of the file to UTC.

    In the hour that is repeated, rows belong to its first turn until the clock goes back. A time
    that the clock leaps over is read with the offset before the leap.
    """
    first, second = _offsets(wall, zone)
    seconds = wall - first
    repeated = second < first
    if not repeated.any():
        return Placed(seconds, ())
    back = np.flatnonzero((np.diff(wall) < 0) & repeated[1:]) + 1
    notes = []
    if len(back):
        later = repeated & (np.arange(len(wall)) >= back[0])
        seconds[later] = wall[later] - second[later]
    else:
        notes.append(
            "Rows in the hour that the clock repeats at the end of summer time are taken to be "
            "from its first turn."
        )
    return Placed(seconds, tuple(notes))


def _offsets(wall: Floats, zone: tzinfo) -> tuple[Floats, Floats]:
    """Offset from UTC in s of each clock time, for the first and the second turn of the clock.

    Offsets are looked up once for each quarter of an hour: no change falls elsewhere.
    """
    quarters, of = np.unique(np.floor(wall / 900.0), return_inverse=True)
    looked = np.empty((2, len(quarters)))
    for at, quarter in enumerate(quarters.tolist()):
        moment = datetime(1970, 1, 1) + timedelta(seconds=quarter * 900.0)
        for fold in (0, 1):
            offset = moment.replace(tzinfo=zone, fold=fold).utcoffset()
            looked[fold, at] = offset.total_seconds() if offset is not None else 0.0
    return looked[0][of], looked[1][of]
