"""A time in several columns, against the calendar of the standard library, and what is no time."""

from __future__ import annotations

import math
from calendar import monthrange
from datetime import UTC, datetime

import polars as pl

from hts.record.reading.time_parts import columns, wall
from tests.rows import each_row

ALL = (0, 1, 2, 3, 4, 5)


def seconds(*rows: tuple[int | None, ...]) -> list[float]:
    frame = pl.DataFrame(
        {str(n): [row[n] for row in rows] for n in range(len(rows[0]))}, strict=False
    )
    return [float(value) for value in wall(frame, ALL[: len(rows[0])])]


def test_every_month_at_both_ends() -> None:
    moments = [
        datetime(year, month, day, *clock, tzinfo=UTC)
        for year in (1970, 2000, 2024, 2026, 2100, 2169)
        for month in range(1, 13)
        for day in (1, monthrange(year, month)[1])
        for clock in ((0, 0, 0), (23, 59, 59))
    ]
    rows = [(m.year, m.month, m.day, m.hour, m.minute, m.second) for m in moments]
    assert seconds(*rows) == [m.timestamp() for m in moments]
    # Without a column of seconds they are none; a year of two figures is of this century.
    assert seconds((26, 11, 21, 10, 30)) == [datetime(2026, 11, 21, 10, 30, tzinfo=UTC).timestamp()]


@each_row(
    "row",
    [
        (1969, 12, 31, 0, 0, 0), (2170, 1, 1, 0, 0, 0), (2026, 0, 1, 0, 0, 0),
        (2026, 13, 1, 0, 0, 0), (2026, 2, 0, 0, 0, 0), (2026, 2, 29, 0, 0, 0),
        (2026, 11, 31, 0, 0, 0), (2026, 1, 1, -1, 0, 0), (2026, 1, 1, 24, 0, 0),
        (2026, 1, 1, 0, -1, 0), (2026, 1, 1, 0, 60, 0), (2026, 1, 1, 0, 0, -1),
        (2026, 1, 1, 0, 0, 61), (None, 1, 1, 0, 0, 0), (2026, 1, 1, 0, 0, None),
    ],
)  # fmt: skip
def test_what_is_no_time(row: tuple[int | None, ...]) -> None:
    good = (2026, 11, 21, 10, 0, 0)
    assert [math.isnan(value) for value in seconds(good, row)] == [False, True]


@each_row(
    ("names", "found"),
    [
        ("Year Month Day Hour Minute Second T1", (0, 1, 2, 3, 4, 5)),
        ("No YYYY MM DD HH MI SS", (1, 2, 3, 4, 5, 6)),
        ("Day Month Year Hour Minute T1", (2, 1, 0, 3, 4)),
        ("month day year hour min sec", (2, 0, 1, 3, 4, 5)),
        ("T1 T2 T3 T4 T5 T6", ()),
        ("Year Month Day Hour", ()),
        ("Year Month Day Minute Hour", ()),
    ],
)
def test_which_columns(names: str, found: tuple[int, ...]) -> None:
    assert columns(tuple(names.split())) == found
