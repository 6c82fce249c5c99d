"""Where a figure comes from."""

from __future__ import annotations

from typing import NamedTuple


class Origin(NamedTuple):
    """Source of a figure and how far it can be relied on.

    basis: published, memory, practice or derived; confidence: high, medium or low.
    """

    standard: str
    paragraph: str
    edition: str
    basis: str
    confidence: str

    def __str__(self) -> str:
        named = ", ".join(part for part in self[:3] if part)
        return f"{named} [{self.basis}, {self.confidence}]"
