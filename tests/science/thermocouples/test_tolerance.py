"""Limits of error of wire against the tables of IEC 60584-1:2013 and ASTM E230."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.science.thermocouples.errors import NotDefined, OutOfRange, UnknownName
from hts.science.thermocouples.tolerance import CLASSES, limit_of_error
from tests.rows import each_row

IEC, ASTM = "IEC 60584-1", "ASTM E230"


def kelvin(*question):
    return limit_of_error(*question).kelvin


@each_row(
    ("type", "grade", "celsius", "limit"),
    [
        # IEC 60584-1:2013 tolerance table; below and above each break, and at range ends.
        ("K", "1", -40, "1.5"),
        ("K", "1", 375, "1.5"),
        ("K", "1", 376, "1.504"),
        ("K", "1", 620, "2.48"),
        ("K", "1", 1000, "4"),
        ("K", "2", 333, "2.5"),
        ("K", "2", 334, "2.505"),
        ("K", "2", 1200, "9"),
        ("K", "3", 40, "2.5"),
        ("K", "3", -166, "2.5"),
        ("K", "3", -167, "2.505"),
        ("K", "3", -200, "3"),
        ("N", "1", 376, "1.504"),
        ("N", "2", 1200, "9"),
        ("N", "3", -167, "2.505"),
        ("E", "1", 800, "3.2"),
        ("E", "2", 900, "6.75"),
        ("E", "3", -200, "3"),
        ("J", "1", 750, "3"),
        ("J", "2", 750, "5.625"),
        ("T", "1", 125, "0.5"),
        ("T", "1", 126, "0.504"),
        ("T", "2", 133, "1"),
        ("T", "2", 134, "1.005"),
        ("T", "3", -66, "1"),
        ("T", "3", -67, "1.005"),
        ("R", "2", 600, "1.5"),
        ("R", "2", 604, "1.51"),
        ("S", "2", 1600, "4"),
        ("B", "2", 600, "1.5"),
        ("B", "2", 1700, "4.25"),
        ("B", "3", 800, "4"),
        ("B", "3", 1700, "8.5"),
        # IEC 60584-1:2013, from memory.
        ("R", "1", 0, "1"),
        ("R", "1", 1100, "1"),
        ("S", "1", 1200, "1.3"),
        ("S", "1", 1600, "2.5"),
    ],
)
def test_iec(type, grade, celsius, limit):
    assert kelvin(IEC, type, grade, celsius) == Fraction(limit)


@each_row(
    ("type", "grade", "celsius", "limit"),
    [
        # ASTM E230 tolerance table.
        ("K", "standard", 0, "2.2"),
        ("K", "standard", 150, "2.2"),
        ("K", "standard", 293, "2.2"),
        ("K", "standard", 294, "2.205"),
        ("K", "standard", 1260, "9.45"),
        ("K", "special", 275, "1.1"),
        ("K", "special", 276, "1.104"),
        ("N", "special", 760, "3.04"),
        ("J", "standard", 760, "5.7"),
        ("J", "special", 760, "3.04"),
        ("E", "standard", 340, "1.7"),
        ("E", "standard", 341, "1.705"),
        ("E", "special", 250, "1"),
        ("E", "special", 251, "1.004"),
        ("T", "standard", 134, "1.005"),
        ("T", "special", 125, "0.5"),
        ("R", "standard", 600, "1.5"),
        ("R", "special", 600, "0.6"),
        ("S", "standard", 1480, "3.7"),
        ("B", "standard", 870, "4.35"),
        ("B", "special", 1700, "4.25"),
        # ASTM E230, from memory: reprints give 1 % or 2 %.
        ("K", "standard", -100, "2.2"),
        ("K", "standard", -200, "4"),
    ],
)
def test_astm(type, grade, celsius, limit):
    assert kelvin(ASTM, type, grade, celsius) == Fraction(limit)


@each_row(
    ("celsius", "limits"),
    [
        # Derived from IEC 60584-1 classes 1 and 2, ASTM E230 standard and special.
        (593, ("2.372", "4.4475", "4.4475", "2.372")),
        (620, ("2.48", "4.65", "4.65", "2.48")),
        (760, ("3.04", "5.7", "5.7", "3.04")),
        (150, ("1.5", "2.5", "2.2", "1.1")),
    ],
)
def test_types_k_and_n_at_heat_treatment_temperatures(celsius, limits):
    columns = ((IEC, "1"), (IEC, "2"), (ASTM, "standard"), (ASTM, "special"))
    for type in "KN":
        for (standard, grade), limit in zip(columns, limits, strict=True):
            assert kelvin(standard, type, grade, celsius) == Fraction(limit)


def test_percentage_is_of_celsius():
    # ASTM E230: 1148 degF is 620 degC; 0.75 % of 620 is 4.65 degC, which is 8.37 degF.
    found = limit_of_error(ASTM, "K", "standard", Fraction(1148 - 32) * Fraction(5, 9))
    assert found.kelvin == Fraction("4.65")
    assert found.fahrenheit_degrees == Fraction("8.37")


@each_row(
    ("standard", "type", "grade", "low", "high"),
    [
        # IEC 60584-1:2013 and ASTM E230 tolerance tables.
        (IEC, "K", "1", -40, 1000),
        (IEC, "N", "2", -40, 1200),
        (IEC, "K", "3", -200, 40),
        (IEC, "E", "1", -40, 800),
        (IEC, "E", "2", -40, 900),
        (IEC, "J", "2", -40, 750),
        (IEC, "T", "1", -40, 350),
        (IEC, "R", "2", 0, 1600),
        (IEC, "B", "2", 600, 1700),
        (ASTM, "K", "standard", -200, 1260),
        (ASTM, "K", "special", 0, 1260),
        (ASTM, "J", "standard", 0, 760),
        (ASTM, "E", "special", 0, 870),
        (ASTM, "T", "standard", 0, 370),
        (ASTM, "S", "special", 0, 1480),
        (ASTM, "B", "standard", 870, 1700),
    ],
)
def test_never_a_value_out_of_range(standard, type, grade, low, high):
    limit_of_error(standard, type, grade, low)
    limit_of_error(standard, type, grade, high)
    for outside in (low - Fraction(1, 1000), high + Fraction(1, 1000)):
        with pytest.raises(OutOfRange) as caught:
            limit_of_error(standard, type, grade, outside)
        assert (caught.value.type, caught.value.low, caught.value.high) == (type, low, high)


@given(st.sampled_from("EJKNRST"), st.fractions(0, 340), st.fractions(0, 10))
def test_limit_never_shrinks_as_the_couple_gets_hotter(type, celsius, step):
    for standard, grade in ((IEC, "2"), (ASTM, "standard"), (ASTM, "special")):
        cold, hot = (kelvin(standard, type, grade, t) for t in (celsius, celsius + step))
        assert 0 < cold <= hot


def test_what_is_not_defined():
    # IEC 60584-1:2013: no class 3 for type J, no class 1 for type B.
    for type, grade in (("J", "3"), ("B", "1")):
        with pytest.raises(NotDefined, match=f"gives type {type} no class {grade}"):
            limit_of_error(IEC, type, grade, 20)


def test_unknown_names():
    assert set(CLASSES) == {IEC, ASTM}
    for question in (("ASTM", "K", "1"), (IEC, "Q", "1"), (IEC, "K", "standard")):
        with pytest.raises(UnknownName):
            limit_of_error(*question, 20)


def test_origin_is_carried():
    assert limit_of_error(IEC, "K", "1", 620).origin[0] == "IEC 60584-1"
    assert limit_of_error(IEC, "K", "1", 620).origin.basis == "published"
    assert limit_of_error(IEC, "S", "1", 620).origin.basis == "memory"
    assert limit_of_error(ASTM, "K", "standard", -100).origin.confidence == "medium"
