"""What is assumed where the text says nothing. Each is common practice without a source, and the
paper says so wherever one is used."""

from __future__ import annotations

from fractions import Fraction

from hts.base.quantities import RATIO, TEMPERATURE, TIME, Quantity

#: Part of a rate limit a program stays below it.
MARGIN = Quantity.of(10, "%", RATIO)
#: Temperature of the part before it is heated, and after free cooling.
AMBIENT = Quantity.of(20, "degC", TEMPERATURE)
#: Temperature of the reference junction when loops are proved.
REFERENCE_JUNCTION = Quantity.of(25, "degC", TEMPERATURE)
#: Time between two lines of the schedule.
INTERVAL = Quantity.of(5, "min", TIME)

#: Per cent in the whole.
WHOLE = Fraction(100)
