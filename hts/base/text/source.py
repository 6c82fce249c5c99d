"""A text with a name, and the way from offsets to lines and columns.

Offsets count Unicode code points from 0; lines and columns count from 1, as editors and the
machine-readable reports of findings do.
"""

from __future__ import annotations

from bisect import bisect_right
from typing import NamedTuple

#: Some editors put it before the text of a file; it is no part of the text, nor of its columns.
BYTE_ORDER_MARK = "\ufeff"


class Span(NamedTuple):
    """A half-open piece ``[start, end)`` of one source."""

    source: Source
    start: int
    end: int

    @property
    def text(self) -> str:
        return self.source.text[self.start : self.end]


class Source:
    """One text: ``name`` is what findings show (a path relative to the repository root)."""

    __slots__ = ("_starts", "name", "path", "text")

    def __init__(self, text: str, name: str, path: str | None = None) -> None:
        self.text = text
        self.name = name
        #: Absolute path of the file, or None for standard input and texts made in memory.
        self.path = path
        self._starts: list[int] | None = None

    @property
    def line_starts(self) -> list[int]:
        """Offsets at which the lines begin; built on first use, as clean files never need it."""
        if self._starts is None:
            starts = [0]
            find = self.text.find
            at = find("\n")
            while at >= 0:
                starts.append(at + 1)
                at = find("\n", at + 1)
            self._starts = starts
        return self._starts

    def position(self, offset: int) -> tuple[int, int]:
        """Line and column, both from 1, of an offset (offsets past the end count as the end)."""
        offset = max(0, min(offset, len(self.text)))
        starts = self.line_starts
        line = bisect_right(starts, offset)
        return line, offset - starts[line - 1] + 1

    def column(self, offset: int) -> int:
        """Column from 1, found without building the line index."""
        return offset - self.text.rfind("\n", 0, offset)

    def line(self, number: int) -> str:
        """The text of a line (from 1) without its line end."""
        starts = self.line_starts
        start = starts[number - 1]
        end = starts[number] if number < len(starts) else len(self.text)
        return self.text[start:end].rstrip("\r\n")

    def span(self, start: int, end: int) -> Span:
        return Span(self, start, end)
