"""Patterns of plain words, compiled when a sentence first needs them: most sentences need none, and
to compile them all takes longer than to check a file."""

from __future__ import annotations

import re
from functools import lru_cache


@lru_cache(maxsize=256)
def compiled(pattern: str) -> re.Pattern[str]:
    """A pattern of words, in capitals or not."""
    return re.compile(pattern, re.IGNORECASE)


class PlainWords:
    """Patterns, each with stems of which a text that it is found in has one, in small letters."""

    __slots__ = ("rows",)

    def __init__(self, *rows: tuple[str, str]) -> None:
        self.rows = tuple((tuple(stems.split("|")), pattern) for stems, pattern in rows)

    def search(self, text: str) -> re.Match[str] | None:
        """The first of them that is found."""
        small = text.lower()
        for stems, pattern in self.rows:
            if any(stem in small for stem in stems):
                found = compiled(pattern).search(text)
                if found is not None:
                    return found
        return None
