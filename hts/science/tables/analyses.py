"""What the analysis of a steel or a deposit of each alloy family looks like, mass %.

From memory, drawn together from the product standards of a family (ASTM A106, A335, A182, A387,
EN 10216-2) and wide enough for product analysis: for telling one family from another and a slip
of digits, not for accepting a heat.
"""

from __future__ import annotations

from typing import NamedTuple

BASIS = "memory"
SOURCE = "product standards of the grades (from memory, families drawn together)"

Ranges = dict[str, tuple[float, float]]


class Analysis(NamedTuple):
    """``ranges`` by element; ``needed`` are those an analysis of the family always gives, and
    ``together`` those it gives all of where it gives one."""

    family: str
    ranges: Ranges
    needed: tuple[str, ...]
    together: tuple[str, ...] = ()


#: What unalloyed and low-alloy steel has of elements it is not alloyed with.
_RESIDUAL: Ranges = {
    "P": (0, 0.045), "S": (0, 0.045), "Ni": (0, 0.55), "Cu": (0, 0.55), "V": (0, 0.11),
    "Nb": (0, 0.07), "Ti": (0, 0.06), "Al": (0, 0.1), "N": (0, 0.03), "B": (0, 0.007),
    "W": (0, 0.2), "Co": (0, 0.2), "As": (0, 0.05), "Sn": (0, 0.05), "Sb": (0, 0.05),
}  # fmt: skip
_MADE = ("C", "Mn")
#: Without these 9 % chromium steel is P-No. 5B, of other hold and preheat.
_MADE_STRONG = ("V", "Nb", "N")


def _low(
    family: str, carbon: float, manganese: float, silicon: float, **alloy: tuple[float, float]
) -> Analysis:
    ranges: Ranges = {
        **_RESIDUAL,
        "C": (0.03, carbon),
        "Mn": (0.27, manganese),
        "Si": (0.05, silicon),
        "Cr": (0, 0.45),
        "Mo": (0, 0.2),
        **alloy,
    }
    return Analysis(family, ranges, (*_MADE, *alloy))


def _nine(family: str, molybdenum: tuple[float, float], **more: tuple[float, float]) -> Analysis:
    ranges: Ranges = {
        **_RESIDUAL,
        "C": (0.06, 0.15), "Mn": (0.25, 1.3), "Si": (0.05, 0.55), "Cr": (7.8, 10.6),
        "Mo": molybdenum, "Ni": (0, 1.05), "V": (0.13, 0.32), "Nb": (0.02, 0.13),
        "N": (0.02, 0.08), **more,
    }  # fmt: skip
    return Analysis(family, ranges, (*_MADE, "Cr", "Mo"), _MADE_STRONG)


_CARBON = _low("carbon steel", 0.36, 1.75, 0.6)
_HALF_MO = _low("C-1/2Mo steel", 0.26, 1.0, 0.55, Mo=(0.23, 0.72))
_ONE = _low("1Cr-1/2Mo steel", 0.2, 1.05, 0.7, Cr=(0.65, 1.3), Mo=(0.38, 0.7))
_ONE_AND_QUARTER = _low("1 1/4Cr-1/2Mo steel", 0.2, 0.85, 1.05, Cr=(0.95, 1.55), Mo=(0.4, 0.7))
_TWO_AND_QUARTER = _low("2 1/4Cr-1Mo steel", 0.17, 0.85, 0.6, Cr=(1.85, 2.65), Mo=(0.85, 1.15))
_FIVE = _low("5Cr-1/2Mo steel", 0.18, 0.85, 0.8, Cr=(3.9, 6.1), Mo=(0.42, 0.7))
_NINE_ONE = _low("9Cr-1Mo steel", 0.18, 0.9, 1.05, Cr=(7.8, 10.2), Mo=(0.85, 1.15))
_NINE_V = _nine("9Cr-1Mo-V steel", (0.8, 1.25))
_NINE_W = _nine("9Cr-W steel", (0.25, 0.72), W=(1.4, 2.1), B=(0, 0.008))

#: By P-number and nominal chromium of the grade.
_BASE = {
    ("1", None): _CARBON,
    ("3", None): _HALF_MO,
    ("4", 1.0): _ONE,
    ("4", 1.25): _ONE_AND_QUARTER,
    ("5A", 2.25): _TWO_AND_QUARTER,
    ("5B", 5.0): _FIVE,
    ("5B", 9.0): _NINE_ONE,
    ("15E", 9.0): _NINE_V,
}
_DEPOSITS = {
    "carbon steel": _low("carbon-steel deposit", 0.16, 1.9, 1.0),
    "C-1/2Mo": _low("C-1/2Mo deposit", 0.13, 1.4, 0.9, Mo=(0.38, 0.7)),
    "1 1/4Cr-1/2Mo": _low("1 1/4Cr-1/2Mo deposit", 0.13, 1.3, 1.0, Cr=(0.95, 1.55), Mo=(0.38, 0.7)),
    "2 1/4Cr-1Mo": _low("2 1/4Cr-1Mo deposit", 0.13, 1.3, 1.0, Cr=(1.95, 2.65), Mo=(0.85, 1.25)),
    "5Cr-1/2Mo": _low("5Cr-1/2Mo deposit", 0.13, 1.3, 1.0, Cr=(3.9, 6.2), Mo=(0.42, 0.7)),
    "9Cr-1Mo": _low("9Cr-1Mo deposit", 0.13, 1.3, 1.0, Cr=(7.8, 10.7), Mo=(0.8, 1.25)),
    "9Cr-1Mo-V": _NINE_V,
    "9Cr-W": _NINE_W,
}  # fmt: skip


def of_grade(name: str, p_number: str | None, chromium: float | None) -> Analysis | None:
    """The family of a base metal; None for one that is not in the table."""
    if p_number == "15E" and "92" in name:
        return _NINE_W
    return _BASE.get((p_number or "", chromium))


def of_deposit(alloy: str) -> Analysis | None:
    """The family of a deposit, by the name hts.science.tables.fillers gives it."""
    return _DEPOSITS.get(alloy)
