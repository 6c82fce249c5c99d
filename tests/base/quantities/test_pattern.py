"""What the grammar takes for a quantity token, and what it must leave alone."""

import re

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from hts.base.quantities import DIMENSIONS, TIME, UNITS, Quantity, QuantityError, Unit
from hts.base.quantities.pattern import QUANTITY_PATTERN
from hts.base.quantities.spelling import MISWRITTEN
from tests.rows import each_row

TOKEN = re.compile(QUANTITY_PATTERN)


@each_row(
    "text",
    [
        "25.4 mm",
        "25.4mm",
        "1 1/2 in",
        "3/8 in",
        "-10 degC",
        "705 degC",
        "705 °C",
        "705°C",
        "1300 degF",
        "200 degC/h",
        "200 °C/h",
        "2 h 30 min",
        "2h 30min",
        "1 d 2 h 3 min 4.5 s",
        "2.5 min/mm",
        "12 kW",
        "12kW",
        "0.11 %",
        "10%",
        "5 A",
        "5 ml/100g",
        "2.5 W/cm2",
        "2.5 W/cm²",
        "0.5 m2K/W",
        "2 ft2*h*degF/BTU",
        "248 HV10",
        "60 s",
        "100 W*s",
        "50 µm",
        "10 Ω",
        # miswritten, so that the message can say what was meant
        "200 degC/hr",
        "705 C",
        "8 hours",
        "5 ml/100 g",
        "2 inches",
        "45°",
    ],
)
def test_taken_whole(text: str) -> None:
    for after in ("", " ", ",", ")", "\n", "..", " # note"):
        found = TOKEN.match(text + after)
        assert found is not None
        assert found[0] == text


@each_row(
    "text",
    [
        "6 t",
        "6 t each side",
        "5A",
        "15E",
        "80S",
        "5C",
        "10H",
        "12:00",
        "6:15",
        "2026-11-20",
        "12",
        "690 ..",
        "12 type K",
        "120\nmm",
        "8 heaters",
        "5 mmm",
        "3 in-line",
        "2 h-block",
        "1, 3",
        "25,4 mm",
        "1.2.3 mm",
        ".5 mm",
        "mm",
        "+5 mm",
        "3 W12",
        "3 K2",
        "P22",
        '2"',
    ],
)
def test_left_alone(text: str) -> None:
    assert TOKEN.match(text) is None


@each_row(
    ("text", "taken"),
    [
        ("10 min in total", "10 min"),
        ("2 h 6 t", "2 h"),
        ("690 degC..720 degC", "690 degC"),
        ("2.5 min/mm * t", "2.5 min/mm"),
        ("1 in / t", "1 in"),
        ("1 in/t", "1 in"),
        ("2 h 30 mm", "2 h"),
        ("0.11 %, Mn 0.45 %", "0.11 %"),
    ],
)
def test_takes_as_much_as_is_one_quantity(text: str, taken: str) -> None:
    found = TOKEN.match(text)
    assert found is not None
    assert found[0] == taken


def readable(text: str) -> bool:
    for dimension in DIMENSIONS:
        try:
            if Quantity.read(text, dimension).unit.symbol:
                return True
        except QuantityError:
            continue
    return False


@given(
    st.sampled_from(["5", "25.4", "-10", "3/8", "1 1/2", "0"]),
    st.sampled_from(["", " ", "  ", "\t"]),
    st.sampled_from([unit for unit in UNITS if unit.symbol]),
)
@example("5", "", UNITS[0])
def test_every_unit_is_taken_as_it_is_read(number: str, blank: str, unit: Unit) -> None:
    text = f"{number}{blank}{unit.symbol}"
    assert (TOKEN.fullmatch(text) is not None) == readable(text)


@given(st.text("0123456789./- mihdnCKW%°", min_size=1, max_size=9))
def test_what_is_taken_is_what_is_read(text: str) -> None:
    text = text.strip()
    taken = TOKEN.fullmatch(text)
    if readable(text):
        assert taken is not None
    elif taken is not None:
        # Only a miswritten unit, or a number or time with a slip in it, is taken and not read.
        symbol = text.lstrip("-0123456789./ ")
        with pytest.raises(QuantityError) as caught:
            Quantity.read(text, TIME)
        assume(symbol not in MISWRITTEN and "/" not in text)
        assert caught.value.problem == "bad number"


def test_every_miswritten_unit_gets_its_suggestion() -> None:
    for written, meant in MISWRITTEN.items():
        found = TOKEN.fullmatch(f"5 {written}")
        assert found is not None
        fitting = [unit.dimension for unit in UNITS if unit.symbol == meant]
        assert fitting
        for dimension in fitting:
            with pytest.raises(QuantityError) as caught:
                Quantity.read(found[0], dimension)
            assert caught.value.suggestion == meant


def test_no_groups_and_no_lookbehind() -> None:
    # The pattern becomes one terminal among others in a larger expression.
    assert TOKEN.groups == 0
    assert "(?<" not in QUANTITY_PATTERN
    assert "(?P" not in QUANTITY_PATTERN


def test_long_digits_do_not_stall() -> None:
    assert TOKEN.match("1" * 20000) is None
    assert TOKEN.match("1 h " * 5000 + "x") is not None
