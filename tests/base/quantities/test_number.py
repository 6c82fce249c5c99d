"""Numbers read exactly, shown with the rounding asked for. Oracle: the decimal module."""

import decimal
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.base.quantities.number import (
    NumberError,
    decimal_text,
    decimals_written,
    exact_places,
    read_number,
    round_to,
    short_text,
)

ROUNDINGS = {
    "up": decimal.ROUND_CEILING,
    "down": decimal.ROUND_FLOOR,
    "nearest": decimal.ROUND_HALF_UP,
}
decimals = st.decimals(min_value=-(10**6), max_value=10**6, places=4)


@given(decimals)
def test_decimals_are_exact(value: Decimal) -> None:
    assert read_number(f"{value:f}") == Fraction(value)


@given(st.integers(0, 99), st.integers(1, 63), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_inch_fractions_are_exact(whole: int, over: int, under: int) -> None:
    part = Fraction(over, under)
    assert read_number(f"{over}/{under}") == part
    if part < 1:
        assert read_number(f"{whole} {over}/{under}") == whole + part
        assert read_number(f"-{whole} {over}/{under}") == -(whole + part)


@given(decimals, st.integers(0, 3), st.sampled_from(sorted(ROUNDINGS)))
def test_rounding_agrees_with_decimal(value: Decimal, places: int, toward: str) -> None:
    expected = value.quantize(Decimal(1).scaleb(-places), rounding=ROUNDINGS[toward])
    text = decimal_text(Fraction(value), places, toward)
    assert Decimal(text) == expected
    assert len(text.partition(".")[2]) == places


@given(st.fractions(), st.integers(0, 6))
def test_directed_rounding_encloses(value: Fraction, places: int) -> None:
    below, above = round_to(value, places, "down"), round_to(value, places, "up")
    assert below <= value <= above
    assert above - below in (0, Fraction(1, 10**places))


@given(st.fractions(), st.integers(0, 6))
def test_text_reads_back_as_what_it_shows(value: Fraction, places: int) -> None:
    assert read_number(decimal_text(value, places)) == round_to(value, places)
    assert read_number(short_text(value, places)) == round_to(value, places)


def test_a_rounded_zero_has_no_sign() -> None:
    assert decimal_text(Fraction(-1, 100), 1) == "0.0"


@pytest.mark.parametrize(
    ("text", "problem", "suggestion"),
    [
        ("25,4", "decimal comma", "25.4"),
        ("-0,5", "decimal comma", "-0.5"),
        ("1,300", "bad number", None),
        ("1,300,000", "bad number", None),
        ("1 300", "bad number", None),
        ("1_300", "bad number", None),
        ("1'300", "bad number", None),
        ("1e3", "bad number", None),
        ("2E-3", "bad number", None),
        (".5", "bad number", "0.5"),
        ("5.", "bad number", "5"),
        ("+5", "bad number", "5"),
        ("−5", "bad number", "-5"),
        ("--5", "bad number", None),
        ("- 5", "bad number", None),
        ("1½", "bad number", "1 1/2"),
        ("-½", "bad number", "-1/2"),
        ("1 3/2", "bad number", None),
        ("1/0", "bad number", None),
        ("1/2/3", "bad number", None),
        ("1 1 1/2", "bad number", None),
        ("1.5 1/2", "bad number", None),
        ("1/-2", "bad number", None),
        ("1.2.3", "bad number", None),
        ("٣", "bad number", None),
        ("²", "bad number", None),
        ("", "bad number", None),
        ("-", "bad number", None),
        ("inf", "bad number", None),
        ("nan", "bad number", None),
    ],
)
def test_what_is_not_a_number(text: str, problem: str, suggestion: str | None) -> None:
    with pytest.raises(NumberError) as caught:
        read_number(text)
    assert (caught.value.problem, caught.value.suggestion) == (problem, suggestion)
    if suggestion is not None:
        read_number(suggestion)


@given(st.text("0123456789.,/-+ e½", max_size=8))
def test_reading_either_works_or_raises_its_own_error(text: str) -> None:
    try:
        read_number(text)
    except NumberError as error:
        assert error.reason


def test_decimals_written() -> None:
    assert [decimals_written(text) for text in ("25", "25.4", "25.40", "1 1/2")] == [0, 1, 2, 2]


def test_exact_places() -> None:
    assert [exact_places(Fraction(*pair)) for pair in ((3, 1), (1, 8), (1, 3), (1, 32))] == [
        0,
        3,
        None,
        None,
    ]


def test_rounding_needs_a_known_direction() -> None:
    with pytest.raises(ValueError, match="toward"):
        round_to(Fraction(1, 3), 1, "sideways")
