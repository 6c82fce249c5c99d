"""Thermal properties of steels up to the temperatures of a hold, with what they may be off by.

The tables of `hts.science.heat.properties` end at 600 degC for two families. No public source was
found for what is added here above that: it is from memory, of low confidence, and the spread is
widened for it.
"""

from __future__ import annotations

from typing import NamedTuple

from hts.base.provenance import Origin
from hts.science.heat import properties
from hts.science.heat.curve import Curve, table
from hts.science.heat.properties import Material

_K, _C = "W/(m K)", "J/(kg K)"


class Steel(NamedTuple):
    """A family of steel: its properties, and one standard deviation of them as a share.

    `beyond` is degC above which the figures are from memory with low confidence.
    """

    material: Material
    conductivity_spread: float
    heat_spread: float
    beyond: float
    note: str


def _conductivity(points: list[tuple[float, float]]) -> Curve:
    return table("conductivity", _K, points)


def _heat(points: list[tuple[float, float]]) -> Curve:
    return table("specific heat", _C, points)


_LOW = Origin("handbooks", "", "", "memory", "low")

_NINE = properties.CHROMIUM_9_STEEL._replace(
    conductivity=_conductivity(
        [(20, 26), (100, 27), (200, 28), (300, 28), (400, 29), (500, 30), (600, 30), (820, 30)]
    ),
    specific_heat=_heat(
        [(20, 440), (100, 480), (200, 510), (300, 550), (400, 630), (500, 660), (600, 770),
         (700, 860), (780, 950), (820, 995)]
    ),
    origin=_LOW,
)  # fmt: skip
_TWO_HEAT = [(20, 440), (100, 490), (200, 530), (300, 570), (400, 620), (500, 680), (600, 790),
             (700, 900), (760, 1000), (800, 1067)]  # fmt: skip
_TWO = properties.CHROMIUM_2_STEEL._replace(
    conductivity=_conductivity(
        [(20, 36.5), (200, 36.5), (400, 35), (500, 33.5), (600, 31.5), (700, 29.5), (800, 27.5)]
    ),
    specific_heat=_heat(_TWO_HEAT),  # type: ignore[arg-type]
    origin=_LOW,
)
#: Between carbon steel and 2.25Cr.
_ONE = _TWO._replace(
    name="1.25Cr-0.5Mo steel",
    conductivity=_conductivity(
        [(20, 44.9), (200, 41.9), (400, 37.8), (500, 35.4), (600, 32.8), (700, 30.1), (800, 27.4)]
    ),
)

_ABOVE = "above 600 °C from memory, low confidence: no public source was found"
#: By what the steel is called here.
STEELS = {
    "carbon": Steel(properties.CARBON_STEEL, 0.06, 0.03, 1200.0, "EN 1993-1-2, partly from memory"),
    "1.25Cr": Steel(_ONE, 0.10, 0.10, 20.0, f"between carbon and 2.25Cr steel, low; {_ABOVE}"),
    "2.25Cr": Steel(_TWO, 0.08, 0.10, 600.0, f"handbooks, from memory; {_ABOVE}"),
    "9Cr": Steel(_NINE, 0.12, 0.10, 600.0, f"tube handbook, from memory; {_ABOVE}"),
    # A fit for type 316 (Mills, as quoted by others) has up to 16 % more heat than the standard,
    # which has one curve for all grades; 5 % more at 400 degC, 12 % at 800 degC, 16 % at 1100 degC.
    "austenitic": Steel(
        properties.STAINLESS_STEEL,
        0.10,
        0.16,
        1200.0,
        "EN 1993-1-2 Annex C, from memory; type 316 takes up to 16 % more heat",
    ),
}


def family(chromium: float, austenitic: bool = False) -> str | None:
    """The family by mass % of chromium; None between families, where nothing is known."""
    if austenitic:
        return "austenitic"
    for name, low, high in (
        ("carbon", 0.0, 0.7), ("1.25Cr", 0.7, 1.7), ("2.25Cr", 1.7, 3.5), ("9Cr", 7.5, 10.5),
    ):  # fmt: skip
        if low <= chromium < high:
            return name
    return None
