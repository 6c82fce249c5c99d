"""The record in memory: its clock, its rows, its fingerprint."""

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import numpy as np

from hts.record.record import FileRead, Jump, Record, duration
from tests.rows import each_row


def record(
    start: datetime | None = None, origin: float = 0.0, jumps: tuple[Jump, ...] = ()
) -> Record:
    elapsed = np.arange(0.0, 36000.0, 30.0)
    files = (FileRead("a.csv", "ab" * 32, 1200),)
    return Record(elapsed, start, {}, {}, (), (), 30.0, (), files, False, origin, jumps)


@each_row(
    ("seconds", "shown"),
    [(0, "00:00:00"), (59.4, "00:00:59"), (59.5, "00:01:00"), (-1.5, "-00:00:02"),
     (-0.3, "00:00:00"), (360000, "100:00:00")],
)  # fmt: skip
def test_durations(seconds: float, shown: str) -> None:
    assert duration(seconds) == shown


def test_the_clock() -> None:
    start = datetime(2026, 11, 21, 22, 58, 30, 600000)
    assert record(start).clock(0) == "2026-11-21 22:58:31"
    assert record(start).clock(3689) == "2026-11-22 00:00:00"
    assert record(None, -107.0).clock(100) == "-00:00:07"


def test_the_clock_in_a_zone() -> None:
    # Directive 2000/84/EC: summer time of 2026 ends on 25 October at 1:00 UTC.
    start = datetime(2026, 10, 25, 0, 0, tzinfo=UTC).astimezone(ZoneInfo("Europe/Oslo"))
    assert record(start).clock(1800) == "2026-10-25 02:30:00+0200"
    assert record(start).clock(5400) == "2026-10-25 02:30:00+0100"
    assert record(start).clock(9000) == "2026-10-25 03:30:00"


def test_a_clock_that_was_set() -> None:
    one = record(datetime(2026, 11, 21, 10), 0.0, (Jump(3600.0, -1800.0),))
    assert one.clock(3570) == "2026-11-21 10:59:30"
    assert one.clock(3600) == "2026-11-21 10:30:00"


def test_rows_between() -> None:
    one = record()
    assert one.elapsed[one.between(60.0, 120.0)].tolist() == [60, 90, 120]
    assert one.elapsed[one.between(61.0, 89.0)].tolist() == []
    assert one.elapsed[one.between(-5.0, 0.0)].tolist() == [0]
    assert one.between(90.0, 10.0) == slice(3, 3)


@each_row(
    "spells",
    [
        [],
        [(60.0, 120.0)],
        [(61.0, 89.0)],
        [(-5.0, 0.0), (90.0, 1e9)],
        [(30.0, 90.0), (60.0, 60.0), (120.0, 10.0)],
    ],
)
def test_rows_within_some_stretches(spells: list[tuple[float, float]]) -> None:
    one = record()
    rows = np.zeros(len(one.elapsed), dtype=bool)
    for spell in spells:
        rows[one.between(*spell)] = True
    assert one.within(spells).tolist() == rows.tolist()


def test_the_digest_is_over_the_files_in_order() -> None:
    one, two = FileRead("a", "aa" * 32, 1), FileRead("b", "bb" * 32, 1)
    first, second = record()._replace(files=(one, two)), record()._replace(files=(two, one))
    assert len(first.digest) == 64
    assert first.digest != second.digest
