"""Limits on heating and cooling rates as stretches of temperature."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from hts.record.judging.words import Words
from hts.record.plan import HEAT, Plan, Span
from hts.record.record import Floats

#: degC. The foot of a limit that holds from however cold the part is: absolute zero.
THROUGHOUT = -273.15


class Piece(NamedTuple):
    """A stretch of temperature, degC, with one limit, K/h."""

    low: float
    high: float
    limit: float
    span: Span


@lru_cache(maxsize=64)
def pieces(plan: Plan, action: str) -> list[Piece]:
    """The limits on heating or cooling, by rising temperature, none overlapping.

    The topmost is taken to reach upwards without end: a setpoint is overshot at the same limit.
    Where steps of one program limit a temperature differently the strictest counts.
    """
    limited = [
        Piece(_from(plan, span, span.end), max(span.start, span.end), span.limit, span)
        for span in plan.spans
        if span.action == action and span.limit is not None and span.end is not None
    ]
    if not limited:
        return []
    ends = sorted({end for piece in limited for end in (piece.low, piece.high)})
    found: list[Piece] = []
    for low, high in pairwise(ends):
        here = [piece for piece in limited if piece.low <= low and piece.high >= high]
        if here:
            strictest = min(here, key=lambda piece: piece.limit)
            found.append(strictest._replace(low=low, high=high))
    if found:
        found[-1] = found[-1]._replace(high=np.inf)
    return found


def _from(plan: Plan, span: Span, end: float) -> float:
    """Where a limit begins to count: with no start stated, from however cold the part is."""
    assumed = plan.run.program.start.why.basis == "practice"
    if span.number == 1 and span.action == HEAT and span.counts_from is None and assumed:
        return THROUGHOUT
    return min(span.start, end)


def least_hours(values: Floats, found: list[Piece]) -> Floats:
    """Hours that reaching each temperature takes at the limits, from any fixed one below."""
    hours = np.zeros_like(values)
    for piece in found:
        hours += np.clip(values - piece.low, 0.0, piece.high - piece.low) / piece.limit
    return hours


def limit_at(limits: list[Piece], temperature: float) -> Piece:
    """The limit in force at a temperature, or just below it."""
    below = [piece for piece in limits if piece.low < temperature]
    return below[-1] if below else limits[0]


def counted_from(words: Words, piece: Piece) -> str:
    """` above 300 degC`; nothing for a limit that holds throughout."""
    return "" if piece.low <= THROUGHOUT else f" above {words.edge(piece.low)}"
