"""Ranges and tolerances."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.base.quantities import (
    DIFFERENCE,
    LENGTH,
    TEMPERATURE,
    TIME,
    Dimension,
    Interval,
    Quantity,
    QuantityError,
)

ends = st.one_of(st.none(), st.integers(-50, 50))


def degrees(number: int | Fraction) -> Quantity:
    return Quantity.of(number, "degC", TEMPERATURE)


@st.composite
def intervals(draw: st.DrawFn) -> Interval:
    low, high = draw(ends), draw(ends)
    if low is None and high is None:
        low = 0
    if low is not None and high is not None:
        low, high = sorted((low, high))
    return Interval(None if low is None else degrees(low), None if high is None else degrees(high))


@pytest.mark.parametrize(
    ("text", "dimension", "low", "high"),
    [
        ("690 .. 720 degC", TEMPERATURE, Fraction(690), Fraction(720)),
        ("690 degC .. 720 degC", TEMPERATURE, Fraction(690), Fraction(720)),
        ("1400 degF..770 degC", TEMPERATURE, Fraction(760), Fraction(770)),
        ("705 +/- 15 degC", TEMPERATURE, Fraction(690), Fraction(720)),
        ("1 1/2 .. 2 in", LENGTH, Fraction(381, 10), Fraction(508, 10)),
        ("30 min .. 2 h 30 min", TIME, Fraction(1800), Fraction(9000)),
        ("323.9 +/- 0.2 mm", LENGTH, Fraction(3237, 10), Fraction(3241, 10)),
        ("-10 .. 0 degC", TEMPERATURE, Fraction(-10), Fraction(0)),
    ],
)
def test_reading(text: str, dimension: Dimension, low: Fraction, high: Fraction) -> None:
    interval = Interval.read(text, dimension)
    assert interval.low is not None
    assert interval.high is not None
    assert (interval.low.value, interval.high.value) == (low, high)
    assert interval.dimension is dimension


def test_a_tolerance_is_a_difference() -> None:
    # NIST SP 811 B.9: an interval of 25 degF is 13.8889 K, whatever unit the centre has.
    mixed = Interval.read("705 degC +/- 25 degF", TEMPERATURE)
    assert mixed.low == degrees(705 - Fraction(125, 9))
    assert mixed.high == degrees(705 + Fraction(125, 9))
    assert mixed.width == Quantity.read("50 degF", DIFFERENCE)
    alike = Interval.read("1300 +/- 25 degF", TEMPERATURE)
    assert alike.show() == "1275 degF .. 1325 degF"


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("690 degC .. 720", "no unit"),
        ("705 +/- 14 K", "wrong dimension"),
        ("705 degC +/- 14", "no unit"),
        ("690 .. 720", "no unit"),
        ("690 .. 720 mm", "wrong dimension"),
        ("a .. 720 degC", "bad number"),
    ],
)
def test_refusals(text: str, problem: str) -> None:
    with pytest.raises(QuantityError) as caught:
        Interval.read(text, TEMPERATURE)
    assert caught.value.problem == problem


@pytest.mark.parametrize(
    "text", ["720 .. 690 degC", "705 +/- -5 degC", "760 + 10 degC", "705 degC"]
)
def test_more_refusals(text: str) -> None:
    with pytest.raises(ValueError):
        Interval.read(text, TEMPERATURE)


def test_ends() -> None:
    with pytest.raises(ValueError, match="one end"):
        Interval(None, None)
    with pytest.raises(TypeError):
        Interval(degrees(1), Quantity.read("5 mm", LENGTH))
    assert Interval(degrees(1), None).show() == "at least 1 degC"
    assert Interval(None, degrees(1)).show() == "at most 1 degC"
    assert Interval(None, degrees(1)).width is None


@given(intervals(), intervals(), st.integers(-60, 60))
def test_intersection_holds_what_both_hold(a: Interval, b: Interval, number: int) -> None:
    common = a.intersect(b)
    point = degrees(number)
    in_common = common is not None and common.contains(point)
    assert in_common == (a.contains(point) and b.contains(point))
    assert common == b.intersect(a)
    if common is not None:
        assert a.contains(common)
        assert b.contains(common)


@given(intervals(), intervals(), st.integers(-60, 60))
def test_a_contained_interval_has_no_point_outside(a: Interval, b: Interval, number: int) -> None:
    point = degrees(number)
    if a.contains(b) and b.contains(point):
        assert a.contains(point)
    assert a.contains(b) == (a.intersect(b) == b)


@given(intervals(), intervals())
def test_equal_intervals_hash_alike(a: Interval, b: Interval) -> None:
    if a == b:
        assert hash(a) == hash(b)
