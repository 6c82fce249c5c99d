"""Dimensions apart from each other, and together in formulas."""

import copy
import pickle

import pytest

from hts.base.quantities import (
    COUNT,
    DIFFERENCE,
    DIMENSIONS,
    ENERGY,
    HEAT_INPUT,
    LENGTH,
    MASS_FRACTION,
    POWER,
    POWER_DENSITY,
    RATE,
    RATIO,
    RESISTANCE,
    TEMPERATURE,
    TIME,
    TIME_PER_LENGTH,
    VOLTAGE,
    Dimension,
    Quantity,
    difference_of,
    dimension_named,
    dimension_of,
)
from hts.base.quantities.dimensions import DIMENSIONLESS


def product(left: Dimension, right: Dimension, sign: int = 1) -> Dimension | None:
    pairs = zip(left.powers, right.powers, strict=True)
    return dimension_of(tuple(a + sign * b for a, b in pairs))


def test_names_are_unique_and_found() -> None:
    assert len({dimension.name for dimension in DIMENSIONS}) == len(DIMENSIONS)
    for dimension in DIMENSIONS:
        assert dimension_named(dimension.name) is dimension
    with pytest.raises(KeyError):
        dimension_named("colour")


def test_products_and_quotients_find_their_dimension() -> None:
    assert product(TIME_PER_LENGTH, LENGTH) is TIME
    assert product(RATE, TIME) is DIFFERENCE
    assert product(DIFFERENCE, TIME, -1) is RATE
    assert product(POWER, TIME) is ENERGY
    assert product(ENERGY, LENGTH, -1) is HEAT_INPUT
    assert product(RESISTANCE, dimension_named("current")) is VOLTAGE
    assert product(LENGTH, LENGTH, -1) is COUNT
    assert product(LENGTH, LENGTH) is None


def test_no_formula_yields_a_point_and_no_two_dimensions_share_exponents() -> None:
    assert dimension_of(TEMPERATURE.powers) is DIFFERENCE
    assert dimension_of(DIMENSIONLESS) is COUNT
    named = [d for d in DIMENSIONS if d not in (TEMPERATURE, MASS_FRACTION, RATIO)]
    assert len({dimension.powers for dimension in named}) == len(named)


def test_base_values_multiply_whatever_the_canonical_units() -> None:
    # 5 W/cm2 over 300 mm x 200 mm is 3 kW.
    density = Quantity.read("5 W/cm2", POWER_DENSITY)
    sides = Quantity.read("300 mm", LENGTH), Quantity.read("200 mm", LENGTH)
    power = density.base_value * sides[0].base_value * sides[1].base_value
    assert Quantity.of_base(power, POWER, "kW").show() == "3 kW"
    # 2.4 min/mm on a wall of 1 in is 60.96 min.
    hold = Quantity.read("2.4 min/mm", TIME_PER_LENGTH).base_value
    time = hold * Quantity.read("1 in", LENGTH).base_value
    assert Quantity.of_base(time, TIME, "min").show() == "60.96 min"


def test_difference_of() -> None:
    assert difference_of(TEMPERATURE) is DIFFERENCE
    assert difference_of(LENGTH) is LENGTH


def test_a_copy_is_the_same_dimension() -> None:
    quantity = Quantity.read("705 degC", TEMPERATURE)
    for twin in (copy.deepcopy(quantity), pickle.loads(pickle.dumps(quantity))):
        assert twin == quantity
        assert twin.dimension is TEMPERATURE
        assert twin.unit is quantity.unit
