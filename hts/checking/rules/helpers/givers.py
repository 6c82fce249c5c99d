"""Who gives a limit that no book or procedure in force gives."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from hts.limits import Limit, UnknownEdition, book, books
from hts.syntax.formula import Fact, one_of


def givers(quantity: str, sides: Iterable[Mapping[str, Fact]]) -> list[str]:
    """The shipped books, in their newest edition, with a row on the quantity for such a weld."""
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
    """Whether a row is for one of the sides, as far as its metal, its part and the kind of weld go,
    and no option."""
    if limit.quantity != quantity or limit.option is not None:
        return False
    return not limit.where or any(
        all(
            one_of(facts.get(name), words)
            for name, words in limit.where.items()
            if name == "p_number" or name in facts
        )
        for facts in sides
    )
