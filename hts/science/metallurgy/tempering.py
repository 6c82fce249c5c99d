"""Tempering: the Hollomon-Jaffe (Larson-Miller) parameter and times that are worth the same.

P = T (C + log10 t), T in kelvin, t in HOURS, C = 20 for low-alloy steel. Given as such, not
divided by 1000; temperatures in degC with 0 degC = 273.15 K (some papers take 273, which
shifts P by about 3). A parameter compares treatments of one steel; it is no property of it.

The parameter of several treatments together depends on the temperature at which they are added
up (by about 20 in 21300 between 675 and 730 degC), so that temperature is always stated.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil, isfinite, log, log10
from typing import NamedTuple

from hts.base.arguments import not_negative, positive, within
from hts.base.provenance import Origin

ORIGIN = Origin("Hollomon and Jaffe; Larson and Miller", "time-temperature parameter",
                "", "published", "high")  # fmt: skip
SUM_ORIGIN = Origin("API 934 task group", "meeting slides on repeated heat treatment",
                    "2011", "published", "high")  # fmt: skip
RAMP_ORIGIN = Origin("rule for the worth of heating and cooling", "", "", "published", "medium")
TRACE_ORIGIN = Origin("Hollomon-Jaffe parameter carried along in small steps", "", "",
                      "derived", "high")  # fmt: skip

LOW_ALLOY_CONSTANT = 20.0
_ZERO = 273.15

# Longest step of temperature, K, in which a trace is followed: the error of the worth of a ramp
# is then below 0.1 %.
_STEP = 1.0


class Total(NamedTuple):
    """Several treatments as one: hours at `reference` degC, and the parameter of that."""

    hours: float
    parameter: float
    reference: float


def parameter(celsius: float, hours: float, constant: float = LOW_ALLOY_CONSTANT) -> float:
    """P = T (C + log10 t). Raises ValueError unless the time is above zero."""
    positive(hours=hours)
    return _kelvin(celsius) * (constant + log10(hours))


def hours_at(celsius: float, parameter: float, constant: float = LOW_ALLOY_CONSTANT) -> float:
    """Hours at `celsius` that give `parameter`: 10^(P/T - C)."""
    return float(10.0 ** (parameter / _kelvin(celsius) - constant))


def equivalent_hours(
    celsius: float, hours: float, reference: float, constant: float = LOW_ALLOY_CONSTANT
) -> float:
    """Hours at `reference` degC that are worth `hours` at `celsius`; 0 for 0 hours."""
    not_negative(hours=hours)
    if hours == 0.0:
        return 0.0
    return hours_at(reference, parameter(celsius, hours, constant), constant)


def total(
    treatments: Iterable[tuple[float, float]],
    reference: float,
    constant: float = LOW_ALLOY_CONSTANT,
) -> Total:
    """Add up treatments (degC, hours) as hours at `reference` degC. Source: SUM_ORIGIN.

    Raises ValueError when no treatment has any time.
    """
    hours = sum(
        equivalent_hours(celsius, time, reference, constant) for celsius, time in treatments
    )
    return Total(hours, parameter(reference, hours, constant), reference)


def ramp_hours(celsius: float, rate_k_per_h: float) -> float:
    """Hours at the top temperature that heating to it or cooling from it counts as.

    T / (2.3 k (20 - log10 k)), k the constant rate in K/h, above 1; for C = 20. Source:
    RAMP_ORIGIN. It gives 8 to 10 % more than ramp_hours_followed. Raises NotCovered.
    """
    within("rate", rate_k_per_h, 1.0, 1e6, "K/h")
    return _kelvin(celsius) / (2.3 * rate_k_per_h * (20.0 - log10(rate_k_per_h)))


def ramp_hours_followed(
    celsius: float,
    rate_k_per_h: float,
    *,
    start: float = 20.0,
    constant: float = LOW_ALLOY_CONSTANT,
) -> float:
    """Hours at the top temperature that heating from `start` at a constant rate counts as.

    The parameter is carried along the ramp (see trace_parameter): consistent with P itself.
    """
    positive(rate=rate_k_per_h, rise=celsius - start)
    ramp = ((0.0, start), ((celsius - start) / rate_k_per_h, celsius))
    return hours_at(celsius, trace_parameter(ramp, constant), constant)


def trace_parameter(
    trace: Iterable[tuple[float, float]], constant: float = LOW_ALLOY_CONSTANT
) -> float:
    """Parameter of a recorded or planned course (hours, degC), straight between its points.

    As the temperature changes, the time so far is turned into the time at the new temperature
    that has the same P, and the time of the step is added. Recorded traces and programs with
    few points are followed alike. Source: TRACE_ORIGIN.
    Raises ValueError when time goes back, or when no time passes.
    """
    worth: float | None = None  # log10 of the hours so far at the present temperature
    previous: tuple[float, float] | None = None
    for point in trace:
        if previous is not None:
            worth = _follow(worth, previous, point, constant)
        previous = point
    if worth is None or previous is None:
        raise ValueError("a course needs at least two points and some time between them")
    return _kelvin(previous[1]) * (constant + worth)


def _follow(
    worth: float | None, begin: tuple[float, float], end: tuple[float, float], constant: float
) -> float | None:
    """Carry the worth along one straight piece, half of each step's time before and after."""
    duration, rise = end[0] - begin[0], end[1] - begin[1]
    if not (isfinite(duration) and duration >= 0.0):
        raise ValueError(f"time goes back: {end[0]!r} h after {begin[0]!r} h")
    low = _kelvin(begin[1])
    _kelvin(end[1])
    steps = max(1, ceil(abs(rise) / _STEP))
    half, step = duration / steps / 2.0, rise / steps
    for k in range(steps):
        here, there = low + k * step, low + (k + 1) * step
        worth = _plus(worth, half)
        if worth is not None:
            worth = here / there * (constant + worth) - constant
        worth = _plus(worth, half)
    return worth


def _plus(worth: float | None, hours: float) -> float | None:
    """log10(10^worth + hours) without leaving the range of numbers; None stands for no time."""
    if hours == 0.0:
        return worth
    added = log10(hours)
    if worth is None:
        return added
    high, low = max(worth, added), min(worth, added)
    return high + log(1.0 + 10.0 ** max(low - high, -300.0)) / log(10.0)


def _kelvin(celsius: float) -> float:
    if not (isfinite(celsius) and celsius > -_ZERO):
        raise ValueError(f"{celsius!r} degC is not above absolute zero")
    return celsius + _ZERO
