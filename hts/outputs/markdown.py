"""Markdown built from plain text: every piece of text is escaped here and nowhere else."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from hts.outputs.text import markdown_text


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

    def table(self, heads: Sequence[str], rows: Iterable[Sequence[str]]) -> None:
        """A table; every row has as many cells as there are heads (ValueError)."""
        lines = [_row(heads), _row(["---"] * len(heads), raw=True)]
        for row in rows:
            if len(row) != len(heads):
                raise ValueError(f"{len(row)} cells in a table of {len(heads)} columns")
            lines.append(_row(row))
        self._blocks.append("\n".join(lines))

    def text(self) -> str:
        """The page, its blocks parted by blank lines."""
        return "\n\n".join(self._blocks) + "\n"


def _row(cells: Sequence[str], raw: bool = False) -> str:
    return f"| {' | '.join(cell if raw else markdown_text(cell) for cell in cells)} |"
