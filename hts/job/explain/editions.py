"""What differs between two editions of a book, row by row."""

from __future__ import annotations

from typing import Any, NamedTuple

from hts.job.explain.books import demand, row
from hts.limits import Book, Limit


class Difference(NamedTuple):
    """A row on either side, as data; None where that edition lacks it. `known` says that only its
    standing (citation, basis, confidence) differs."""

    quantity: str
    id: str
    first: dict[str, Any] | None
    second: dict[str, Any] | None
    known: bool = False


def differences(first: Book, second: Book) -> list[Difference]:
    """The rows that are not alike, in the order of the books."""
    found = []
    for old, new in _pairs(first, second):
        before, after = (None if limit is None else row(limit) for limit in (old, new))
        of = new if old is None else old
        assert of is not None
        if old is None or new is None or _asks(old) != _asks(new):
            found.append(Difference(of.quantity, of.id, before, after))
        elif old.source[3:6] != new.source[3:6]:
            found.append(Difference(of.quantity, of.id, before, after, known=True))
    return found


def _pairs(first: Book, second: Book) -> list[tuple[Limit | None, Limit | None]]:
    """Rows of one id side by side; else those on one quantity for the same words, then for words
    that overlap, such as one P-number of several."""
    pairs: list[tuple[Limit | None, Limit | None]] = []
    rest, matched = list(first.limits), set()
    for alike in (_same_id, _same_words, _some_words):
        # One row for several groups stands beside each of those it was made of.
        free = [other for other in second.limits if other.id not in matched]
        left = []
        for limit in rest:
            match = next((other for other in free if alike(limit, other)), None)
            if match is None:
                left.append(limit)
            else:
                matched.add(match.id)
                pairs.append((limit, match))
        rest = left
    order = {id(limit): number for number, limit in enumerate((*first.limits, *second.limits))}
    pairs += [(limit, None) for limit in rest]
    pairs += [(None, limit) for limit in second.limits if limit.id not in matched]
    return sorted(pairs, key=lambda pair: order[id(pair[0] or pair[1])])


def _same_id(limit: Limit, other: Limit) -> bool:
    return limit.id == other.id


def _same_words(limit: Limit, other: Limit) -> bool:
    return _alike(limit, other) and limit.where == other.where


def _some_words(limit: Limit, other: Limit) -> bool:
    """Whether both are for some P-number in common, and nothing else tells them apart."""
    mine, theirs = limit.where.get("p_number", ()), other.where.get("p_number", ())
    rest = {key: words for key, words in limit.where.items() if key in _APART}
    others = {key: words for key, words in other.where.items() if key in _APART}
    return _alike(limit, other) and bool(set(mine) & set(theirs)) and rest == others


_APART = ("weld_kind", "service", "delivery_condition")


def _alike(limit: Limit, other: Limit) -> bool:
    parts = [{part for part in each.parts() if part != "when"} for each in (limit, other)]
    same_kind = parts[0] == parts[1] and limit.status == other.status
    return limit.quantity == other.quantity and same_kind and limit.option == other.option


def told(side: dict[str, Any] | None) -> str:
    """One side in words."""
    if side is None:
        return "no such row"
    return f"{demand(side)} [{side['citation']}; {side['basis']}, {side['confidence']}]"


def _asks(limit: Limit) -> Any:
    data = row(limit)
    return {key: data.get(key) for key in data if key not in _STANDING}


_STANDING = ("citation", "basis", "confidence", "note", "cautions")
