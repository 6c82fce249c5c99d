"""What a sheet is written onto: Markdown, or the pages of a packet."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Protocol


class Paper(Protocol):
    """Takes plain texts, and makes them harmless for what it is."""

    def heading(self, level: int, text: str) -> None:
        """A heading, level 1 for the whole sheet."""

    def line(self, text: str) -> None:
        """A paragraph of one line."""

    def warning(self, text: str) -> None:
        """A paragraph nobody must miss."""

    def bullets(self, texts: Iterable[str]) -> None:
        """A list; nothing at all where there is no text."""

    def table(
        self,
        heads: Sequence[str],
        rows: Iterable[Sequence[str]],
        *,
        changed: Sequence[str] = (),
    ) -> None:
        """A table; every row has as many cells as there are heads (ValueError).

        `changed` has for each row the mark of a change, empty for none.
        """
