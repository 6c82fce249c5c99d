"""How many of something, and which of several, as a sentence says it."""

from __future__ import annotations

from collections.abc import Sequence

_FEW = 5


def counted(count: int, what: str) -> str:
    """`1 circuit`, `2 circuits`; `what` is a word whose plural ends in s."""
    return f"{count} {what}" if count == 1 else f"{count} {what}s"


def few(names: Sequence[str]) -> str:
    """The first five of them, and how many more there are."""
    more = f" and {len(names) - _FEW} more" if len(names) > _FEW else ""
    return f"{', '.join(names[:_FEW])}{more}"


def either(words: Sequence[str]) -> str:
    """`a`, `a or b`, `a, b or c`."""
    return " or ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)
