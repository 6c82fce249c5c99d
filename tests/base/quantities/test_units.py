"""Every unit against pint, an independent unit library, in exact fractions; and NIST values."""

from fractions import Fraction
from functools import cache

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hts.base.quantities import (
    COUNT,
    DIFFERENCE,
    DIMENSIONS,
    HARDNESS,
    LENGTH,
    RATE,
    TEMPERATURE,
    UNITS,
    Dimension,
    Quantity,
    Unit,
    find_unit,
    symbols_of,
)
from tests.rows import each_row

# The spelling of each symbol in pint. A temperature in anything but TEMPERATURE is a delta there.
IN_PINT = {
    "um": "micrometer",
    "in": "inch",
    "d": "day",
    "kVA": "kilovolt * ampere",
    "W/cm2": "W/cm**2",
    "W/in2": "W/inch**2",
    "kW/m2": "kW/m**2",
    "kJ/in": "kJ/inch",
    "%": "percent",
    "ppm": "ppm",
    "ml/100g": "milliliter/hectogram",
    "ksi": "kilopound_force_per_square_inch",
    "psi": "pound_force_per_square_inch",
    "W*s": "W * s",
    "kWh": "kW * hour",
    "BTU": "international_british_thermal_unit",
    "Mohm": "megaohm",
    "m2K/W": "m**2 * kelvin / W",
    "ft2*h*degF/BTU": "ft**2 * hour * delta_degF / international_british_thermal_unit",
    "W/mK": "W/m/kelvin",
    "BTU/h/ft/degF": "international_british_thermal_unit/hour/ft/delta_degF",
    "kg/m3": "kg/m**3",
    "lb/ft3": "lb/ft**3",
    "h/in": "hour/inch",
    "h/mm": "hour/mm",
    "min/in": "min/inch",
    "in/min": "inch/min",
    "in/h": "inch/hour",
    "mm/h": "mm/hour",
    "h": "hour",
    "K": "kelvin",
    "K/h": "kelvin/hour",
    "K/min": "kelvin/min",
    "degC/h": "delta_degC/hour",
    "degF/h": "delta_degF/hour",
    "degC/min": "delta_degC/min",
    "degF/min": "delta_degF/min",
}
IN_BASE_UNITS = ("mm", "s", "kelvin", "kg", "ampere", "degree")

MEASURED = [unit for unit in UNITS if unit.dimension not in (HARDNESS, COUNT)]
numbers = st.fractions(min_value=-5000, max_value=5000, max_denominator=1000)


@cache
def registry() -> "pint.UnitRegistry[Fraction]":
    return pint.UnitRegistry(non_int_type=Fraction)


def pint_name(unit: Unit) -> str:
    name = IN_PINT.get(unit.symbol, unit.symbol)
    return f"delta_{name}" if unit.dimension is DIFFERENCE and name != "kelvin" else name


def pint_convert(number: Fraction, source: Unit, target: Unit) -> Fraction:
    return registry().Quantity(number, pint_name(source)).to(pint_name(target)).magnitude


@pytest.mark.parametrize("unit", MEASURED, ids=lambda unit: f"{unit.dimension.name}-{unit.symbol}")
@settings(max_examples=10)
@given(number=numbers)
def test_every_unit_agrees_with_pint(unit: Unit, number: Fraction) -> None:
    canonical = find_unit(unit.dimension.canonical, unit.dimension)
    assert canonical is not None
    quantity = Quantity.of(number, unit.symbol, unit.dimension)
    assert quantity.value == pint_convert(number, unit, canonical)
    for symbol in symbols_of(unit.dimension):
        target = find_unit(symbol, unit.dimension)
        assert target is not None
        assert quantity.to(symbol) == pint_convert(number, unit, target)


@each_row("dimension", [d for d in DIMENSIONS if d not in (HARDNESS, COUNT)], ids=lambda d: d.name)
def test_exponents_and_coherent_size_agree_with_pint(dimension: Dimension) -> None:
    canonical = find_unit(dimension.canonical, dimension)
    assert canonical is not None
    name = "kelvin" if dimension is TEMPERATURE else pint_name(canonical)
    base = registry().Quantity(Fraction(1), "dimensionless")
    for unit, power in zip(IN_BASE_UNITS, dimension.powers, strict=False):
        base = base * registry().Quantity(Fraction(1), unit) ** power
    assert registry().Quantity(Fraction(1), name).to(base.units).magnitude == dimension.coherent


@given(number=numbers)
def test_kelvin_is_never_a_place_on_the_scale(number: Fraction) -> None:
    # A unit library may take kelvin for both: pint turns 20 kelvin into 20 delta_degC and
    # 20 degC into 293.15 kelvin. Here it is a difference and nothing else.
    assert find_unit("K", TEMPERATURE) is None
    difference = Quantity.of(number, "K", DIFFERENCE)
    assert difference.to("degC") == number
    assert difference.to("degF") == number * Fraction(9, 5)


# NIST SP 811 (2008), appendix B.8 and B.9: degree Fahrenheit as an interval is 5.555 556 E-01 K;
# as a temperature t/degC = (t/degF - 32)/1.8.
@each_row(
    ("text", "dimension", "unit", "places", "expected"),
    [
        ("1 degF", DIFFERENCE, "K", 7, "0.5555556 K"),
        ("25 degF", DIFFERENCE, "K", 4, "13.8889 K"),
        ("400 degF/h", RATE, "K/h", 3, "222.222 K/h"),
        ("600 degF/h", RATE, "K/h", 3, "333.333 K/h"),
        ("1150 degF", TEMPERATURE, "degC", 2, "621.11 degC"),
        ("1350 degF", TEMPERATURE, "degC", 2, "732.22 degC"),
        ("1400 degF", TEMPERATURE, "degC", 1, "760.0 degC"),
        ("-40 degF", TEMPERATURE, "degC", 0, "-40 degC"),
        ("32 degF", TEMPERATURE, "degC", 0, "0 degC"),
    ],
)
def test_fahrenheit(text: str, dimension: Dimension, unit: str, places: int, expected: str) -> None:
    assert Quantity.read(text, dimension).show(unit, places) == expected


# NIST SP 811 (2008), appendix B.8, seven figures (from memory), scaled to the unit at the right.
@each_row(
    ("symbol", "factor", "relative_to"),
    [
        ("psi", "6.894757E-03", "MPa"),
        ("ksi", "6.894757E+00", "MPa"),
        ("lb", "4.535924E-01", "kg"),
        ("lb/ft3", "1.601846E+01", "kg/m3"),
        ("BTU/h/ft/degF", "1.730735E+00", "W/mK"),
        ("ft2*h*degF/BTU", "1.761102E-01", "m2K/W"),
        ("BTU", "1.055056E+03", "J"),
        ("W/in2", "1.550003E-01", "W/cm2"),
    ],
)
def test_published_factors(symbol: str, factor: str, relative_to: str) -> None:
    (unit,) = [unit for unit in UNITS if unit.symbol == symbol]
    value = Quantity.of(1, symbol, unit.dimension).to(relative_to)
    assert f"{float(value):.6E}" == factor


def test_partners_are_units_of_the_other_system() -> None:
    for unit in UNITS:
        if unit.system == "both":
            assert unit.partner is None
            continue
        assert unit.partner is not None
        partner = find_unit(unit.partner, unit.dimension)
        assert partner is not None
        # BTU is shown beside kJ, which is usual in both; nothing is shown beside its own system.
        assert partner.system != unit.system


def test_canonical_units_exist_with_factor_one() -> None:
    for dimension in DIMENSIONS:
        unit = find_unit(dimension.canonical, dimension)
        assert unit is not None
        assert unit.to_canonical(Fraction(7)) == 7


def test_wall_multiple_is_no_unit() -> None:
    # t is the wall thickness in every formula, so it cannot be the tonne.
    assert not any(unit.symbol == "t" for unit in UNITS)


@each_row(
    ("written", "dimension", "symbol"),
    [
        ("°C", TEMPERATURE, "degC"),
        ("°F", DIFFERENCE, "degF"),
        ("°C/h", RATE, "degC/h"),
        ("µm", LENGTH, "um"),
        ("μm", LENGTH, "um"),
        ("HB", HARDNESS, "HBW"),
    ],
)
def test_aliases(written: str, dimension: Dimension, symbol: str) -> None:
    unit = find_unit(written, dimension)
    assert unit is not None
    assert unit.symbol == symbol
