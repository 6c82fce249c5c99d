"""Uncertainty budget: independent terms, combined by the root of the sum of squares.

All values in one unit of temperature difference (K). Source: EA-4/02 (second-hand) for terms and
combination; JCGM 100 from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite, sqrt
from typing import NamedTuple

from hts.base.provenance import Origin

ORIGIN = Origin("EA-4/02", "", "", "published", "high")
COVERAGE = 2.0
# One-sided 95 % of a normal distribution.
ONE_SIDED_95 = 1.645


class Term(NamedTuple):
    """One source of error and its standard uncertainty."""

    name: str
    standard: float


class Budget(NamedTuple):
    """Terms that do not depend on one another."""

    terms: tuple[Term, ...]

    @property
    def standard(self) -> float:
        """Combined standard uncertainty u."""
        return sqrt(sum(term.standard**2 for term in self.terms))

    @property
    def expanded(self) -> float:
        """Expanded uncertainty U = 2 u, about 95 % on both sides together."""
        return COVERAGE * self.standard

    @property
    def one_sided(self) -> float:
        """1.645 u: 95 % on one side."""
        return ONE_SIDED_95 * self.standard


def budget(terms: Sequence[Term]) -> Budget:
    """A budget of the terms. Raises ValueError when there are none."""
    if not terms:
        raise ValueError("a budget needs at least one term")
    return Budget(tuple(terms))


def tolerance(name: str, half_width: float) -> Term:
    """A limit of error +/- a, any value in it as likely as any other: u = a / sqrt 3."""
    return Term(name, _checked(name, half_width) / sqrt(3.0))


def resolution(name: str, step: float) -> Term:
    """Rounding to the nearest `step` of a display or record: u = q / sqrt 12."""
    return Term(name, _checked(name, step) / sqrt(12.0))


def calibrated(name: str, expanded: float, coverage: float = COVERAGE) -> Term:
    """A calibration certificate's expanded uncertainty: u = U / k."""
    if not coverage > 0.0:
        raise ValueError(f"a coverage factor is above zero, not {coverage!r}")
    return Term(name, _checked(name, expanded) / coverage)


def _checked(name: str, value: float) -> float:
    if not (isfinite(value) and value >= 0.0):
        raise ValueError(f"{name}: an uncertainty must not be negative, not {value!r}")
    return value
