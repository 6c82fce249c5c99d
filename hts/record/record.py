"""A recorded run in memory: one time axis, and a series of readings for each thermocouple.

Readings are floats here. They come from instruments and are compared with limits that a guard
band or a tolerance surrounds; the limits keep their exact values beside them.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from math import floor
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
States = NDArray[np.uint8]

#: What became of a cell: a reading; an empty cell; error text; a number that is no possible
#: temperature; a reading that a fault set aside.
READ, BLANK, TEXT, OUTSIDE, LEFT_OUT = range(5)

#: degC. The widest range of the reference functions of IEC 60584-1: types E, J, K, N and T begin
#: at -270 (J at -210), type B ends at 1820. A number beyond it was never measured.
COLDEST, HOTTEST = -270.0, 1820.0

REPLACED = "replaced"
POWER_LOST = "power lost"
POWER_BACK = "power back"
INSULATION_OPENED = "insulation opened"
INSULATION_CLOSED = "insulation closed"
HEATER_LOST = "heater lost"
HEATER_BACK = "heater back"
NOTE = "note"
EVENTS = (
    REPLACED,
    POWER_LOST,
    POWER_BACK,
    HEATER_LOST,
    HEATER_BACK,
    INSULATION_OPENED,
    INSULATION_CLOSED,
    NOTE,
)


class Series(NamedTuple):
    """The readings of one thermocouple, or of a column no thermocouple claims.

    `values` float64 [rows], degC, NaN where there is no valid reading (in the file's own unit for
    a column that is not a temperature); `status` uint8 [rows], READ or why there is none;
    `column` is its name in the file and `unit` the unit there. `raw` is what the file says, in
    the unit of `values`, where something was set aside; None where `values` says it all. `rows`
    are those of its own file that the readings are of, where another file gives the times: one that
    is read less often stands there more than once.
    """

    tag: str
    values: Floats
    status: States
    column: str
    unit: str
    raw: Floats | None = None
    rows: NDArray[np.intp] | None = None

    @property
    def measured(self) -> NDArray[np.bool_]:
        """Whether each reading is another than that of the row before, and not the same again."""
        if self.rows is None:
            return np.ones(len(self.values), dtype=np.bool_)
        return np.asarray(np.diff(self.rows, prepend=-1) != 0)

    @property
    def as_read(self) -> Floats:
        """Every number of the file, also those no temperature can be and those left out."""
        return self.values if self.raw is None else self.raw


class Gap(NamedTuple):
    """A stretch without rows, in s from the start of the record."""

    start: float
    end: float


class Jump(NamedTuple):
    """The recorder's clock was set at `at`, s from the start, by `by` s (negative: set back)."""

    at: float
    by: float


class Event(NamedTuple):
    """What people noted; `at` in s from the start of the record, `kind` one of EVENTS.

    `tag` is the thermocouple it is about and `by`, when replaced, the spare that took over;
    `zone` the one whose heater it is about.
    """

    kind: str
    at: float
    tag: str = ""
    by: str = ""
    text: str = ""
    zone: str = ""


class FileRead(NamedTuple):
    """One file of the record; `digest` is the SHA-256 of its bytes in hexadecimal digits."""

    name: str
    digest: str
    rows: int


class Record(NamedTuple):
    """A recorded run.

    `elapsed` float64 [rows], s, strictly increasing from 0.0. `start` is the clock at the first
    row, aware or naive as in the file, None where the file counts time itself; `origin` is then
    what it said at the first row, s. `jumps` are the times that clock was set. `interval` is the
    median of the steps, s. `assumed` are sentences to print: everything the reader had to suppose.
    """

    elapsed: Floats
    start: datetime | None
    series: dict[str, Series]
    unmapped: dict[str, Series]
    events: tuple[Event, ...]
    assumed: tuple[str, ...]
    interval: float
    gaps: tuple[Gap, ...]
    files: tuple[FileRead, ...]
    simulated: bool
    origin: float = 0.0
    jumps: tuple[Jump, ...] = ()

    def clock(self, seconds: float) -> str:
        """The record's own clock `seconds` after its start: "2026-11-21 14:03:20", or the time
        the file counts, "03:12:00"; to the nearest second."""
        seconds += sum(jump.by for jump in self.jumps if jump.at <= seconds)
        if self.start is None:
            return duration(self.origin + seconds)
        at = after(self.start, floor(seconds + self.start.microsecond / 1e6 + 0.5))
        text = at.replace(microsecond=0, tzinfo=None).isoformat(sep=" ")
        # In the hour that summer time repeats, only the offset tells which one is meant.
        twice = at.tzinfo is not None and at.utcoffset() != at.replace(fold=1 - at.fold).utcoffset()
        return text + at.strftime("%z") if twice else text

    def between(self, start: float, end: float) -> slice:
        """The rows with start <= elapsed <= end."""
        first = int(np.searchsorted(self.elapsed, start, "left"))
        return slice(first, max(first, int(np.searchsorted(self.elapsed, end, "right"))))

    def within(self, spells: Sequence[tuple[float, float]]) -> NDArray[np.bool_]:
        """Whether each row lies in one of these stretches, from a start to an end, s."""
        starts, ends = (np.array([spell[at] for spell in spells], dtype=float) for at in (0, 1))
        count = len(self.elapsed) + 1
        first = np.searchsorted(self.elapsed, starts, "left")
        after = np.maximum(first, np.searchsorted(self.elapsed, ends, "right"))
        begun, over = (np.bincount(rows, minlength=count) for rows in (first, after))
        return np.asarray(np.cumsum(begun - over)[:-1] > 0)

    @property
    def digest(self) -> str:
        """Fingerprint of the record: SHA-256 over the fingerprints of its files, in their order."""
        return hashlib.sha256("".join(file.digest for file in self.files).encode()).hexdigest()

    @property
    def end(self) -> float:
        """s, the last row."""
        return float(self.elapsed[-1])


def after(start: datetime, seconds: float) -> datetime:
    """The clock `seconds` later. Aware times go by way of UTC, for hours are lost and repeated."""
    if start.tzinfo is None:
        return start + timedelta(seconds=seconds)
    return (start.astimezone(UTC) + timedelta(seconds=seconds)).astimezone(start.tzinfo)


def duration(seconds: float) -> str:
    """ "03:12:00", of any number of hours, with a sign when negative; to the nearest second."""
    whole = floor(abs(seconds) + 0.5)
    sign = "-" if seconds < 0 and whole else ""
    return f"{sign}{whole // 3600:02d}:{whole // 60 % 60:02d}:{whole % 60:02d}"
