"""The rule books that ship with the package, by edition and by system of units."""

from __future__ import annotations

import os
from collections.abc import Mapping
from functools import lru_cache
from typing import Any, Literal

import hts.base.data
from hts.base.data import MissingData, load
from hts.limits.limit import Limit, Source
from hts.limits.titles import suggestion, suggestion_of

System = Literal["SI", "US"]
"""Codes print values in both systems, and the pairs are not conversions of each other. Whoever
works in one system is held to the figures printed in it."""

# From well known to little known.
BASES = ("published", "derived", "memory", "practice")
SEEN = ("published", "derived")
CONFIDENCES = ("high", "medium", "low")
_OTHER: dict[System, System] = {"SI": "US", "US": "SI"}
_MORE_ALLOYED = {"more_alloyed": ("yes",)}
_SINGLE = {"minimum": "at_least", "maximum": "at_most", "exactly": "is"}


class UnknownBook(LookupError):
    """No book of this id; `books` are those there are, `suggestion` the nearest or None."""

    def __init__(self, id: str) -> None:
        self.id = id
        self.books = books()
        self.suggestion = suggestion(id, self.books)
        super().__init__(f"there is no book {id!r}")


class UnknownEdition(LookupError):
    """The book lacks this edition; `editions` are those it has, none if it has no editions.

    `edition` is None where one has to be named and was not.
    """

    def __init__(self, id: str, edition: str | None, editions: tuple[str, ...]) -> None:
        self.id = id
        self.edition = edition
        self.editions = editions
        self.suggestion = suggestion_of(edition or "", editions)
        if not editions:
            message = f"{id} has no editions"
        elif edition is None:
            message = f"{id} needs an edition: {', '.join(editions)}"
        else:
            message = f"{id} has no edition {edition}; it has {', '.join(editions)}"
        super().__init__(message)


class Book:
    """One edition of a rule book: its limits, and what a user has to know about it."""

    __slots__ = (
        "about",
        "cautions",
        "edition",
        "editions",
        "hold_by_mean",
        "id",
        "limits",
        "seen",
        "standard",
        "title",
    )

    def __init__(
        self,
        id: str,
        title: str,
        about: str,
        cautions: tuple[str, ...],
        edition: str,
        editions: tuple[str, ...],
        limits: tuple[Limit, ...],
        standard: str = "",
        hold_by_mean: bool = False,
        seen: Mapping[str, str] | None = None,
    ) -> None:
        """`standard` is the designation of the one standard the book renders, "" for practice;
        `hold_by_mean`: the temperature of a hold is the mean of the highest and the lowest
        reading; `seen` are the pages on which its figures were seen, by the names that the
        sources of its rows give."""
        self.id = id
        self.title = title
        self.about = about
        self.cautions = cautions
        self.edition = edition
        self.editions = editions
        self.limits = limits
        self.standard = standard
        self.hold_by_mean = hold_by_mean
        self.seen = dict(seen or {})

    def __repr__(self) -> str:
        return f"<Book {self.id} {self.edition}>"


@lru_cache(maxsize=1)
def books() -> tuple[str, ...]:
    """The ids of all books, by alphabet."""
    folder = os.path.join(os.path.dirname(hts.base.data.__file__), "compiled", "books")
    return tuple(sorted(name[:-5] for name in os.listdir(folder) if name.endswith(".json")))


@lru_cache(maxsize=64)
def book(id: str, edition: str | None = None, system: System = "SI") -> Book:
    """The book, with the values printed in `system`. Raises UnknownBook, UnknownEdition."""
    try:
        data = load(f"books/{id}") if _is_id(id) else None
    except MissingData:
        data = None
    if data is None:
        raise UnknownBook(id)
    return from_data(data, edition, system)


def from_data(data: Any, edition: str | None = None, system: System = "SI") -> Book:
    """The book that parsed data (see book.schema.json) describe. Raises UnknownEdition."""
    known: dict[str, Any] = data.get("editions", {})
    if (edition is None) == bool(known) or (edition is not None and edition not in known):
        raise UnknownEdition(data["id"], edition, tuple(known))
    alike: list[str] = known[edition].get("alike", []) if edition is not None else []
    limits = []
    for row in data["rows"]:
        seen_in: list[str] | None = row.get("editions")
        borrowed = None
        if seen_in is not None and edition not in seen_in:
            borrowed = next((other for other in alike if other in seen_in), None)
            if borrowed is None:
                continue
        limits.append(_limit(row, data, edition or "", borrowed, system))
    title, about = data["title"], data["about"]
    cautions = tuple(data.get("cautions", ()))
    standard = data.get("standard", "")
    return Book(
        data["id"],
        title,
        about,
        cautions,
        edition or "",
        tuple(known),
        tuple(limits),
        standard,
        "hold_temperature" in data,
        data.get("seen", {}),
    )


def _limit(row: Any, data: Any, edition: str, borrowed: str | None, system: System) -> Limit:
    """One row; `borrowed` is the edition it was seen in when that is not the one asked for."""
    get = row.get
    bounds = {key: _printed(get(word), system) for key, word in _SINGLE.items()}
    if "between" in row:
        bounds["minimum"], bounds["maximum"] = _printed(row["between"], system)
    return Limit(
        row["quantity"],
        _source(row, data, edition, borrowed, system),
        **bounds,
        above=_printed(get("above"), system),
        within=_printed(get("within"), system),
        when=_printed(get("when"), system),
        where={name: tuple(words) for name, words in get("for", {}).items()}
        | (_MORE_ALLOYED if _of_one_metal(row, data) else {}),
        status=get("status"),
        option=get("option"),
        replaces=tuple(get("replaces", ())),
        positions=tuple(get("positions", ())),
        dissimilar=_dissimilar(data) if _of_one_metal(row, data) else "",
        id=row["id"],
        system=system if _is_paired(row) else "",
        pair=(lambda: _limit(row, data, edition, borrowed, _OTHER[system]))
        if _is_paired(row)
        else None,
    )


def _is_paired(row: Any) -> bool:
    """Whether a figure of the row is printed in both systems of units."""
    return any(isinstance(value, dict) and "SI" in value for value in row.values())


def _dissimilar(data: Any) -> str:
    rule = data["dissimilar"]
    return (
        f"the range of the more highly alloyed counts: {data['standard']} {rule['cite']}, "
        f"{rule['basis']}, confidence {rule['confidence']}"
    )


def _of_one_metal(row: Any, data: Any) -> bool:
    """Whether a row gives the hold range of a metal, where the book says which of two counts."""
    return (
        "dissimilar" in data
        and row["quantity"] == "hold temperature"
        and "p_number" in row.get("for", {})
    )


def _printed(value: Any, system: System) -> Any:
    return value[system] if isinstance(value, dict) else value


def _source(row: Any, data: Any, edition: str, borrowed: str | None, system: System) -> Source:
    # A code seen in one system only is known for the other from memory at best.
    basis, confidence = _printed(row["basis"], system), _printed(row["confidence"], system)
    note = row.get("note", "")
    standard = data.get("standard")
    cited = row["cite"]
    if standard is not None:
        year = f"-{borrowed or edition}" if "editions" in row else ""
        cited = f"{standard}{year} {cited}"
    if borrowed is not None:
        # A row seen in another edition is no better known than that the two are alike.
        alike = data["alike"]
        basis = _weaker(BASES, basis, alike["basis"])
        confidence = _weaker(CONFIDENCES, confidence, alike["confidence"])
        taken = f"taken over from the {borrowed} edition"
        note = f"{note}; {taken}" if note else taken
    cautions = tuple(row.get("cautions", ()))
    seen = seen_on(row, data)
    return Source(data["id"], edition, cited, basis, confidence, note, cautions, seen=seen)


def seen_on(row: Any, data: Any) -> tuple[str, ...]:
    """The names of the pages a row was seen on: those it names, or the only one of its book. None
    for a row that was not seen."""
    named = row.get("seen", ())
    if named:
        return (named,) if isinstance(named, str) else tuple(named)
    pages = tuple(data.get("seen", {}))
    return pages if len(pages) == 1 and is_seen(row) else ()


def is_seen(row: Any) -> bool:
    """Whether a figure of the row is said to be published, or derived from what is."""
    basis = row["basis"]
    return any(each in SEEN for each in (basis.values() if isinstance(basis, dict) else (basis,)))


def _weaker(order: tuple[str, ...], first: str, second: str) -> str:
    return max(first, second, key=order.index)


def _is_id(id: str) -> bool:
    """Whether the text can be the id of a book, so that nothing else ever becomes a file name."""
    return len(id) <= 64 and id.replace("-", "").replace(".", "").isalnum()
