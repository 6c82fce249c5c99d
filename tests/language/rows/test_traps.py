"""What spreadsheets, exports and habits do to a table: each is one finding at its cell, and no
value is guessed. The traps are common practice of people who keep lists in spreadsheets."""

from __future__ import annotations

from typing import NamedTuple

from hts.base.findings import Finding
from hts.base.text import BYTE_ORDER_MARK
from tests.language.rows.lists import COLUMNS, HEADS, ROWS, findings, job, spec, table, told
from tests.rows import each_row

#: Columns of a weld list with a day, and with the typical joint named row by row.
_DAY = COLUMNS.replace("not used", "thermocouples calibrated until").replace(
    '"ISO" drawing', '"Calibrated" thermocouples calibrated'
)
_TYPICAL = COLUMNS.replace("W12", 'in "Remarks"').replace('  column  "Remarks" not used\n', "")
_ONLY = COLUMNS.replace("not used", 'not used\n  only "Remarks" is "yes"')


class Trap(NamedTuple):
    """A cell put in the place of that of weld W102, and what the finding says of it."""

    head: str
    cell: str
    message: str
    kind: str = "unclear-cell"
    columns: str = COLUMNS


_WALL, _SIZE, _KEY = "WT [mm]", "Size", "Weld no."
CELLS = [
    # Dates, ranges, fractions.
    Trap(_WALL, "3-4", "may be a range, a fraction or a date"),
    Trap(_WALL, "25.4-26", "may be a range"),
    Trap(_WALL, "25.4 \u2013 26 mm", "may be a range"),
    Trap(_WALL, "4-Mar", "is a date"),
    Trap(_WALL, "Mar-04", "is a date"),
    Trap(_WALL, "03/04/2026", "is a date"),
    Trap(_WALL, "2026-04-03 00:00:00", "is a date"),
    Trap(_WALL, "1/2", "is a fraction in a column in mm"),
    Trap(_SIZE, "1-1/2", "has a dash before its fraction"),
    Trap(_SIZE, "12-Jan", "is a date"),
    Trap(_SIZE, "10-12", "may be a range"),
    Trap(_KEY, "3-Apr", "is a date"),
    Trap("Remarks", "46235", "is the number that a spreadsheet keeps for a day", columns=_DAY),
    Trap("Remarks", "46235.5", "is the number that a spreadsheet keeps", columns=_DAY),
    Trap("Remarks", "01.08.2026", "is not the day alone as year-month-day", columns=_DAY),
    Trap("Remarks", "1-Aug-2026", "is not the day alone as year-month-day", columns=_DAY),
    Trap("Remarks", "2026-08-01 00:00:00", "is not the day alone", columns=_DAY),
    # Formats of numbers.
    Trap(_WALL, "2540%", "is a percentage"),
    Trap(_WALL, "25.4 %", "is a percentage"),
    Trap(_WALL, "$25.40", "is an amount of money"),
    Trap(_WALL, "25.40 \u20ac", "is an amount of money"),
    Trap(_WALL, "25.40 EUR", "is an amount of money"),
    Trap(_WALL, "1,025.4", "has a sign between its thousands"),
    Trap(_WALL, "1 025.4", "has a sign between its thousands"),
    Trap(_WALL, "1\u202f025.4", "has a sign between its thousands"),
    Trap(_WALL, "1'025.4", "has a sign between its thousands"),
    Trap(_WALL, "25,4", "has a comma between two digits"),
    Trap(_WALL, "2.54E+01", "is a power of ten"),
    Trap(_WALL, "'25.4", "an apostrophe stands before 25.4"),
    Trap(_KEY, "'102", "an apostrophe stands before 102"),
    Trap(_KEY, "102.0", "is a whole number with decimals"),
    Trap(_WALL, "25.", "has digits on one side of its point alone"),
    Trap(_WALL, ".5", "has digits on one side of its point alone"),
    Trap(_WALL, "TRUE", "is given where a length is expected", "wrong-value"),
    Trap(_WALL, "2O.4", "is not a unit", "unknown-unit"),
    # More than a number, or another unit.
    Trap(_WALL, "25.4*", "is not a number alone"),
    Trap(_WALL, "25.4 (UT)", "is not a number alone"),
    Trap(_WALL, "25.4 25.1", "is more than one number"),
    Trap(_WALL, ">25", "is a limit or an estimate"),
    Trap(_WALL, "min. 25", "is a limit or an estimate"),
    Trap(_WALL, "ca. 25", "is a limit or an estimate"),
    Trap(_WALL, "1 in", "the cell says 'in' and its column 'mm'"),
    Trap(_WALL, "25.4 MM", "is not a unit", "unknown-unit"),
    # Formulas, errors, placeholders, ditto marks.
    Trap(_WALL, "=A1", "looks like a formula"),
    Trap(_WALL, "+A1", "looks like a formula"),
    Trap("Line", '=HYPERLINK("x")', "looks like a formula"),
    Trap(_WALL, "#REF!", "is an error of the spreadsheet"),
    Trap(_SIZE, "#N/A", "is an error of the spreadsheet"),
    Trap(_WALL, "####", "is an error of the spreadsheet"),
    Trap(_WALL, "TBD", "stands for something that is not known"),
    Trap(_WALL, "--", "stands for something that is not known"),
    Trap(_WALL, "ditto", "stands for the cell above"),
    Trap("Line", '"', "stands for the cell above"),
    Trap("Remarks", '"', "stands for the cell above", columns=_TYPICAL),
    Trap("Remarks", "", "the row does not say which joint W102 is like", "blank-cell", _TYPICAL),
    Trap("Remarks", "w12", "no joint is named 'w12'", "unknown-name", _TYPICAL),
    # What nobody sees, and line breaks.
    Trap(_WALL, "25.4\n26", "there is a line break"),
    Trap("Line", "12-P\n7", "there is a line break"),
    Trap(_KEY, "W10\n2", "there is a line break"),
    Trap(_WALL, "25.4\ufeff", "the character U+FEFF cannot be seen", "hidden-character"),
    Trap(_KEY, "W102\u200b", "the character U+200B cannot be seen", "hidden-character"),
    Trap(_WALL, "25.4\u202f", "U+202F", "unreadable-character"),
    # Weld numbers.
    Trap(_KEY, "W\u2013102", "is not a name of a joint", "wrong-value"),
    Trap(_KEY, "W 102", "is not a name of a joint", "wrong-value"),
    Trap(_KEY, "", "a row has no weld number", "blank-cell"),
    Trap(_KEY, "w101", "welds W101 and w101 differ in capital letters alone", "repeated-name"),
    Trap(_KEY, "W101 ", "two rows are weld W101", "repeated-name"),
    Trap(_KEY, "W101\u00a0", "two rows are weld W101", "repeated-name"),
    Trap(_KEY, "W-101", "welds W101 and W-101 look alike", "look-alike-names"),
    Trap(_KEY, "W0101", "welds W101 and W0101 look alike", "look-alike-names"),
    Trap(_KEY, "W1O1", "welds W101 and W1O1 look alike", "look-alike-names"),
    Trap(_KEY, "Wl01", "welds W101 and Wl01 look alike", "look-alike-names"),
    Trap(_KEY, "\u0412102", "is a Cyrillic letter (U+0412)", "look-alike-names"),
    Trap(_KEY, "\u0412101", "is a Cyrillic letter (U+0412)", "look-alike-names"),
    # Which rows count.
    Trap("Remarks", "Yes", "'Yes' may mean the same as 'yes'", columns=_ONLY),
    Trap("Remarks", "Y", "'Y' may mean the same as 'yes'", columns=_ONLY),
    Trap("Remarks", "x", "'x' may mean the same as 'yes'", columns=_ONLY),
    Trap("Remarks", "yes, note 3", "may mean the same as 'yes'", columns=_ONLY),
    Trap("Remarks", "yes?", "may mean the same as 'yes'", columns=_ONLY),
    Trap("Remarks", "", "the cell that tells whether the row counts is blank", "blank-cell", _ONLY),
]


def _told(columns: str, welds: str, rows: int = len(ROWS)) -> list[Finding]:
    return [f for f in findings(job(columns, rows), welds) if f.kind.name != "joint-left-out"]


def _with(trap: Trap) -> str:
    others = {_DAY: "2027-08-01", _TYPICAL: "W12", _ONLY: "yes"}.get(trap.columns)
    rows = [[*row[:-1], others or row[-1]] for row in ROWS]
    if trap.columns == _DAY:
        for row in rows:
            row[HEADS.index("ISO")] = "2026-08-01"
    rows[1][HEADS.index(trap.head)] = trap.cell
    heads = [head.replace("ISO", "Calibrated") if trap.columns == _DAY else head for head in HEADS]
    return table(rows, tuple(heads))


@each_row("trap", CELLS, ids=lambda t: f"{t.head} {t.cell}")
def test_a_cell_that_cannot_be_trusted_is_one_finding_there(trap: Trap) -> None:
    (found,) = _told(trap.columns, _with(trap))
    assert (found.kind.name, trap.message in found.message) == (trap.kind, True), found.message
    assert found.source.name == "welds.csv"
    assert found.at.span.text.replace('""', '"') == trap.cell.strip(" \u00a0")
    line, _ = found.source.position(found.at.span.start)
    assert line == 3
    assert found.at.text.endswith(f'"{trap.head}"')
    assert found.help or found.kind.fix


#: Cells that look odd and are right: nothing is told.
RIGHT = [
    Trap(_WALL, "25.4 mm", ""),
    Trap(_WALL, "25.4mm", ""),
    Trap(_WALL, " 25.40\u00a0", ""),
    Trap("Line", '12"-P-5100-1/2', ""),
    Trap("Line", "100 % RT, 3-4", ""),
    Trap("ISO", "TI-ISO-2026-03-04 rev 2", ""),
    Trap("Remarks", "Total, see note 3\nand 4", ""),
    Trap(_KEY, "W101R1", ""),
    Trap(_KEY, "W10-1", ""),
    Trap(_KEY, "12.1", ""),
    Trap("Remarks", "no", "", columns=_ONLY),
    Trap("Remarks", "n/a", "", columns=_ONLY),
    Trap("Remarks", "waived by owner", "", columns=_ONLY),
    Trap("Remarks", "2027-08-01", "", columns=_DAY),
]


@each_row("right", RIGHT, ids=lambda t: f"{t.head} {t.cell}")
def test_what_is_right_is_no_finding(right: Trap) -> None:
    assert _told(right.columns, _with(right)) == []


_LINES = table().split("\r\n")[:-1]


def _lines(*lines: str) -> str:
    return "".join(f"{line}\r\n" for line in lines)


_FULL = "W104,12-P-4,,,,25,steam,x"
#: A table, what is told of it, and the text pointed at.
TABLES = {
    "total": ((*_LINES, "Total,,,,,75.4,,"), "this row is a total (Total), not a weld", "Total"),
    "total in another column": ((*_LINES, ",,,,Sum:,75.4,,"), "this row is a total (Sum:)", "Sum:"),
    "number of welds": ((*_LINES, "Number of welds,3,,,,,,"), "this row is a total", "Number of w"),
    "heads again": ((*_LINES[:2], _LINES[0], *_LINES[2:]), "the heads stand here once", "Weld no."),
    "heads on each page": (
        (*_LINES[:2], _LINES[0], _LINES[2], _LINES[0], _LINES[3]),
        "the heads stand here once more, and 1 time more",
        "Weld no.",
    ),
    "note": (
        (*_LINES, "Walls by UT of 3 May,,,,,,,"),
        "a note, not a weld",
        "Walls by UT of 3 May",
    ),
    "end": ((*_LINES, "END,,,,,,,"), "a note, not a weld", "END"),
    "note in one cell": ((*_LINES, "Note: walls by UT"), "this line has one cell", "Note: walls"),
    "merged weld number": ((*_LINES, ",12-P-4,,,,25,steam,x"), "a row has no weld number", ""),
    "two separators": (
        (*_LINES[:3], _LINES[3].replace("steam, hydrogen", "steam").replace(",", ";")),
        "this line is parted by semicolons, the heads by commas",
        "W103;",
    ),
    "quote open": ((*_LINES, _FULL.replace("steam", '"steam')), "that opens here is not", '"steam'),
    "row short": ((*_LINES, _FULL[:-2]), "this row has 7 cells, the heads are 8", "steam"),
    "row long": ((*_LINES, f"{_FULL},y"), "this row has 9 cells, the heads are 8", "y"),
    "mark in the middle": (
        (*_LINES, BYTE_ORDER_MARK + _FULL),
        "the character U+FEFF cannot be seen",
        f"{BYTE_ORDER_MARK}W104",
    ),
    "twice the file": ((*_LINES, *_LINES), "the heads stand here once more", "Weld no."),
}


@each_row("name", TABLES)
def test_a_line_that_is_no_weld_is_told_where_it_stands(name: str) -> None:
    lines, message, at = TABLES[name]
    found = _told(COLUMNS, _lines(*lines), 4 if _FULL[4:10] in lines[-1] else 3)
    first = [f for f in found if message in f.message]
    assert len(first) == 1, told(found)
    assert first[0].source.name == "welds.csv"
    assert first[0].at.span.text.startswith(at)
    if name != "twice the file":
        assert found == first


@each_row(
    "welds",
    [
        table(heads=("Weld\nno.", *HEADS[1:])),
        table().replace("\r\n", "\n", 2),
        table() + ",,,,,,,\r\n" * 3 + "\r\n",
        _lines(*(f"{line},," for line in _LINES)),
    ],
    ids=["head on two lines", "both line ends", "blank rows below", "blank columns beside"],
)
def test_what_leaves_no_doubt_is_read_alike(welds: str) -> None:
    made = spec(job(), welds)
    assert made.findings == []
    assert [joint.name for joint in made.own] == ["W12", "W101", "W102", "W103"]


def test_a_total_that_does_not_count_is_no_finding() -> None:
    """`only` leaves it out, and the rows stated are those of the file."""
    rows = [[*row[:-1], "yes"] for row in ROWS]
    columns = _ONLY.replace('"yes"', '"yes" blank left out')
    assert _told(columns, table([*rows, ["Total", *[""] * 7]]), 4) == []
