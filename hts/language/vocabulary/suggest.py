"""Which word was meant: for messages only."""

from __future__ import annotations

from collections.abc import Iterable

from hts.base.quantities.spelling import edits


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word nearest to ``word``, None when nothing is near enough to be meant."""
    wanted = word.lower()
    allowed = 1 if len(word) < 5 else 2 if len(word) < 9 else 3
    best: tuple[int, str] | None = None
    for candidate in known:
        if abs(len(candidate) - len(word)) > allowed:
            continue
        distance = edits(wanted, candidate.lower())
        if distance <= allowed and (best is None or (distance, candidate) < best):
            best = (distance, candidate)
    return best[1] if best else None
