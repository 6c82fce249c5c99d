"""Power a heating zone needs: heat stored while heating, and losses, at one temperature.

An estimate to size heaters by, not a simulation: see `ASSUMPTIONS`, which belongs on any paper
that shows the figure. SI units, temperatures degC, rate K/h.
"""

from __future__ import annotations

from math import pi
from typing import NamedTuple

from hts.base.arguments import not_negative, positive
from hts.base.provenance import Origin
from hts.science.heat.conduction import fin_parameter
from hts.science.heat.losses import insulated_pipe
from hts.science.heat.properties import CARBON_STEEL, Material, blanket_conductivity

ORIGIN = Origin("heat balance of the zone", "", "", "derived", "medium")

ASSUMPTIONS = (
    "the whole heated band is at the stated temperature, through the wall and round the pipe",
    "losses are those at the stated temperature: the most demanding moment of heating",
    "each side of the band is a long pipe that cools as a fin with constant coefficients",
    "the blanket is whole and dry, its outside in still air",
    "the bore loses heat by one coefficient; draught through an open bore is not included",
    "a zone takes the share of the whole ring that its arc covers",
    "conductivity of steel and blanket may differ by 10 to 20 % from the figures used",
    "no reserve is included for heater efficiency, supply voltage or wind",
)


class Band(NamedTuple):
    """The heated ring: lengths m; blanket over the band; coefficients W/(m2 K)."""

    outer_diameter: float
    wall: float
    width: float
    blanket: float
    bore_h: float = 0.0
    beyond_h: float = 10.0  # outside of the pipe next to the band, of its bare area
    material: Material = CARBON_STEEL
    ambient: float = 20.0

    @property
    def inner_radius(self) -> float:
        return self.outer_diameter / 2.0 - self.wall

    @property
    def metal_area(self) -> float:
        """Area of the cross-section of the pipe wall, m2."""
        return pi * self.wall * (self.outer_diameter - self.wall)

    @property
    def mass(self) -> float:
        """Mass of the metal in the band, kg."""
        return self.metal_area * self.width * self.material.density


class ZonePower(NamedTuple):
    """Parts of the power of one zone, W, and the flux over its outside, W/m2."""

    stored: float
    blanket: float
    axial: float
    bore: float
    flux: float

    @property
    def total(self) -> float:
        """All parts together, W."""
        return self.stored + self.blanket + self.axial + self.bore


def zone_power(
    band: Band, celsius: float, rate_k_per_h: float, *, arc_degrees: float = 360.0
) -> ZonePower:
    """Power at `celsius` while heating at `rate_k_per_h` (0 while holding) for an arc of the ring.

    Raises ValueError for input without meaning, NotCovered when the properties of the metal or
    the blanket are not known at the temperature.
    """
    positive(width=band.width, wall=band.wall, inner_radius=band.inner_radius)
    not_negative(rate_k_per_h=rate_k_per_h)
    if not 0.0 < arc_degrees <= 360.0:
        raise ValueError(f"an arc is above 0 and at most 360 degrees, not {arc_degrees!r}")
    excess = celsius - band.ambient
    conductivity = band.material.conductivity.at(celsius)
    outer_radius = band.outer_diameter / 2.0
    parameter = fin_parameter(
        band.inner_radius, outer_radius, conductivity, band.bore_h, band.beyond_h
    )
    through_blanket = insulated_pipe(
        band.outer_diameter,
        celsius,
        thickness=band.blanket,
        conductivity=blanket_conductivity,
        ambient=band.ambient,
    )
    share = arc_degrees / 360.0
    stored = band.mass * band.material.specific_heat.at(celsius) * rate_k_per_h / 3600.0
    blanket = through_blanket.watts_per_metre * band.width
    axial = 2.0 * conductivity * band.metal_area * parameter * excess
    bore = band.bore_h * 2.0 * pi * band.inner_radius * band.width * excess
    surface = pi * band.outer_diameter * band.width
    flux = (stored + blanket + axial + bore) / surface
    return ZonePower(stored * share, blanket * share, axial * share, bore * share, flux)


def stored_energy(band: Band, start: float, end: float) -> float:
    """Heat to bring the metal of the band from `start` to `end` degC, J. Raises NotCovered."""
    return band.mass * band.material.heat(start, end)
