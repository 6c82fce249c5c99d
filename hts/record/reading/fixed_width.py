"""Rows of cells that blanks keep apart: where one is empty, its place alone tells which."""

from __future__ import annotations

import re

from hts.record.errors import RecordError
from hts.record.reading.cells import is_number_of_any_kind, is_stamp
from hts.record.reading.sniff import Layout, split

#: Rows that the places of the columns are taken from.
_ROWS = 2000


def split_by_blanks(lines: list[str], name: str, layout: Layout) -> list[list[str]]:
    """The cells of each line. Raises RecordError where one is missing and no place tells which."""
    rows = [split(line, layout.separator) for line in lines]
    short = [
        at
        for at, row in enumerate(rows)
        if 1 < len(row) < layout.width and (is_number_of_any_kind(row[0]) or is_stamp(row[0]))
    ]
    # The last row may have been cut while it was written.
    if short and short[-1] == len(lines) - 1:
        rows[short.pop()] = []
    if not short:
        return rows
    cell = re.compile(r"\S+(?: \S+)*" if layout.separator == "  " else r"\S+")
    full = [lines[at] for at, row in enumerate(rows) if len(row) == layout.width][:_ROWS]
    places = _places([[found.span() for found in cell.finditer(line)] for line in full])
    for at in short:
        spans = [found.span() for found in cell.finditer(lines[at])]
        columns = [
            [column for column, its in enumerate(places) if its & {("from", start), ("to", end)}]
            for start, end in spans
        ]
        # What ends before the last column begins may have lost any cell.
        short_of_last = not places or len(lines[at]) < min(place for _, place in places[-1])
        if short_of_last or any(len(its) != 1 for its in columns):
            raise RecordError(
                f"{name}:{layout.first + 1 + at}",
                f"a row has {len(rows[at])} cells where the others have {layout.width}, and blanks "
                "do not tell which is missing",
                "export it with commas, semicolons or tabs",
            )
        placed = [""] * layout.width
        for (column,), text in zip(columns, rows[at], strict=True):
            placed[column] = text
        rows[at] = placed
    return rows


def _places(rows: list[list[tuple[int, int]]]) -> list[set[tuple[str, int]]]:
    """Where every cell of a column begins, and where it ends; [] where some column has neither."""
    places = []
    for spans in zip(*rows, strict=True):
        starts, ends = ({span[side] for span in spans} for side in (0, 1))
        places.append(
            {("from", at) for at in starts if len(starts) == 1}
            | {("to", at) for at in ends if len(ends) == 1}
        )
    return places if all(places) else []
