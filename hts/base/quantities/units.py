"""The closed set of units.

Factors are exact. They rest on these definitions: inch 25.4 mm and pound 0.45359237 kg
(international yard and pound agreement, 1959), standard gravity 9.80665 m/s2 (3rd CGPM, 1901),
British thermal unit of the International Table 1055.05585262 J (NIST SP 811, appendix B),
degree Fahrenheit t/degF = 1.8 t/degC + 32 (NIST SP 811, appendix B).
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from hts.base.quantities import dimensions as d
from hts.base.quantities.dimensions import Dimension

INCH = Fraction(254, 10)  # mm
FOOT = 12 * INCH
POUND = Fraction(45359237, 10**8)  # kg
POUND_FORCE = POUND * Fraction(980665, 10**5)  # N
BTU = Fraction(105505585262, 10**8)  # J
FAHRENHEIT = Fraction(5, 9)  # K
FAHRENHEIT_ZERO = -32 * FAHRENHEIT  # degC
HOUR = 3600  # s


class Unit:
    """A unit of one dimension: `degC` the point and `degC` the difference are two units.

    `value in canonical unit = number * factor + offset`; the offset is zero except for points.
    `system` is "SI", "US" or "both". `partner` is the symbol of the unit of the other system that
    is shown beside it, None when the unit is usual in both. `scale` is empty except for hardness,
    where values on different scales cannot be compared.
    """

    __slots__ = ("dimension", "factor", "offset", "partner", "scale", "symbol", "system")

    def __init__(
        self,
        dimension: Dimension,
        symbol: str,
        factor: Fraction | int,
        system: str = "both",
        partner: str | None = None,
        offset: Fraction | int = 0,
        scale: str = "",
    ) -> None:
        self.dimension = dimension
        self.symbol = symbol
        self.factor = Fraction(factor)
        self.offset = Fraction(offset)
        self.system = system
        self.partner = partner
        self.scale = scale

    def __repr__(self) -> str:
        return f"<Unit {self.symbol or '(none)'} of {self.dimension.name}>"

    def __reduce__(self) -> tuple[Callable[[str, Dimension], Unit | None], tuple[str, Dimension]]:
        return find_unit, (self.symbol, self.dimension)

    def to_canonical(self, number: Fraction) -> Fraction:
        """`number` of this unit, in the canonical unit of its dimension."""
        return number * self.factor + self.offset

    def from_canonical(self, value: Fraction) -> Fraction:
        """`value` in the canonical unit of the dimension, as a number of this unit."""
        return (value - self.offset) / self.factor


# The first unit of a dimension is the one offered first when a unit is missing.
UNITS: tuple[Unit, ...] = (
    Unit(d.LENGTH, "mm", 1, "SI", "in"),
    Unit(d.LENGTH, "in", INCH, "US", "mm"),
    Unit(d.LENGTH, "cm", 10, "SI", "in"),
    Unit(d.LENGTH, "m", 1000, "SI", "ft"),
    Unit(d.LENGTH, "ft", FOOT, "US", "m"),
    Unit(d.LENGTH, "um", Fraction(1, 1000), "SI", "in"),
    Unit(d.TIME, "h", HOUR),
    Unit(d.TIME, "min", 60),
    Unit(d.TIME, "s", 1),
    Unit(d.TIME, "d", 24 * HOUR),
    Unit(d.TEMPERATURE, "degC", 1, "SI", "degF"),
    Unit(d.TEMPERATURE, "degF", FAHRENHEIT, "US", "degC", offset=FAHRENHEIT_ZERO),
    Unit(d.DIFFERENCE, "degC", 1, "SI", "degF"),
    # A difference in degF is shown beside kelvin, which nobody takes for a place on a thermometer.
    Unit(d.DIFFERENCE, "degF", FAHRENHEIT, "US", "K"),
    Unit(d.DIFFERENCE, "K", 1, "SI", "degF"),
    Unit(d.RATE, "degC/h", 1, "SI", "degF/h"),
    Unit(d.RATE, "degF/h", FAHRENHEIT, "US", "degC/h"),
    Unit(d.RATE, "K/h", 1, "SI", "degF/h"),
    Unit(d.RATE, "degC/min", 60, "SI", "degF/min"),
    Unit(d.RATE, "degF/min", 60 * FAHRENHEIT, "US", "degC/min"),
    Unit(d.RATE, "K/min", 60, "SI", "degF/min"),
    Unit(d.POWER, "kW", 1000),
    Unit(d.POWER, "W", 1),
    Unit(d.POWER, "MW", 10**6),
    Unit(d.POWER, "kVA", 1000),
    Unit(d.POWER_DENSITY, "W/cm2", 1, "SI", "W/in2"),
    Unit(d.POWER_DENSITY, "W/in2", 100 / INCH**2, "US", "W/cm2"),
    Unit(d.POWER_DENSITY, "kW/m2", Fraction(1, 10), "SI", "W/in2"),
    Unit(d.HEAT_INPUT, "kJ/mm", 1, "SI", "kJ/in"),
    Unit(d.HEAT_INPUT, "kJ/in", 1 / INCH, "US", "kJ/mm"),
    Unit(d.HEAT_INPUT, "kJ/cm", Fraction(1, 10), "SI", "kJ/in"),
    Unit(d.MASS_FRACTION, "%", 1),
    Unit(d.MASS_FRACTION, "ppm", Fraction(1, 10**4)),
    Unit(d.HYDROGEN, "ml/100g", 1),
    Unit(d.HARDNESS, "HBW", 1, scale="HBW"),
    Unit(d.HARDNESS, "HV10", 1, scale="HV10"),
    Unit(d.HARDNESS, "HV5", 1, scale="HV5"),
    Unit(d.HARDNESS, "HRC", 1, scale="HRC"),
    Unit(d.ANGLE, "deg", 1),
    Unit(d.STRESS, "MPa", 1, "SI", "ksi"),
    Unit(d.STRESS, "ksi", 1000 * POUND_FORCE / INCH**2, "US", "MPa"),
    Unit(d.STRESS, "psi", POUND_FORCE / INCH**2, "US", "MPa"),
    Unit(d.ENERGY, "J", 1),
    Unit(d.ENERGY, "W*s", 1),
    Unit(d.ENERGY, "kJ", 1000),
    Unit(d.ENERGY, "MJ", 10**6),
    Unit(d.ENERGY, "kWh", 1000 * HOUR),
    Unit(d.ENERGY, "BTU", BTU, "US", "kJ"),
    Unit(d.VOLTAGE, "V", 1),
    Unit(d.VOLTAGE, "mV", Fraction(1, 1000)),
    Unit(d.CURRENT, "A", 1),
    Unit(d.CURRENT, "mA", Fraction(1, 1000)),
    Unit(d.RESISTANCE, "ohm", 1),
    Unit(d.RESISTANCE, "kohm", 1000),
    Unit(d.RESISTANCE, "Mohm", 10**6),
    Unit(d.RATIO, "%", 1),
    Unit(d.COUNT, "", 1),
    Unit(d.THERMAL_RESISTANCE, "m2K/W", 1, "SI", "ft2*h*degF/BTU"),
    Unit(
        d.THERMAL_RESISTANCE,
        "ft2*h*degF/BTU",
        (FOOT / 1000) ** 2 * HOUR * FAHRENHEIT / BTU,
        "US",
        "m2K/W",
    ),
    Unit(d.CONDUCTIVITY, "W/mK", 1, "SI", "BTU/h/ft/degF"),
    Unit(
        d.CONDUCTIVITY,
        "BTU/h/ft/degF",
        BTU / (HOUR * FOOT / 1000 * FAHRENHEIT),
        "US",
        "W/mK",
    ),
    Unit(d.DENSITY, "kg/m3", 1, "SI", "lb/ft3"),
    Unit(d.DENSITY, "lb/ft3", POUND / (FOOT / 1000) ** 3, "US", "kg/m3"),
    Unit(d.MASS, "kg", 1, "SI", "lb"),
    Unit(d.MASS, "lb", POUND, "US", "kg"),
    Unit(d.MASS, "g", Fraction(1, 1000), "SI", "lb"),
    Unit(d.TIME_PER_LENGTH, "min/mm", 1, "SI", "h/in"),
    Unit(d.TIME_PER_LENGTH, "h/in", 60 / INCH, "US", "min/mm"),
    Unit(d.TIME_PER_LENGTH, "min/in", 1 / INCH, "US", "min/mm"),
    Unit(d.TIME_PER_LENGTH, "h/mm", 60, "SI", "h/in"),
    Unit(d.TIME_PER_LENGTH, "s/mm", Fraction(1, 60), "SI", "min/in"),
    Unit(d.SPEED, "mm/min", 1, "SI", "in/min"),
    Unit(d.SPEED, "in/min", INCH, "US", "mm/min"),
    Unit(d.SPEED, "mm/h", Fraction(1, 60), "SI", "in/h"),
    Unit(d.SPEED, "in/h", INCH / 60, "US", "mm/h"),
    Unit(d.SPEED, "cm/min", 10, "SI", "in/min"),
    Unit(d.SPEED, "mm/s", 60, "SI", "in/min"),
)

_BY_DIMENSION: dict[Dimension, dict[str, Unit]] = {dimension: {} for dimension in d.DIMENSIONS}
for _unit in UNITS:
    _BY_DIMENSION[_unit.dimension][_unit.symbol] = _unit

SYMBOLS: tuple[str, ...] = tuple(dict.fromkeys(unit.symbol for unit in UNITS if unit.symbol))
"""Every symbol once, without the empty one of a plain number."""

_HELD_IN = str.maketrans({"°": "deg", "µ": "u", "μ": "u", "²": "2", "³": "3"})

ALIASES: dict[str, str] = {
    "HB": "HBW",
    "N/mm2": "MPa",
    "mL/100g": "ml/100g",
    "m2*K/W": "m2K/W",
    "kW*h": "kWh",
    "Ω": "ohm",
    "kΩ": "kohm",
    "MΩ": "Mohm",
}
"""Accepted spellings besides the symbols, and besides those written with ° µ ² ³."""


def standard_symbol(written: str) -> str:
    """The symbol in the set's own spelling: `°C/h` is `degC/h`, `W/cm²` is `W/cm2`.

    A text that is no unit at all comes back as something that is no unit either. A lone degree
    sign is not the unit of an angle: it is what is left of a temperature without its letter.
    """
    plain = written if written.isascii() or written == "°" else written.translate(_HELD_IN)
    return ALIASES.get(plain, plain)


def find_unit(written: str, dimension: Dimension) -> Unit | None:
    """The unit of `dimension` with this symbol or alias, or None."""
    units = _BY_DIMENSION[dimension]
    return units.get(written) or units.get(standard_symbol(written))


def is_unit(written: str) -> bool:
    """Whether the text is the symbol or alias of a unit of any dimension."""
    return standard_symbol(written) in SYMBOLS


def symbols_of(dimension: Dimension) -> tuple[str, ...]:
    """Symbols of the units that fit `dimension`, the usual ones first."""
    return tuple(symbol for symbol in _BY_DIMENSION[dimension] if symbol)
