"""Which book is meant by a title as it stands on the cover of a standard."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from hts.base.data import load

#: Words of titles that tell no book from another.
_FILLERS = frozenset(
    "the of and for on in section sec division div part code standard edition ed rules".split()  # noqa: SIM905
)
_WORD = re.compile(r"[a-z0-9]+(?:\.[a-z0-9]+)*")
_YEAR = re.compile(r"(?:19|20)\d\d")


def meant(written: str, ids: Iterable[str]) -> tuple[str, ...]:
    """The books whose title or designation the words may be, the shipped `ids` looked through.

    `46 CFR 56.85`, `ASME VIII Div 1` and `BS EN 13445-4:2021` lead to one; `ASME VIII` to two.
    """
    words = _words(written)
    if not words:
        return ()
    names = {id: frozenset(_words(id)) for id in ids}
    within = [id for id in names if words <= _known(id)]
    if not within:
        # More words than the book has: a national prefix, the name of the society, a title.
        within = [id for id, name in names.items() if name <= words]
        longest = max((len(names[id]) for id in within), default=0)
        within = [id for id in within if len(names[id]) == longest]
    exact = [id for id in within if names[id] == words]
    return tuple(exact or within)


def edition_in(written: str) -> str | None:
    """The year that stands in a title, None where there is none or several."""
    years = set(_YEAR.findall(written))
    return years.pop() if len(years) == 1 else None


def nearest(written: str, choices: Iterable[str]) -> str | None:
    """The choice a slip of the pen is nearest to: never one with other figures."""
    figures = _figures(written)
    alike = [choice for choice in choices if _figures(choice) == figures]
    return suggestion_of(written.lower(), alike)


def suggestion_of(written: str, choices: Sequence[str]) -> str | None:
    """The choice spelled most like it, None where none is."""
    from difflib import get_close_matches  # only a wrong name pays for it

    return next(iter(get_close_matches(written, choices, n=1)), None)


def suggestion(written: str, ids: tuple[str, ...]) -> str | None:
    """The book meant, `a or b` where it may be two; None where it may be any."""
    found = meant(written, ids)
    if found and len(found) <= 2:
        return " or ".join(found)
    return None if found else nearest(written, ids)


def _known(id: str) -> frozenset[str]:
    data = load(f"books/{id}")
    return frozenset(_words(f"{id} {data.get('standard', '')} {data['title']}"))


def _words(text: str) -> frozenset[str]:
    without_year = re.sub(r"[:\-– ](?:19|20)\d\d\b", " ", text.lower())
    return frozenset(_WORD.findall(without_year)) - _FILLERS


def _figures(text: str) -> str:
    return "".join(sign for sign in text if sign.isdigit())
