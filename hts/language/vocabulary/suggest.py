"""Which word was meant: for messages only."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from hts.base.quantities.spelling import edits

#: Words that say the opposite of each other. A slip of a few letters must never turn one into the
#: other.
_OPPOSITES = (
    ("least", "most"),
    ("above", "below"),
    ("before", "after"),
    ("upstream", "downstream"),
    ("inside", "outside"),
    ("attached", "detached"),
    ("horizontal", "vertical"),
    ("run", "branch"),
    ("A", "B"),
    ("open", "closed"),
    ("upscale", "downscale"),
    ("with", "against"),
    ("up", "down"),
)
_NEGATIONS = ("un", "non-", "non", "not ", "no ", "in", "dis", "de", "without ")


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word nearest to ``word``, None when nothing is near enough to be meant, or when
    the opposite may have been meant as well."""
    return _nearest(word, tuple(known))


# A text is read anew for each fix that is tried, and its unknown words are the same each time.
@lru_cache(maxsize=8192)
def _nearest(word: str, known: tuple[str, ...]) -> str | None:
    wanted = word.lower()
    allowed = 1 if len(word) < 5 else 2 if len(word) < 9 else 3
    best: tuple[int, str] | None = None
    for candidate in known:
        if abs(len(candidate) - len(word)) > allowed:
            continue
        distance = edits(wanted, candidate.lower(), allowed)
        # Half of a short word changed is another word.
        near = distance <= allowed and 2 * distance < max(len(candidate), 3)
        if near and (best is None or (distance, candidate) < best):
            best = (distance, candidate)
    if best is None or _may_mean_opposite(wanted, *best):
        return None
    return best[1]


def _may_mean_opposite(wanted: str, distance: int, guess: str) -> bool:
    """Whether what was written may as well mean the contrary of the guess."""
    lower = guess.lower()
    for no in _NEGATIONS:
        if wanted == no + lower or lower == no + wanted:
            return True
    if not distance:
        return False
    words = guess.split()
    for pair in _OPPOSITES:
        for this, other in (pair, pair[::-1]):
            if this not in words:
                continue
            contrary = " ".join(other if each == this else each for each in words).lower()
            tail = _shared_end(this, other)
            telling = this[: len(this) - tail].lower()
            # Nothing is left of the letters that tell the two apart, or both are as near.
            lost = distance >= len(telling) and telling not in wanted
            if lost or edits(wanted, contrary) <= distance:
                return True
    return False


def _shared_end(this: str, other: str) -> int:
    """Letters in which two words end alike."""
    count = 0
    while count < min(len(this), len(other)) and this[-1 - count] == other[-1 - count]:
        count += 1
    return count
