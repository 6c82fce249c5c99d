"""Time at temperature in production against the time of the qualification test piece.

Exact: hours may be int, Fraction or float and come back as Fraction.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import NamedTuple

from hts.base.provenance import Origin

# Applies where toughness is required: the test piece must have had at least 80 % of the time at
# temperature of all production treatments together.
ORIGIN = Origin("ASME IX", "QW-407.2", "", "memory", "medium")
SHARE = Fraction(4, 5)

# Codes ask for time at or above the minimum and do not ask for it in one piece.
PIECES_ORIGIN = Origin("ASME construction codes", "", "", "memory", "medium")

Hours = int | float | Fraction


class Ledger(NamedTuple):
    """Hours at temperature: allowed in production, used by all treatments, and left.

    `left` is negative once the allowance is overrun.
    """

    allowed: Fraction
    used: Fraction

    @property
    def left(self) -> Fraction:
        return self.allowed - self.used

    @property
    def covered(self) -> bool:
        """Whether the qualification covers all treatments."""
        return self.used <= self.allowed


def ledger(qualified: Hours, treatments: Iterable[Hours]) -> Ledger:
    """Set the hours of all treatments, repairs and intermediate cycles included, against a test.

    Raises ValueError for negative hours.
    """
    return Ledger(longest_production(qualified), aggregate(treatments))


def longest_production(qualified: Hours) -> Fraction:
    """Most hours in production that a test of `qualified` hours covers: qualified / 0.8."""
    return aggregate((qualified,)) / SHARE


def needed_qualification(production: Hours) -> Fraction:
    """Fewest hours of the test piece that cover `production` hours: 0.8 x production."""
    return aggregate((production,)) * SHARE


def aggregate(pieces: Iterable[Hours]) -> Fraction:
    """Sum of pieces of a hold or of treatments, hours (or any one unit of time)."""
    total = Fraction(0)
    for piece in pieces:
        if piece < 0:
            raise ValueError(f"a time cannot be negative: {piece!r}")
        total += Fraction(piece)
    return total
