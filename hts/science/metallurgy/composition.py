"""Formulas that are a sum over the chemical analysis, and how far an analysis fits them.

An analysis maps element symbols to mass %. An element that is not stated counts as zero in a
sum, and is named as missing: the reader decides whether the result can stand.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import isfinite
from typing import NamedTuple

from hts.base.provenance import Origin

Composition = Mapping[str, float]


class Bounds(NamedTuple):
    """A range with its ends included; None where that side is open."""

    low: float | None
    high: float | None
    unit: str = "%"


class Outside(NamedTuple):
    """An input that lies outside the range a formula is given for."""

    name: str
    value: float
    bounds: Bounds

    def __str__(self) -> str:
        low, high, unit = self.bounds
        if low is not None and self.value < low:
            return f"{self.name} {self.value:g} {unit} is below {low:g} {unit}"
        return f"{self.name} {self.value:g} {unit} is above {high:g} {unit}"


class Estimate(NamedTuple):
    """A result with the elements that were not stated and the inputs out of range."""

    value: float
    missing: tuple[str, ...]
    outside: tuple[Outside, ...]
    origin: Origin


class Formula(NamedTuple):
    """constant + sum of coefficient x mass %.

    `ranges` is where the formula is said to hold and `ranges_origin` who says so.
    """

    name: str
    constant: float
    coefficients: Mapping[str, float]
    origin: Origin
    ranges: Mapping[str, Bounds] = {}
    ranges_origin: Origin | None = None

    def __call__(self, composition: Composition) -> Estimate:
        """Evaluate. Raises ValueError for a mass % that is not between 0 and 100."""
        check(composition)
        value = self.constant + sum(
            coefficient * float(composition.get(element, 0.0))
            for element, coefficient in self.coefficients.items()
        )
        return Estimate(
            value,
            missing(composition, self.coefficients),
            outside(composition, self.ranges),
            self.origin,
        )


def check(composition: Composition) -> None:
    """Raise ValueError unless every content is a number from 0 to 100 %."""
    for element, content in composition.items():
        if not (isfinite(content) and 0.0 <= content <= 100.0):
            raise ValueError(f"content of {element} must lie between 0 and 100 %, not {content!r}")


def missing(composition: Composition, elements: Mapping[str, float]) -> tuple[str, ...]:
    """Elements a formula uses that the analysis does not state."""
    return tuple(element for element in elements if element not in composition)


def outside(values: Mapping[str, float], ranges: Mapping[str, Bounds]) -> tuple[Outside, ...]:
    """Stated values that lie outside their range."""
    found = []
    for name, bounds in ranges.items():
        value = values.get(name)
        if value is None:
            continue
        below = bounds.low is not None and value < bounds.low
        above = bounds.high is not None and value > bounds.high
        if below or above:
            found.append(Outside(name, float(value), bounds))
    return tuple(found)
