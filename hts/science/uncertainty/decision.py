"""Whether a reading shows that a limit is kept, given its uncertainty.

The rule must be agreed before the reading is taken. `u` is the standard uncertainty.
"""

from __future__ import annotations

from math import erf, inf, sqrt
from typing import Literal, NamedTuple

from hts.base.provenance import Origin
from hts.science.uncertainty.budget import COVERAGE, ONE_SIDED_95

Rule = Literal["simple", "guarded", "one-sided 95 %"]
Verdict = Literal["pass", "conditional pass", "conditional fail", "fail"]

SIMPLE_ORIGIN = Origin("ILAC-G8", "simple acceptance", "09/2019", "published", "high")
GUARDED_ORIGIN = Origin("ILAC-G8", "guarded acceptance", "09/2019", "published", "high")
ONE_SIDED_ORIGIN = Origin("ISO 14253-1", "", "2017", "memory", "medium")
PROBABILITY_ORIGIN = Origin("JCGM 106", "", "", "memory", "high")

# Guard band in standard uncertainties.
_WIDTHS: dict[Rule, float] = {
    "simple": 0.0,
    "guarded": COVERAGE,
    "one-sided 95 %": ONE_SIDED_95,
}


class Acceptance(NamedTuple):
    """Readings from `low` to `high` are accepted; minus or plus infinity on an open side."""

    low: float
    high: float

    @property
    def possible(self) -> bool:
        """False when the guard bands leave nothing between the limits."""
        return self.low <= self.high


def guard_band(rule: Rule, u: float) -> float:
    """Width w by which acceptance stays inside a limit: 0, 2 u or 1.645 u."""
    if rule not in _WIDTHS:
        raise ValueError(f"unknown decision rule {rule!r}; known: {', '.join(_WIDTHS)}")
    if not u >= 0.0:
        raise ValueError(f"an uncertainty must not be negative, not {u!r}")
    return _WIDTHS[rule] * u


def acceptance(low: float | None, high: float | None, width: float) -> Acceptance:
    """The limits drawn in by `width`; None is an open side."""
    _check(low, high)
    return Acceptance(-inf if low is None else low + width, inf if high is None else high - width)


def verdict(reading: float, low: float | None, high: float | None, width: float) -> Verdict:
    """The four statements of ILAC-G8: conditional where the reading is within `width` of a limit.

    With width 0 only pass and fail remain.
    """
    accepted = acceptance(low, high, width)
    if accepted.low <= reading <= accepted.high:
        return "pass"
    limits = acceptance(low, high, 0.0)
    if limits.low <= reading <= limits.high:
        return "conditional pass"
    if limits.low - width <= reading <= limits.high + width:
        return "conditional fail"
    return "fail"


def conformance_probability(
    reading: float, low: float | None, high: float | None, u: float
) -> float:
    """Probability that the true value lies within the limits, normal, nothing known before.

    With u = 0: 1 inside and on the limits, 0 outside.
    """
    _check(low, high)
    if not u >= 0.0:
        raise ValueError(f"an uncertainty must not be negative, not {u!r}")
    if u == 0.0:
        return 1.0 if verdict(reading, low, high, 0.0) == "pass" else 0.0
    above_low = 1.0 if low is None else _normal((reading - low) / u)
    above_high = 0.0 if high is None else _normal((reading - high) / u)
    return above_low - above_high


def _normal(z: float) -> float:
    """Share of a normal distribution below z standard deviations."""
    return 0.5 * (1.0 + erf(z / sqrt(2.0)))


def _check(low: float | None, high: float | None) -> None:
    if low is None and high is None:
        raise ValueError("at least one limit is needed")
    if low is not None and high is not None and low > high:
        raise ValueError(f"the lower limit {low!r} is above the upper {high!r}")
