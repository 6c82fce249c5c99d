"""Refusing numbers a formula has no meaning for."""

from __future__ import annotations

from math import isfinite


class NotCovered(ValueError):
    """A value outside what a formula or table is given for.

    `low` and `high` are in `unit`, ends included; None where that side is open.
    """

    def __init__(
        self, subject: str, value: float, low: float | None, high: float | None, unit: str
    ) -> None:
        self.subject = subject
        self.value = value
        self.low = low
        self.high = high
        self.unit = unit
        bounds = [
            f"{word} {bound:g} {unit}".rstrip()
            for word, bound in (("from", low), ("to", high))
            if bound is not None
        ]
        super().__init__(f"{subject} is {value:g} {unit}: given {' '.join(bounds)} only")


def positive(**values: float) -> None:
    """Raise ValueError unless every value is a finite number above zero."""
    for name, value in values.items():
        if not (isfinite(value) and value > 0):
            raise ValueError(f"{_words(name)} must be above zero, not {value!r}")


def not_negative(**values: float) -> None:
    """Raise ValueError unless every value is a finite number, zero or above."""
    for name, value in values.items():
        if not (isfinite(value) and value >= 0):
            raise ValueError(f"{_words(name)} must not be negative, not {value!r}")


def within(subject: str, value: float, low: float | None, high: float | None, unit: str) -> None:
    """Raise NotCovered unless `value` lies between `low` and `high`, ends included."""
    if (low is not None and not value >= low) or (high is not None and not value <= high):
        raise NotCovered(subject, value, low, high, unit)


def _words(name: str) -> str:
    return name.replace("_", " ")
