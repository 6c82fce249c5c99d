"""The rate limits a step of heating or cooling runs through, piece by piece."""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.checking.govern import JointLimits
from hts.job.compiler.why import Why, demanded, stated
from hts.language.vocabulary.segments import Cool, Heat
from hts.language.vocabulary.types import ByRule
from hts.limits import Demand, Governing
from hts.limits.quantities import Direction


class Piece(NamedTuple):
    """A stretch of temperature with one limit throughout; `limit` None: the rate is free.

    `counts_from` is the temperature at which the limit begins to count (None: throughout),
    `slowest` the lowest rate allowed.
    """

    start: Quantity
    end: Quantity
    limit: Quantity | None
    why: Why | None
    counts_from: Quantity | None
    slowest: Quantity | None


class NoRate(Exception):
    """A rate is `by rule`, and no rule gives one."""


def pieces(
    start: Quantity, end: Quantity, segment: Heat | Cool | None, limits: JointLimits
) -> list[Piece]:
    """The way from `start` to `end` in the order it is run. Raises NoRate.

    What the text states holds where it says it counts; elsewhere, and where the text says nothing
    or `by rule`, the limits in force hold, each from the temperature at which it begins.
    """
    rising = end > start
    name = "heating rate" if rising else "cooling rate"
    governing = limits.of(name)
    if segment is not None and isinstance(segment.rate, ByRule) and not _gives(governing):
        raise NoRate
    low, high = (start, end) if rising else (end, start)
    steps = {low.value: low, high.value: high}
    for step in _thresholds(segment, governing):
        if low < step < high:
            steps[step.value] = step
    ladder = [steps[value] for value in sorted(steps)]
    found: list[Piece] = []
    for bottom, top in pairwise(ladder):
        piece = _piece(bottom, top, segment, governing)
        if piece.limit is not None:
            limit = limits.printed(piece.limit, name, "maximum", bottom)
            piece = piece._replace(limit=limit)
        if found and _same(found[-1], piece):
            piece = found.pop()._replace(end=top)
        found.append(piece)
    if rising:
        return found
    return [piece._replace(start=piece.end, end=piece.start) for piece in reversed(found)]


def _gives(governing: Governing | None) -> bool:
    return governing is not None and governing.setter("maximum") is not None


def _thresholds(segment: Heat | Cool | None, governing: Governing | None) -> list[Quantity]:
    found = [step for step in governing.thresholds() if step is not None] if governing else []
    if segment is not None and segment.above is not None:
        found.append(segment.above)
    return found


def _piece(
    bottom: Quantity, top: Quantity, segment: Heat | Cool | None, governing: Governing | None
) -> Piece:
    ruled = _demand(governing, bottom, "maximum")
    limit: Quantity | None = None
    why: Why | None = None
    counts_from: Quantity | None = None
    if (
        segment is not None
        and isinstance(segment.rate, Quantity)
        and (segment.above is None or segment.above <= bottom)
    ):
        limit, counts_from = segment.rate, segment.above
        why = stated(segment, "rate", f"at most {segment.rate}")
    elif ruled is not None:
        bound = ruled.bounds["maximum"]
        assert isinstance(bound, Quantity)
        limit, counts_from = bound, ruled.above
        why = demanded(ruled, "maximum")
    slowest = segment.slowest if segment is not None else None
    least = _demand(governing, bottom, "minimum")
    if slowest is None and least is not None:
        bound = least.bounds["minimum"]
        assert isinstance(bound, Quantity)
        slowest = bound
    return Piece(bottom, top, limit, why, counts_from, slowest)


def _demand(governing: Governing | None, bottom: Quantity, direction: Direction) -> Demand | None:
    return governing.rate_at(bottom, direction) if governing is not None else None


def _same(first: Piece, second: Piece) -> bool:
    return (
        first.why == second.why
        and _value(first.limit) == _value(second.limit)
        and _value(first.slowest) == _value(second.slowest)
    )


def _value(quantity: Quantity | None) -> object:
    return None if quantity is None else quantity.value
