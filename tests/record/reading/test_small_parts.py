"""What stands again in the midst of a log, clocks of later parts, names, cells of workbooks, and
how dates are written: on a few of them each."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime, time, timedelta
from types import SimpleNamespace as Stub
from typing import Any

import numpy as np
import polars as pl
import pytest

from hts.record.errors import RecordError
from hts.record.reading import heads_again, join, log, long, series, stamps, table, workbook
from hts.record.reading.sniff import Layout
from hts.record.record import OUTSIDE, READ, Jump
from tests.rows import each_row

HEADS = Layout(",", ".", 2, 3, ("Time", "T1", "T2"), ("", "C", "F"), (), 1, frozenset(), {})


@pytest.mark.parametrize(
    ("line", "refused"),
    [
        # The heads again, as at the top of each page; units in a line of their own.
        ("Time,T1 [C],T2 [F]", ""),
        ("TIME,t1,T2", ""),
        ("Time,T1 [degC],T2 [°F]", ""),
        (",C,F", ""),
        (",degC,°F", ""),
        ("Time,T2,T1", "x:9:2 T2 T1"),
        ("Time,T1 [F],T2", "x:9:2 F C"),
        (",F,F", "x:9:2 degF degC"),
        (",C,C", "x:9:3 degC degF"),
        # One unit by itself may be anything, and so may words of which few are names.
        (",F,", ""),
        ("a,T2,b,c,d,T1,e", ""),
        ("Time,T2,note", "x:9:2 T2 T1"),
        ("705,20,F", ""),
        (",,", ""),
    ],
)
def test_heads_that_stand_again(line: str, refused: str) -> None:
    cells = [cell or None for cell in line.split(",")]
    wide = len(cells) - 3
    layout = HEADS._replace(
        names=(*HEADS.names, *"1234567"[:wide]), units=(*HEADS.units, *[""] * wide)
    )
    try:
        heads_again.refuse_other_heads(cells, "x:9", layout)
    except RecordError as error:
        column, found, before = refused.split()
        assert str(error).startswith(column) and f"{found!r}" in str(error)
        assert f"and {before!r} before" in str(error)
    else:
        assert not refused


def test_the_clock_of_a_later_part() -> None:
    """Set forward by 60 s and back by 10 s in the part before: it is 50 s ahead."""
    jumps = (Jump(500.0, 5.0),)
    later = Stub(seconds=np.array([500.0, 560.0]), jumps=jumps, remarks=((520.0, "door"),))
    later._replace = lambda **new: Stub(**new)
    for by, ahead in (((60.0, -10.0), 50.0), ((60.0, -60.0), 0.0), ((), 0.0)):
        earlier: Any = Stub(jumps=tuple(Jump(float(at), each) for at, each in enumerate(by)))
        its: Any = later
        found = join._same_clock(earlier, its)
        assert found.seconds.tolist() == [500.0 - ahead, 560.0 - ahead]
        assert found.jumps == (Jump(500.0 - ahead, 5.0),)
        assert found.remarks == ((520.0 - ahead, "door"),)


def test_units_of_a_log_of_one_reading_a_line() -> None:
    rows = pl.DataFrame({"channel": ["cT1", "cT2", "cT1", "cT3"], "unit": ["C", "F", "degC", None]})
    roles: Any = Stub(unit=3, value=2)
    assert long._units(rows, "x", HEADS, roles, ["cT2", "cT1", "cT3", "cT4"]) == ["F", "C", "", ""]
    alone: Any = Stub(unit=None, value=2)
    assert long._units(rows, "x", HEADS, alone, ["cT1", "cT2"]) == ["F", "F"]
    mixed = rows.with_columns(pl.Series("unit", ["C", "F", "K", None]))
    with pytest.raises(RecordError, match="T1 has readings in two units"):
        long._units(mixed, "x", HEADS, roles, ["cT1"])


@pytest.mark.parametrize(
    ("values", "extremes", "outside"),
    [
        # -270 and 3000 degC are still told; what is beyond is no reading of a thermocouple.
        ([20.0, 705.0], None, []),
        ([series.COLDEST, series.HOTTEST], None, []),
        ([series.COLDEST, series.HOTTEST], (series.COLDEST, series.HOTTEST), []),
        ([series.COLDEST - 1, 20.0], None, [0]),
        ([20.0, series.HOTTEST + 1], (20.0, series.HOTTEST + 1), [1]),
    ],
)
def test_readings_beyond_what_can_be(
    values: list[float], extremes: tuple[float, float] | None, outside: list[int]
) -> None:
    status = np.full(2, READ, dtype=np.uint8)
    cells: Any = Stub(values=np.array(values), status=status, extremes=extremes)
    found = series._one("T1", "T1", "C", cells)
    assert np.flatnonzero(found.status == OUTSIDE).tolist() == outside
    assert np.flatnonzero(np.isnan(found.values)).tolist() == outside
    assert found.as_read.tolist() == pytest.approx(values)


def test_names_of_columns_that_are_taken_or_many() -> None:
    assert series._free("T1", {}) == "T1"
    assert series._free("T1", {"T1": None, "T1 (2)": None}) == "T1 (3)"  # type: ignore[dict-item]
    assert series._some(["a"]) == "a is"
    assert series._some(list("abcdef")) == "a, b, c, d, e, f are"
    assert series._some(list("abcdefg")) == "a, b, c … g (7 columns) are"


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (None, ""),
        (datetime(2026, 11, 21, 6, 0), "2026-11-21 06:00:00"),
        (datetime(2026, 11, 21, 6, 0, 0, 499), "2026-11-21 06:00:00"),
        (datetime(2026, 11, 21, 5, 59, 59, 999_600), "2026-11-21 06:00:00"),
        (datetime(2026, 11, 21, 6, 0, 0, 500), "2026-11-21 06:00:00.001"),
        (date(2026, 11, 21), "2026-11-21"),
        (time(6, 5, 4), "06:05:04"),
        (timedelta(hours=25, minutes=1, seconds=1.6), "25:01:02"),
        (timedelta(minutes=61), "01:01:00"),
        (705.25, "705.25"),
        (" two\n words ", "two words"),
    ],
)
def test_cells_of_a_workbook(value: object, shown: str) -> None:
    assert workbook._cell(value) == shown


@pytest.mark.parametrize(
    ("cells", "yes"),
    [
        (["06:00", "", "705"], True), (["12", "705"], True), (["2026-11-21 06:00", "x", "1"], True),
        (["06:00"], False), (["06:00", "x"], False), (["x", "705"], False), (["", ""], False),
    ],
)  # fmt: skip
def test_rows_of_readings_in_a_workbook(cells: list[str], yes: bool) -> None:
    assert workbook._is_reading(cells) is yes


@pytest.mark.parametrize(
    ("dates", "given", "order"),
    [
        (["13/11/2026", "12/11/2026"], None, "day"),
        (["11/13/2026"], None, "month"),
        (["11/11/2026", "12/12/2026"], None, "day"),
        (["11/11/2026"], "month", "month"),
        (["2026-11-21"], None, None),
        (["1/2/2026"], "month", "month"),
        (["1/2/2026"], None, "1 February 2026 or 2 January 2026"),
        (["13/2/26"], None, "which of its numbers is the year"),
        (["13/2/26"], "day", "day"),
        (["13/1/2026", "1/13/2026"], None, "some dates can only have the day first"),
        (["13/1/2026"], "month", "does not fit"),
        (["12/12/2026", "1/2/2026"], None, "1/2/2026 can be"),
    ],
)
def test_what_comes_first_in_a_date(dates: list[str], given: str | None, order: str | None) -> None:
    if order is None or order in ("day", "month"):
        assert stamps._day_order(pl.Series(dates), given) == order
    else:
        with pytest.raises(stamps.DayOrder, match=order):
            stamps._day_order(pl.Series(dates), given)


@pytest.mark.parametrize("form", ["%Y-%m-%d %H:%M:%S", "%Y/%m/%d %H:%M:%S", "%Y.%m.%dT%H:%M:%S"])
def test_long_columns_of_moments(form: str) -> None:
    """As the calendar of Python's datetime has them; numpy ended the process at 500 dates and more
    of which it could read one not at all."""
    moments = [
        datetime(2027, 12, 30, 23) + timedelta(hours=31, seconds=7 * n) * n for n in range(600)
    ]
    texts = [f"{moment:{form}}" for moment in moments]
    seconds = stamps.year_first(pl.Series(texts))
    assert seconds is not None
    assert list(seconds) == [(one - datetime(1970, 1, 1)).total_seconds() for one in moments]
    date, between, clock = texts[0][:10], texts[0][10], texts[0][11:]
    wrong = [f"{date}{between}{other}" for other in ("24:00:00", "10:60:00", "10:00:61")]
    days = ("2027-02-29", "2027-13-01", "2027-00-10", "2027-04-31", "2027-04-00")
    wrong += [f"{day.replace('-', form[2])}{between}{clock}" for day in days]
    for text in wrong:
        assert stamps.year_first(pl.Series([*texts, text])) is None, text


def test_logs_that_are_split_as_one() -> None:
    """Only those of one form, each ended by a line end and without quotes; else by themselves."""
    lines = [b"a,1\nb,2\n", b"c,3\n", b"d,4", b'"e",5\n', b"x" * 999_998 + b",6\n"]
    bodies: list[Any] = [Stub(text=text, form=0) for text in lines]
    bodies.append(Stub(text=b"f,7\n", form=1))
    taken: list[list[bytes]] = []
    known: Callable[..., Any] = table._split_as_one

    def noted(some: list[Any]) -> list[Any]:
        taken.append([each.text for each in some])
        return [f"frame {len(taken)}.{at}" for at in range(len(some))] if len(some) > 1 else []

    table._split_as_one = noted
    try:
        found = table.tables(bodies)
    finally:
        table._split_as_one = known
    assert taken == [[lines[0], lines[1]], [b"f,7\n"]]
    assert found == ["frame 1.0", "frame 1.1", None, None, None, None]
    assert known([bodies[0]]) == []


@each_row(
    ("texts", "rows"),
    [
        (["0,1,2\n60,3,4\n", "0,5,6\n"], [2, 1]), (["0,1,2\n"], []), ([], []),
        # An empty line is a row of nulls; a row that is longer cannot be split so.
        (["0,1,2\n\n60,3,4\n", "0,5,6\n"], [3, 1]), (["0,1,2\n", "0,5,6,7\n"], []),
    ],
)  # fmt: skip
def test_each_of_several_logs_gets_its_own_rows(texts: list[str], rows: list[int]) -> None:
    bodies = [table.Body(text.encode(), "x", HEADS, ",", frozenset()) for text in texts]
    found = table._split_as_one(bodies)
    assert [len(frame) for frame in found] == rows
    for body, frame in zip(bodies, found, strict=False):
        assert frame.rows() == table._split(body, False).rows()


@each_row(
    ("cell", "numeric"),
    [("1", True), (" -1.5 ", True), ("+1,5", True), ("1,5,2", False), ("1.5.2", False), ("", False),
     ("1.5,2", False), ("705 C", False), (".5", True)],
)  # fmt: skip
def test_what_is_a_number_among_words(cell: str, numeric: bool) -> None:
    assert log._numeric(cell) is numeric
