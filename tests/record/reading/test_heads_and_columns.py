"""What a line, a heading, a column and a sheet are taken for, part by part. How recorders write:
common practice, no source."""

from __future__ import annotations

from collections.abc import Callable
from types import SimpleNamespace as Stub
from typing import Any

import pytest

from hts.record.errors import RecordError
from hts.record.reading import columns, header, sniff, torn, workbook
from hts.record.reading.options import Options
from hts.record.reading.sniff import Layout
from tests.record.reading.test_columns import TAGS, Channel, Tag
from tests.rows import each_row


@each_row(
    ("line", "separator", "cells"),
    [
        ("a, b ,c", ",", ["a", "b", "c"]), ('"a, b",c', ",", ["a, b", "c"]), ("a;", ";", ["a", ""]),
        (" a b  c ", "  ", ["a b", "c"]), (" a b  c ", " ", ["a", "b", "c"]),
        ('a\r"b, c', ",", ['a\r"b', "c"]),
    ],
)  # fmt: skip
def test_the_cells_of_a_line(line: str, separator: str, cells: list[str]) -> None:
    assert sniff.split(line, separator) == cells


@each_row(
    ("taken", "cases"),
    [
        (header.filled, [([], 0), (["", ""], 0), (["a", ""], 1), (["", "b", ""], 2)]),
        (lambda row: sniff._sense(row[0]),
         [(["20.5"], 1), ([""], 1), (["20.5 C"], 1), (["705*"], 1), (["06:00"], 1), (["OPEN"], 0.5),
          (["degC"], 0.5), (["Monday"], 0)]),
        (sniff._is_reading_of_channel,
         [(["T1", "06:00", "20"], True), (["T1", "06:00", "x", "20"], True),
          (["T1", "06:00"], False), (["", "06:00", "20"], False),
          (["T1", "x", "20"], False), (["T1", "06:00", "x"], False)]),
        (sniff._is_reading_further_right,
         [(["", "", "06:00", "20"], True), (["06:00", "20"], True), (["x", "06:00", "20"], False),
          (["", "", ""], False)]),
        # Time and temperature tell a row of units; more than half of it has to be units.
        (header._is_unit_row,
         [(["s", "degC"], True), (["-", "degC"], True), (["", "-"], False), (["kW", "%"], False),
          (["s", "T1"], False), (["s", "degC", "T1"], True), (["kW", "h"], True)]),
        (sniff._indented,
         [([",1,2", "1,2"], False), ([",1,2", ";1", "1,2"], True), ([",1", ",,", "", "1,2"], False),
          ([";;", ";1"], True), ([], False)]),
    ],
)  # fmt: skip
def test_what_a_row_is_taken_for(
    taken: Callable[[list[str]], object], cases: list[tuple[list[str], object]]
) -> None:
    assert [(row, taken(row)) for row, _ in cases] == cases


@each_row(
    ("lines", "separator", "rating"),
    [
        # Rows understood, times the share of them that is of the commonest width.
        (["0;1;2", "60;1;2"], ";", (2.0, 1, 0, 3)), (["0;1;2", "60;1"], ";", (1.0, 1, 0, 3)),
        (["0;1", "60;1;2", "9;8;7"], ";", (2.0, 1, 0, 3)), (["0;OPEN;2;3"], ";", (0.875, 1, 0, 4)),
        (["0;1;2", "a;b;c", "Job"], ";", (1.0, 1, 1, 3)), (["0;1;2"], ",", (0.0, 0, 0, 0)),
        (["0 1 2"], " ", (1.0, 0, 0, 3)), (["0\t1"], "\t", (1.0, 1, 0, 2)),
        (["0;1"] * 40, ";", (30.0, 1, 0, 2)), ([], ";", (0.0, 0, 0, 0)),
    ],
)  # fmt: skip
def test_how_well_a_separator_fits(
    lines: list[str], separator: str, rating: tuple[float, int, int, int]
) -> None:
    assert sniff._rating(lines, separator, sniff._is_reading) == rating


@each_row(
    ("lines", "separator"),
    [
        (["0;1;2"], ";"), (["0,1,2"], ","), (["0|1|2"], "|"), (["0\t1 \t2"], "\t"),
        (["06:00 1 2"], "  "), (["2026-11-21 06:00,1"], ","), (["0;1,5;2,5"] * 3, ";"),
        (["0  1 C  2 C"], "  "), (["0 1 2", "3  4 5"], " "),
    ],
)  # fmt: skip
def test_which_separator_it_is(lines: list[str], separator: str) -> None:
    found = sniff._separator(lines, "x", Options(), sniff._is_reading)
    if separator == "  ":  # one blank is as good where no two stand together
        assert found.strip(" ") == ""
    else:
        assert found == separator


def heads(*rows: str) -> list[list[str]]:
    return [row.split(",") for row in rows]


@each_row(
    ("rows", "width", "names", "units", "aliases", "line"),
    [
        ([], 3, [], [], [], 0),
        (heads("Job"), 3, [], [], [], 0),
        (heads("Time,T1,T2"), 3, ["Time", "T1", "T2"], ["", "", ""], [], 1),
        (heads("# Time,T1 [C],T2 [F]"), 3, ["Time", "T1", "T2"], ["", "C", "F"], [], 1),
        (heads("Time,T1,T2", "s,[C],F"), 3, ["Time", "T1", "T2"], ["s", "C", "F"], [], 1),
        # A unit of the heading itself goes before that of the row; a short row leaves none.
        (heads("Time,T1 [C],T2", "s,C"), 3, ["Time", "T1", "T2"], ["s", "C", ""], [], 1),
        # Of two columns it may name the unit of the time alone; a remark below is passed over.
        (heads("Time,T1 [C]", "s,"), 2, ["Time", "T1"], ["s", "C"], [], 1),
        (heads("Time,T1,T2", "# by hand"), 3, ["Time", "T1", "T2"], ["", "", ""], [], 1),
        # An empty line ends the heads, one below them does not.
        (heads("a,b,c", "", "Time,T1,T2", ""), 3, ["Time", "T1", "T2"], ["", "", ""], [], 3),
        # Above half as many cells as a row of readings, and all but one of them for other names.
        (heads("Job,12,x", "Time,T1,T2,T3"), 4, ["Time", "T1", "T2", "T3"], [""] * 4,
         [["Job", "12", "x"]], 2),
        (heads("Job,12", "Time,T1,T2,T3"), 4, ["Time", "T1", "T2", "T3"], [""] * 4, [], 2),
        (heads("Job,1,2", "t,T1,T2,T3,T4"), 5, ["t", "T1", "T2", "T3", "T4"], [""] * 5, [], 2),
        (heads("Job,12", "Time,T1"), 2, ["Time", "T1"], ["", ""], [], 2),
        (heads("Time,T1,T2,"), 2, ["Time", "T1", "T2"], ["", "", ""], [], 1),
    ],
)  # fmt: skip
def test_names_and_units_of_the_columns(
    rows: list[list[str]], width: int, names: list[str], units: list[str],
    aliases: list[list[str]], line: int,
) -> None:  # fmt: skip
    assert header.header(rows, width, "x") == (names, units, aliases, line)


@each_row(
    ("row", "many", "mark"),
    [
        # As many as tell separators apart, each 1 to 9 with three places: thousands, or not.
        (["0", "1,234"], 30, None), (["0,5", "1,234"], 30, ","), (["0", "0,234"], 30, ","),
        (["9,000", "1,234"], 14, ","), (["9,000", "1,234"], 15, None), (["0", "12,34"], 30, ","),
    ],
)  # fmt: skip
def test_a_comma_in_many_rows(row: list[str], many: int, mark: str | None) -> None:
    if mark is None:
        with pytest.raises(RecordError, match="set thousands apart"):
            sniff._decimal([row] * many, ";", "x", Options())
    else:
        assert sniff._decimal([row] * many, ";", "x", Options()) == mark


def test_columns_that_hold_numbers_alone() -> None:
    rows = [["06:00", "1.5", "", "1,5"], ["06:01", "2", "7"], ["06:02", "2", "7", "8"]]
    assert sniff._numbers(rows, 5, ".") == {1, 2, 4}
    assert sniff._numbers(rows, 4, ",") == {2, 3}


@each_row(
    ("lines", "separator", "found"),
    [
        (["Job: 12", "# Unit = degC"], ",", {"job": "12", "unit": "degC"}),
        (['"Recorder","R1"', "Simulated record", ""], ",",
         {"recorder": "R1", "simulated record": ""}),
        (["Start; 06:00", "Start; 07:00"], ";", {"start; 06": "00", "start; 07": "00"}),
        (["Chart no;12;", "Chart no;13"], ";", {"chart no": "12"}),
    ],
)  # fmt: skip
def test_what_stands_before_the_rows(
    lines: list[str], separator: str, found: dict[str, str]
) -> None:
    assert header.preamble(lines, separator) == found


@each_row(
    ("lines", "place", "cause"),
    [
        (["", '{"T1": 20}'], "x", "begins with '{"), (["<log>"], "x", "not a table"),
        (["[[1, 2]]"], "x", "not a table"), (["[Job]"], "x", "no rows of readings"),
        (["head", "at one;1;2", "at two;1;2", "at three;1;"], "x:3:1", "'at two' is not known"),
        (["at one;1;2", "at two;1;2"], "x", "no rows of readings"),
        (["at one;1", "at two;1", "at three;1"], "x", "no rows of readings"), ([], "x", "no rows"),
    ],
)  # fmt: skip
def test_why_there_are_no_rows(lines: list[str], place: str, cause: str) -> None:
    told = sniff._no_rows(lines, "x")
    assert told.place == place and cause in told.cause


WIDE = ",".join(["0"] * 1000)


@each_row(
    ("lines", "found"),
    [
        (["0,1,2", "60,1,2"], (",", 0, 3, ["", "", ""], ["", "", ""], 0)),
        (["Job: 12", "Time,T1 [C]", "s,C", "0,1", "60,2"],
         (",", 3, 2, ["Time", "T1"], ["s", "C"], 2)),
        (["Time;T1", "0;1;", "60;2;"], (";", 1, 2, ["Time", "T1"], ["", ""], 1)),
        (["Time;T1;T2", "0;1", "60;2"], (";", 1, 3, ["Time", "T1", "T2"], [""] * 3, 1)),
        # More cells than names, in the first row or a later one; not where there are no names.
        (["Time,T1", "0,1,9", "60,2"], "x:2 3 cells under 2 names"),
        (["Time,T1", "0,1", "60,2,9"], "x:3 3 cells under 2 names"),
        (["0,1", "60,2,9"], (",", 0, 3, [""] * 3, [""] * 3, 0)),
        # One name over a date and a time that a blank keeps apart; a name too many between blanks.
        (["Time T1", "2026-11-21 06:00:00 20", "2026-11-21 06:01:00 21"],
         (" ", 1, 3, ["Date", "Time", "T1"], [""] * 3, 1)),
        (["Time T1 T2", "06:00:00 20", "06:01:00 21"], "x:2 2 cells under 3 names"),
        (["Time T1", "06:00:00 20", "06:01:00 21"], (" ", 1, 2, ["Time", "T1"], [""] * 2, 1)),
        ([WIDE, WIDE], (",", 0, 1000, [""] * 1000, [""] * 1000, 0)),
        ([WIDE + ",0", WIDE + ",0"], "x:1 it has 1,001 columns"),
    ],
    ids=lambda row: str(row)[:60],
)  # fmt: skip
def test_how_a_log_is_laid_out(lines: list[str], found: tuple[object, ...] | str) -> None:
    try:
        made = sniff.sniff("\n".join([*lines, ""]).encode(), "x", Options())
    except RecordError as error:
        place, _, cause = str(found).partition(" ")
        assert error.place == place and cause in error.cause
    else:
        assert found == (
            made.separator.strip(" ") or " ", made.first, made.width, [*made.names], [*made.units],
            made.line,
        )  # fmt: skip


def layout(names: str, units: str = "", line: int = 1, *aliases: str) -> Layout:
    cells = names.split(",")
    of_units = units.split(",") if units else []
    return Layout(
        ",", ".", 3, len(cells), tuple(cells),
        (*of_units, *[""] * (len(cells) - len(of_units))),
        tuple(tuple(alias.split(",")) for alias in aliases), line, frozenset(), {},
    )  # fmt: skip


T = (*TAGS, Tag("T1A", Channel("R1", 7)))


@each_row(
    ("heads", "mapped", "recorder", "found"),
    [
        # Of two the one in a unit of something else is not meant; both or none leave it open.
        (layout("Time,T1,T1", "s,mV,C"), {}, "", {"T1": 2}),
        (layout("Time,T1,T1", "s,C,%"), {}, "", {"T1": 1}),
        (layout("Time,T1,T1", "s,mV,%"), {}, "", "columns 'T1' and 'T1' can all be T1"),
        (layout("Time,T1,T2,T1,T1", "s,C,C,C,C"), {}, "", "'T1', 'T1' and 'T1' can all be T1"),
        (layout("Time,T 1,T-2,T.03", "s,C,C,C"), {}, "", {"T1": 1, "T2": 2, "T3": 3}),
        (layout("Time,T 1,t1 a", "s,%,C"), {}, "", {"T1A": 2}),
        (layout("Time,CH1,CH2", "s,C,C", 2, "Tag,T2,T1"), {}, "", {"T1": 2, "T2": 1}),
        # Words on where it is, and words that say it is something else.
        (layout("Time,T1 weld 12 o'clock,T2: top"), {}, "", {"T1": 1, "T2": 2}),
        (layout("Time,T1 SP,T2 min,T3 - T1,T1A rate"), {}, "", {}),
        (layout("Time,T1 to T2,T3 (R2 ch 1)"), {}, "", {"T3": 2}),
        (layout("Time,CH1 T1,T2 1,T3 x"), {}, "", {"T1": 1, "T2": 2, "T3": 3}),
        (layout("Time,R1 ch 1,R1/2,R2-ch1"), {}, "", {"T1": 1, "T2": 2, "T3": 3}),
        (layout("Time,R3 ch 1,ch 2,ch 12"), {}, "", {"T2": 2}),
        (layout("Time,ch 1,ch 2"), {}, "r1", {"T1": 1, "T2": 2}),
        (layout("Time,ch 1,ch 12"), {}, "R2", {"T3": 1}),
        (layout("Time,1,2"), {}, "R3", {}),
        # The map names a column, or counts them from 1 where they have no names.
        (layout("Time,a,b"), {"t1": "B", "T2": "a"}, "", {"T1": 2, "T2": 1}),
        (layout("Time,a,b"), {"T1": "column 3"}, "", {"T1": 2}),
        (layout("Time,a,b"), {"T1": "3"}, "", "no column '3'"),
        (layout(",,", "", 0), {"T1": "3", "T2": "column 2"}, "", {"T1": 2, "T2": 1}),
        (layout(",,", "", 0), {"T1": "4"}, "", "no column '4'"),
        (layout(",,", "", 0), {"T1": "1"}, "", {"T1": 0}),
        (layout(",,", "", 0), {"T1": "0"}, "", "no column '0'"),
        (layout("Time,T1,b"), {"T1": "b"}, "", {"T1": 2}),
        (layout("Time,a"), {"T4": "a"}, "", "no such thermocouple"),
    ],
)  # fmt: skip
def test_which_column_is_whose(
    heads: Layout, mapped: dict[str, str], recorder: str, found: dict[str, int] | str
) -> None:
    try:
        assert columns._claims(heads, "x", T, mapped, recorder).columns == found
    except RecordError as error:
        assert str(found) in error.cause


@each_row(
    ("instrument", "connected", "names", "found"),
    [
        # A number is that of the channel only where all are on one recorder.
        ("R1", True, "TC 1,TC 2", {"TA": 0, "TB": 1}), ("R2", True, "TC 1,TC 2", {}),
        ("R2", False, "TC 1,TC 2", {"TA": 0}), ("R1", True, "TC 1,TC 3", {"TA": 0}),
        ("R1", True, "probe #2,Temp 1", {"TA": 1, "TB": 0}),
    ],
)  # fmt: skip
def test_a_number_of_a_channel(
    instrument: str, connected: bool, names: str, found: dict[str, int]
) -> None:
    tags = (Tag("TA", Channel("R1", 1)), Tag("TB", Channel(instrument, 2), connected))
    assert columns._claims(layout(names), "x", tags, {}, "").columns == found


def test_a_column_proposed_by_its_place_where_its_name_stands_twice() -> None:
    assert columns._by_itself(layout("Time,T1,T1"), [1, 2]) == "column 2"
    assert columns._by_itself(layout("Time,T1 a,T1 b"), [1, 2]) == "'T1 a'"
    assert columns.columns_of(layout("Time,,b")) == ["Time", "column 2", "b"]


def sheet(title: str, many: int, cells: tuple[object, ...] = (7.5, 20, None), more: int = 0) -> Any:
    """A sheet with a heading and so many rows of readings, and one that is wider."""
    rows: list[tuple[object, ...]] = [("Time", "T1", "T2"), *[cells] * many]
    return Stub(title=title, iter_rows=lambda values_only: [*rows, *[(*cells, 9, 9)] * more])


@each_row(
    ("sheets", "found"),
    [
        ([sheet("a", 2)], "a"), ([sheet("a", 1)], "no sheet holds"), ([], "no sheet holds"),
        ([sheet("a", 30, (7.5,))], "no sheet holds"), ([sheet("a", 9, (None, "", ""))], "no sheet"),
        ([sheet("a", 2), sheet("b", 3)], "b"), ([sheet("a", 3), sheet("b", 2)], "a"),
        # Two alike with rows enough: which is meant is not known. A wider one is no part of it.
        ([sheet("a", 20), sheet("b", 30), sheet("c", 19)], "a, b"),
        ([sheet("a", 19), sheet("b", 30)], "b"),
        ([sheet("a", 25, more=1), sheet("b", 30)], "b"),
        ([sheet("a", 25, (7.5, 20, 21)), sheet("b", 30)], "b"),
        ([sheet("a", 25, ("x", 20, 21)), sheet("b", 3)], "b"),
    ],
)  # fmt: skip
def test_which_sheet_holds_the_readings(sheets: list[Any], found: str) -> None:
    try:
        lines, title = workbook._first_table(Stub(worksheets=sheets), "x")  # type: ignore[arg-type]
    except RecordError as error:
        assert found in error.cause
    else:
        assert title == found and lines.startswith(b"Time\tT1\tT2\n7.5\t20\t\n7.5")


ROWS = [f"06:{n:02d}:00,20,21" for n in range(8)]


@each_row(
    ("rows", "separator", "left_out"),
    [
        (ROWS, ",", []), ([*ROWS, "06:08:00,2"], ",", [11]), ([*ROWS, "06:08:0", *ROWS], ",", [11]),
        ([*ROWS, "06:08:00,206:09:00,20,21", *ROWS], ",", [11]), ([*ROWS, "End,20"], ",", []),
        ([*ROWS, "06:08:00,20,21,22"], ",", []), ([*ROWS, '06:08:00,"2"'], ",", []),
        ([*ROWS, "06:08:00 20"], " ", []), ([*ROWS, "06:08:00 20"], "  ", []),
        # Three in any case, more only of many.
        ([*ROWS, "06", "06", "06"], ",", [11, 12, 13]), ([*ROWS, "06", "06", "06", "06"], ",", []),
        ([*ROWS * 50, "06", "06", "06", "06"], ",", [403, 404, 405, 406]),
        (["06", "06:00:00"], ",", []),
    ],
)  # fmt: skip
def test_torn_rows(rows: list[str], separator: str, left_out: list[int]) -> None:
    """Left out as blank lines, so that the others keep their numbers; two lines are the heads."""
    written = [row.replace(",", separator) for row in rows]
    heads = layout("Time,T1,T2")._replace(separator=separator, first=2)
    text = "\n".join(["head", "Time", *written, ""]).encode()
    found, notes = torn.without_torn(text, heads)
    lines = found.decode().split("\n")
    assert len(lines) == len(rows) + 3 and len(found) == len(text)
    assert [n for n, line in enumerate(lines, 1) if line.isspace()] == left_out
    assert [line for line in lines[2:] if line.strip()] == [
        row for n, row in enumerate(written, 3) if n not in left_out
    ]
    assert len(notes) == bool(left_out)
    if left_out:
        word = "Line " if len(left_out) == 1 else "Lines "
        assert notes[0].startswith(word + ", ".join(map(str, left_out)) + " ")


@each_row(
    ("last", "separator", "width", "cut"),
    [
        ("06:08:00,20", ",", 3, True), ("06:08:00,20,2", ",", 3, False), ("", ",", 3, False),
        ("  ", ",", 3, False), ("06:08:00 20", " ", 3, False), ("06:0", ",", 1, False),
        ("06:0", ",", 2, True),
    ],
)  # fmt: skip
def test_a_last_row_without_its_end(last: str, separator: str, width: int, cut: bool) -> None:
    heads = layout("Time,T1,T2")._replace(separator=separator, width=width)
    text = f"06:00:00,20,21\n{last}".encode()
    found, notes = torn._without_last(text, heads)
    assert found == (b"06:00:00,20,21\n" if cut else text) and len(notes) == cut
