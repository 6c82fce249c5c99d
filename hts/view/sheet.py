"""A sheet of the paper as part of a page: the same rows, with links from what they name."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from hts.job.outputs.markdown import CHANGED
from hts.view.markup import Html, Part, html, items, table, tag

#: Head of a column and its cell -> where the cell leads, "" for nowhere.
Link = Callable[[str, str], str]


class SheetPage:
    """Takes plain texts, as every paper does (`hts.job.outputs.paper.Paper`).

    `level` is that of its widest headings.
    """

    def __init__(self, level: int, link: Link) -> None:
        self._level = level
        self._link = link
        self._parts: list[Html] = []
        self._title = ""

    def heading(self, level: int, text: str) -> None:
        """A heading; level 2 of the paper comes at the level the sheet stands at."""
        self._title = text
        self._parts.append(tag(f"h{min(6, self._level + max(0, level - 2))}", text))

    def line(self, text: str) -> None:
        """A paragraph of one line."""
        self._parts.append(tag("p", text))

    def warning(self, text: str) -> None:
        """A paragraph nobody must miss."""
        self._parts.append(tag("p", tag("strong", text), class_="notice"))

    def bullets(self, texts: Iterable[str]) -> None:
        """A list; nothing at all where there is no text."""
        self._parts.append(items(texts))

    def table(
        self,
        heads: Sequence[str],
        rows: Iterable[Sequence[str]],
        *,
        changed: Sequence[str] = (),
    ) -> None:
        """A table; every row has as many cells as there are heads (ValueError)."""
        marks = list(changed) if any(changed) else None
        cells: list[list[Part]] = []
        for number, row in enumerate(rows):
            if len(row) != len(heads):
                raise ValueError(f"{len(row)} cells in a table of {len(heads)} columns")
            linked: list[Part] = [self._cell(h, c) for h, c in zip(heads, row, strict=True)]
            cells.append([*linked, *([marks[number]] if marks else [])])
        shown = [*heads, *([CHANGED] if marks else [])]
        # The heading above says the same: shown twice it would only be in the way.
        titled = "titled" if self._title else None
        self._parts.append(table(self._title or "Table", shown, cells, titled))

    def html(self) -> Html:
        """All of it."""
        return html(*self._parts)

    def _cell(self, head: str, cell: str) -> Part:
        where = self._link(head, cell) if cell else ""
        return tag("a", cell, href=where) if where else cell
