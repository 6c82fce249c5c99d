"""Rule books as lists and tables, every row with its source and basis."""

from __future__ import annotations

from collections import Counter
from typing import Any

from hts.limits import Book, Limit, book, books
from hts.limits.books import BASES, System

_BOUNDS = (
    ("at least", "minimum"),
    ("at most", "maximum"),
    ("is", "exactly"),
    ("above", "above"),
    ("within", "within"),
)


def editions(name: str) -> tuple[str | None, ...]:
    """Editions of a book; (None,) for one without editions. Raises UnknownBook."""
    from hts.limits import UnknownEdition

    try:
        book(name)
    except UnknownEdition as error:
        return error.editions
    return (None,)


def every(system: System = "SI") -> list[Book]:
    """All books in all editions."""
    return [book(name, edition, system) for name in books() for edition in editions(name)]


def bases(made: Book) -> dict[str, int]:
    """How many rows rest on which basis."""
    counts = Counter(limit.source.basis for limit in made.limits)
    return {basis: counts[basis] for basis in BASES if counts[basis]}


def called(made: Book) -> str:
    """Name and edition as a specification writes them."""
    return f"{made.id} edition {made.edition}" if made.edition else made.id


def line(made: Book) -> str:
    """One line of a list."""
    basis_counts = ", ".join(f"{count} {basis}" for basis, count in bases(made).items())
    return f"{called(made):<34} {len(made.limits):>4} rows: {basis_counts}"


def row(limit: Limit) -> dict[str, Any]:
    """One row as data; formulas as they are written."""
    formulas = {part: getattr(limit, part) for part in limit.parts()}
    data: dict[str, Any] = {"id": limit.id, "quantity": limit.quantity}
    for words, part in _BOUNDS:
        if part in formulas:
            data[words] = formulas[part].text
    if limit.status is not None:
        data["status"] = limit.status
    if limit.positions:
        data["at"] = list(limit.positions)
    if limit.option is not None:
        data["option"] = limit.option
    if limit.where:
        data["for"] = {name: list(words) for name, words in limit.where.items()}
    if "when" in formulas:
        data["when"] = formulas["when"].text
    source = limit.source
    data["citation"] = source.citation
    data["basis"] = source.basis
    data["confidence"] = source.confidence
    if source.seen:
        data["seen"] = list(source.seen)
    if source.note:
        data["note"] = source.note
    if source.cautions:
        data["cautions"] = list(source.cautions)
    return data


def as_json(made: Book) -> dict[str, Any]:
    """A book as data."""
    return {
        "book": made.id,
        "edition": made.edition or None,
        "title": made.title,
        "about": made.about,
        "cautions": list(made.cautions),
        "seen": made.seen,
        "bases": bases(made),
        "rows": [row(limit) for limit in made.limits],
    }


def text(made: Book) -> str:
    """A book for reading: quantity by quantity, each row with demand, condition and source."""
    parts = [f"{called(made)}: {made.title}", "", made.about]
    parts += [f"Caution: {caution}" for caution in made.cautions]
    parts += [f"Seen ({name}): {page}" for name, page in made.seen.items()]
    quantity = ""
    for limit in sorted(made.limits, key=lambda limit: (limit.quantity, limit.id)):
        if limit.quantity != quantity:
            quantity = limit.quantity
            parts += ["", quantity]
        data = row(limit)
        parts.append(f"  {demand(data)}")
        known = f"{data['basis']}, confidence {data['confidence']}"
        seen = f"; seen: {', '.join(data['seen'])}" if "seen" in data else ""
        parts.append(f"      {data['citation']}; {known}{seen}")
        if "note" in data:
            parts.append(f"      {data['note']}")
        parts += [f"      caution: {caution}" for caution in data.get("cautions", ())]
    return "\n".join(parts) + "\n"


def demand(data: dict[str, Any]) -> str:
    """What a row asks for and under which conditions, in one line."""
    bounds = [f"{words} {data[words]}" for words, _ in _BOUNDS if words in data]
    if "at" in data:
        bounds.append(f"at {', '.join(data['at'])}")
    if "status" in data:
        subject = f"{data['option']}: " if "option" in data else ""
        bounds.append(subject + data["status"])
    elif "option" in data:
        bounds.append(f"with the option {data['option']}")
    conditions = [f"{name} {' or '.join(words)}" for name, words in data.get("for", {}).items()]
    if "when" in data:
        conditions.append(data["when"])
    when = f" when {' and '.join(conditions)}" if conditions else ""
    return " ".join(bounds) + when
