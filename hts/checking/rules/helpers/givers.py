"""Who gives a limit that no book or procedure in force gives."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from hts.limits import Limit, UnknownEdition, book, books
from hts.syntax.formula import Fact, one_of


def givers(quantity: str, sides: Iterable[Mapping[str, Fact]]) -> list[str]:
    """The shipped books, in their newest edition, with a row on the quantity for this metal."""
    known = list(sides)
    return [
        f"{id} edition {edition}" if edition else id
        for id in books()
        for edition, limits in [_newest(id)]
        if any(_meant(limit, quantity, known) for limit in limits)
    ]


def _newest(id: str) -> tuple[str, tuple[Limit, ...]]:
    try:
        found = book(id)
    except UnknownEdition as error:
        found = book(id, error.editions[-1])
    return found.edition, found.limits


def _meant(limit: Limit, quantity: str, sides: list[Mapping[str, Fact]]) -> bool:
    """Whether a row is for one of the sides as far as its P-number goes, and no option."""
    if limit.quantity != quantity or limit.option is not None:
        return False
    words = limit.where.get("p_number")
    return words is None or any(one_of(facts.get("p_number"), words) for facts in sides)
