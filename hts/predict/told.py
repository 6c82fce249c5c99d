"""What every output says of predictions, and what they must not be used for."""

from __future__ import annotations

PREDICTION = (
    "A prediction, not a measurement: it is never evidence of what the metal reached, and never "
    "makes a hold met."
)
NOT_FOR = (
    "to say that the inside, or any place without a thermocouple, reached the range",
    "to count a hold as met, or to fill a gap in a record",
    "to argue for narrower bands, fewer thermocouples, fewer zones or a shorter hold than the "
    "rules ask for",
    "to heat with liquid in the bore",
    "to judge a temperature close to the lower critical temperature",
    "as the only reason to leave out a thermocouple on the inside or at the far side",
)
LIMITS = (
    "straight pipes and necks as bodies of revolution: no branches, saddles, flanges or valves "
    "but as a thick ring, no heat into supports",
    "heaters give an even flux over each zone; gaps, overlaps and uneven contact come on top",
    "convection in the bore is a figure for its state, chosen on three measured differences, one "
    "of them a forum note: it was not measured on this pipe, and it leads the uncertainty",
    "moving air, wet or gaping insulation and wind are not worked out",
    "controllers are ideal: each zone's thermocouple is held at the setpoint as far as the power "
    "goes",
    "5 to 95 % are those of the settled hold, put about the course with every input as stated",
    "not worked out: heat of transformation, weld pool, heaters themselves, coil layout, stresses",
    "9Cr, 2.25Cr and 1.25Cr properties above 600 °C are from memory, with a wide spread",
)
MODEL = "finite volumes in heat content (r, clock, z), version 1"
