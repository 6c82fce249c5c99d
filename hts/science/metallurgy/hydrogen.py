"""How much hydrogen leaves a wall: diffusivities, share left, time and recorded courses.

Diffusivity cm2/s, wall thickness mm, time h, temperature degC. A wall that starts with the same
hydrogen throughout, and whose free faces hold none. `dose` is the integral of D over time, cm2.
The time goes with the square of the thickness: rules in hours per inch do too little for heavy
walls. Trapping and alloying can slow hydrogen by decades, above all below 100 degC.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from math import ceil, erfc, exp, log, pi, sqrt
from typing import Literal

from hts.base.arguments import not_negative, positive, within
from hts.base.provenance import Origin

Place = Literal["mean", "deepest"]

LATTICE_ORIGIN = Origin("König and Lange", "alpha iron", "1975", "published", "medium")
MEASURED_ORIGIN = Origin("Coe and Moreton", "0.73 % C steel", "1969", "published", "high")
SLOW_ORIGIN = Origin("slow bound for 9Cr and quenched steels", "", "", "memory", "medium")
SERIES_ORIGIN = Origin("diffusion out of a plane sheet", "", "", "derived", "high")

# For 9Cr and quenched microstructures and CrMoV at 250 to 300 degC, cm2/s.
SLOW_BOUND = 1e-5
# degC the bound is given from. It is as good above, where hydrogen is quicker; not below.
SLOW_FROM = 250.0

_ZERO = 273.15
_HOUR = 3600.0

# degC, cm2/s: measured, trapping included
_MEASURED = (
    (44.0, 5.2e-8), (60.0, 2.0e-7), (155.0, 4.9e-5), (210.0, 6.2e-5), (250.0, 6.2e-5),
    (310.0, 5.1e-5), (350.0, 5.1e-5), (395.0, 7.5e-5), (650.0, 9.9e-5),
)  # fmt: skip

# degC up to which it is measured.
MEASURED_TO = _MEASURED[-1][0]

# Below this dose / L^2 what the far face adds is smaller than any number.
_NO_FAR_FACE = 3e-4
# Below this dose / L^2 the share left is taken from the solution for short times, which needs
# no more than two terms there; above it the series needs no more than eight.
_SHORT = 0.02
_TERMS = 8

# Below 100 degC figures for the same steel spread over two to four decades: not counted.
COUNTED_FROM = 100.0
_STEP = 1.0  # K


def lattice_diffusivity(celsius: float) -> float:
    """alpha iron without trapping, cm2/s: log10 D = -3.67 - 1438 / (4.575 T).

    An upper bound for real steel. Raises NotCovered outside 25 to 300 degC.
    """
    within("temperature", celsius, 25.0, 300.0, "degC")
    return float(10.0 ** (-3.67 - 1438.0 / (4.575 * (celsius + _ZERO))))


def measured_diffusivity(celsius: float) -> float:
    """A 0.73 % C steel with its trapping, cm2/s; log D linear in 1/T between measured points.

    Raises NotCovered outside 44 to 650 degC.
    """
    within("temperature", celsius, _MEASURED[0][0], _MEASURED[-1][0], "degC")
    k = next(k for k in range(1, len(_MEASURED)) if celsius <= _MEASURED[k][0])
    (cold, slow), (hot, fast) = _MEASURED[k - 1], _MEASURED[k]
    near, far, here = (1.0 / (t + _ZERO) for t in (cold, hot, celsius))
    return slow * exp(log(fast / slow) * (here - near) / (far - near))


def share_left(
    dose: float, thickness_mm: float, *, faces: Literal[1, 2] = 2, place: Place = "mean"
) -> float:
    """Share of the hydrogen left, 1 to 0, after a dose of `dose` cm2 (D times time).

    "mean" is over the wall; "deepest" is where most stays: the middle with both faces free, the
    closed face with one (cladding, or a bore that lets nothing out).
    """
    not_negative(dose=dose)
    scaled = dose / _path(thickness_mm, faces) ** 2
    return _mean(scaled) if place == "mean" else _middle(scaled)


def dose_for(
    left: float, thickness_mm: float, *, faces: Literal[1, 2] = 2, place: Place = "mean"
) -> float:
    """Dose, cm2, after which the share `left` remains; inverse of share_left."""
    if not 0.0 < left < 1.0:
        raise ValueError(f"the share left must lie between 0 and 1, not {left!r}")
    share = _mean if place == "mean" else _middle
    low, high = 0.0, 1.0
    while share(high) > left:
        high *= 2.0
    for _ in range(60):
        middle = (low + high) / 2.0
        if share(middle) > left:
            low = middle
        else:
            high = middle
    return high * _path(thickness_mm, faces) ** 2


def hours_for(
    left: float,
    thickness_mm: float,
    diffusivity: float,
    *,
    faces: Literal[1, 2] = 2,
    place: Place = "mean",
) -> float:
    """Hours at one temperature until the share `left` remains."""
    positive(diffusivity=diffusivity)
    return dose_for(left, thickness_mm, faces=faces, place=place) / diffusivity / _HOUR


def dose_of(
    course: Iterable[tuple[float, float]],
    diffusivity: Callable[[float], float] = measured_diffusivity,
    *,
    counted_from: float = COUNTED_FROM,
) -> float:
    """Dose, cm2, of a course (hours, degC), straight between its points.

    Time below `counted_from` degC counts nothing, which is on the safe side. Raises ValueError
    when time goes back, and what `diffusivity` raises outside its range.
    """
    total, previous = 0.0, None
    for point in course:
        if previous is not None:
            total += _piece(previous, point, diffusivity, counted_from)
        previous = point
    return total


def _piece(
    begin: tuple[float, float],
    end: tuple[float, float],
    diffusivity: Callable[[float], float],
    counted_from: float,
) -> float:
    """Integral over one straight piece, cut where counting begins: midpoints of short steps."""
    duration, rise = end[0] - begin[0], end[1] - begin[1]
    if not duration >= 0.0:
        raise ValueError(f"time goes back: {end[0]!r} h after {begin[0]!r} h")
    low, high = sorted((begin[1], end[1]))
    if duration == 0.0 or high < counted_from:
        return 0.0
    bottom = max(low, counted_from)
    counted = duration * (high - bottom) / (high - low) if rise else duration
    steps = max(1, ceil((high - bottom) / _STEP))
    width = (high - bottom) / steps
    mean = sum(diffusivity(bottom + (k + 0.5) * width) for k in range(steps)) / steps
    return mean * counted * _HOUR


def _path(thickness_mm: float, faces: int) -> float:
    """Thickness, cm, of the wall free on both faces that empties alike."""
    positive(thickness=thickness_mm)
    if faces not in (1, 2):
        raise ValueError(f"one or two faces can be free, not {faces!r}")
    return thickness_mm / 10.0 * (2.0 if faces == 1 else 1.0)


def _mean(x: float) -> float:
    """(8/pi^2) sum (2n+1)^-2 exp(-(2n+1)^2 pi^2 x), x = dose / L^2."""
    if x < _SHORT:
        return 1.0 - 4.0 * sqrt(x / pi) + 8.0 * sqrt(x) * _ierfc(x)
    return 8.0 / pi**2 * sum(exp(-((m * pi) ** 2) * x) / m**2 for m in range(1, 2 * _TERMS, 2))


def _middle(x: float) -> float:
    """(4/pi) sum (-1)^n (2n+1)^-1 exp(-(2n+1)^2 pi^2 x), x = dose / L^2."""
    if x < _SHORT:
        if x == 0.0:
            return 1.0
        return 1.0 - 2.0 * (erfc(0.25 / sqrt(x)) - erfc(0.75 / sqrt(x)))
    total, sign = 0.0, 1.0
    for m in range(1, 2 * _TERMS, 2):
        total += sign / m * exp(-((m * pi) ** 2) * x)
        sign = -sign
    return 4.0 / pi * total


def _ierfc(x: float) -> float:
    """Integral of erfc from 1 / (2 sqrt x) on: what the far face adds at short times."""
    if x < _NO_FAR_FACE:
        return 0.0
    depth = 0.5 / sqrt(x)
    return exp(-(depth**2)) / sqrt(pi) - depth * erfc(depth)
