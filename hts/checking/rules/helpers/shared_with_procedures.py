"""What rules about procedures and rules about jobs hold alike: the hardest that sour service bears,
and what is checked before the heat or not at all."""

from __future__ import annotations

from hts.base.quantities import HARDNESS, Quantity

SERVICE = "wet hydrogen sulphide"
#: ISO 15156-2, from memory; about as hard in Brinell.
HARDEST = {
    unit: Quantity.of(figure, unit, HARDNESS)
    for unit, figure in (("HV10", 250), ("HV5", 250), ("HBW", 238), ("HRC", 22))
}
#: Topics that are of no use once the metal is cold again.
BEFORE = (
    "permit",
    "gas test",
    "tag matches channel",
    "channel map",
    "polarity",
    "junctions shielded",
    "heater continuity",
    "zones match drawing",
    "program matches procedure",
    "spares connected",
    "power and standby",
    "insulation complete",
    "recorder set",
    "cable rating",
)
