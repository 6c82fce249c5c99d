"""Lower critical temperature, degC, from the chemical analysis in mass %.

The formulas are fits: the real temperature of a heat can lie tens of degrees off. Weld metal of
9Cr can be far lower than its base metal when nickel and manganese are high.
"""

from __future__ import annotations

from hts.base.provenance import Origin
from hts.science.metallurgy.composition import Formula

SANTELLA_91 = Formula(
    "A1 of Grade 91 and B9 weld metal",
    805.0,
    {"Cr": 2.5, "Mo": 18.1, "Si": 19.1, "V": 37.1, "Nb": 19.2,
     "C": -63.7, "N": -130.6, "Mn": -60.5, "Ni": -72.3},
    Origin("Santella", "A1 of Grade 91", "2012", "published", "high"),
)  # fmt: skip

SANTELLA_T92 = Formula(
    "A1 of T92",
    778.0,
    {"Cr": 4.9, "Mo": 22.6, "W": 10.8, "Si": 22.9, "V": 43.6, "Nb": 20.2,
     "C": -80.6, "N": -150.7, "Mn": -55.1, "Ni": -68.0},
    Origin("Santella", "A1 of T92", "2012", "published", "high"),
)  # fmt: skip

# For low-alloy steel. For 2.25Cr it gives about 40 K less than the tables of grades do: take the
# lower of the two as a caution.
ANDREWS = Formula(
    "Ac1 of low-alloy steel",
    723.0,
    {"Mn": -10.7, "Ni": -16.9, "Si": 29.1, "Cr": 16.9, "As": 290.0, "W": 6.38},
    Origin("Andrews", "Ac1", "1965", "published", "high"),
)
