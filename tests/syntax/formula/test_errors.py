"""What a formula that cannot be used is told, and where."""

import contextlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.base.quantities import LENGTH, TEMPERATURE, TIME
from hts.syntax.formula import Formula, FormulaError
from tests.rows import each_row

NAMES = {
    "t": LENGTH,
    "wall": LENGTH,
    "hold_minimum": TEMPERATURE,
    "lower_critical": TEMPERATURE,
}


@each_row(
    ("text", "place", "message"),
    [
        ("", "", "a formula is needed"),
        ("t * (3", "3", "stops in the middle"),
        ("t * * 3", "*", "does not fit here"),
        ("5 mm < t < 20 mm", "<", "join comparisons with and"),
        ("t 3", "3", "does not fit here"),
        ("t ? 3", "?", "has no meaning"),
        ("t / 1/2", "1/2", "two ways"),
        ("t / 1 1/2 in", "1 1/2 in", "two ways"),
        ("t^2.5", "2.5", "whole number from 1 to 4"),
        ("t^9", "9", "whole number from 1 to 4"),
        ("cosh(t)", "cosh", "is not a function"),
        ("max(t)", "max(t)", "2 to 20 values"),
        ("1/0 + t", "1/0", "zero below the bar"),
        ("t + 3 is known", "t + 3", "only a fact"),
        ("t" * 501, "t" * 501, "at most 500"),
    ],
)
def test_syntax(text, place, message):
    with pytest.raises(FormulaError, match=message) as caught:
        Formula.parse(text)
    assert text[caught.value.start : caught.value.end] == place


@each_row(
    ("text", "place", "message"),
    [
        ("hold_minimum + lower_critical", None, "cannot be added to a temperature"),
        ("3 * hold_minimum", "hold_minimum", "a temperature cannot be multiplied"),
        ("-hold_minimum", None, "cannot be negated"),
        ("abs(hold_minimum)", None, "depends on the scale"),
        ("10 K - hold_minimum", None, "cannot be subtracted from a temperature difference"),
        ("t + 3", None, "t is a length, 3 is a number"),
        ("2 min/mm * t + t", None, "the other is a length|t is a length"),
        ("sqrt(t)", None, "no square root of a length"),
        ("max(t, 3 min)", None, "t is a length, 3 min is a time"),
        ("wal + t", "wal", "did you mean wall"),
        ("t-wall", None, "needs a blank on both sides"),
        ("3 * mm", "mm", "a unit needs a number"),
        ("200 HBW + 1 HBW", "200 HBW", "scales do not convert"),
    ],
)
def test_units(text, place, message):
    with pytest.raises(FormulaError, match=message) as caught:
        Formula.parse(text).check(NAMES)
    assert text[caught.value.start : caught.value.end] == (place or text)


def test_what_it_is_for():
    formula = Formula.parse("2.5 min/mm * t * t", TIME)
    with pytest.raises(FormulaError, match="hold time is a time"):
        formula.check(NAMES, "hold time")


@given(st.text(alphabet='t 3.5/*+-()<=>,min^hdegC%_andornotiskw"Aé²', max_size=40))
def test_any_text_is_a_formula_or_an_error_within_it(text):
    try:
        formula = Formula.parse(text)
        formula.check(NAMES)
    except FormulaError as error:
        assert 0 <= error.start <= error.end <= len(text)


@pytest.mark.parametrize(
    "text", ["-(" * 160 + "t" + ")" * 160, "1" + "+1" * 245, "not " * 120 + "t"]
)
def test_deep_formulas_do_not_overflow(text):
    with contextlib.suppress(FormulaError):
        Formula.parse(text).check(NAMES)
