"""How many of something, as a sentence says it."""

from __future__ import annotations


def counted(count: int, what: str) -> str:
    """`1 circuit`, `2 circuits`; `what` is a word whose plural ends in s."""
    return f"{count} {what}" if count == 1 else f"{count} {what}s"
