"""A table of text, as spreadsheets save it, read into cells with their places.

The form is that of RFC 4180: a cell in double quotes may hold the separator, line ends and quotes,
these doubled. Line ends may be those of any system. Nothing is guessed: the separator is told,
and every cell is text.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from hts.base.text import Source

#: What a table may have; more is no list of welds.
MOST_ROWS = 5_000
MOST_COLUMNS = 100
MOST_LETTERS = 1_000
#: Blanks at either end of a cell say nothing; spreadsheets write hard ones, too.
BLANKS = " \t\u00a0"
#: A line that some spreadsheets put first to name the separator.
_NAMES_SEPARATOR = re.compile(r"sep=(.)(?:\r\n|\n|\r)")
_SEPARATORS = {";": "semicolons", "\t": "tabs", ",": "commas"}
_LINE_END = re.compile(r"\r\n|\n|\r")


class Cell(NamedTuple):
    """One cell: its text without blanks at the ends and quotes, and where that stands."""

    text: str
    start: int
    end: int


class Misformed(NamedTuple):
    """What is wrong with the form of a table, and where."""

    message: str
    start: int
    end: int
    help: str


class Table(NamedTuple):
    """The heads, the rows that hold anything, and what is wrong with the form.

    Every row has as many cells as there are heads. A table with misforms has no rows after them.
    """

    heads: list[Cell]
    rows: list[list[Cell]]
    misforms: list[Misformed]


class _Stop(Exception):
    """Reading cannot go on; the argument says why."""

    def __init__(self, misformed: Misformed) -> None:
        super().__init__(misformed.message)
        self.misformed = misformed


def read_table(source: Source, separator: str) -> Table:
    """The table of a text; the first row that holds anything has the heads."""
    heads: list[Cell] = []
    rows: list[list[Cell]] = []
    misforms: list[Misformed] = []
    try:
        for row in _rows(source.text, separator):
            if not any(cell.text for cell in row):
                continue
            if not heads:
                _bounds(row, separator)
                # A head that runs over two lines of its cell is the same words.
                heads = [cell._replace(text=" ".join(cell.text.splitlines())) for cell in row]
            elif len(row) != len(heads):
                misforms.append(_ragged(row, heads, separator))
            else:
                rows.append(row)
            if len(rows) > MOST_ROWS:
                at = row[0]
                raise _Stop(
                    Misformed(
                        f"the table has more than {MOST_ROWS} rows",
                        at.start,
                        at.end,
                        "part it into several lists",
                    )
                )
    except _Stop as stop:
        misforms.append(stop.misformed)
    if not heads and not misforms:
        misforms.append(Misformed("the table is empty", 0, 0, "save it again, its heads first"))
    return Table(heads, rows, misforms)


def rows_above(text: str, separator: str, most: int) -> list[list[Cell]]:
    """The first rows of a text that hold anything, as far as they can be told apart."""
    found: list[list[Cell]] = []
    try:
        for row in _rows(text, separator):
            if any(cell.text for cell in row):
                found.append(row)
            if len(found) == most:
                break
    except _Stop:
        pass
    return found


def _bounds(heads: list[Cell], separator: str) -> None:
    """Raises _Stop for heads that no list of welds has: nothing below them can be read either."""
    first = heads[0]
    other = {",": ";", ";": ",", "\t": ";"}[separator]
    if len(heads) == 1:
        found = next((sign for sign in (other, "\t", ",", ";") if sign in first.text), None)
        if found is not None and found != separator:
            word = {",": "comma", ";": "semicolon", "\t": "tab"}[found]
            raise _Stop(
                Misformed(
                    "the heads are not parted by the separator stated",
                    first.start,
                    first.end,
                    f"say `separator {word}`",
                )
            )
    if len(heads) > MOST_COLUMNS:
        last = heads[MOST_COLUMNS]
        raise _Stop(
            Misformed(
                f"the table has more than {MOST_COLUMNS} columns",
                last.start,
                last.end,
                "save the columns that belong to the list alone",
            )
        )


def _ragged(row: list[Cell], heads: list[Cell], separator: str) -> Misformed:
    count = f"{len(row)} cell{'s' if len(row) != 1 else ''}"
    more = len(row) > len(heads)
    at = row[len(heads)] if more else row[-1]
    if len(row) == 1:
        parted = next((sign for sign in _SEPARATORS if sign != separator and sign in at.text), None)
        if parted is None:
            return Misformed(
                f"this line has one cell, the heads are {len(heads)}: a note or a title",
                at.start,
                at.end,
                "take it out of the table, or fill the row up",
            )
        return Misformed(
            f"this line is parted by {_SEPARATORS[parted]}, the heads by {_SEPARATORS[separator]}",
            at.start,
            at.end,
            "save the table again, with one separator",
        )
    return Misformed(
        f"this row has {count}, the heads are {len(heads)}",
        at.start,
        at.end,
        "put a text that holds the separator in double quotes" if more else "fill the row up",
    )


def _rows(text: str, separator: str) -> Iterator[list[Cell]]:
    """The rows in turn. Raises _Stop."""
    at = 0
    named = _NAMES_SEPARATOR.match(text)
    if named is not None and named[1] == separator:
        at = named.end()
    bare = re.compile(rf"[^{re.escape(separator)}\r\n]*")
    row: list[Cell] = []
    size = len(text)
    while at < size or row:
        cell, at = _cell(text, at, separator, bare)
        row.append(cell)
        if text[at : at + 1] == separator:
            at += 1
            continue
        yield row
        row = []
        end = _LINE_END.match(text, at)
        at = end.end() if end is not None else size


def _cell(text: str, at: int, separator: str, bare: re.Pattern[str]) -> tuple[Cell, int]:
    """The cell that begins at an offset, and where it ends."""
    first = at
    while text[first : first + 1] in (" ", "\u00a0") and text[first : first + 1] != separator:
        first += 1
    if text[first : first + 1] == '"':
        return _quoted(text, first, separator)
    found = bare.match(text, at)
    assert found is not None
    written = found[0]
    left = len(written) - len(written.lstrip(BLANKS))
    stripped = written.strip(BLANKS)
    start = at + (left if stripped else 0)
    return _sized(Cell(stripped, start, start + len(stripped))), found.end()


def _quoted(text: str, start: int, separator: str) -> tuple[Cell, int]:
    close = start + 1
    while True:
        close = text.find('"', close)
        if close < 0:
            line = _LINE_END.search(text, start)
            raise _Stop(
                Misformed(
                    "the quote that opens here is not closed",
                    start,
                    line.start() if line is not None else len(text),
                    "close it, or double a quote that belongs to the text",
                )
            )
        if text[close + 1 : close + 2] != '"':
            break
        close += 2
    end = close + 1
    while text[end : end + 1] in (" ", "\u00a0"):
        end += 1
    if text[end : end + 1] not in ("", separator, "\r", "\n"):
        raise _Stop(
            Misformed(
                "something follows the quote that closes this cell",
                start,
                end,
                "double a quote that belongs to the text",
            )
        )
    inner = text[start + 1 : close]
    stripped = inner.strip(BLANKS)
    left = len(inner) - len(inner.lstrip(BLANKS)) if stripped else 0
    first = start + 1 + left
    return _sized(Cell(stripped.replace('""', '"'), first, first + len(stripped))), end


def _sized(cell: Cell) -> Cell:
    if cell.end - cell.start > MOST_LETTERS:
        raise _Stop(
            Misformed(
                f"this cell has more than {MOST_LETTERS} letters",
                cell.start,
                cell.start + MOST_LETTERS,
                "a quote that is not closed makes one cell of many, and a text this long belongs "
                "into a document",
            )
        )
    return cell
