"""The text of one row as the language would have it, whose places lie in the table."""

from __future__ import annotations

from bisect import bisect_left, bisect_right

from hts.base.text import Source, Span


class RowSource(Source):
    """A text put together from cells and words of columns; its spans are those of where they stand.

    A span that reaches over several pieces is that of the first cell in it: a finding points at
    one cell.
    """

    __slots__ = ("_cells", "_ends", "_places", "_starts_of", "key", "number", "said")

    def __init__(self, table: Source, number: int, key: Span) -> None:
        """``number``: of the row below the heads, from 1; ``key``: where its name stands."""
        super().__init__("", table.name, table.path)
        self.number = number
        self.key = key
        #: What the cells that are read say, with their units, by the heads of their columns.
        self.said: dict[str, str] = {}
        self._starts_of: list[int] = []
        self._ends: list[int] = []
        self._places: list[Span] = []
        self._cells: list[bool] = []

    def add(self, text: str, at: Span, cell: bool) -> tuple[int, int]:
        """Puts a piece behind a blank, and answers where it stands. ``at``: what its span is."""
        start = len(self.text) + 1
        self.text += f" {text}"
        self._starts_of.append(start)
        self._ends.append(start + len(text))
        self._places.append(at)
        self._cells.append(cell)
        return start, start + len(text)

    def span(self, start: int, end: int) -> Span:
        first = max(0, bisect_right(self._starts_of, start) - 1)
        if self._ends[first] < start:
            # In the blank before a piece.
            first = min(first + 1, len(self._ends) - 1)
        last = max(first + 1, bisect_left(self._starts_of, end))
        index = next((n for n in range(first, last) if self._cells[n]), first)
        return self._places[index]
