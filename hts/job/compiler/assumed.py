"""What is assumed where the text says nothing. Each is common practice without a source, and the
paper says so wherever one is used."""

from __future__ import annotations

from fractions import Fraction

from hts.base.quantities import DIFFERENCE, RATIO, TEMPERATURE, TIME, Quantity

#: Part of a rate limit a program stays below it.
MARGIN = Quantity.of(10, "%", RATIO)
#: Temperature of the part before it is heated, and after free cooling.
AMBIENT = Quantity.of(20, "degC", TEMPERATURE)
#: A part that is to be brought no higher than that is taken to be so much colder.
COLDER = Quantity.of(20, "K", DIFFERENCE)
#: How far a temperature swings about its setpoint where no controller says so.
SWING = Quantity.of(5, "K", DIFFERENCE)
#: Error of whatever a preheat is read by, where no instrument is named.
READING = Quantity.of(2, "K", DIFFERENCE)
#: Temperature of the reference junction when loops are proved.
REFERENCE_JUNCTION = Quantity.of(25, "degC", TEMPERATURE)
#: Time between two lines of the schedule.
INTERVAL = Quantity.of(5, "min", TIME)

#: Per cent in the whole.
WHOLE = Fraction(100)
