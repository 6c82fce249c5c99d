"""A property that depends on temperature, in pieces that can be integrated exactly.

A specific heat with a sharp peak must be integrated by its closed form: stepping over it point
by point can jump the peak and lose its heat.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import NamedTuple

from hts.base.arguments import NotCovered

# A wall that starts at an end of the range may be found a rounding error, in K, beyond it.
_ROUNDING = 1e-6


class Piece(NamedTuple):
    """One branch, valid below `high` degC; `integral` is an antiderivative of `value`."""

    high: float
    value: Callable[[float], float]
    integral: Callable[[float], float]


class Curve:
    """A property in `unit` from `low` to `high` degC."""

    __slots__ = ("_pieces", "high", "low", "subject", "unit")

    def __init__(self, subject: str, unit: str, low: float, pieces: Sequence[Piece]) -> None:
        self.subject = subject
        self.unit = unit
        self.low = low
        self.high = pieces[-1].high
        self._pieces = tuple(pieces)

    def at(self, celsius: float) -> float:
        """Value at a temperature in degC. Raises NotCovered."""
        self._check(celsius)
        for piece in self._pieces:
            if celsius < piece.high:
                return piece.value(celsius)
        return self._pieces[-1].value(celsius)

    def between(self, start: float, end: float) -> float:
        """Integral over temperature from `start` to `end` degC, in unit times K.

        Negative when `end` is below `start`. Raises NotCovered.
        """
        self._check(start)
        self._check(end)
        if end < start:
            return -self.between(end, start)
        total, low = 0.0, start
        for piece in self._pieces:
            if low < piece.high:
                high = min(end, piece.high)
                total += piece.integral(high) - piece.integral(low)
                low = high
            if low >= end:
                break
        return total

    def _check(self, celsius: float) -> None:
        if not self.low - _ROUNDING <= celsius <= self.high + _ROUNDING:
            subject = f"temperature for the {self.subject}"
            raise NotCovered(subject, celsius, self.low, self.high, "degC")


def polynomial(high: float, *coefficients: float) -> Piece:
    """A branch in powers of temperature, lowest power first."""
    raised = (0.0, *(c / (power + 1) for power, c in enumerate(coefficients)))
    return Piece(high, lambda celsius: _horner(coefficients, celsius),
                 lambda celsius: _horner(raised, celsius))  # fmt: skip


def table(subject: str, unit: str, points: Sequence[tuple[float, float]]) -> Curve:
    """Straight lines between points (degC, value), in order of temperature."""
    pieces = []
    for (low, first), (high, last) in pairwise(points):
        slope = (last - first) / (high - low)
        pieces.append(polynomial(high, first - slope * low, slope))
    return Curve(subject, unit, points[0][0], pieces)


def _horner(coefficients: tuple[float, ...], x: float) -> float:
    value = 0.0
    for coefficient in reversed(coefficients):
        value = value * x + coefficient
    return value
