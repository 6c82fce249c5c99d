"""Elastic stresses of temperature differences, MPa, tension positive.

Modulus MPa, expansion 1/K, differences K, lengths m. Real stresses at heat-treatment
temperatures are lower, because the metal yields and creeps.
"""

from __future__ import annotations

from math import sqrt
from typing import NamedTuple

from hts.base.arguments import not_negative, positive
from hts.base.provenance import Origin

THROUGH_WALL_ORIGIN = Origin("Timoshenko and Goodier, Theory of Elasticity",
                             "thermal stress", "", "memory", "high")  # fmt: skip
AXIAL_ORIGIN = Origin("thin cylindrical shell theory", "", "", "derived", "high")
POISSON = 0.3


class Faces(NamedTuple):
    """Stress at the hotter and at the colder face, MPa."""

    hot: float
    cold: float


class Kink(NamedTuple):
    """Stresses where an axial gradient changes: hoop membrane and axial bending, MPa."""

    hoop: float
    bending: float


def restrained(modulus: float, expansion: float, difference: float) -> float:
    """A bar heated by `difference` and held at its ends: -E a dT."""
    positive(modulus=modulus, expansion=expansion)
    return -modulus * expansion * difference


def restrained_both_ways(
    modulus: float, expansion: float, difference: float, poisson: float = POISSON
) -> float:
    """A plate heated by `difference` and held in both directions: -E a dT / (1 - v)."""
    _check_poisson(poisson)
    return restrained(modulus, expansion, difference) / (1.0 - poisson)


def linear_through_wall(
    modulus: float, expansion: float, difference: float, poisson: float = POISSON
) -> Faces:
    """Wall kept from bending, steady straight-line difference: -+ E a dT / (2 (1 - v))."""
    not_negative(difference=difference)
    full = restrained_both_ways(modulus, expansion, difference, poisson)
    return Faces(full / 2.0, -full / 2.0)


def ramp_through_wall(
    modulus: float, expansion: float, difference: float, poisson: float = POISSON
) -> Faces:
    """Wall heated on one face at a steady rate, where the difference is a parabola.

    Hot face -2/3, cold face +1/3 of E a dT / (1 - v); dT is the lag (see hts.science.heat.lag).
    """
    not_negative(difference=difference)
    full = restrained_both_ways(modulus, expansion, difference, poisson)
    return Faces(full * 2.0 / 3.0, -full / 3.0)


def gradient_change(
    modulus: float,
    expansion: float,
    slope_change: float,
    *,
    radius: float,
    wall: float,
    poisson: float = POISSON,
) -> Kink:
    """Stresses in a long thin pipe where the axial gradient changes by `slope_change`, K/m.

    A straight gradient gives no stress, a change of it does. `radius` is that of the middle of
    the wall, m. Hoop E a s / (4 b), bending E t a s R b / (4 (1 - v^2)),
    b = [3 (1 - v^2)]^(1/4) / sqrt(R t). Sizes only: the sign depends on which way it bends.
    """
    positive(modulus=modulus, expansion=expansion, radius=radius, wall=wall)
    _check_poisson(poisson)
    stiff = 1.0 - poisson**2
    beta = (3.0 * stiff) ** 0.25 / sqrt(radius * wall)
    thermal = modulus * expansion * abs(slope_change)
    return Kink(thermal / (4.0 * beta), thermal * wall * radius * beta / (4.0 * stiff))


def _check_poisson(poisson: float) -> None:
    if not 0.0 <= poisson < 0.5:
        raise ValueError(f"Poisson's ratio must lie from 0 to below 0.5, not {poisson!r}")
