"""Reading, comparing, adding and showing quantities."""

import ast
import operator
import re
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.base.quantities import (
    ANGLE,
    COUNT,
    CURRENT,
    DIFFERENCE,
    ENERGY,
    HARDNESS,
    HYDROGEN,
    LENGTH,
    MASS_FRACTION,
    POWER,
    RATE,
    RATIO,
    STRESS,
    TEMPERATURE,
    TIME,
    TIME_PER_LENGTH,
    UNITS,
    Dimension,
    Quantity,
    QuantityError,
    Unit,
)
from hts.base.quantities.duration import show_duration
from hts.generate import ROOT
from tests.rows import each_row

POINTS = [unit for unit in UNITS if unit.dimension.point]
OTHERS = [unit for unit in UNITS if not unit.dimension.point]
numbers = st.fractions(min_value=-2000, max_value=2000, max_denominator=100)


def read(text: str, dimension: Dimension) -> Quantity:
    return Quantity.read(text, dimension)


@each_row(
    ("text", "dimension", "value", "shown"),
    [
        ("25.4 mm", LENGTH, Fraction(254, 10), "25.4 mm"),
        ("25.40mm", LENGTH, Fraction(254, 10), "25.40 mm"),
        ("1 in", LENGTH, Fraction(254, 10), "1 in"),
        ("1 1/2 in", LENGTH, Fraction(381, 10), "1 1/2 in"),
        ("3/8 in", LENGTH, Fraction(9525, 1000), "3/8 in"),
        ("12  5/16  in", LENGTH, Fraction(12 * 16 + 5, 16) * Fraction(254, 10), "12 5/16 in"),
        ("-10 degC", TEMPERATURE, Fraction(-10), "-10 degC"),
        ("705 °C", TEMPERATURE, Fraction(705), "705 degC"),
        ("1400 degF", TEMPERATURE, Fraction(760), "1400 degF"),
        ("25 degF", DIFFERENCE, Fraction(125, 9), "25 degF"),
        ("200 degC/h", RATE, Fraction(200), "200 degC/h"),
        ("400 °F/h", RATE, Fraction(2000, 9), "400 degF/h"),
        ("10 K/min", RATE, Fraction(600), "10 K/min"),
        ("2 h 30 min", TIME, Fraction(9000), "2 h 30 min"),
        ("2h 30min", TIME, Fraction(9000), "2 h 30 min"),
        ("1 d 2 h 3 min 4.5 s", TIME, Fraction(937845, 10), "1 d 2 h 3 min 4.5 s"),
        ("2.5 h", TIME, Fraction(9000), "2.5 h"),
        ("0.11 %", MASS_FRACTION, Fraction(11, 100), "0.11 %"),
        ("35 ppm", MASS_FRACTION, Fraction(35, 10000), "35 ppm"),
        ("10%", RATIO, Fraction(10), "10 %"),
        ("241 HB", HARDNESS, Fraction(241), "241 HBW"),
        ("5 ml/100g", HYDROGEN, Fraction(5), "5 ml/100g"),
        ("12kW", POWER, Fraction(12000), "12 kW"),
        ("50 kVA", POWER, Fraction(50000), "50 kVA"),
        ("100 W*s", ENERGY, Fraction(100), "100 W*s"),
        ("1 h/in", TIME_PER_LENGTH, Fraction(60) / Fraction(254, 10), "1 h/in"),
        ("90 deg", ANGLE, Fraction(90), "90 deg"),
        ("12", COUNT, Fraction(12), "12"),
    ],
)
def test_reading(text: str, dimension: Dimension, value: Fraction, shown: str) -> None:
    quantity = read(text, dimension)
    assert quantity.value == value
    assert quantity.dimension is dimension
    assert quantity.written == text
    assert quantity.show() == str(quantity) == shown


@each_row(
    ("text", "dimension", "problem", "suggestion"),
    [
        ("25.4", LENGTH, "no unit", None),
        ("705", TEMPERATURE, "no unit", None),
        ("705 C", TEMPERATURE, "unknown unit", "degC"),
        ("1300 F", TEMPERATURE, "unknown unit", "degF"),
        ("978 K", TEMPERATURE, "wrong dimension", None),
        ("200 degC", RATE, "wrong dimension", "degC/h"),
        ("200 degC/hr", RATE, "unknown unit", "degC/h"),
        ("200 C/h", RATE, "unknown unit", "degC/h"),
        ("200 degC/h", TEMPERATURE, "wrong dimension", None),
        ("8 hours", TIME, "unknown unit", "h"),
        ("8 hours", LENGTH, "unknown unit", None),
        ("5 mim", TIME, "unknown unit", "min"),
        ("5 Mm", LENGTH, "unknown unit", "mm"),
        ("5 x", LENGTH, "unknown unit", None),
        ("6 t", LENGTH, "unknown unit", None),
        ('2"', LENGTH, "unknown unit", "in"),
        ("2'", LENGTH, "unknown unit", "ft"),
        ("2 inches", LENGTH, "unknown unit", "in"),
        ("45°", ANGLE, "unknown unit", "deg"),
        ("12 mm", TIME, "wrong dimension", None),
        ("12 HV", HARDNESS, "unknown unit", "HV10"),
        ("5A", CURRENT, "unknown unit", "5 A"),
        ("25,4 mm", LENGTH, "decimal comma", "25.4"),
        ("1,300 degF", TEMPERATURE, "bad number", None),
        ("1e3 mm", LENGTH, "bad number", None),
        ("1'300 degF", TEMPERATURE, "bad number", None),
        ("1½ in", LENGTH, "bad number", "1 1/2"),
        ("½ in", LENGTH, "bad number", "1/2"),
        ("−10 degC", TEMPERATURE, "bad number", "-10"),
        ("+/- 5 mm", LENGTH, "bad number", None),
        ("mm", LENGTH, "bad number", None),
        ("", LENGTH, "bad number", None),
        ("2 h 90 min", TIME, "bad number", None),
        ("30 min 2 h", TIME, "bad number", None),
        ("2 h 2 h", TIME, "bad number", None),
        ("2.5 h 30 min", TIME, "bad number", None),
        ("-2 h 30 min", TIME, "bad number", None),
        ("2 h -30 min", TIME, "bad number", None),
        ("2 h 30", TIME, "no unit", None),
        ("2 h 30 mm", TIME, "wrong dimension", None),
        ("3 mm", COUNT, "wrong dimension", None),
    ],
)
def test_refusals(text: str, dimension: Dimension, problem: str, suggestion: str | None) -> None:
    with pytest.raises(QuantityError) as caught:
        read(text, dimension)
    error = caught.value
    assert (error.problem, error.suggestion) == (problem, suggestion)
    assert all(find in str(error) for find in [error.part, *([suggestion] if suggestion else [])])


def test_no_unit_says_which_fit() -> None:
    with pytest.raises(QuantityError) as caught:
        read("705", TEMPERATURE)
    assert caught.value.units == ("degC", "degF")
    assert str(caught.value) == "'705' has no unit; a temperature is written in degC or degF"


@given(st.text("0123456789.,/-+ eminhdCFK°½'\"%\t", max_size=12), st.sampled_from([LENGTH, TIME]))
def test_reading_either_works_or_raises_its_own_error(text: str, dimension: Dimension) -> None:
    try:
        quantity = read(text, dimension)
    except QuantityError as error:
        assert error.part in text
    else:
        assert read(quantity.show(), dimension) == quantity


@given(numbers, st.sampled_from(UNITS))
def test_units_do_not_matter_for_equality(number: Fraction, unit: Unit) -> None:
    quantity = Quantity.of(number, unit.symbol, unit.dimension)
    for other in UNITS:
        if other.dimension is unit.dimension and other.scale == unit.scale:
            twin = Quantity.of(quantity.to(other.symbol), other.symbol, unit.dimension)
            assert twin == quantity
            assert hash(twin) == hash(quantity)
            assert twin <= quantity <= twin
            assert not twin < quantity


@given(numbers, numbers, st.sampled_from(OTHERS))
def test_order_follows_the_numbers(a: Fraction, b: Fraction, unit: Unit) -> None:
    left, right = (Quantity.of(n, unit.symbol, unit.dimension) for n in (a, b))
    assert (left < right, left <= right, left == right) == (a < b, a <= b, a == b)
    assert (left > right, left >= right, left != right) == (a > b, a >= b, a != b)
    assert (left + right).to(unit.symbol) == a + b
    assert (left - right).to(unit.symbol) == a - b
    assert (left * 3).to(unit.symbol) == (3 * left).to(unit.symbol) == 3 * a
    assert (-left).to(unit.symbol) == -a
    assert abs(left).to(unit.symbol) == abs(a)
    assert (left / 4).to(unit.symbol) == a / 4


@given(numbers, numbers, st.sampled_from(POINTS), st.sampled_from(["K", "degC", "degF"]))
def test_points_and_differences(a: Fraction, b: Fraction, unit: Unit, symbol: str) -> None:
    point = Quantity.of(a, unit.symbol, TEMPERATURE)
    step = Quantity.of(b, symbol, DIFFERENCE)
    moved = point + step
    assert moved.dimension is TEMPERATURE
    assert moved == step + point
    assert moved - step == point
    assert (moved - point).dimension is DIFFERENCE
    assert moved - point == step
    for wrong in (
        lambda: point + point,
        lambda: step - point,
        lambda: point * 2,
        lambda: 2 * point,
        lambda: point / 2,
        lambda: -point,
        lambda: abs(point),
        lambda: point.ratio_to(point),
        lambda: point < step,
        lambda: point == step,
    ):
        with pytest.raises(TypeError):
            wrong()


def test_tolerance_of_25_degf_is_a_difference() -> None:
    # NIST SP 811 B.9: an interval of 25 degF is 13.8889 K; read as a temperature it would be
    # -3.9 degC, the classic mistake.
    assert read("25 degF", DIFFERENCE).show("K", 4) == "13.8889 K"
    assert read("25 degF", TEMPERATURE).show("degC", 1) == "-3.9 degC"


@each_row(
    ("left", "right"),
    [
        (read("5 mm", LENGTH), read("5 s", TIME)),
        (read("0.1 %", MASS_FRACTION), read("0.1 %", RATIO)),
        (read("241 HBW", HARDNESS), read("241 HV10", HARDNESS)),
        (read("248 HV10", HARDNESS), read("248 HV5", HARDNESS)),
        (read("20 HRC", HARDNESS), read("20 HBW", HARDNESS)),
    ],
)
def test_nothing_is_compared_or_added_across_kinds(left: Quantity, right: Quantity) -> None:
    for operation in (
        lambda: left == right,
        lambda: left != right,
        lambda: left < right,
        lambda: left >= right,
        lambda: left + right,
        lambda: left - right,
        lambda: left.ratio_to(right),
    ):
        with pytest.raises(TypeError):
            operation()


def test_hardness_scales_do_not_convert() -> None:
    hardness = read("241 HBW", HARDNESS)
    assert hardness.to("HB") == 241
    with pytest.raises(TypeError):
        hardness.to("HV10")


def test_a_quantity_is_not_another_thing() -> None:
    quantity = read("5 mm", LENGTH)
    assert quantity != 5
    assert quantity is not None
    for operation in (
        operator.lt, operator.le, operator.gt, operator.ge, operator.add, operator.sub,
    ):  # fmt: skip
        with pytest.raises(TypeError):
            operation(quantity, 5)
    with pytest.raises(TypeError):
        quantity * 1.5  # type: ignore[operator]
    with pytest.raises(TypeError):
        Quantity.of(1.5, "mm", LENGTH)  # type: ignore[arg-type]
    with pytest.raises(AttributeError):
        quantity.value = Fraction(6)


def test_making_one() -> None:
    assert Quantity.of("1 1/2", "in", LENGTH).show() == "1 1/2 in"
    assert Quantity.of(25, "mm", LENGTH).show() == "25 mm"
    assert Quantity.of(Fraction(1000, 3), "K/h", RATE).show() == "333.3 K/h"
    assert read("100 mm", LENGTH).ratio_to(read("10 cm", LENGTH)) == 1
    assert read("1 in", LENGTH).in_unit("mm").show() == "25.4 mm"
    with pytest.raises(QuantityError) as caught:
        Quantity.of(1, "K", TEMPERATURE)
    assert caught.value.problem == "wrong dimension"
    with pytest.raises(QuantityError) as caught:
        read("1 in", LENGTH).to("furlong")
    assert caught.value.problem == "unknown unit"


@each_row(
    ("text", "dimension", "both"),
    [
        ("705 degC", TEMPERATURE, "705 degC (1301 degF)"),
        ("1300 degF", TEMPERATURE, "1300 degF (704 degC)"),
        ("1400 °F", TEMPERATURE, "1400 degF (760 degC)"),
        ("25 degF", DIFFERENCE, "25 degF (13.9 K)"),
        ("15 degC", DIFFERENCE, "15 degC (27 degF)"),
        ("200 degC/h", RATE, "200 degC/h (360 degF/h)"),
        ("400 degF/h", RATE, "400 degF/h (222 degC/h)"),
        ("25.4 mm", LENGTH, "25.4 mm (1 in)"),
        ("30 mm", LENGTH, "30 mm (1.18 in)"),
        ("1 1/2 in", LENGTH, "1 1/2 in (38.1 mm)"),
        ("3 m", LENGTH, "3 m (9.84 ft)"),
        ("60 ksi", STRESS, "60 ksi (414 MPa)"),
        ("2 h 30 min", TIME, "2 h 30 min"),
        ("12 kW", POWER, "12 kW"),
        ("0 degC", TEMPERATURE, "0 degC (32 degF)"),
    ],
)
def test_both_systems(text: str, dimension: Dimension, both: str) -> None:
    assert read(text, dimension).both() == both


def test_directed_rounding() -> None:
    least = read("600 degF/h", RATE)
    assert least.show("degC/h", 0, "up") == "334 degC/h"
    assert least.show("degC/h", 0, "down") == "333 degC/h"
    assert least.show("degC/h", 0) == "333 degC/h"
    assert read("1300 degF", TEMPERATURE).both(toward="up") == "1300 degF (705 degC)"
    half = read("1 1/2 in", LENGTH)
    assert half.show(toward="up") == half.show(toward="down") == "1 1/2 in"
    assert half.both(toward="up") == "1 1/2 in (38.1 mm)"
    assert half.show(places=1, toward="up") == "1.5 in"
    third = Quantity.of(Fraction(1, 3), "mm", LENGTH)
    assert third.show(toward="up") == "0.3334 mm"
    assert third.show(toward="down") == "0.3333 mm"


def test_a_figure_printed_beside_in_the_other_system() -> None:
    """ASME B31.3 (2016) table 331.1.1 prints 595 degC beside 1100 degF, which is 593.3 degC."""
    printed = read("1100 degF", TEMPERATURE).with_beside(read("595 degC", TEMPERATURE))
    exact = Fraction(5340, 9)
    assert printed.number_shown("degC", "up") == 595
    assert printed.number_shown("degC", "down") == exact
    assert printed.number_shown("degC") == exact
    assert printed.number_shown("degF", "up") == printed.number_shown("degF", "down") == 1100
    assert printed.show("degC", toward="up") == "595 degC"
    assert printed.show() == "1100 degF"
    assert printed.written == "1100 degF"
    assert printed.in_unit("degF").beside == printed.beside
    assert printed.in_unit("degC").beside is None
    assert (printed + read("1 K", DIFFERENCE)).beside is None
    with pytest.raises(TypeError, match="cannot print temperature and length"):
        printed.with_beside(read("5 mm", LENGTH))


@given(numbers, st.sampled_from(UNITS), st.integers(0, 3))
def test_what_is_shown_up_is_never_less(number: Fraction, unit: Unit, places: int) -> None:
    quantity = Quantity.of(number, unit.symbol, unit.dimension)
    target = unit.partner or unit.symbol
    below, above = (
        Quantity.read(quantity.show(target, places, toward), unit.dimension)
        for toward in ("down", "up")
    )
    assert below <= quantity <= above
    assert Quantity.read(quantity.show(target, toward="up"), unit.dimension) >= quantity


@given(st.integers(0, 10**6))
def test_durations_read_back(seconds: int) -> None:
    time = Quantity.of(seconds, "s", TIME)
    assert Quantity.read(show_duration(time, "s"), TIME) == time
    assert Quantity.read(show_duration(time, "min", "up"), TIME) >= time
    assert Quantity.read(show_duration(time, "min", "down"), TIME) <= time


@each_row(
    ("text", "shown"),
    [
        ("9000 s", "2 h 30 min"),
        ("2.54 h", "2 h 32 min"),
        ("45 min", "45 min"),
        ("0 h", "0 min"),
        ("3599.5 s", "1 h"),
        ("25 h", "25 h"),
        ("-90 min", "-1 h 30 min"),
    ],
)
def test_durations(text: str, shown: str) -> None:
    assert show_duration(read(text, TIME)) == shown


def test_duration_refusals() -> None:
    with pytest.raises(TypeError):
        show_duration(read("5 mm", LENGTH))
    with pytest.raises(ValueError, match="smallest"):
        show_duration(read("5 h", TIME), "d")


def test_a_number_worked_out_is_shown_to_its_places_however_large() -> None:
    shown = [str(Quantity.rounded(value, 1, "K", DIFFERENCE)) for value in (0.04, 4, 1234.56)]
    assert shown == ["0.0 K", "4.0 K", "1234.6 K"]
    large = Quantity.rounded(4.5e54, 1, "K", DIFFERENCE)
    assert large.value == Fraction(4.5e54)
    assert Quantity.rounded(float("inf"), 1, "K", DIFFERENCE) > large


def test_no_number_worked_out_is_written_to_be_read() -> None:
    """What is read has a limit of its letters; what the program works out has none."""
    written = [
        f"{path}:{node.lineno}"
        for path in sorted(Path(ROOT, "hts").rglob("*.py"))
        if re.search(r"\bQuantity\s*\.\s*of\b", text := path.read_text("utf-8"))
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.Call)
        and ast.unparse(node.func) == "Quantity.of"
        and isinstance(node.args[0], ast.JoinedStr)
    ]
    assert written == []
