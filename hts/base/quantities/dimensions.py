"""The kinds of quantity a specification speaks of, and how they combine in a formula.

A dimension is more than its exponents: a temperature and a temperature difference have the same
exponents and must never be mixed, and so have a mass fraction and a ratio. Each is therefore an
object of its own, compared by identity. Exponents serve formulas only.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

Powers = tuple[Fraction | int, ...]
"""Exponents over `BASES`, in that order."""

BASES = ("length", "time", "temperature", "mass", "current", "angle", "hardness")
"""Base quantities; their coherent units are mm, s, K, kg, A, deg and one point of hardness."""


class Dimension:
    """A kind of quantity.

    `canonical` is the symbol of the unit every value of this dimension is held in. `coherent` is
    the size of one such unit in the base units (mm, s, K, kg, A), so that a product of values is
    right whatever their canonical units are: W/cm2 times mm times mm is not W. `point` marks a
    place on a scale with an arbitrary zero, which can neither be added nor scaled.
    """

    __slots__ = ("canonical", "coherent", "name", "point", "powers")

    def __init__(
        self,
        name: str,
        canonical: str,
        coherent: Fraction | int,
        powers: Powers,
        point: bool = False,
    ) -> None:
        self.name = name
        self.canonical = canonical
        self.coherent = Fraction(coherent)
        self.powers = powers
        self.point = point

    def __repr__(self) -> str:
        return f"<Dimension {self.name}>"

    def __reduce__(self) -> tuple[Callable[[str], Dimension], tuple[str]]:
        # A copy is the same object, for dimensions are compared by identity.
        return dimension_named, (self.name,)

    @property
    def with_article(self) -> str:
        """The name as a sentence needs it: `a length`, `an angle`."""
        return f"{'an' if self.name[0] in 'aeiou' else 'a'} {self.name}"


def _powers(
    length: int = 0,
    time: int = 0,
    temperature: int = 0,
    mass: int = 0,
    current: int = 0,
    angle: int = 0,
    hardness: int = 0,
) -> Powers:
    return (length, time, temperature, mass, current, angle, hardness)


DIMENSIONLESS = _powers()

LENGTH = Dimension("length", "mm", 1, _powers(length=1))
TIME = Dimension("time", "s", 1, _powers(time=1))
TEMPERATURE = Dimension("temperature", "degC", 1, _powers(temperature=1), point=True)
DIFFERENCE = Dimension("temperature difference", "K", 1, _powers(temperature=1))
RATE = Dimension("rate", "K/h", Fraction(1, 3600), _powers(time=-1, temperature=1))
POWER = Dimension("power", "W", 10**6, _powers(length=2, time=-3, mass=1))
POWER_DENSITY = Dimension("power density", "W/cm2", 10**4, _powers(time=-3, mass=1))
HEAT_INPUT = Dimension("heat input", "kJ/mm", 10**9, _powers(length=1, time=-2, mass=1))
MASS_FRACTION = Dimension("mass fraction", "%", Fraction(1, 100), DIMENSIONLESS)
HYDROGEN = Dimension("hydrogen content", "ml/100g", 10**4, _powers(length=3, mass=-1))
HARDNESS = Dimension("hardness", "HBW", 1, _powers(hardness=1))
ANGLE = Dimension("angle", "deg", 1, _powers(angle=1))
STRESS = Dimension("stress", "MPa", 10**3, _powers(length=-1, time=-2, mass=1))
ENERGY = Dimension("energy", "J", 10**6, _powers(length=2, time=-2, mass=1))
VOLTAGE = Dimension("voltage", "V", 10**6, _powers(length=2, time=-3, mass=1, current=-1))
CURRENT = Dimension("current", "A", 1, _powers(current=1))
RESISTANCE = Dimension("resistance", "ohm", 10**6, _powers(length=2, time=-3, mass=1, current=-2))
RATIO = Dimension("ratio", "%", Fraction(1, 100), DIMENSIONLESS)
COUNT = Dimension("number", "", 1, DIMENSIONLESS)
THERMAL_RESISTANCE = Dimension(
    "thermal resistance", "m2K/W", 1, _powers(time=3, temperature=1, mass=-1)
)
CONDUCTIVITY = Dimension(
    "thermal conductivity", "W/mK", 10**3, _powers(length=1, time=-3, temperature=-1, mass=1)
)
DENSITY = Dimension("density", "kg/m3", Fraction(1, 10**9), _powers(length=-3, mass=1))
MASS = Dimension("mass", "kg", 1, _powers(mass=1))
TIME_PER_LENGTH = Dimension("time per length", "min/mm", 60, _powers(length=-1, time=1))
SPEED = Dimension("speed", "mm/min", Fraction(1, 60), _powers(length=1, time=-1))

DIMENSIONS = (
    LENGTH,
    TIME,
    TEMPERATURE,
    DIFFERENCE,
    RATE,
    POWER,
    POWER_DENSITY,
    HEAT_INPUT,
    MASS_FRACTION,
    HYDROGEN,
    HARDNESS,
    ANGLE,
    STRESS,
    ENERGY,
    VOLTAGE,
    CURRENT,
    RESISTANCE,
    RATIO,
    COUNT,
    THERMAL_RESISTANCE,
    CONDUCTIVITY,
    DENSITY,
    MASS,
    TIME_PER_LENGTH,
    SPEED,
)

_BY_NAME = {dimension.name: dimension for dimension in DIMENSIONS}

# What a formula yields is never a point, and a result without exponents is a plain number:
# only the place a value is written in can say that it is a mass fraction or a ratio.
_BY_POWERS = {
    dimension.powers: dimension
    for dimension in DIMENSIONS
    if not dimension.point and (dimension is COUNT or dimension.powers != DIMENSIONLESS)
}


def dimension_named(name: str) -> Dimension:
    """The dimension called `name`, such as `temperature difference`. KeyError if there is none."""
    return _BY_NAME[name]


def dimension_of(powers: Powers) -> Dimension | None:
    """The dimension a formula result with these exponents has, or None if it has no name here."""
    return _BY_POWERS.get(powers)


def difference_of(dimension: Dimension) -> Dimension:
    """The dimension of the distance between two values of `dimension`."""
    return DIFFERENCE if dimension is TEMPERATURE else dimension
