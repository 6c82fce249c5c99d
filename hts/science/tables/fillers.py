"""Filler metals by their classification: what the deposit is alloyed with, and what it suits.

The ends of the classifications of AWS A5.1, A5.5, A5.18, A5.28 and A5.23 name the alloy of the
deposit. Figures are from memory; the lower critical temperature is that of the base metal the
alloy matches (ASME B31.1 Table 129.3.1, from memory), that of 9Cr deposits hangs on nickel and
manganese and is left open.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

#: How well all figures here are known.
BASIS = "memory"


class Deposit(NamedTuple):
    """An alloy of weld metal.

    ``chromium`` and ``molybdenum``: least and greatest share in mass %. ``lower_critical``: degC,
    None where it is not one figure. ``p_numbers``: base metals it is made for, itself or in a weld
    to a leaner one.
    """

    name: str
    chromium: tuple[float, float]
    molybdenum: tuple[float, float]
    lower_critical: int | None
    p_numbers: tuple[str, ...]


_ENDS = (
    (r"-?(B91|B9)$", Deposit("9Cr-1Mo-V", (8.0, 10.5), (0.85, 1.2), None, ("15E",))),
    (r"-?(B92)$", Deposit("9Cr-W", (8.0, 10.5), (0.3, 0.7), None, ("15E",))),
    (r"-?(B8L?)$", Deposit("9Cr-1Mo", (8.0, 10.5), (0.85, 1.2), 810, ("5B",))),
    (r"-?(B6L?)$", Deposit("5Cr-1/2Mo", (4.0, 6.0), (0.45, 0.65), 820, ("5B",))),
    (r"-?(B3L?)$", Deposit("2 1/4Cr-1Mo", (2.0, 2.5), (0.9, 1.2), 805, ("5A",))),
    (r"-?(B2L?)$", Deposit("1 1/4Cr-1/2Mo", (1.0, 1.5), (0.4, 0.65), 775, ("4",))),
    (r"-?(A1)$", Deposit("C-1/2Mo", (0.0, 0.2), (0.4, 0.65), 730, ("3",))),
    (
        r"^E(60|70)\d\d(-1)?(H\d+R?)?$|^ER70S(-\w+)?$|^F7\w*$",
        Deposit("carbon steel", (0.0, 0.2), (0.0, 0.3), 725, ("1",)),
    ),
)


#: Families of fillers: by the end of the classification for low-alloy deposits.
FAMILIES = (
    "carbon-steel", "A1", "B2", "B3", "B6", "B8", "B9", "B91", "B92", "austenitic", "nickel",
)  # fmt: skip
_FAMILY = (
    (r"^E(R)?Ni", "nickel"),
    (r"^E(R)?3\d\d", "austenitic"),
    (r"-?(B91|B92|B9|B8|B6|B3|B2|A1)L?$", ""),
    (r"^E(60|70)\d\d(-1)?(H\d+R?)?$|^ER70S(-\w+)?$|^F7\w*$", "carbon-steel"),
)


@lru_cache(maxsize=64)
def family(classification: str) -> str | None:
    """The family a classification names, one of FAMILIES; None for one that is not in the table."""
    name = re.sub(r"\s+|[\s-]?H(4|8|16)R?$", "", classification)
    for pattern, called in _FAMILY:
        found = re.search(pattern, name, re.IGNORECASE)
        if found:
            return called or found[1].upper()
    return None


@lru_cache(maxsize=64)
def deposit(classification: str) -> Deposit | None:
    """The deposit a classification names; None for one that is not in the table."""
    name = re.sub(r"\s+|[\s-]?H(4|8|16)R?$", "", classification.upper())
    for end, found in _ENDS:
        if re.search(end, name):
            return found
    return None
