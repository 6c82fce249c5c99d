"""Colours against ASTM E230, IEC 60584-3 and the withdrawn national schemes."""

import pytest

from hts.science.thermocouples.colours import (
    cable_colours,
    colour_standards,
    intrinsically_safe_jacket,
    meanings,
)
from hts.science.thermocouples.errors import NotDefined, UnknownName
from hts.science.thermocouples.reference import TYPES
from tests.rows import each_row

ASTM, IEC = "ASTM E230", "IEC 60584-3"


@each_row(
    ("standard", "type", "grade", "jacket", "positive", "negative"),
    [
        # ASTM E230 colour table (reprints); types other than K and N from memory.
        (ASTM, "K", "thermocouple", "brown", "yellow", "red"),
        (ASTM, "K", "extension", "yellow", "yellow", "red"),
        (ASTM, "N", "thermocouple", "brown", "orange", "red"),
        (ASTM, "N", "extension", "orange", "orange", "red"),
        (ASTM, "J", "thermocouple", "brown", "white", "red"),
        (ASTM, "J", "extension", "black", "white", "red"),
        (ASTM, "T", "extension", "blue", "blue", "red"),
        (ASTM, "E", "extension", "purple", "purple", "red"),
        (ASTM, "R", "extension", "green", "black", "red"),
        (ASTM, "S", "extension", "green", "black", "red"),
        (ASTM, "B", "extension", "grey", "grey", "red"),
        # IEC 60584-3 colour table (reprints); types other than K and N from memory.
        (IEC, "K", "extension", "green", "green", "white"),
        (IEC, "N", "thermocouple", "pink", "pink", "white"),
        (IEC, "J", "extension", "black", "black", "white"),
        (IEC, "T", "extension", "brown", "brown", "white"),
        (IEC, "E", "extension", "violet", "violet", "white"),
        (IEC, "R", "extension", "orange", "orange", "white"),
        (IEC, "S", "extension", "orange", "orange", "white"),
        (IEC, "B", "extension", "grey", "grey", "white"),
        # Withdrawn national schemes (reprints); BS 1843 type N from memory.
        ("JIS C1610:1981", "K", "extension", "blue", "red", "white"),
        ("DIN 43710", "K", "extension", "green", "red", "green"),
        ("BS 1843", "K", "extension", "red", "brown", "blue"),
        ("BS 1843", "N", "extension", "orange", "orange", "blue"),
        ("NF C42-323", "K", "extension", "yellow", "yellow", "purple"),
        # JIS C1610:2012, from memory.
        ("JIS C1610:2012", "N", "extension", "pink", "pink", "white"),
    ],
)
def test_colours(standard, type, grade, jacket, positive, negative):
    found = cable_colours(standard, type, grade)
    assert (found.jacket, found.positive, found.negative) == (jacket, positive, negative)


def test_negative_leg_tells_the_standard():
    # ASTM E230: always red. IEC 60584-3: always white.
    for colour, standard in (("red", ASTM), ("white", IEC)):
        for type in TYPES:
            assert cable_colours(standard, type, "extension").negative == colour
        assert all(e.negative == colour for e in meanings("negative", colour) if e.current)
    assert {e.standard for e in meanings("negative", "red")} == {ASTM}


def test_red_is_the_positive_leg_of_old_schemes():
    # JIS C1610:1981 and DIN 43710 (reprints).
    assert {e.standard for e in meanings("positive", "red")} == {"JIS C1610:1981", "DIN 43710"}


@pytest.mark.parametrize(
    ("jacket", "expected"),
    [
        # Derived from the colour tables of the standards named; type J of JIS from memory.
        ("blue", {(ASTM, "T"), ("JIS C1610:1981", "K")}),
        ("yellow", {(ASTM, "K"), ("JIS C1610:1981", "J"), ("NF C42-323", "K")}),
        (
            "green",
            {
                (ASTM, "R"),
                (ASTM, "S"),
                (IEC, "K"),
                ("DIN 43710", "K"),
                ("JIS C1610:2012", "K"),
            },
        ),
    ],
)
def test_one_jacket_colour_many_meanings(jacket, expected):
    assert {(e.standard, e.type) for e in meanings("jacket", jacket)} == expected


def test_one_colour_two_words():
    assert meanings("jacket", "Violet") == meanings("jacket", "purple") != ()
    assert meanings("jacket", "gray") == meanings("jacket", "grey") != ()
    assert meanings("jacket", "turquoise") == ()


def test_blue_jacket_is_intrinsically_safe_in_iec_only():
    # IEC 60584-3.
    assert intrinsically_safe_jacket(IEC) == "blue"
    assert intrinsically_safe_jacket(ASTM) is None


def test_withdrawn_schemes_are_marked():
    withdrawn = {e.standard for part in colour_standards() for e in _cables(part) if not e.current}
    assert withdrawn == {"JIS C1610:1981", "DIN 43710", "BS 1843", "NF C42-323"}


def _cables(standard):
    for type in TYPES:
        try:
            yield cable_colours(standard, type, "extension")
        except NotDefined:
            continue


def test_basis():
    assert cable_colours(ASTM, "K", "extension").origin.basis == "published"
    assert cable_colours(ASTM, "J", "extension").origin.basis == "memory"


def test_errors():
    with pytest.raises(NotDefined):
        cable_colours("DIN 43710", "N", "extension")
    for question in (("ASTM", "K", "extension"), (ASTM, "X", "extension"), (ASTM, "K", "cable")):
        with pytest.raises(UnknownName):
            cable_colours(*question)
    with pytest.raises(UnknownName):
        meanings("sleeve", "red")
