"""Markdown built from plain text: every piece of text is escaped here and nowhere else."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from hts.job.outputs.text import markdown_text

#: Heading of the marks of change.
CHANGED = "Changed"


class Page:
    """A page in the making; all texts given to it are plain and become harmless on the way."""

    def __init__(self) -> None:
        self._blocks: list[str] = []

    def heading(self, level: int, text: str) -> None:
        self._blocks.append(f"{'#' * level} {markdown_text(text)}")

    def line(self, text: str) -> None:
        """A paragraph of one line."""
        self._blocks.append(markdown_text(text))

    def warning(self, text: str) -> None:
        """A paragraph nobody must miss."""
        self._blocks.append(f"**{markdown_text(text)}**")

    def bullets(self, texts: Iterable[str]) -> None:
        """A list; nothing at all where there is no text."""
        lines = [f"- {markdown_text(text)}" for text in texts]
        if lines:
            self._blocks.append("\n".join(lines))

    def table(
        self,
        heads: Sequence[str],
        rows: Iterable[Sequence[str]],
        *,
        changed: Sequence[str] = (),
    ) -> None:
        """A table; every row has as many cells as there are heads (ValueError).

        Where a row of it changed, a column at the end has the marks.
        """
        marks = list(changed) if any(changed) else None
        more = [CHANGED] if marks else []
        lines = [_row([*heads, *more]), _row(["---"] * (len(heads) + len(more)), raw=True)]
        for number, row in enumerate(rows):
            if len(row) != len(heads):
                raise ValueError(f"{len(row)} cells in a table of {len(heads)} columns")
            lines.append(_row([*row, *([marks[number]] if marks else [])]))
        self._blocks.append("\n".join(lines))

    def text(self) -> str:
        """The page, its blocks parted by blank lines."""
        return "\n\n".join(self._blocks) + "\n"


def _row(cells: Sequence[str], raw: bool = False) -> str:
    return f"| {' | '.join(cell if raw else markdown_text(cell) for cell in cells)} |"
