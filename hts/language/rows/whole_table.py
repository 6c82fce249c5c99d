"""What is wrong with a table as a whole: its first line, the number of its rows."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.findings import Finding, Label
from hts.base.text import Source
from hts.language.vocabulary.table_mistakes import BROKEN_TABLE, ROW_COUNT
from hts.language.vocabulary.weld_list import SEPARATORS, WeldList
from hts.syntax.table import MOST_ROWS, Cell, Table, rows_above

#: Heads stand above the welds, or they are no heads.
_MOST_LINES = 20


def wrong_first_line(listed: WeldList, source: Source, separator: str) -> Finding | None:
    """Tells a first line that does not have the heads: a title above them, or none at all. What is
    wrong with some of the heads, or with the separator, is found by reading on."""
    wanted = set(_heads(listed))
    words = {sign: word for word, sign in SEPARATORS.items()}
    title: list[Cell] = []
    for sign in sorted(words, key=lambda sign: sign != separator):
        first, *below = rows_above(source.text, sign, _MOST_LINES) or [[]]
        if {_plain(head) for head in wanted} & {_plain(cell.text) for cell in first}:
            return None
        for row in below:
            if 2 * len(wanted & {cell.text for cell in row}) > len(wanted):
                also = f", and say `separator {words[sign]}`" if sign != separator else ""
                return _titled(listed, source, first, row, also)
        title = title or first
    at = next((cell for cell in title if cell.text), None)
    if at is None:
        return None
    workbook = source.text.startswith("PK\x03\x04")
    named = ", ".join(f'"{head}"' for head in list(dict.fromkeys(_heads(listed)))[:5])
    return Finding(
        BROKEN_TABLE,
        "the file is a workbook, not a table as text"
        if workbook
        else "the first line has none of the heads that the list names",
        Label(source.span(at.start, at.end)),
        address=listed.name,
        help="save the sheet from the spreadsheet as CSV with the encoding UTF-8"
        if workbook
        else f"put the heads into the first line, or name them as they are there: {named}",
    )


def _titled(
    listed: WeldList, source: Source, first: list[Cell], row: list[Cell], also: str
) -> Finding:
    title, heads = (next(cell for cell in cells if cell.text) for cells in (first, row))
    line = source.position(heads.start)[0]
    above = "the line above it" if line == 2 else "the lines above it"
    return Finding(
        BROKEN_TABLE,
        f"the first line is a title; the heads of the columns stand in line {line}",
        Label(source.span(title.start, title.end)),
        address=listed.name,
        others=[Label(source.span(heads.start, heads.end), "the heads")],
        help=f"take {above} out of the table{also}",
    )


def wrong_count(
    listed: WeldList, table: Table, source: Source, no_welds: int = 0
) -> Finding | None:
    """Tells a table that does not have as many rows as the list states. ``no_welds``: rows that
    are told as none; whoever counted may have counted them or not."""
    count = len(table.rows) - no_welds
    if listed.rows is None or count <= listed.rows <= len(table.rows):
        return None
    last = table.rows[-1][0] if table.rows else table.heads[0]
    return Finding(
        ROW_COUNT,
        f"the list states {listed.rows} rows, the table has {count}",
        Label(listed.place("rows")),
        address=listed.name,
        others=[Label(source.span(last.start, last.end), "its last row")],
        help=f"find out which came or went, then write rows {count}"
        if 0 < count <= MOST_ROWS
        else "save the table again",
    )


def _heads(listed: WeldList) -> Iterator[str]:
    """The heads that the list names."""
    for named in (listed.weld, listed.typical, listed.only):
        if named is not None and named.column is not None:
            yield named.column
    for column in listed.columns:
        if isinstance(column.head, str):
            yield column.head


def _plain(head: str) -> str:
    return " ".join(head.split()).casefold()
