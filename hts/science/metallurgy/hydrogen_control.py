"""Minimum preheat by the hydrogen-control method of the AWS D1.1 annex on other preheat methods.

The whole table is from memory, with one entry confirmed second-hand: check it against a held
copy before relying on it. The annex is lettered XI, I, H or B by edition. Degrees Fahrenheit and
inches, as the table is written in.
"""

from __future__ import annotations

from math import log10
from typing import Literal

from hts.base.arguments import NotCovered, not_negative, positive, within
from hts.base.provenance import Origin

Hydrogen = Literal["H1", "H2", "H3"]
Restraint = Literal["low", "medium", "high"]

_ANNEX = "annex on alternative preheat methods"
INDEX_ORIGIN = Origin("AWS D1.1", _ANNEX, "", "memory", "high")
GROUP_ORIGIN = Origin("AWS D1.1", _ANNEX, "", "memory", "high")
PREHEAT_ORIGIN = Origin("AWS D1.1", _ANNEX, "", "memory", "medium")

# Diffusible hydrogen, ml/100 g, taken for extra-low, low and uncontrolled hydrogen.
LEVELS: dict[Hydrogen, float] = {"H1": 5.0, "H2": 10.0, "H3": 30.0}

# Highest index of each group. Groups are printed in steps of 0.1; an index that falls between
# two takes the higher group.
_GROUPS = {"A": 3.0, "B": 3.5, "C": 4.0, "D": 4.5, "E": 5.0, "F": 5.5, "G": 7.0}

# Pcm below each of these takes the next letter of the row.
_PCM = (0.18, 0.23, 0.28, 0.33, 0.38)
_BY_PCM: dict[Hydrogen, str] = {"H1": "ABCDE", "H2": "BCDEF", "H3": "CDEFG"}

# Thickness rows: up to and including, inch; the first row is below 3/8.
_ROWS = (0.375, 0.75, 1.5, 3.0)
_FAHRENHEIT: dict[Restraint, tuple[tuple[int, ...], ...]] = {
    "low": (
        (65, 65, 65, 65, 140, 280, 300),
        (65, 65, 65, 140, 210, 280, 300),
        (65, 65, 65, 175, 230, 280, 300),
        (65, 65, 100, 200, 250, 280, 300),
        (65, 65, 100, 200, 250, 280, 300),
    ),
    "medium": (
        (65, 65, 65, 65, 160, 280, 320),
        (65, 65, 65, 175, 240, 290, 320),
        (65, 65, 165, 230, 280, 300, 320),
        (65, 175, 230, 265, 300, 300, 320),
        (200, 250, 280, 300, 320, 320, 320),
    ),
    "high": (
        (65, 65, 65, 100, 230, 300, 320),
        (65, 65, 150, 220, 280, 320, 320),
        (65, 185, 240, 280, 300, 320, 320),
        (240, 265, 300, 300, 320, 320, 320),
        (240, 265, 300, 300, 320, 320, 320),
    ),
}


def susceptibility_index(pcm: float, hydrogen: float) -> float:
    """12 Pcm + log10 H; `pcm` in %, `hydrogen` diffusible in ml/100 g (see LEVELS)."""
    not_negative(pcm=pcm)
    positive(hydrogen=hydrogen)
    return 12.0 * pcm + log10(hydrogen)


def group_of_index(index: float) -> str:
    """Group A to G of a susceptibility index. Raises NotCovered above 7.0."""
    within("susceptibility index", index, None, 7.0, "")
    return next(group for group, highest in _GROUPS.items() if index <= highest)


def group_of_pcm(pcm: float, level: Hydrogen) -> str:
    """Group by the table of Pcm and hydrogen level. Raises NotCovered from Pcm 0.38 % up.

    The table is coarser than the index: at the upper end of a row's bands (H1 from Pcm 0.275 %,
    H2 from 0.375 %) the index can be one group more severe.
    """
    not_negative(pcm=pcm)
    for below, group in zip(_PCM, _BY_PCM[level], strict=True):
        if pcm < below:
            return group
    raise NotCovered("Pcm", pcm, None, _PCM[-1], "%")


def minimum_preheat(restraint: Restraint, thickness_inch: float, group: str) -> int:
    """Minimum preheat and interpass temperature, degF; thickness of the thicker part, inch.

    Raises ValueError for an unknown group or restraint.
    """
    positive(thickness=thickness_inch)
    if restraint not in _FAHRENHEIT:
        raise ValueError(f"unknown restraint {restraint!r}; known: {', '.join(_FAHRENHEIT)}")
    if group not in _GROUPS:
        raise ValueError(f"unknown group {group!r}; known: {', '.join(_GROUPS)}")
    if thickness_inch < _ROWS[0]:
        row = 0
    else:
        row = 1 + sum(thickness_inch > limit for limit in _ROWS[1:])
    return _FAHRENHEIT[restraint][row]["ABCDEFG".index(group)]
