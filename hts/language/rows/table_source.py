"""The text of a table that knows which weld and which column a place in it belongs to."""

from __future__ import annotations

from bisect import bisect_right
from typing import TYPE_CHECKING

from hts.base.text import Source, Span

if TYPE_CHECKING:
    from hts.syntax.table import Table


class TableSource(Source):
    """The text of the table of a weld list; `put` tells it its cells."""

    __slots__ = ("_cells", "_ends_of", "_heads", "_keys", "_starts_of")

    def __init__(self, source: Source) -> None:
        super().__init__(source.text, source.name, source.path)
        self._starts_of: list[int] = []
        self._ends_of: list[int] = []
        self._cells: list[tuple[int, int]] = []
        self._keys: list[str] = []
        self._heads: list[str] = []

    def put(self, table: Table, key: int | None) -> None:
        """``key``: the column of the weld numbers."""
        self._heads = [head.text for head in table.heads]
        for number, row in enumerate([table.heads, *table.rows]):
            for column, cell in enumerate(row):
                self._starts_of.append(cell.start)
                self._ends_of.append(cell.end)
                self._cells.append((number, column))
            self._keys.append(row[key].text if key is not None and number else "")

    @property
    def heads(self) -> tuple[str, ...]:
        """The heads of the columns."""
        return tuple(self._heads)

    def cell(self, row: int, column: int) -> Span:
        """Where a cell stands; rows count from 1, and 0 has the heads. Every row has a cell in
        every column."""
        index = row * len(self._heads) + column
        return self.span(self._starts_of[index], self._ends_of[index])

    def _at(self, offset: int) -> tuple[int, int] | None:
        index = bisect_right(self._starts_of, offset) - 1
        return self._cells[index] if index >= 0 else None

    def column_at(self, offset: int) -> int:
        """The column of a place, from 0; -1 for one before the first cell."""
        found = self._at(offset)
        return found[1] if found is not None else -1

    def words_at(self, offset: int) -> str:
        """A place as a foreman would name it: `weld W117, "WT [mm]"`."""
        found = self._at(offset)
        if found is None:
            return "the table"
        before = self._ends_of[bisect_right(self._starts_of, offset) - 1]
        if any(sign in self.text[before:offset] for sign in "\r\n"):
            # A row that could not be told apart has no cells.
            return f"line {self.position(offset)[0]}"
        number, column = found
        head = f'"{self._heads[column]}"'
        if not number:
            return f"head {head}"
        key = self._keys[number]
        return f"weld {key}, {head}" if key else f"row {number}, {head}"
