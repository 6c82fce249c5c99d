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
    is_number,
    places_for,
    read_number,
    round_to,
    short_text,
)
from tests.rows import each_row

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


@pytest.mark.parametrize("toward", sorted(ROUNDINGS))
def test_rounding_agrees_with_decimal(toward: str) -> None:
    for number in [*range(-260, 261), 10_004, 10_005, 99_995, -99_995]:
        for places in range(4):
            value = Decimal(number).scaleb(-3)
            expected = value.quantize(Decimal(1).scaleb(-places), rounding=ROUNDINGS[toward])
            shown = f"{expected:f}".replace("-", "") if not expected else f"{expected:f}"
            assert decimal_text(Fraction(value), places, toward) == shown
            short = shown.rstrip("0").rstrip(".") if places else shown
            assert short_text(Fraction(value), places, toward) == short


@given(st.fractions(), st.integers(0, 6))
def test_directed_rounding_encloses(value: Fraction, places: int) -> None:
    below, above = round_to(value, places, "down"), round_to(value, places, "up")
    assert below <= value <= above
    assert above - below in (0, Fraction(1, 10**places))


@given(st.fractions(), st.integers(0, 6))
def test_text_reads_back_as_what_it_shows(value: Fraction, places: int) -> None:
    assert read_number(decimal_text(value, places)) == round_to(value, places)
    assert read_number(short_text(value, places)) == round_to(value, places)


SIGN = "write the sign as - or not at all"
COMMA = "the decimal mark is a point"
EITHER = "a comma may mean thousands or decimals; write the number without it"
APART = "thousands are not set apart"
BLANK = "a number has no blank between its digits"
EXPONENT = "a number has no exponent"
VULGAR = "write a fraction as 3/8 or 1 1/2"
OTHER = "a number looks like 25.4, 3/8 or 1 1/2"


@each_row(
    ("text", "reason", "suggestion"),
    [
        ("25,4", COMMA, "25.4"),
        ("-0,5", COMMA, "-0.5"),
        ("1,30", COMMA, "1.30"),
        ("1,3000", COMMA, "1.3000"),
        ("1,300", EITHER, None),
        ("-1,300", EITHER, None),
        ("1,300,000", APART, None),
        ("1,", APART, None),
        (",5", APART, None),
        ("1_300", APART, None),
        ("1'300", APART, None),
        ("1’300", APART, None),
        ("1 300", BLANK, None),
        ("-1 300", BLANK, None),
        ("- 5", BLANK, None),
        ("1e3", EXPONENT, None),
        ("2E-3", EXPONENT, None),
        (".5", "a digit stands before the point", "0.5"),
        ("5.", "a digit stands after the point", "5"),
        ("+5", SIGN, "5"),
        ("+1/2", SIGN, "1/2"),
        ("−5", SIGN, "-5"),
        ("−", SIGN, None),
        ("+x", SIGN, None),
        ("1½", VULGAR, "1 1/2"),
        ("-½", VULGAR, "-1/2"),
        ("-2¾", VULGAR, "-2 3/4"),
        ("1 3/2", "the fraction after a whole number must be less than one", None),
        ("1 2/2", "the fraction after a whole number must be less than one", None),
        ("1/0", "a fraction cannot have zero below the bar", None),
        ("1 1/0", "a fraction cannot have zero below the bar", None),
        ("9" * 41, "a number has at most 40 characters", None),
        *((text, OTHER, None) for text in (
            "--5", "1/2/3", "1 1 1/2", "1.5 1/2", "1/-2", "1.2.3", "٣", "²", "", "-", "inf",
            "nan", "1/", "/2", " 1/2", "1/2x", ".x", "x.", "-.5", "٣/2", "1 ٣/4", "5.٣", "٣.5",
        )),
    ],
)  # fmt: skip
def test_what_is_not_a_number(text: str, reason: str, suggestion: str | None) -> None:
    with pytest.raises(NumberError) as caught:
        read_number(text)
    error = caught.value
    assert (str(error), error.reason, error.suggestion) == (reason, reason, suggestion)
    assert error.problem == ("decimal comma" if reason is COMMA else "bad number")
    assert not is_number(text)
    if suggestion is not None:
        assert is_number(suggestion)


def test_the_longest_number() -> None:
    assert read_number("9" * 40) == 10**40 - 1


@given(st.text("0123456789.,/-+ e½", max_size=8))
def test_reading_either_works_or_raises_its_own_error(text: str) -> None:
    try:
        read_number(text)
    except NumberError as error:
        assert error.reason


def test_decimals_written() -> None:
    assert [decimals_written(text) for text in ("25", "25.4", "25.40", "1 1/2")] == [0, 1, 2, 2]


def test_exact_places() -> None:
    parts = {1: 0, 2: 1, 10: 1, 8: 3, 16: 4, 10_000: 4, 32: None, 3: None, 100_000: None}
    assert {below: exact_places(Fraction(1, below)) for below in parts} == parts
    assert exact_places(Fraction(-7)) == exact_places(Fraction(0)) == 0


def test_places_for_so_many_figures() -> None:
    # 0.0999 to three figures needs four decimals, 0.1 needs three.
    for value, three in {"0": 0, "0.0999": 4, "0.1": 3, "0.999": 3, "1": 2, "9.99": 2, "10": 1,
                         "99.9": 1, "100": 0, "1234": 0}.items():  # fmt: skip
        assert places_for(Fraction(value), 3) == places_for(-Fraction(value), 3) == three
    assert places_for(Fraction(5), 1) == 0


def test_rounding_needs_a_known_direction() -> None:
    with pytest.raises(ValueError, match="toward"):
        round_to(Fraction(1, 3), 1, "sideways")
