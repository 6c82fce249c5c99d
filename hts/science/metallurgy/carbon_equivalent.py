"""Carbon equivalents, mass %: CE (IIW), CET, Pcm and CEN."""

from __future__ import annotations

from math import tanh

from hts.base.provenance import Origin
from hts.science.metallurgy.composition import (
    Bounds,
    Composition,
    Estimate,
    Formula,
    check,
    missing,
)

CE = Formula(
    "CE",
    0.0,
    {"C": 1, "Mn": 1 / 6, "Cr": 1 / 5, "Mo": 1 / 5, "V": 1 / 5, "Ni": 1 / 15, "Cu": 1 / 15},
    Origin("EN 1011-2", "Annex C, method A; IIW formula", "2001", "published", "high"),
    {
        "C": Bounds(0.05, 0.25),
        "Si": Bounds(None, 0.8),
        "Mn": Bounds(None, 1.7),
        "Cr": Bounds(None, 0.9),
        "Cu": Bounds(None, 1.0),
        "Ni": Bounds(None, 2.5),
        "Mo": Bounds(None, 0.75),
        "V": Bounds(None, 0.20),
    },
    Origin("EN 1011-2", "Annex C, method A", "2001", "memory", "high"),
)
# Range of the CE value itself in method A, from the same source as its ranges of composition.
CE_RANGE = Bounds(0.30, 0.70)

CET = Formula(
    "CET",
    0.0,
    {"C": 1, "Mn": 1 / 10, "Mo": 1 / 10, "Cr": 1 / 20, "Cu": 1 / 20, "Ni": 1 / 40},
    Origin("EN 1011-2", "Annex C, method B", "2001", "published", "high"),
    {
        "C": Bounds(0.05, 0.32),
        "Si": Bounds(None, 0.8),
        "Mn": Bounds(0.5, 1.9),
        "Cr": Bounds(None, 1.5),
        "Cu": Bounds(None, 0.7),
        "Mo": Bounds(None, 0.75),
        "Nb": Bounds(None, 0.06),
        "Ni": Bounds(None, 2.5),
        "Ti": Bounds(None, 0.12),
        "V": Bounds(None, 0.18),
        "B": Bounds(None, 0.005),
    },
    Origin("EN 1011-2", "Annex C, method B", "2001", "memory", "medium"),
)

PCM = Formula(
    "Pcm",
    0.0,
    {"C": 1, "Si": 1 / 30, "Mn": 1 / 20, "Cu": 1 / 20, "Cr": 1 / 20, "Ni": 1 / 60,
     "Mo": 1 / 15, "V": 1 / 10, "B": 5},
    Origin("Ito and Bessyo", "", "1968", "published", "high"),
    {"C": Bounds(0.07, 0.22)},
    Origin("Ito and Bessyo", "", "1968", "memory", "high"),
)  # fmt: skip

_CEN_ORIGIN = Origin("Yurioka", "", "", "memory", "high")
_CEN_COEFFICIENTS = {
    "Si": 1 / 24, "Mn": 1 / 6, "Cu": 1 / 15, "Ni": 1 / 20,
    "Cr": 1 / 5, "Mo": 1 / 5, "Nb": 1 / 5, "V": 1 / 5, "B": 5.0,
}  # fmt: skip


def cen(composition: Composition) -> Estimate:
    """CEN = C + A(C) [Si/24 + Mn/6 + Cu/15 + Ni/20 + (Cr+Mo+Nb+V)/5 + 5 B], mass %.

    A(C) = 0.75 + 0.25 tanh(20 (C - 0.12)): near 1 for carbon steels, 0.5 for very low carbon, so
    that CEN passes from the Pcm way of weighing to that of CE. No range is given for it here.
    """
    check(composition)
    carbon = composition.get("C", 0.0)
    weight = 0.75 + 0.25 * tanh(20.0 * (carbon - 0.12))
    rest = sum(part * composition.get(name, 0.0) for name, part in _CEN_COEFFICIENTS.items())
    unstated = missing(composition, {"C": 1.0, **_CEN_COEFFICIENTS})
    return Estimate(carbon + weight * rest, unstated, (), _CEN_ORIGIN)
