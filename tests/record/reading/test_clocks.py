"""What a column of times is taken for, part by part. How recorders write: common practice, no
source; days of a spreadsheet and seconds of a clock are counted by hand."""

from __future__ import annotations

from datetime import timedelta

import numpy as np
import polars as pl
import pytest

from hts.record.errors import RecordError
from hts.record.reading import clock, stamps
from hts.record.reading.options import Options
from hts.record.reading.zones import zone_named
from tests.record.reading.test_heads_and_columns import layout
from tests.rows import each_row

DAY = 86400.0


@each_row(
    ("cells", "unit", "asked", "seconds", "dated"),
    [
        (["0", "60"], "s", None, [0, 60], False), (["1", "2.5"], "min", None, [60, 150], False),
        (["1"], "h", None, [3600], False), (["1"], "d", None, [DAY], False),
        (["1500"], "ms", None, [1.5], False), (["2"], "s", "min", [120], False),
        # Ten years of 365.25 days are 315,576,000 s.
        (["315576000", None, "-315576000"], "s", None, [315576000, None, -315576000], False),
        ([None, "0", "315576001"], "s", None, "x:6:1", False),
        (["0", "-315576001", "315576001"], "s", None, "x:5:1", False),
        # Day 25569 of a spreadsheet is 1970-01-01, and 2170-01-01 is day 98,618 (73,049 days on).
        (["25569", "25569.5", None], "serial", None, [0, 43200, None], True),
        (["25569", "25568.9"], "serial", None, "x:5:1", True),
        ([None, "98618"], "", "serial", [None, 73049 * DAY], True),
        # Two hundred years of 365.25 days are 6,311,520,000 s.
        (["6311520000", None, "6311520001"], "unix", None, "x:6:1", True),
        (["1795255200.5"], "unix", None, [1795255200.5], True),
        (["1795255200500"], "unix", None, [1795255200.5], True),
        (["1795255200500000"], "unix", None, [1795255200.5], True),
        # What counts ms for more than thirty years counts from 1970, whatever it says.
        (["1795255200500", None], "", None, [1795255200.5, None], True),
        (["1795255200500"], "ms", None, [1795255200.5], True),
        (["1795255200500"], "ms", "ms", "x:4:1", False),
        (["1795255200500", "60"], "", None, "x:1:1", False),
        ([None, "60"], "", None, "x:1:1", False),
    ],
)  # fmt: skip
def test_a_column_of_counted_times(
    cells: list[str | None], unit: str, asked: str | None, seconds: list[float | None] | str,
    dated: bool,
) -> None:  # fmt: skip
    where = layout("Time", unit)
    options = Options(time_unit=asked)
    try:
        found = clock._numbers(pl.Series(cells, dtype=pl.String), "x", where, options, (0,))
    except RecordError as error:
        assert error.place == seconds
        return
    wanted = [np.nan if each is None else float(each) for each in seconds]
    np.testing.assert_allclose(found.seconds, wanted, rtol=0, atol=1e-6)
    assert (found.dated, found.of_day) == (dated, False)
    assert (found.zone is not None) == (dated and unit != "serial" and asked != "serial")
    assert len(found.notes) == (asked is not None and not dated)


@each_row(
    ("largest", "part"),
    [(0, 1), (99_999_999_999, 1), (1e11, 1e-3), (1e14 - 1, 1e-3), (1e14, 1e-6), (1e17, 1e-9)],
)
def test_what_part_of_a_second_a_clock_counts(largest: float, part: float) -> None:
    assert stamps._part_of_second(np.array([np.nan, -largest, 0.0])) == part


@each_row(
    ("name", "cells", "unit", "found", "of_day"),
    [
        ("Time", ["06:00:00", "06:01:00.5"], "", [21600, 21660.5], True),
        # Beyond 24:00 it is no clock; at it, it may be. A name may say so, too.
        ("Time", ["23:59:00", "24:00:00"], "", [86340, 86400], True),
        ("Time", ["23:59:00", "24:00:01"], "", [86340, 86401], False),
        ("Elapsed", ["00:00:00", "00:01:00"], "", [0, 60], False),
        ("Elapsed", ["23:59:00", "00:00:00", "00:01:00"], "", [86340, 0, 60], True),
        ("Time", ["1d 02:00:00", "1.02:00:05"], "", [93600, 93605], False),
        ("Time", ["-00:00:15", "+00:00:15"], "", [-15, 15], True),
        ("Time", ["11:59:59 a.m.", "12:00:00 PM", "1:00:00 pm"], "", [43199, 43200, 46800], True),
        ("Time", ["12:00:00 AM", "12:00:30 AM"], "", [0, 30], True),
        ("Time", ["12:30", "12:31"], "hh:mm", [45000, 45060], True),
        ("Time", ["12:30", "12:31"], "mm:ss", [750, 751], True),
        ("Time", ["12:30", "01:00:00"], "mm:ss", [750, 3600], True),
        ("Time", ["06:00:00", None, "06:01:00,5"], "", [21600, None, 21660.5], True),
        ("Time", [None, "12:30"], "", "'12:30' can be", True),
        ("Time", ["12:30:00", "12:31"], "s", "'12:30:00' can be", True),
    ],
)  # fmt: skip
def test_a_column_of_hours_and_minutes(
    name: str, cells: list[str | None], unit: str, found: list[float | None] | str, of_day: bool
) -> None:
    text = pl.Series(cells, dtype=pl.String)
    options = Options(time_unit=unit or None)
    try:
        times = clock._of_day_or_counted(text, "x", layout(name), options, (0,))
    except RecordError as error:
        assert error.place == "x:4:1" and str(found) in error.cause
        return
    wanted = [np.nan if each is None else float(each) for each in found]
    np.testing.assert_allclose(times.seconds, wanted, rtol=0, atol=1e-9)
    assert (times.dated, times.of_day, len(times.notes)) == (False, of_day, of_day)


@each_row(
    ("stamp", "minutes"),
    [
        ("2026-11-21T06:00:00+05:30", 330), ("2026-11-21T06:00:00-0230", -150),
        ("2026-11-21T06:00:00Z", 0), ("2026-11-21T06:00:00+01", 60),
    ],
)  # fmt: skip
def test_the_offset_of_a_stamp(stamp: str, minutes: int) -> None:
    cells = pl.Series([None, stamp, "2026-11-21T07:00:00+09:00"])
    assert clock._zone_of(cells, Options()).utcoffset(None) == timedelta(minutes=minutes)
    assert clock._zone_of(cells, Options(zone="+02:00")).utcoffset(None) == timedelta(hours=2)


@each_row(
    ("text", "minutes"),
    [
        ("+23:59", 1439), ("-1", -60), ("UTC+1", 60), ("GMT -0330", -210), (" UTC ", 0),
        ("+24", None),
    ],
)  # fmt: skip
def test_an_offset_that_is_given(text: str, minutes: int | None) -> None:
    if minutes is None:
        with pytest.raises(RecordError):
            zone_named(text)
    else:
        assert zone_named(text).utcoffset(None) == timedelta(minutes=minutes)


@each_row(
    ("names", "cells", "asked", "found"),
    [
        ("Date,Time,T1", "2026-11-21,06:00:00,20", None, (0, 1)),
        ("T1,Time,Date", "20,06:00:00,2026-11-21", None, (2, 1)),
        # A time that states its date is enough; bare dates want the times of another column.
        ("Date,Time,T1", "2026-11-21,2026-11-21 06:00,20", None, (1,)),
        ("Date,T1,at", "2026-11-21,20,06:00:00", None, (0, 2)),
        ("Timestamp,T1", "2026-11-21 06:00,20", None, (0,)),
        ("T1,Elapsed", "20,60", None, (1,)),
        ("T1,when", "20,2026-11-21 06:00", None, (1,)),
        (",T1", "60,20", None, (0,)), ("T1,T2", "60,20", None, "'T1'"),
        ("Date,Time,T1", "x,60,20", "time", (1,)), ("a,b,c", "1,2,3", "c, A", (2, 0)),
        ("a,b,c", "1,2,3", "c,a,b", (2, 0)), ("a,b,c", "1,2,3", "d", "a, b, c"),
    ],
)  # fmt: skip
def test_which_column_is_the_time(
    names: str, cells: str, asked: str | None, found: tuple[int, ...] | str
) -> None:
    frame = pl.DataFrame({str(at): [None, cell] for at, cell in enumerate(cells.split(","))})
    try:
        got = clock._columns(frame, "x", layout(names), Options(time=asked))
    except RecordError as error:
        assert str(found) in error.remedy
    else:
        assert got == found


@each_row(
    ("cells", "yes"),
    [
        ([None, "am", " PM "], True), (["AM", "x"], False), (["x", "AM"], False), ([None], False),
    ],
)  # fmt: skip
def test_a_column_of_halves_of_the_day(cells: list[str | None], yes: bool) -> None:
    frame = pl.DataFrame({"0": ["1"] * len(cells), "1": pl.Series(cells, dtype=pl.String)})
    halves = clock._halves(frame, 1)
    assert (halves is not None) is yes
    assert halves is None or halves.to_list() == [None, "AM", "PM"]
    assert clock._halves(frame, 2) is None


@each_row(
    ("seconds", "place"),
    [
        # From 1970 to two hundred years of 365.25 days later, 6,311,520,000 s.
        ([0, 6311520000, np.nan], ""), ([np.nan, 0, 6311520001], "x:6:3"), ([-1, -2], "x:4:3"),
        ([], ""), ([5, np.nan, np.nan, -0.5], "x:7:3"),
    ],
)  # fmt: skip
def test_a_date_no_recorder_has_shown(seconds: list[float], place: str) -> None:
    """Told at the first row that has one, by its line: the readings begin in the fourth."""
    try:
        clock._within_reach(np.array(seconds, dtype=float), "x", layout("Time,T1"), 3)
    except RecordError as error:
        assert error.place == place
    else:
        assert not place
