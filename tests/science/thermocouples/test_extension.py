"""Extension and compensating cable against IEC 60584-3 and ASTM E230."""

from fractions import Fraction

import pytest

from hts.base.data import load
from hts.science.thermocouples.errors import NotDefined, OutOfRange, UnknownName
from hts.science.thermocouples.extension import (
    extension_codes,
    extension_fits,
    extension_tolerance,
    extension_types,
    worth_in_kelvin,
)
from hts.science.thermocouples.reference import TYPES
from tests.rows import each_row

IEC, ASTM = "IEC 60584-3", "ASTM E230"


IEC_ROWS = [
    # IEC 60584-3 tolerance table; emf figures from memory.
    ("KX", "1", "1.5", 60, 900, -25, 200),
    ("KX", "2", "2.5", 100, 900, -25, 200),
    ("NX", "1", "1.5", 60, 900, -25, 200),
    ("NX", "2", "2.5", 100, 900, -25, 200),
    ("JX", "1", "1.5", 85, 500, -25, 200),
    ("JX", "2", "2.5", 140, 500, -25, 200),
    ("TX", "1", "0.5", 30, 300, -25, 100),
    ("TX", "2", "1", 60, 300, -25, 100),
    ("EX", "1", "1.5", 120, 500, -25, 200),
    ("EX", "2", "2.5", 200, 500, -25, 200),
    ("KCA", "2", "2.5", 100, 900, 0, 150),
    ("KCB", "2", "2.5", 100, 900, 0, 100),
    ("NC", "2", "2.5", 100, 900, 0, 150),
    # IEC 60584-3, all from memory.
    ("RCA", "2", "2.5", 30, 1000, 0, 100),
    ("RCB", "2", "5", 60, 1000, 0, 200),
    ("SCA", "2", "2.5", 30, 1000, 0, 100),
    ("SCB", "2", "5", 60, 1000, 0, 200),
]


@each_row(("code", "grade", "kelvin", "microvolts", "junction", "low", "high"), IEC_ROWS)
def test_iec(code, grade, kelvin, microvolts, junction, low, high):
    for cable in (low, high):
        found = extension_tolerance(IEC, code, grade, cable)
        assert found.kelvin == Fraction(kelvin)
        assert (found.microvolts, found.junction) == (microvolts, junction)
    for outside in (low - Fraction(1, 10), high + Fraction(1, 10)):
        with pytest.raises(OutOfRange, match=f"{IEC} {code} cable"):
            extension_tolerance(IEC, code, grade, outside)
    # The two figures of one row must tell the same story through the reference function.
    worth = worth_in_kelvin(extension_types(code)[0], microvolts, junction)
    assert worth == pytest.approx(float(Fraction(kelvin)), rel=0.1)


ASTM_ROWS = [
    # ASTM E230 extension wire table, from memory.
    ("KX", "2.2", "1.1", 200),
    ("NX", "2.2", "1.1", 200),
    ("JX", "2.2", "1.1", 200),
    ("TX", "1", "0.5", 100),
    ("EX", "1.7", "1", 200),
]


@each_row(("code", "standard", "special", "high"), ASTM_ROWS)
def test_astm(code, standard, special, high):
    assert extension_tolerance(ASTM, code, "standard", 0).kelvin == Fraction(standard)
    assert extension_tolerance(ASTM, code, "special", high).kelvin == Fraction(special)
    assert extension_tolerance(ASTM, code, "special", 0).microvolts is None
    with pytest.raises(OutOfRange):
        extension_tolerance(ASTM, code, "standard", high + 1)
    with pytest.raises(OutOfRange):
        extension_tolerance(ASTM, code, "standard", -1)


def test_emf_tolerance_is_worth_less_where_the_couple_is_more_sensitive():
    # Derived from NIST ITS-90 and IEC 60584-3: 60 uV of type K at 900 and at 620 degC.
    assert worth_in_kelvin("K", 60, 900) == pytest.approx(1.50, abs=0.005)
    assert worth_in_kelvin("K", 60, 620) == pytest.approx(1.41, abs=0.005)


def test_basis_of_both_figures():
    found = extension_tolerance(IEC, "KX", "1", 20)
    assert found.origin.basis == "published"
    assert found.microvolts_origin.basis == "memory"
    assert found.microvolts_origin.standard == IEC


def test_which_cable_fits_which_couple():
    # IEC 60584-3 marking: the type letter, X for extension or C for compensating cable.
    assert extension_fits("K", "KX")
    assert extension_fits("K", "KCA")
    assert not extension_fits("K", "NX")
    assert not extension_fits("N", "KX")
    assert extension_codes("N") == ("NC", "NX")
    assert extension_codes("K") == ("KCA", "KCB", "KX")
    for type in TYPES:
        for code in extension_codes(type):
            assert extension_fits(type, code)
            assert type in extension_types(code)
            assert code[0] == type or {code[0], type} == {"R", "S"}


def test_what_is_not_defined():
    # IEC 60584-3: compensating cable has class 2 only.
    with pytest.raises(NotDefined):
        extension_tolerance(IEC, "KCA", "1", 20)
    with pytest.raises(NotDefined):
        extension_tolerance(ASTM, "KCA", "standard", 20)


def test_unknown_names():
    for call in (
        lambda: extension_fits("K", "KZ"),
        lambda: extension_fits("Z", "KX"),
        lambda: extension_types("ZX"),
        lambda: extension_codes("Z"),
        lambda: extension_tolerance("IEC", "KX", "1", 20),
        lambda: extension_tolerance(IEC, "KX", "3", 20),
    ):
        with pytest.raises(UnknownName):
            call()


def test_every_row_is_among_those_checked():
    checked = {(IEC, code, grade) for code, grade, *_ in IEC_ROWS}
    checked |= {(ASTM, row[0], grade) for row in ASTM_ROWS for grade in ("standard", "special")}
    rows = load("thermocouples")["extension_tolerances"]
    assert {(row["standard"], row["code"], row["class"]) for row in rows} == checked
