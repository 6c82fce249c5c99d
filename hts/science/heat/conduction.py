"""Exact solutions of heat conduction: to check a solver with, and for quick estimates.

Temperatures are shares of the first difference: 1 at the start, 0 when all is at the
surroundings' temperature. Bi = h L / k, Fo = a t / L^2, with L the half-thickness of a plate
heated on both sides, the thickness of one heated on one side, the radius of a cylinder.
Source: Incropera, Fundamentals of Heat and Mass Transfer, transient conduction; Carslaw and
Jaeger, Conduction of Heat in Solids (both from memory, recomputed).
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from itertools import count
from math import cos, erfc, exp, log, pi, sin, sqrt

from hts.base.arguments import not_negative, positive

_NEGLIGIBLE = 1e-16


def plane_wall(place: float, biot: float, fourier: float) -> float:
    """Plate: `place` 0 at the middle (or insulated face), 1 at the surface. Fo above 0.0005."""
    _check(place, biot, fourier)
    total = 0.0
    for n in count():
        root = _wall_root(biot, n)
        decay = exp(-(root**2) * fourier)
        if decay < _NEGLIGIBLE:
            break
        total += 4.0 * sin(root) / (2.0 * root + sin(2.0 * root)) * decay * cos(root * place)
    return total


def long_cylinder(place: float, biot: float, fourier: float) -> float:
    """Solid cylinder: `place` 0 on the axis, 1 at the surface. Fo above 0.0005."""
    _check(place, biot, fourier)
    total = 0.0
    for n in count():
        root = _cylinder_root(biot, n)
        decay = exp(-(root**2) * fourier)
        if decay < _NEGLIGIBLE:
            break
        j0, j1 = _bessel(0, root), _bessel(1, root)
        total += 2.0 * j1 / (root * (j0**2 + j1**2)) * decay * _bessel(0, root * place)
    return total


def semi_infinite_step(depth: float, seconds: float, diffusivity: float) -> float:
    """Share of a sudden rise of the surface that is felt at `depth` m: erfc(x / 2 sqrt(a t))."""
    not_negative(depth=depth)
    positive(seconds=seconds, diffusivity=diffusivity)
    return erfc(depth / (2.0 * sqrt(diffusivity * seconds)))


def semi_infinite_flux(
    depth: float, seconds: float, diffusivity: float, conductivity: float, flux: float
) -> float:
    """Rise, K, at `depth` m under a constant surface flux, W/m2."""
    not_negative(depth=depth)
    positive(seconds=seconds, diffusivity=diffusivity, conductivity=conductivity)
    spread = diffusivity * seconds
    return (
        flux
        / conductivity
        * (
            2.0 * sqrt(spread / pi) * exp(-(depth**2) / (4.0 * spread))
            - depth * erfc(depth / (2.0 * sqrt(spread)))
        )
    )


def fin_parameter(
    inner_radius: float,
    outer_radius: float,
    conductivity: float,
    inside_h: float,
    outside_h: float,
) -> float:
    """m, 1/m, of a pipe beyond the heated band: T - Ta falls as exp(-m z).

    m^2 = 2 (ho ro + hi ri) / (k (ro^2 - ri^2)). The wall is taken as one temperature through
    its thickness, coefficients as constant along the pipe.
    """
    not_negative(inner_radius=inner_radius, inside_h=inside_h, outside_h=outside_h)
    positive(conductivity=conductivity, wall=outer_radius - inner_radius)
    loss = outside_h * outer_radius + inside_h * inner_radius
    return sqrt(2.0 * loss / (conductivity * (outer_radius**2 - inner_radius**2)))


def half_distance(parameter: float) -> float:
    """Distance, m, over which the excess temperature beyond the band halves: ln 2 / m."""
    positive(parameter=parameter)
    return log(2.0) / parameter


def _check(place: float, biot: float, fourier: float) -> None:
    positive(biot=biot)
    if not 0.0 <= place <= 1.0:
        raise ValueError(f"place must lie between 0 and 1, not {place!r}")
    if not fourier >= 5e-4:
        raise ValueError(f"the series is for Fo from 0.0005, not {fourier!r}")


@lru_cache(maxsize=512)
def _wall_root(biot: float, n: int) -> float:
    """The root of x tan x = Bi in (n pi, n pi + pi/2)."""
    return _root(lambda x: x * sin(x) - biot * cos(x), n * pi, n * pi + pi / 2.0)


@lru_cache(maxsize=512)
def _cylinder_root(biot: float, n: int) -> float:
    """The root of x J1(x) = Bi J0(x) between the nth zero of J1 (first: 0) and the next of J0.

    Those zeros lie within 0.1 of the first term of McMahon's expansion.
    """
    low = 0.0
    if n:
        low = _root(lambda x: _bessel(1, x), (n + 0.25) * pi - 0.15, (n + 0.25) * pi + 0.01)
    high = _root(lambda x: _bessel(0, x), (n + 0.75) * pi - 0.01, (n + 0.75) * pi + 0.15)
    return _root(lambda x: x * _bessel(1, x) - biot * _bessel(0, x), low, high)


def _root(function: Callable[[float], float], low: float, high: float) -> float:
    """The one place between `low` and `high` where `function` changes sign, by halving."""
    rising = function(high) > 0.0
    for _ in range(60):
        middle = (low + high) / 2.0
        if (function(middle) > 0.0) == rising:
            high = middle
        else:
            low = middle
    return (low + high) / 2.0


def _bessel(order: int, x: float) -> float:
    """J of whole `order`: mean over the half circle of cos(order u - x sin u).

    The rectangle rule on a periodic integrand is exact to rounding once the points outnumber x.
    """
    points = 32 + int(x)
    step = pi / points
    angles = ((k + 0.5) * step for k in range(points))
    return sum(cos(order * angle - x * sin(angle)) for angle in angles) / points
