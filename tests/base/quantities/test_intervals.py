"""Ranges and tolerances."""

import itertools
from fractions import Fraction

import pytest

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
from tests.rows import each_row


def degrees(number: int | Fraction) -> Quantity:
    return Quantity.of(number, "degC", TEMPERATURE)


@each_row(
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


@each_row(
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


@each_row("text", ["720 .. 690 degC", "705 +/- -5 degC", "760 + 10 degC", "705 degC"])
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


def test_every_two_intervals_of_a_scale() -> None:
    """Ends from nothing to 3 degC, values at the ends and between them; the interval of all values
    there are is what a set of them says."""
    scale = [Fraction(n, 2) for n in range(-1, 8)]
    ends = [None, *map(Fraction, range(4))]
    known: list[tuple[Interval, set[Fraction]]] = []
    for low, high in itertools.product(ends, ends):
        if (low is None and high is None) or (low is not None and high is not None and low > high):
            continue
        made = Interval(
            low if low is None else degrees(low), high if high is None else degrees(high)
        )
        held = {v for v in scale if (low is None or low <= v) and (high is None or v <= high)}
        assert {value for value in scale if made.contains(degrees(value))} == held
        assert made.width == (None if low is None or high is None else
                              Quantity.of(high - low, "K", DIFFERENCE))  # fmt: skip
        assert made.dimension is TEMPERATURE
        known.append((made, held))
    for (a, in_a), (b, in_b) in itertools.product(known, known):
        assert a.contains(b) == (in_b <= in_a)
        assert (a == b) == (in_a == in_b)
        assert a != b or hash(a) == hash(b)
        common = a.intersect(b)
        assert (set() if common is None else dict(known)[common]) == in_a & in_b
    assert known[0][0] != "at most 0 degC"
