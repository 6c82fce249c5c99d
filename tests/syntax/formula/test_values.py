"""Values of formulas against arithmetic done outside: fractions, decimal and the pint library."""

from decimal import Context, Decimal
from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.base.quantities import (
    COUNT,
    DIFFERENCE,
    LENGTH,
    RATE,
    TEMPERATURE,
    TIME,
    Dimension,
    Quantity,
)
from hts.syntax.formula import Formula, FormulaError
from hts.syntax.formula.functions import SQRT_DIGITS, square_root
from tests.rows import each_row

REGISTRY = pint.UnitRegistry(non_int_type=Fraction)


# ---- Precedence and exactness: the tree is built here, its value by Python's fractions ----

numbers = st.integers(1, 99).map(lambda n: (str(n), Fraction(n)))
decimals = st.integers(1, 9999).map(lambda n: (f"{n // 100}.{n % 100:02}", Fraction(n, 100)))


def joined(children):
    def build(left, sign, right, brackets):
        value = {
            "+": lambda: left[1] + right[1],
            "-": lambda: left[1] - right[1],
            "*": lambda: left[1] * right[1],
            "/": lambda: left[1] / right[1] if right[1] else None,
        }[sign]()
        first, second = left[0], right[0]
        if brackets or sign in "*/":
            first = f"({first})"
        if brackets or sign in "-*/":
            second = f"({second})"
        return f"{first} {sign} {second}", value

    return st.builds(build, children, st.sampled_from("+-*/"), children, st.booleans()).filter(
        lambda pair: pair[1] is not None
    )


@given(st.recursive(numbers | decimals, joined, max_leaves=8))
def test_arithmetic_is_exact(expression):
    text, expected = expression
    assert Formula.parse(text).evaluate({}) == expected


@each_row(
    ("text", "expected"),
    [
        # Usual precedence, as in ISO 80000-1: products before sums, from left to right.
        ("2 + 3 * 4", 14),
        ("20 - 5 - 3", 12),
        ("24 / 4 / 3", 2),
        ("24 / 4 * 3", 18),
        ("2 * 3^2", 18),
        ("-3^2", -9),
        ("-(2 + 1) * 2", -6),
        ("max(1, 2, 3) - min(4, 5)", -1),
        ("abs(2 - 5)", 3),
        ("round_up(26, 25)", 50),
        ("round_up(25, 25)", 25),
        ("round_down(74.9, 25)", 50),
        ("round_down(75, 25)", 75),
        ("round_down(0 - 0.1, 25)", -25),
        ("round_to(62, 25)", 50),
        ("round_to(62.5, 25)", 75),
        ("1/2 + 1 1/4", Fraction(7, 4)),
    ],
)
def test_precedence_and_functions(text, expected):
    assert Formula.parse(text).evaluate({}) == expected


# ---- Square roots against the decimal module (General Decimal Arithmetic specification) ----


@given(st.fractions(min_value=0, max_value=10**12, max_denominator=10**9))
def test_square_root_has_forty_digits(value):
    root = square_root(value)
    assert root * root <= value
    exact = Context(prec=80)
    true = exact.sqrt(exact.divide(Decimal(value.numerator), Decimal(value.denominator)))
    ours = exact.divide(Decimal(root.numerator), Decimal(root.denominator))
    assert abs(ours - true) <= true * Decimal(10) ** (1 - SQRT_DIGITS)


@given(st.fractions(min_value=0, max_value=10**6, max_denominator=10**4))
def test_square_root_of_a_square_is_exact(value):
    assert square_root(value * value) == value


# ---- Units against pint ----

PINT_UNITS = {
    "in": "inch",
    "h": "hour",
    "min": "minute",
    "K": "delta_degC",
    "K/h": "delta_degC/hour",
    "min/mm": "minute/mm",
    "h/in": "hour/inch",
    "mm": "mm",
}


def quantity(number, unit):
    return f"{number} {unit}", lambda: REGISTRY.Quantity(Fraction(number), PINT_UNITS[unit])


def combined(children):
    def build(left, sign, right):
        def value():
            first, second = left[1](), right[1]()
            if sign == "+":
                return first + second
            if sign == "-":
                return first - second
            return first * second if sign == "*" else first / second

        return f"({left[0]}) {sign} ({right[0]})", value

    return st.builds(build, children, st.sampled_from("+-*/"), children)


expressions = st.recursive(
    st.builds(quantity, st.integers(1, 50), st.sampled_from(sorted(PINT_UNITS))),
    combined,
    max_leaves=5,
)


@given(expressions)
def test_units_agree_with_pint(expression):
    text, value = expression
    formula = Formula.parse(text)
    try:
        expected = value()
    except pint.DimensionalityError:
        with pytest.raises(FormulaError):
            formula.check({})
        return
    except ZeroDivisionError:
        with pytest.raises(FormulaError):
            formula.evaluate({})
        return
    kind = formula.check({})
    assert isinstance(kind, Dimension)
    result = formula.evaluate({})
    base = result.base_value if isinstance(result, Quantity) else result
    assert base == expected.to(_base_units(expected)).magnitude


def _base_units(value):
    """The coherent units of formulas for pint's dimensions: mm, s, K."""
    names = {"[length]": "mm", "[time]": "second", "[temperature]": "delta_degC"}
    unit = REGISTRY.Unit("")
    for dimension, power in value.dimensionality.items():
        unit *= REGISTRY.Unit(names[dimension]) ** int(power)
    return unit


# Temperatures as places on a scale: pint's offset units (autoconvert off) allow the same.
@each_row(
    ("text", "expected"),
    [
        ("hot - cold", ("delta_degC", lambda hot, cold, _: hot - cold)),
        ("hot + step", ("degC", lambda hot, _, step: hot + step)),
        ("hot - step", ("degC", lambda hot, _, step: hot - step)),
        ("step + hot", ("degC", lambda hot, _, step: step + hot)),
        ("hot + cold", None),
        ("hot * 2", None),
        ("hot / step", None),
    ],
)
def test_temperatures_are_places(text, expected):
    facts = {
        "hot": Quantity.read("1300 degF", TEMPERATURE),
        "cold": Quantity.read("315 degC", TEMPERATURE),
        "step": Quantity.read("50 degF", DIFFERENCE),
    }
    formula = Formula.parse(text)
    kinds = {name: fact.dimension for name, fact in facts.items()}
    if expected is None:
        with pytest.raises(FormulaError):
            formula.check(kinds)
        return
    unit, compute = expected
    outside = compute(
        REGISTRY.Quantity(Fraction(1300), "degF").to("degC"),
        REGISTRY.Quantity(Fraction(315), "degC"),
        REGISTRY.Quantity(Fraction(50), "delta_degF"),
    ).to(unit)
    formula.check(kinds)
    # pint's offsets are floats somewhere on the way, ours are not.
    assert float(formula.evaluate(facts).value) == pytest.approx(float(outside.magnitude), abs=1e-9)


# ---- What a written degC or degF is ----


@each_row(
    ("text", "wants", "canonical"),
    [
        # NIST SP 811 B.8: an interval of 50 degF is 27.78 K, a temperature of 50 degF is 10 degC.
        ("50 degF", DIFFERENCE, Fraction(250, 9)),
        ("50 degF", TEMPERATURE, 10),
        ("-10 degC", TEMPERATURE, -10),
        ("705 degC - 50 degF", TEMPERATURE, 705 - Fraction(250, 9)),
        ("max(30 degC, 45 degF)", DIFFERENCE, 30),
        ("595 degC - 30 K", TEMPERATURE, 565),
        ("2 h 30 min", TIME, 9000),
        ("1 h/25 mm * 50 mm", TIME, 7200),
    ],
)
def test_written_quantities(text, wants, canonical):
    formula = Formula.parse(text, wants)
    assert formula.check({}) is wants
    assert formula.evaluate({}).value == canonical


def test_difference_beside_a_difference_fact():
    facts = {"lowered_by": Quantity.read("50 degF", DIFFERENCE)}
    formula = Formula.parse("lowered_by <= 50 degF")
    formula.check({"lowered_by": DIFFERENCE})
    assert formula.evaluate(facts) is True
    assert Formula.parse("10 degC > lowered_by").evaluate(facts) is False


def test_multiple_is_of_the_governing_thickness():
    facts = {"t": Quantity.read("1 in", LENGTH)}
    formula = Formula.parse("5 t + 1 mm", LENGTH)
    assert formula.names == ("t",)
    assert formula.evaluate(facts).value == 128


def test_result_is_in_the_units_of_the_author():
    facts = {"t": Quantity.read("25.4 mm", LENGTH)}
    assert str(Formula.parse("2.5 min/mm * t", TIME).evaluate(facts)) == "63.5 min"
    assert str(Formula.parse("400 degF/h * (1 in / t)", RATE).evaluate(facts)) == "400 degF/h"
    assert str(Formula.parse("3 * t", LENGTH).evaluate(facts)) == "76.2 mm"
    assert Formula.parse("t / 1 in", COUNT).evaluate(facts) == 1


@each_row(
    ("text", "shown"),
    [
        ("2.5 min/mm * t", "2.5 min/mm × 25.4 mm"),
        ("5 t - 1 mm", "5 × 25.4 mm − 1 mm"),
        ("t^2 / 2 mm", "(25.4 mm)^2 / 2 mm"),
        ("sqrt(t * wall)", "√(25.4 mm × 12 mm)"),
        ("t <= 60 mm and weld_kind = girth-butt", "25.4 mm ≤ 60 mm and socket = girth-butt"),
        ("missing + t", "missing + 25.4 mm"),
    ],
)
def test_shown_puts_the_numbers_in(text, shown):
    facts = {
        "t": Quantity.read("25.4 mm", LENGTH),
        "wall": Quantity.read("12 mm", LENGTH),
        "weld_kind": "socket",
    }
    assert Formula.parse(text).shown(facts) == shown


@pytest.mark.parametrize("text", ["1 mm / (t - t)", "sqrt(0 - 4)", "round_up(t, t - t)"])
def test_no_value_is_an_error_not_a_crash(text):
    formula = Formula.parse(text)
    with pytest.raises(FormulaError):
        formula.evaluate({"t": Quantity.read("10 mm", LENGTH)})


def test_numbers_cannot_grow_without_end():
    text = "9"
    for _ in range(12):
        text = f"({text})^4"
    with pytest.raises(FormulaError, match="too long"):
        Formula.parse(text).evaluate({})
