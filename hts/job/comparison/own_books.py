"""Rule books of a repository's own whose rows changed, though no line of the specification did."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hts.job.comparison.change import Change, Side, make
from hts.job.comparison.lookup import named
from hts.job.comparison.registry import CHANGED
from hts.language.model import Spec
from hts.language.model.load import LoadedBook


def own_books(old: Spec, new: Spec) -> Iterator[Change]:
    """One change for each book both sides have whose rows or words are no longer the same.

    A book that one side lacks shows in `governed by`; one that cannot be read, among the errors.
    """
    before, after = _by_id(old), _by_id(new)
    for id in before.keys() & after.keys():
        mine, theirs = before[id].file.data, after[id].file.data
        if mine is None or theirs is None or mine == theirs:
            continue
        row = named("governing", "rows of a book")
        first, second = _side(before[id], theirs), _side(after[id], mine)
        yield make(f"book.{id}", row, CHANGED, first, second)


def _by_id(spec: Spec) -> dict[str, LoadedBook]:
    return {loaded.file.id: loaded for loaded in spec.books if loaded.file.id}


def _side(loaded: LoadedBook, other: Any) -> Side:
    """What this side says that the other does not."""
    theirs = {row["id"]: row for row in other["rows"]}
    rows = [row["id"] for row in loaded.file.data["rows"] if theirs.get(row["id"]) != row]
    text = f"rows {', '.join(rows)}" if rows else "its other rows and words"
    return Side(f"book/{loaded.file.id}", text, text, loaded.source.span(0, 0))
