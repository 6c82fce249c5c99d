"""Heat lost from surfaces and through insulation. SI units; temperatures degC."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache
from math import log, pi, sqrt
from typing import NamedTuple

from hts.base.arguments import not_negative, positive, within
from hts.base.provenance import Origin

STEFAN_BOLTZMANN = 5.670374419e-8  # W/(m2 K4), CODATA 2018
_ZERO = 273.15
_GRAVITY = 9.80665

EMISSIVITY_OXIDISED_STEEL = 0.85
EMISSIVITY_BLANKET = 0.9
EMISSIVITY_ORIGIN = Origin("handbooks", "", "", "memory", "high")
CONVECTION_ORIGIN = Origin("Churchill and Chu", "horizontal cylinder", "1975", "memory", "high")


class PipeLoss(NamedTuple):
    """Loss per metre of pipe, W/m, and the temperature of the blanket's outside, degC."""

    watts_per_metre: float
    surface: float


def radiation(emissivity: float, surface: float, surroundings: float) -> float:
    """Flux, W/m2, from a surface to large surroundings: e s (Ts^4 - Ta^4)."""
    if not 0.0 <= emissivity <= 1.0:
        raise ValueError(f"emissivity must lie between 0 and 1, not {emissivity!r}")
    hot, cold = _kelvin(surface), _kelvin(surroundings)
    return emissivity * STEFAN_BOLTZMANN * (hot**4 - cold**4)


def cylinder_nusselt(rayleigh: float, prandtl: float) -> float:
    """Mean Nusselt number of a horizontal cylinder in still fluid. Raises NotCovered.

    Churchill and Chu 1975, on the diameter; Rayleigh number up to 1e12.
    """
    not_negative(rayleigh=rayleigh)
    positive(prandtl=prandtl)
    within("Rayleigh number", rayleigh, None, 1e12, "")
    shape = pow(1.0 + pow(0.559 / prandtl, 9.0 / 16.0), 8.0 / 27.0)
    return float((0.60 + 0.387 * pow(rayleigh, 1.0 / 6.0) / shape) ** 2)


def natural_convection(diameter: float, surface: float, ambient: float) -> float:
    """Coefficient, W/(m2 K), of a horizontal cylinder in still air at sea level.

    Air as an ideal gas at the film temperature, with Sutherland's formulas for viscosity and
    conductivity (from memory, about 2 % to 800 degC). Raises NotCovered.
    """
    positive(diameter=diameter)
    film = (_kelvin(surface) + _kelvin(ambient)) / 2.0
    viscosity = 1.458e-6 * film * sqrt(film) / (film + 110.4)
    conductivity = 2.334e-3 * film * sqrt(film) / (film + 164.54)
    density = 101325.0 / (287.05 * film)
    prandtl = viscosity * _air_heat(film) / conductivity
    grashof = _GRAVITY * abs(surface - ambient) / film * diameter**3 * (density / viscosity) ** 2
    return cylinder_nusselt(grashof * prandtl, prandtl) * conductivity / diameter


def layered_cylinder(
    inside: float,
    outside: float,
    *,
    inner_diameter: float,
    inside_h: float,
    outside_h: float,
    layers: Sequence[tuple[float, float]],
) -> float:
    """Steady loss, W/m, through layers (thickness m, conductivity W/(m K)) from inside out."""
    positive(inner_diameter=inner_diameter, inside_h=inside_h, outside_h=outside_h)
    radius = inner_diameter / 2.0
    resistance = 1.0 / (inside_h * radius)
    for thickness, conductivity in layers:
        positive(thickness=thickness, conductivity=conductivity)
        resistance += log((radius + thickness) / radius) / conductivity
        radius += thickness
    resistance += 1.0 / (outside_h * radius)
    return 2.0 * pi * (inside - outside) / resistance


@lru_cache(maxsize=4096)
def insulated_pipe(
    diameter: float,
    celsius: float,
    *,
    thickness: float,
    conductivity: Callable[[float], float],
    ambient: float,
    emissivity: float = EMISSIVITY_BLANKET,
) -> PipeLoss:
    """Loss of a horizontal pipe of outside `diameter` at `celsius` under a blanket in still air.

    `conductivity` gives that of the blanket, W/(m K), at its mean temperature, degC. The
    outside of the blanket is where conduction to it equals radiation and natural convection.
    """
    positive(diameter=diameter, thickness=thickness)
    if not celsius > ambient:
        raise ValueError("the pipe must be hotter than its surroundings")
    outer = diameter + 2.0 * thickness
    logarithm = log(outer / diameter)

    def through(surface: float) -> float:
        return 2.0 * pi * conductivity((celsius + surface) / 2.0) * (celsius - surface) / logarithm

    def away(surface: float) -> float:
        convected = natural_convection(outer, surface, ambient) * (surface - ambient)
        return pi * outer * (convected + radiation(emissivity, surface, ambient))

    low, high = ambient, celsius
    for _ in range(50):
        surface = (low + high) / 2.0
        if away(surface) < through(surface):
            low = surface
        else:
            high = surface
    return PipeLoss(away(surface), surface)


def _kelvin(celsius: float) -> float:
    if not celsius > -_ZERO:
        raise ValueError(f"{celsius!r} degC is not above absolute zero")
    return celsius + _ZERO


def _air_heat(kelvin: float) -> float:
    """Specific heat of air, J/(kg K), from memory: 1007 at 300 K rising to 1121 at 900 K."""
    return 1007.0 + 0.19 * max(0.0, kelvin - 300.0)
