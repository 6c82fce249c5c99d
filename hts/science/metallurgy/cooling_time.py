"""Cooling time from 800 to 500 degC of a weld run, t8/5, s.

Preheat degC, below 500; heat input with the efficiency of the process, kJ/mm; thickness mm;
shape factor F of the joint, 1 for a run on a plate. For unalloyed and low-alloy steel.
"""

from __future__ import annotations

from math import sqrt
from typing import NamedTuple

from hts.base.arguments import positive, within
from hts.base.provenance import Origin

# The two formulas, and that the longer of the two times counts, were seen in several public code
# repositories that name Annex D, one of them after the help page of a maker of plate.
ORIGIN = Origin("EN 1011-2", "Annex D", "2001", "published", "high")
# Butt weld 0.9 and fillet 0.67, for both ways of flow, in two of those repositories; a third has
# 0.56 for a fillet in thin plate. 1 is a run on a plate. Where they differ, the shortest time takes
# the smallest and the longest the greatest.
FACTORS_ORIGIN = Origin("EN 1011-2", "Annex D, Table D.1", "2001", "published", "medium")

#: Hotter than this no weld is preheated, degC; at 500 degC the formulas lose their meaning.
HIGHEST_PREHEAT = 450


def shape_factors(*, fillet: bool, longest: bool) -> tuple[float, float]:
    """F2 for thin parts and F3 for thick ones. Source: FACTORS_ORIGIN."""
    if fillet:
        return (0.67, 0.67) if longest else (0.56, 0.67)
    return (1.0, 1.0) if longest else (0.9, 0.9)


class CoolingTime(NamedTuple):
    """t8/5, s, and how the heat flows: through the plane only ("2-D") or all ways ("3-D")."""

    seconds: float
    flow: str


def three_dimensional(preheat: float, heat_input: float, factor: float = 1.0) -> float:
    """(6700 - 5 Tp) Q [1/(500 - Tp) - 1/(800 - Tp)] F3, s: thick parts."""
    _check(preheat, heat_input, factor)
    span = 1.0 / (500.0 - preheat) - 1.0 / (800.0 - preheat)
    return (6700.0 - 5.0 * preheat) * heat_input * span * factor


def two_dimensional(
    preheat: float, heat_input: float, thickness_mm: float, factor: float = 1.0
) -> float:
    """(4300 - 4.3 Tp) 1e5 Q^2/d^2 [1/(500 - Tp)^2 - 1/(800 - Tp)^2] F2, s: thin parts."""
    _check(preheat, heat_input, factor)
    positive(thickness=thickness_mm)
    span = 1.0 / (500.0 - preheat) ** 2 - 1.0 / (800.0 - preheat) ** 2
    return (4300.0 - 4.3 * preheat) * 1e5 * (heat_input / thickness_mm) ** 2 * span * factor


def transition_thickness(
    preheat: float, heat_input: float, factor_2d: float = 1.0, factor_3d: float = 1.0
) -> float:
    """Thickness, mm, at which both formulas agree; thinner parts cool two-dimensionally."""
    thin = two_dimensional(preheat, heat_input, 1.0, factor_2d)
    return sqrt(thin / three_dimensional(preheat, heat_input, factor_3d))


def cooling_time(
    preheat: float,
    heat_input: float,
    thickness_mm: float,
    factor_2d: float = 1.0,
    factor_3d: float = 1.0,
) -> CoolingTime:
    """The longer of the two: below the transition thickness the 2-D, above it the 3-D."""
    thin = two_dimensional(preheat, heat_input, thickness_mm, factor_2d)
    thick = three_dimensional(preheat, heat_input, factor_3d)
    return CoolingTime(thin, "2-D") if thin > thick else CoolingTime(thick, "3-D")


def _check(preheat: float, heat_input: float, factor: float) -> None:
    positive(heat_input=heat_input, factor=factor)
    # At 500 degC nothing is left to cool; the formula has no meaning from there on.
    within("preheat temperature", preheat, -100.0, 499.0, "degC")
