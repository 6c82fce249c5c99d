"""Limits of error of thermocouple wire: IEC 60584-1 classes 1 to 3, ASTM E230 grades.

The figures hold for unused wire with its reference junction at 0 degC, do not cover drift in
use, and in ASTM E230 hold for 0.25 mm to 3 mm wire (30 to 8 AWG). Percentages are of the
Celsius value, never of a Fahrenheit one.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import Any, NamedTuple

from hts.base.provenance import Origin
from hts.science.thermocouples.errors import NotDefined, OutOfRange, UnknownName
from hts.science.thermocouples.facts import facts, origin
from hts.science.thermocouples.reference import require_type

CLASSES = {
    "IEC 60584-1": ("1", "2", "3"),
    "ASTM E230": ("standard", "special"),
}


class Tolerance(NamedTuple):
    """Limit of error, +/- `kelvin`; its rule holds from `low` to `high` degC, ends included."""

    kelvin: Fraction
    low: Fraction
    high: Fraction
    origin: Origin

    @property
    def fahrenheit_degrees(self) -> Fraction:
        """The same limit as a difference in degF: 1.8 times, at the same point (ASTM E230)."""
        return self.kelvin * Fraction(9, 5)


class _Rule(NamedTuple):
    low: Fraction
    high: Fraction
    floor: Fraction
    share: Fraction
    beyond: Fraction | None
    origin: Origin

    def kelvin(self, celsius: Fraction) -> Fraction:
        if self.beyond is not None:
            return self.floor + self.share * max(Fraction(0), celsius - self.beyond)
        return max(self.floor, self.share * abs(celsius))


def limit_of_error(standard: str, type: str, grade: str, celsius: Fraction | int) -> Tolerance:
    """Limit of error of a type and class ("1", "2", "3", "standard", "special") at `celsius`.

    Raises UnknownName for an unknown standard, class or type, NotDefined where the standard
    gives the type no such class, OutOfRange outside the range of its rule.
    """
    if standard not in CLASSES:
        raise UnknownName("tolerance standard", standard, CLASSES)
    if grade not in CLASSES[standard]:
        raise UnknownName(f"class of {standard}", grade, CLASSES[standard])
    require_type(type)
    rules = _rules().get((standard, type, grade))
    if rules is None:
        raise NotDefined(f"{standard} gives type {type} no class {grade}")
    value = Fraction(celsius)
    for rule in rules:
        if rule.low <= value <= rule.high:
            return Tolerance(rule.kelvin(value), rule.low, rule.high, rule.origin)
    low, high = min(rule.low for rule in rules), max(rule.high for rule in rules)
    raise OutOfRange(type, value, low, high, "degC", f"{standard} class {grade}")


@cache
def _rules() -> dict[tuple[str, str, str], list[_Rule]]:
    rules: dict[tuple[str, str, str], list[_Rule]] = {}
    for entry in facts("tolerances"):
        key = entry["standard"], entry["type"], entry["class"]
        rules.setdefault(key, []).append(_rule(entry))
    return rules


def _rule(entry: dict[str, Any]) -> _Rule:
    return _Rule(
        Fraction(entry["from"]),
        Fraction(entry["to"]),
        Fraction(entry["floor"]),
        Fraction(entry["share"]),
        Fraction(entry["beyond"]) if "beyond" in entry else None,
        origin(entry),
    )
