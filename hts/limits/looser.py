"""Where a procedure asks for less than the books that govern the job."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.limits.demand import Demand, Governing, size
from hts.limits.limit import Limit
from hts.limits.quantities import LIMITED, Direction
from hts.syntax.formula import Text

#: Facts by which rows tell metals apart.
_METAL = {"p_number", "group_number", "grade", "en_group", "s_group", "chromium"}


class Looser(NamedTuple):
    """`direction` is minimum, maximum or status; `above` where the step of a rate begins.

    `procedure` is None where the procedure limits a rate, but not yet at that temperature.
    """

    quantity: str
    direction: str
    procedure: Demand | None
    book: Demand
    above: Quantity | None = None


def looser(procedure: Mapping[str, Governing], book: Mapping[str, Governing]) -> list[Looser]:
    """Each bound of the procedure that a book is stricter about; what it leaves open is not one."""
    found: list[Looser] = []
    for quantity, ours in procedure.items():
        theirs = book.get(quantity)
        if theirs is None:
            continue
        if isinstance(LIMITED[quantity].kind, Text):
            found += _status(quantity, ours, theirs)
        else:
            for direction in ("minimum", "maximum"):
                found += _bound(quantity, direction, ours, theirs)
    return found


def is_general_ceiling(limit: Limit) -> bool:
    """Whether it is one greatest hold temperature for all metals: a ceiling over the figures that
    books give for each, which stand below it, and no looser figure of any."""
    return (
        limit.quantity == "hold temperature"
        and limit.minimum is None
        and limit.maximum is not None
        and not limit.maximum.names
        and len(limit.where.get("p_number", ("", ""))) > 1
        and (limit.when is None or not _METAL & set(limit.when.names))
    )


def _bound(quantity: str, direction: Direction, ours: Governing, theirs: Governing) -> list[Looser]:
    if ours.setter(direction) is None:
        return []
    sign = 1 if direction == "maximum" else -1
    found: list[Looser] = []
    for threshold in _steps(ours, theirs):
        book = theirs.rate_at(threshold, direction)
        if book is None:
            continue
        mine = ours.rate_at(threshold, direction)
        if mine is None and threshold is not None:
            # The page prints 600 degF beside 315 degC, which is 599 degF: not a step too late.
            mine = ours.rate_at(_latest(book, threshold), direction)
        if mine is not None and direction == "maximum" and is_general_ceiling(mine.limit):
            continue
        if mine is None or sign * size(mine.bounds[direction]) > sign * size(
            book.bound_for(direction, mine.bounds[direction])
        ):
            item = Looser(quantity, direction, mine, book, threshold)
            # One pair of demands counts once, at the lowest temperature where both hold.
            if not any(item.procedure is o.procedure and item.book is o.book for o in found):
                found.append(item)
    return found


def _latest(book: Demand, threshold: Quantity) -> Quantity:
    """A step of a book in the system of units in which it prints the higher temperature."""
    pair = book.limit.pair
    if pair is None or pair.above is None:
        return threshold
    other = pair.above.evaluate(book.facts)
    return max(threshold, other) if isinstance(other, Quantity) else threshold


def _steps(ours: Governing, theirs: Governing) -> list[Quantity | None]:
    steps = {s.value: s for s in (*ours.thresholds(), *theirs.thresholds()) if s is not None}
    return [None, *(steps[value] for value in sorted(steps))]


def _status(quantity: str, ours: Governing, theirs: Governing) -> list[Looser]:
    kind = LIMITED[quantity].kind
    mine, book = ours.status_setter(), theirs.status_setter()
    if mine is None or book is None or not isinstance(kind, Text):
        return []
    rank = kind.words.index
    if rank(mine.limit.status or "") <= rank(book.limit.status or ""):
        return []
    return [Looser(quantity, "status", mine, book)]
