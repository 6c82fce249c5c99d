"""What is said of a text that is not a quantity: every problem, word for word."""

from __future__ import annotations

import random
from functools import lru_cache

import pytest

from hts.base.quantities import (
    COUNT,
    CURRENT,
    HARDNESS,
    LENGTH,
    RATE,
    TEMPERATURE,
    TIME,
    Dimension,
    Quantity,
    QuantityError,
)  # fmt: skip
from hts.base.quantities.spelling import edits, suggest_unit
from tests.rows import each_row

NO_VULGAR = "write a fraction as 3/8 or 1 1/2; did you mean"
LENGTHS = "a length is written in mm, in, cm, m, ft or um"


@each_row(
    ("text", "dimension", "message"),
    [
        ("25.4", LENGTH, f"'25.4' has no unit; {LENGTHS}"),
        ("5 x", LENGTH, f"'x' is not a unit; {LENGTHS}"),
        ("5 Mm", LENGTH, "'Mm' is not a unit; did you mean 'mm'?"),
        ("5A", CURRENT,
         "'5A' is not a unit; a blank comes before a unit with a capital letter: 5 A"),
        ("5 s", LENGTH, f"'5 s' is not a length; {LENGTHS}"),
        ("200 degC", RATE, "'200 degC' is not a rate; did you mean 'degC/h'?"),
        ("25,4 mm", LENGTH,
         "cannot read '25,4': the decimal mark is a point; did you mean '25.4'?"),
        ("mm", LENGTH, "cannot read 'mm': a quantity begins with a number"),
        ("1½ in", LENGTH, f"cannot read '1½': {NO_VULGAR} '1 1/2'?"),
        ("1 ½in", LENGTH, f"cannot read '1 ½': {NO_VULGAR} '1 1/2'?"),
        ("½ in", LENGTH, f"cannot read '½': {NO_VULGAR} '1/2'?"),
        ("−10 degC", TEMPERATURE,
         "cannot read '−10': write the sign as - or not at all; did you mean '-10'?"),
        ("2e3mm", LENGTH, "cannot read '2e3': a number has no exponent"),
        ("2E+3mm", LENGTH, "cannot read '2E+3': a number has no exponent"),
        ("2 ex", LENGTH, f"'ex' is not a unit; {LENGTHS}"),
        ("2e-3 mm", LENGTH, "cannot read '2e-3': a number has no exponent"),
        ("1’300degF", TEMPERATURE, "cannot read '1’300': thousands are not set apart"),
        ("3 mm", COUNT, "'3 mm' is not a number; a number is written without a unit"),
        ("2.5 h 30 min", TIME,
         "cannot read '2.5 h': only the last part of a time can have a fraction"),
        ("1/2 h 30 min", TIME,
         "cannot read '1/2 h': only the last part of a time can have a fraction"),
        ("30 min 2 h", TIME, "cannot read '2 h': the units of a time get smaller"),
        ("2 h 2 h", TIME, "cannot read '2 h': the units of a time get smaller"),
        ("2 h 60 min", TIME, "cannot read '60 min': this part is less than 1 h"),
        ("1 d 24 h", TIME, "cannot read '24 h': this part is less than 1 d"),
        ("2 h -1 min", TIME, "cannot read '-1 min': this part is less than 1 h"),
        ("-2 h 30 min", TIME,
         "cannot read '-2 h 30 min': a time in several units is not negative"),
        ("2 h 30", TIME, "'2 h 30' has no unit; a time is written in h, min, s or d"),
    ],
)  # fmt: skip
def test_every_problem(text: str, dimension: Dimension, message: str) -> None:
    with pytest.raises(QuantityError) as caught:
        Quantity.read(text, dimension)
    assert str(caught.value) == message


@each_row(
    ("text", "value"),
    [("2 h 59 min", 10740), ("2 h 0 min", 7200), ("0 h 30 min", 1800), ("1 d 23 h", 169200),
     ("1 d 59.5 s", "86459.5"), ("\t2 h\t30\tmin ", 9000), ("1 min 59 s", 119)],
)  # fmt: skip
def test_times_in_several_units_up_to_the_next(text: str, value: int | str) -> None:
    assert Quantity.read(text, TIME) == Quantity.of(str(value), "s", TIME)


def test_what_is_near_enough_to_be_meant() -> None:
    # One letter off in a unit of up to four letters, two in longer ones, none in a single letter.
    for written, dimension, meant in (
        ("mn", LENGTH, "mm"), ("zz", LENGTH, None), ("q", LENGTH, None), ("M", LENGTH, "m"),
        ("dgeC", TEMPERATURE, "degC"), ("dgCe", TEMPERATURE, None), ("degC/hh", RATE, "degC/h"),
        ("dgeC/hh", RATE, "degC/h"), ("dxxC/hh", RATE, None), ("HWB", HARDNESS, "HBW"),
        ("K", RATE, "K/h"), ("s", LENGTH, None), ("wt%", LENGTH, None), ("in", TIME, None),
    ):  # fmt: skip
        assert suggest_unit(written, dimension) == meant, written


def test_edits_between_two_words() -> None:
    """Against the recursion as it is printed for the optimal string alignment distance (Boytsov,
    Indexing methods for approximate dictionary searching, 2011)."""

    @lru_cache
    def printed(a: str, b: str) -> int:
        if not a or not b:
            return len(a) + len(b)
        ways = [printed(a[:-1], b) + 1, printed(a, b[:-1]) + 1,
                printed(a[:-1], b[:-1]) + (a[-1] != b[-1])]  # fmt: skip
        if len(a) > 1 and len(b) > 1 and a[-2:] == b[-2:][::-1]:
            ways.append(printed(a[:-2], b[:-2]) + 1)
        return min(ways)

    draw = random.Random(1)
    words = ["".join(draw.choices("abc", k=draw.randrange(7))) for _ in range(40)]
    for a in words:
        for b in words:
            exact = printed(a, b)
            assert edits(a, b) == exact
            for most in range(4):
                assert (edits(a, b, most) if exact > most else exact) > most - (exact <= most) * 9
                assert exact > most or edits(a, b, most) == exact


def test_no_unit_is_suggested_where_there_is_none() -> None:
    """A count has no unit."""
    assert suggest_unit("mn", COUNT) is None and suggest_unit("m", COUNT) is None
