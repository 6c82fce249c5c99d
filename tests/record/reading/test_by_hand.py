"""What cells, rows and times are taken for, on a few of them: what just is, and what no longer is.
How seldom, how near and how long is practice of ours, no source."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from hts.record.reading import cells, join, read, sniff, torn
from hts.record.reading.gaps import gaps
from hts.record.reading.log import shown
from hts.record.reading.options import Options
from hts.record.reading.order import ordered
from hts.record.record import Floats, Gap
from tests.rows import each_row

NINES = "9" * 199


@each_row(
    ("taken", "yes", "no"),
    [
        (lambda c: cells.is_number(c, "."), ("1", "-1.5", "+.5", "2e3", "−3", NINES),
         ("1,5", "1.5.2", "", "1_0", NINES + "9", "1 2")),
        (lambda c: cells.is_number(c, ","), ("1,5", ",5", "7"), ("1.5", "1,5,2")),
        (cells.is_number_of_any_kind, ("1.5", "1,5", "1.234,5", "1'234.5", "12 345"),
         ("1.23.4,5", "abc", "1_000", "12345,678,9", NINES + "9")),
        (cells.is_stamp, ("2026-11-21 06:00:00", "6:00", "21.11.2026 06:00", "21-Nov-26",
                          "20261121T060000", "06:00:00 PM", "1d 02:00:00", "0 00:00:30"),
         ("600", "Nov", "6:0", "", "Monday", "2026-11-21 06:00:00 and")),
        (cells.is_error_text, ("OPEN", "n/a", "--", "OL", "Over range", "inf", "#N/A"),
         ("705", "T1", "", "x" * 200)),
        (lambda c: cells.with_unit(c) == ("20.5", c[4:].strip()), ("20.5 C", "20,5 °F", "20.5K"),
         ("20.5", "20.5 m", "20.6 C")),
        (lambda c: (cells.with_mark(c) or ("", ""))[0] == "705.3",
         ("705.3*", "705,3 H", "[705.3]", "(705.3)", "!705.3", "705.3HH"),
         ("705.3", "705.3?", "[705.3)", "705.4*", "705.3 C")),
    ],
)  # fmt: skip
def test_cells(taken: Callable[[str], object], yes: tuple[str, ...], no: tuple[str, ...]) -> None:
    assert [cell for cell in yes if not taken(cell)] == []
    assert [cell for cell in no if taken(cell)] == []


def test_the_marks_of_instruments() -> None:
    marks = {cell: cells.with_mark(cell) for cell in ("705*", "705 AL", "[705]", "~705", "705")}
    assert marks == {
        "705*": ("705", "*"), "705 AL": ("705", "AL"), "[705]": ("705", "[]"),
        "~705": ("705", "~"), "705": None,
    }  # fmt: skip


@each_row(
    ("steps", "found"),
    [
        # Of 60 s: two and a half of them are none.
        ([60, 60, 150, 60, 60], []),
        ([60, 60, 151, 60, 60], [(120, 271)]),
        # Where the interval changes at that very step there is none; on both sides of it there is.
        ([60, 60, 60, 60, 300, 300, 300, 300], []),
        ([60, 60, 60, 60, 60, 60, 60, 200, 300, 300, 300], []),
        ([60, 60, 60, 60, 60, 60, 60, 300, 300, 751, 300, 300], [(1020, 1771)]),
        ([200, 60, 60], [(0, 200)]),
    ],
)
def test_gaps(steps: list[float], found: list[tuple[float, float]]) -> None:
    elapsed = np.concatenate(([0.0], np.cumsum(steps)))
    assert gaps(elapsed, 60.0) == tuple(Gap(*one) for one in found)


def in_order(seconds: list[float], prints: list[int] | None = None, of_day: bool = False):  # type: ignore[no-untyped-def]
    numbers = np.array(prints or range(len(seconds)), dtype=np.uint64)
    return ordered(np.array(seconds, dtype=float), of_day, lambda: numbers, lambda at: f"{at:g} s")


@pytest.mark.parametrize(
    ("seconds", "expected"),
    [
        # A clock without a date that falls by more than half a day has passed midnight.
        ([86340, 0, 60], [86340, 86400, 86460]),
        ([60000, 60060, 16859, 16919], [60000, 60060, 103259, 103319]),
    ],
)
def test_midnight(seconds: list[float], expected: list[float]) -> None:
    assert in_order(seconds, of_day=True).seconds.tolist() == expected


def test_a_date_that_is_not_carried_on_past_midnight() -> None:
    found = in_order([86220, 86280, 86340, 0, 60, 120])
    assert found.seconds.tolist() == [86220, 86280, 86340, 86400, 86460, 86520]
    assert found.notes[0].startswith("The date is not carried on past midnight")


def test_a_clock_that_is_set_back_by_less_than_half_a_day_is_no_midnight() -> None:
    """It runs on one interval later; the jump is by an interval more than the rows tell."""
    found = in_order([0, 60, 120, 180, 60, 120, 180, 240], of_day=True)
    assert found.seconds.tolist() == [60.0 * n for n in range(8)]
    assert [tuple(one) for one in found.jumps] == [(240.0, -180.0)]
    assert "goes back by 3 min" in found.notes[0] or "goes back by 00:03:00" in found.notes[0]


def test_rows_newest_first_out_of_order_and_twice() -> None:
    newest = in_order([180, 120, 60, 0])
    assert newest.rows.tolist() == [3, 2, 1, 0] and newest.jumps == ()
    # A block out of its place fills what was empty, whatever follows it.
    for after in ([], [360, 420], [360, 540, 600]):
        block = in_order([0, 60, 240, 300, 120, 180, *after])
        assert block.rows.tolist()[:6] == [0, 1, 4, 5, 2, 3] and block.jumps == ()
    # Of a stretch that was passed twice two rows are enough; one may be out of order.
    assert in_order([0, 60, 120, 180, 240, 300, 190, 250, 310]).jumps != ()
    assert in_order([0, 60, 120, 180, 240, 300, 250, 310]).jumps == ()
    # The same row again is dropped; others of one time count as well, before the next time.
    again = in_order([0, 60, 60, 120, 120, 180], [0, 1, 1, 3, 4, 5])
    assert again.rows.tolist() == [0, 1, 3, 4, 5]
    assert again.seconds.tolist() == [0, 60, 120, 150, 180]
    assert "1 repeated rows are dropped, the first at 60 s." in again.notes
    assert any("1 rows have the time of the row before" in one for one in again.notes)
    # Not into a gap, and after the last time as far as rows are apart.
    late = in_order([0, 60, 120, 180, 180, 3600, 3660, 3720, 3720], range(9))
    assert late.seconds.tolist() == [0, 60, 120, 180, 210, 3600, 3660, 3720, 3750]


def test_rows_of_a_clock_of_whole_minutes() -> None:
    """Three rows a minute; the first minute has one of them, its last, and the last has two."""
    found = in_order([0, 60, 60, 60, 120, 120, 120, 180, 180])
    assert found.seconds.tolist() == [40, 60, 80, 100, 120, 140, 160, 180, 200]


@each_row(
    ("rows", "mark"),
    [
        ([["0", "20.5"]], "."), ([["0", "20"]], "."), ([["0", "20,5"]], ","),
        ([["0", "1,234", "987"]], None), ([["0", "1,234", "1,5"]], ","),
        ([["0,5", "1,234"]], ","), ([["0", "20,5", "20.5"]], None),
        ([["x", "1,234"]], ","),
    ],
)  # fmt: skip
def test_the_decimal_mark(rows: list[list[str]], mark: str | None) -> None:
    if mark is None:
        with pytest.raises(sniff.RecordError, match="--decimal"):
            sniff._decimal(rows, ";", "log.csv", Options())
    else:
        assert sniff._decimal(rows, ";", "log.csv", Options()) == mark


@each_row(
    ("row", "reading"),
    [
        (["06:00", "20", "OPEN"], True), (["06:00", "x", "20"], True), (["06:00", "x", "y"], False),
        (["06:00", "OPEN", "x"], False), (["06:00", "OPEN", "OL"], True), (["06:00", "", ""], True),
        (["06:00"], False), (["T1", "20"], False), (["1", "20"], True),
    ],
)  # fmt: skip
def test_a_row_of_readings(row: list[str], reading: bool) -> None:
    """Half of what stands in it makes sense; error text counts by half."""
    assert sniff._is_reading(row) is reading


def test_the_first_row_of_readings() -> None:
    """Two in a row, empty lines between them or not; else the last that is alone."""
    assert sniff._first(["1;2", "a;b", "", "3;4", "", "5;6"], ";", sniff._is_reading) == 3
    assert sniff._first(["1;2", "a;b", "3;4", "c;d"], ";", sniff._is_reading) == 2
    assert sniff._first(["a;b", "c;d"], ";", sniff._is_reading) is None


@pytest.mark.parametrize(("odd", "of", "rare"), [(3, 10, True), (4, 399, False), (4, 400, True)])
def test_how_many_rows_can_be_torn(odd: int, of: int, rare: bool) -> None:
    assert torn.rare(odd, of) is rare


@each_row(
    ("cell", "is_torn"),
    [
        ("06:0", True), ("06:00:00", False), ("06:0006:00:00", True), ("07:15:59", False),
        ("6:00:00", False), ("06:00:00 ", False), ("", True),
    ],
)  # fmt: skip
def test_torn_times(cell: str, is_torn: bool) -> None:
    assert torn.torn_stamp(cell, "00:00:00") is is_torn
    assert not torn.torn_stamp(cell, "0000")


def test_the_nearest_row() -> None:
    """Of two as near the earlier one; the first and the last beyond the ends."""
    times: Floats = np.array([0.0, 60.0, 120.0])
    wanted = np.array([-100.0, 0.0, 30.0, 30.1, 60.0, 89.9, 90.1, 500.0])
    assert join._nearest(times, wanted).tolist() == [0, 0, 0, 1, 1, 1, 2, 2]


def test_times_in_messages() -> None:
    """21 November 2026 10:00:00 UTC is 1795255200 s after 1970; Oslo is an hour ahead."""
    assert shown(1795255200.75, True, None) == "2026-11-21 10:00:00"
    assert shown(1795255200.75, True, ZoneInfo("Europe/Oslo")) == "2026-11-21 11:00:00"
    assert shown(3723.0, False, None) == "01:02:03"


def test_a_log_of_one_channel_cut_within_its_last_row(tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    path.write_text("Time,T1 [C]\n2026-11-21 10:00:00,20\n2026-11-21 10:01:00,21\n2026-11-21 10:0")
    record = read([str(path)])
    assert record.series["T1"].values.tolist() == [20, 21]
    assert any("cut off" in note for note in record.assumed)


def test_a_time_with_another_decimal_mark_is_named_by_its_line(tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    rows = [f"{60 * n};20.{n};30.{n}" for n in range(80)]
    path.write_text(
        "\n".join(["Time [s];T1 [C];T2 [C]", *rows[:70], "4200,5;20.0;30.0", *rows[71:]])
    )
    with pytest.raises(sniff.RecordError) as refused:
        read([str(path)])
    assert refused.value.place.endswith(":72:1") and "'4200,5'" in refused.value.cause
