"""Preheat temperature by EN 1011-2 method B, from CET, thickness, hydrogen and heat input."""

from __future__ import annotations

from math import tanh
from typing import NamedTuple

from hts.base.arguments import not_negative, positive
from hts.base.provenance import Origin
from hts.science.metallurgy.composition import Bounds, Outside, outside

ORIGIN = Origin("EN 1011-2", "Annex C, equation C.8", "2001", "published", "high")
PARTS_ORIGIN = Origin("EN 1011-2", "Annex C, method B", "2001", "memory", "high")
WELD_METAL_ORIGIN = Origin("EN 1011-2", "Annex C, method B", "2001", "memory", "medium")

RANGES = {
    "CET": Bounds(0.2, 0.5),
    "thickness": Bounds(10.0, 90.0, "mm"),
    "diffusible hydrogen": Bounds(1.0, 20.0, "ml/100g"),
    "heat input": Bounds(0.5, 4.0, "kJ/mm"),
    "yield strength": Bounds(None, 1000.0, "MPa"),
}

# Above this part of CET the weld metal counts instead of the base metal, %.
_WELD_METAL_MARGIN = 0.03


class MethodB(NamedTuple):
    """Preheat temperature, degC: the sum of four parts, and the inputs out of range."""

    composition: float
    thickness: float
    hydrogen: float
    heat_input: float
    outside: tuple[Outside, ...]

    @property
    def celsius(self) -> float:
        """The preheat temperature. At or below that of the surroundings: none by this formula."""
        return self.composition + self.thickness + self.hydrogen + self.heat_input


def method_b(
    cet: float,
    thickness_mm: float,
    hydrogen: float,
    heat_input: float,
    yield_mpa: float | None = None,
) -> MethodB:
    """697 CET + 160 tanh(d/35) + 62 HD^0.35 + (53 CET - 32) Q - 328, degC, in its parts.

    `cet` in % (see governing_cet), `thickness_mm` of the thicker part alone, never the combined
    thickness of method A; `hydrogen` diffusible, ml/100 g to ISO 3690; `heat_input` with the
    efficiency of the process, kJ/mm. Holds for single-pass and root welds of normal restraint.
    Out of range the value is still given and what is out of range is named. Sources: ORIGIN for
    the sum, PARTS_ORIGIN for the parts. Raises ValueError for input without meaning.
    """
    positive(thickness=thickness_mm, heat_input=heat_input)
    not_negative(cet=cet, hydrogen=hydrogen)
    values = {
        "CET": cet,
        "thickness": thickness_mm,
        "diffusible hydrogen": hydrogen,
        "heat input": heat_input,
    }
    if yield_mpa is not None:
        positive(yield_strength=yield_mpa)
        values["yield strength"] = yield_mpa
    return MethodB(
        750.0 * cet - 150.0,
        160.0 * tanh(thickness_mm / 35.0) - 110.0,
        62.0 * hydrogen**0.35 - 100.0,
        (53.0 * cet - 32.0) * heat_input - 53.0 * cet + 32.0,
        outside(values, RANGES),
    )


def governing_cet(base_metal: float, weld_metal: float | None = None) -> float:
    """CET to use, %: the base metal's, unless the weld metal's is not 0.03 % or more below it.

    In that case the weld metal's plus 0.03 %. Source: WELD_METAL_ORIGIN.
    """
    if weld_metal is None:
        return base_metal
    return max(base_metal, weld_metal + _WELD_METAL_MARGIN)
