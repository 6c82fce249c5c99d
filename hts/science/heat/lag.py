"""How far the far side of a wall is behind while one side is heated at a steady rate.

The heated side follows the ramp, the other side loses no heat, properties are constant. Loss at
the far side makes the difference larger: these figures are the least there can be.
Lengths m, diffusivity m2/s, rate K/h (negative for cooling), times s, temperature differences K.
"""

from __future__ import annotations

from math import exp, log, pi

from hts.base.arguments import not_negative, positive
from hts.base.provenance import Origin

# Solutions of the heat conduction equation in Carslaw and Jaeger's textbook; recomputed.
ORIGIN = Origin("Carslaw and Jaeger, Conduction of Heat in Solids", "slab and cylinder",
                "", "memory", "high")  # fmt: skip

_HOUR = 3600.0
_SMALL = 1e-17
# Below this Fourier number less than 1e-100 of the ramp has reached the far side.
_UNFELT = 1e-3


def plate_lag(thickness: float, diffusivity: float, rate_k_per_h: float) -> float:
    """Difference across a plate once the ramp is established: R t^2 / (2 a)."""
    positive(thickness=thickness, diffusivity=diffusivity)
    return rate_k_per_h / _HOUR * thickness**2 / (2.0 * diffusivity)


def cylinder_lag(
    inner_radius: float, outer_radius: float, diffusivity: float, rate_k_per_h: float
) -> float:
    """Difference across a pipe wall heated outside, bore insulated, ramp established.

    R/(4a) (ro^2 - ri^2) - R ri^2/(2a) ln(ro/ri); less than a plate of the same wall.
    """
    positive(inner_radius=inner_radius, diffusivity=diffusivity,
             wall=outer_radius - inner_radius)  # fmt: skip
    rate = rate_k_per_h / _HOUR
    area = outer_radius**2 - inner_radius**2
    logarithm = log(outer_radius / inner_radius)
    return rate / (4.0 * diffusivity) * (area - 2.0 * inner_radius**2 * logarithm)


def time_constant(thickness: float, diffusivity: float) -> float:
    """Time in which the lag comes within 1/e of its final value: t^2 / (a (pi/2)^2)."""
    positive(thickness=thickness, diffusivity=diffusivity)
    return thickness**2 / (diffusivity * (pi / 2.0) ** 2)


def time_lag(thickness: float, diffusivity: float) -> float:
    """Time, at any steady rate, by which the far side of a plate is behind: t^2 / (2 a)."""
    positive(thickness=thickness, diffusivity=diffusivity)
    return thickness**2 / (2.0 * diffusivity)


def far_side_rise(
    thickness: float, diffusivity: float, rate_k_per_h: float, seconds: float
) -> float:
    """Rise of the far side of a plate, K, `seconds` after the ramp began from uniform."""
    not_negative(seconds=seconds)
    behind = time_lag(thickness, diffusivity)
    fourier = diffusivity * seconds / thickness**2
    if fourier < _UNFELT:
        return 0.0
    series, sign, root = 0.0, 1.0, pi / 2.0
    while True:
        term = sign * exp(-(root**2) * fourier) / root**3
        series += term
        if abs(term) < _SMALL:
            break
        sign, root = -sign, root + pi
    # Early on this is a small difference of large numbers: rounding must not turn its sign.
    return rate_k_per_h / _HOUR * max(0.0, seconds - behind * (1.0 - 4.0 * series))
