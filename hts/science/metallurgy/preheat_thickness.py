"""EN 1011-2 method A: what can be worked out of it without its diagrams.

The preheat of method A is read from diagrams (Figure C.2), which are not reproduced here. Table
C.1 gives the greatest combined thickness that needs no preheat at two values of CE and of heat
input, and is used here for values up to and including them, never between or beyond: there the
method gives no value.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple, TypeVar

from hts.base.arguments import not_negative, positive
from hts.base.provenance import Origin
from hts.science.metallurgy.carbon_equivalent import CE_RANGE

Number = TypeVar("Number", float, Fraction)

ORIGIN = Origin("EN 1011-2", "Annex C, Table C.1", "2001", "published", "high")
SCALE_ORIGIN = Origin("EN 1011-2", "Annex C, method A", "2001", "published", "high")
COMBINED_ORIGIN = Origin("EN 1011-2", "Annex C, method A", "2001", "memory", "high")

# Hydrogen scales: letter, and the diffusible hydrogen, ml/100 g, above which it applies.
_SCALES = (("A", 15.0), ("B", 10.0), ("C", 5.0), ("D", 3.0))
_LOWEST_SCALE = "E"

# (CE %, heat input kJ/mm) -> greatest combined thickness, mm, for scales A to E
_TABLE = {
    (0.43, 1.0): (40, 50, 60, 100, 100),
    (0.43, 2.0): (80, 90, 100, 100, 100),
    (0.49, 1.0): (25, 30, 35, 50, 60),
    (0.49, 2.0): (50, 55, 65, 100, 100),
}


#: What "without preheat" is taken to mean, degC: the next line of the diagrams is that of 20 degC.
WITHOUT_PREHEAT = 20.0


class NoPreheat(NamedTuple):
    """Greatest combined thickness, mm, without preheat, and the row and column it stands in."""

    thickness_mm: float
    scale: str
    ce: float
    heat_input: float


def hydrogen_scale(hydrogen: float) -> str:
    """Letter of the hydrogen scale, A (above 15 ml/100 g) to E (3 and less)."""
    not_negative(hydrogen=hydrogen)
    return next((letter for letter, above in _SCALES if hydrogen > above), _LOWEST_SCALE)


def thickness_without_preheat(hydrogen: float, ce: float, heat_input: float) -> NoPreheat | None:
    """Greatest combined thickness that needs no preheat; None where the table says nothing.

    `hydrogen` diffusible, ml/100 g; `ce` is CE (IIW), %; `heat_input` kJ/mm. The column taken is
    the one of the next higher CE and next lower heat input: both on the safe side.
    """
    not_negative(ce=ce, heat_input=heat_input)
    scale = hydrogen_scale(hydrogen)
    column_ce = next((value for value in (0.43, 0.49) if ce <= value), None)
    column_input = next((value for value in (2.0, 1.0) if heat_input >= value), None)
    if column_ce is None or column_input is None:
        return None
    thickness = _TABLE[column_ce, column_input]["ABCDE".index(scale)]
    return NoPreheat(float(thickness), scale, column_ce, column_input)


def method_a(ce: float, combined_mm: float, hydrogen: float, heat_input: float) -> float | None:
    """The least temperature before welding, degC: WITHOUT_PREHEAT where Table C.1 lets the combined
    thickness go without preheat; None beyond it, where the diagrams have to be read.

    `ce` CE (IIW), %, within CE_RANGE, else None; `hydrogen` diffusible, ml/100 g; `heat_input`
    kJ/mm. Raises ValueError for input without meaning.
    """
    positive(combined_thickness=combined_mm)
    assert CE_RANGE.low is not None
    if ce < CE_RANGE.low:
        return None
    found = thickness_without_preheat(hydrogen, ce, heat_input)
    return WITHOUT_PREHEAT if found is not None and combined_mm <= found.thickness_mm else None


def combined_thickness(*thicknesses_mm: Number, opposed_fillets: bool = False) -> Number:
    """Sum of the thicknesses meeting at the joint, each the mean over 75 mm from the weld, mm.

    Half of it for fillet welds directly opposite each other made at the same time.
    Source: COMBINED_ORIGIN.
    """
    if len(thicknesses_mm) < 2:
        raise ValueError("at least two parts meet at a joint")
    for thickness in thicknesses_mm:
        positive(thickness=float(thickness))
    total = sum(thicknesses_mm[1:], thicknesses_mm[0])
    return total / 2 if opposed_fillets else total
