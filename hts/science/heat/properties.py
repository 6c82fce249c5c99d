"""Thermal properties of steels and of ceramic fibre blanket.

Conductivity W/(m K), specific heat J/(kg K), elongation m/m from 20 degC, density kg/m3.
Enthalpy is the exact integral of the specific heat: `material.heat(20, 620)` in J/kg.
"""

from __future__ import annotations

from math import log
from typing import NamedTuple

from hts.base.arguments import positive
from hts.base.provenance import Origin
from hts.science.heat.curve import Curve, Piece, polynomial, table

_K, _C, _E = "conductivity", "specific heat", "elongation"
_K_UNIT, _C_UNIT, _E_UNIT = "W/(m K)", "J/(kg K)", "m/m"


class Material(NamedTuple):
    """Properties of one material. `spread` is the half-width of what sources give for the
    conductivity, as a fraction of it; None where only one set is known.
    """

    name: str
    conductivity: Curve
    specific_heat: Curve
    density: float
    origin: Origin
    spread: float | None = None
    elongation: Curve | None = None
    note: str = ""

    def heat(self, start: float, end: float) -> float:
        """Heat to bring 1 kg from `start` to `end` degC, J/kg. Raises NotCovered."""
        return self.specific_heat.between(start, end)

    def diffusivity(self, celsius: float) -> float:
        """Conductivity / (density x specific heat), m2/s. Raises NotCovered."""
        return self.conductivity.at(celsius) / (self.density * self.specific_heat.at(celsius))


def constant(conductivity: float, specific_heat: float, density: float) -> Material:
    """A material whose properties do not change, from -273.15 to 2000 degC."""
    positive(conductivity=conductivity, specific_heat=specific_heat, density=density)
    return Material(
        "constant properties",
        Curve(_K, _K_UNIT, -273.15, [polynomial(2000.0, conductivity)]),
        Curve(_C, _C_UNIT, -273.15, [polynomial(2000.0, specific_heat)]),
        density,
        Origin("", "given by the caller", "", "derived", "high"),
    )


# EN 1993-1-2:2005 3.4. The ranges, the elongation and the first branch of the specific heat are
# published; the other branches are from memory, so the whole is marked memory.
CARBON_STEEL = Material(
    "carbon steel",
    Curve(_K, _K_UNIT, 20.0, [polynomial(800.0, 54.0, -3.33e-2), polynomial(1200.0, 27.3)]),
    Curve(
        _C,
        _C_UNIT,
        20.0,
        [
            polynomial(600.0, 425.0, 7.73e-1, -1.69e-3, 2.22e-6),
            Piece(735.0, lambda t: 666.0 + 13002.0 / (738.0 - t),
                  lambda t: 666.0 * t - 13002.0 * log(738.0 - t)),
            Piece(900.0, lambda t: 545.0 + 17820.0 / (t - 731.0),
                  lambda t: 545.0 * t + 17820.0 * log(t - 731.0)),
            polynomial(1200.0, 650.0),
        ],
    ),
    7850.0,
    Origin("EN 1993-1-2", "3.4", "2005", "memory", "high"),
    elongation=Curve(
        _E,
        _E_UNIT,
        20.0,
        [
            polynomial(750.0, -2.416e-4, 1.2e-5, 0.4e-8),
            polynomial(860.0, 1.1e-2),
            polynomial(1200.0, -6.2e-3, 2e-5),
        ],
    ),
    note="the peak of specific heat at 735 degC is the phase change of structural carbon steel: "
    "not for 9Cr at any temperature, nor for 2.25Cr near 735 to 760 degC",
)  # fmt: skip

# EN 1993-1-2:2005 Annex C; the density is the standard's convention, real ones are 7900 to 8000.
STAINLESS_STEEL = Material(
    "austenitic stainless steel",
    Curve(_K, _K_UNIT, 20.0, [polynomial(1200.0, 14.6, 1.27e-2)]),
    Curve(_C, _C_UNIT, 20.0, [polynomial(1200.0, 450.0, 0.280, -2.91e-4, 1.34e-7)]),
    7850.0,
    Origin("EN 1993-1-2", "Annex C", "2005", "memory", "high"),
    # (16 + 4.79e-3 t - 1.243e-6 t^2) (t - 20) 1e-6, multiplied out
    elongation=Curve(
        _E, _E_UNIT, 20.0,
        [polynomial(1200.0, -320e-6, 15.9042e-6, 4.81486e-9, -1.243e-12)],
    ),
)  # fmt: skip

# Tube handbook figures; conductivity sets for this steel differ by about 12 % either way.
CHROMIUM_9_STEEL = Material(
    "9Cr-1Mo-V steel",
    table(_K, _K_UNIT,
          [(20, 26), (100, 27), (200, 28), (300, 28), (400, 29), (500, 30), (600, 30)]),
    table(_C, _C_UNIT,
          [(20, 440), (100, 480), (200, 510), (300, 550), (400, 630), (500, 660), (600, 770)]),
    7700.0,
    Origin("tube handbook", "", "", "memory", "medium"),
    spread=0.12,
    note="no figures above 600 degC",
)  # fmt: skip

# Middles of the ranges that handbooks give; the conductivity differs by about 8 % either way.
CHROMIUM_2_STEEL = Material(
    "2.25Cr-1Mo steel",
    table(_K, _K_UNIT, [(20, 36.5), (200, 36.5), (400, 35), (500, 33.5), (600, 31.5), (700, 29.5)]),
    table(_C, _C_UNIT,
          [(20, 440), (100, 490), (200, 530), (300, 570), (400, 620), (500, 680), (600, 790)]),
    7850.0,
    Origin("handbooks", "", "", "memory", "medium"),
    spread=0.08,
    note="no specific heat above 600 degC; density as for carbon steel, common practice, no source",
)  # fmt: skip

# Ceramic fibre blanket of 128 kg/m3, middles of catalogue ranges at the mean temperature of the
# blanket. Laboratories disagree on such mats: use with 20 % either way.
BLANKET_SPREAD = 0.20
BLANKET_ORIGIN = Origin("catalogue values by ASTM C177 and C201", "", "", "memory", "medium")
_BLANKET = table("blanket conductivity", _K_UNIT,
                 [(200, 0.06), (400, 0.095), (600, 0.15), (800, 0.21), (1000, 0.29)])  # fmt: skip


def blanket_conductivity(mean_celsius: float) -> float:
    """Apparent conductivity, W/(m K), of 128 kg/m3 ceramic fibre blanket at its mean temperature.

    Below 200 degC the figure for 200 degC stands: it overstates the loss. Raises NotCovered
    above 1000 degC. Source: BLANKET_ORIGIN; spread: BLANKET_SPREAD.
    """
    return _BLANKET.at(max(mean_celsius, _BLANKET.low))
