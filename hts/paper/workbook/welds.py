"""The workbook of weld lists: every weld with what governs it."""

from __future__ import annotations

from collections.abc import Iterable

from hts.job.compiler import Job
from hts.job.outputs.weld_table import WeldTable, summed
from hts.paper.sheet import A4, Size
from hts.paper.workbook.book import Book, Column
from hts.paper.workbook.cells import Cell, as_figure

#: Columns behind those of the table itself: there a number is one, and no weld or line number.
_OURS = 12


def workbook(job: Job, tables: Iterable[WeldTable], size: Size = A4) -> bytes:
    """One sheet for each list. The same job, the same bytes. Raises MissingPackage."""
    book = Book(job, size)
    for number, table in enumerate(tables, 1):
        first = len(table.heads) - _OURS
        rows: list[list[Cell]] = [
            [*row[:first], *map(as_figure, row[first:])] for row in table.rows
        ]
        columns = [Column(head) for head in table.heads]
        name = "Welds" if number == 1 else f"Welds {number}"
        book.table(name, f"Weld list {table.listed.name}", columns, rows, (summed(table),))
    return book.data()
