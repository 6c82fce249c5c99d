"""Rows worked out for typical welds: the welds themselves, and what governs each, by hand."""

from fractions import Fraction

import pytest

from hts.base.quantities import LENGTH, Quantity
from hts.limits import Limit, Source
from hts.limits.cells import Domain
from hts.limits.worked import CRITICAL, columns

SOURCE = Source("some-book")


def _mm(number):
    return Quantity.of(number, "mm", LENGTH)


def only(*rows, domain=None):
    (column,) = columns(rows, domain or Domain())
    return column


def at(column, metal, wall):
    """The value for a weld of this metal and wall in mm, of the first size there is."""
    return next(b for w, b in column.bounds if (w.p_number, w.wall) == (metal, Fraction(wall)))


def preheat(least, **parts):
    return Limit("preheat", SOURCE, minimum=least, **parts)


def test_a_typical_weld_has_the_facts_of_one():
    # 24 in pipe of 610 mm by 16 mm: bore 578 mm; cap 16 + 5; soak band 21 + 2 * 16; heated band
    # 53 + 4 * sqrt(289 * 16) = 53 + 4 * 68 mm. Of 100 mm: soak band 105 + 2 * 50.
    column = only(
        preheat("95 degC", where={"p_number": ("1",)}),
        preheat("150 degC", when="inside_radius > 200 mm"),
        domain=Domain(ends={"thicker_wall": (None, _mm(100))}),
    )
    welds = {(w.wall, w.outside): w.facts for w, _ in column.bounds}
    thin, thick = welds[16, 610], welds[100, 610]
    assert {name: thin[name].to("mm") for name in ("inside_diameter", "inside_radius", "cap_width",
            "soak_band", "heated_band")} == {"inside_diameter": 578, "inside_radius": 289,
            "cap_width": 21, "soak_band": 53, "heated_band": 325}  # fmt: skip
    assert thin["nominal_size"] == 24
    assert round(float(thin["girth"].to("mm"))) == 1916  # 610 mm * pi
    assert thick["soak_band"].to("mm") == 205
    assert {welds[16, 610][f"{name}wall"].to("mm") for name in ("", "run_", "branch_")} == {16}


def test_walls_that_make_no_pipe_are_left_out():
    column = only(preheat("95 degC", when="t > 10 mm and outside_diameter < 200 mm"))
    # 114.3 mm / 4 = 28.6 mm
    assert max(w.wall for w, _ in column.bounds if w.outside < 200) == 16


def test_both_sides_of_a_step_are_looked_at():
    column = only(preheat("95 degC", when="t <= 25 mm"), preheat("120 degC", when="t > 25 mm"))
    values = {w.wall: b.value.to("degC") for w, b in column.bounds}
    assert values[Fraction(25)] == 95
    assert sorted(set(values) - {6, 16, 40, 100}) == [
        25 * (1 - Fraction(1, 100000)), 25, 25 * (1 + Fraction(1, 100000))
    ]  # fmt: skip
    assert values[25 * (1 + Fraction(1, 100000))] == 120


@pytest.mark.parametrize(("metal", "degrees"), [("1", 95), ("4", 150), ("5A", None)])
def test_a_row_is_for_its_metals_alone(metal, degrees):
    column = only(
        preheat("95 degC", where={"p_number": ("1", "4")}),
        preheat("150 degC", where={"p_number": ("4",)}),
        preheat("10 degC", where={"p_number": ("1",)}),
    )
    found = at(column, metal, 16)
    assert (found and found.value.to("degC")) == degrees


def test_the_lowest_of_the_greatest_governs():
    rows = [
        Limit("hold temperature", SOURCE, maximum=f"{degrees} degC", where={"p_number": ("1",)})
        for degrees in (680, 650, 670)
    ]
    found = at(only(*rows), "1", 16)
    assert (found.value.to("degC"), found.number) == (650, found.value.value)


def test_what_the_rows_are_for_bounds_the_walls():
    thick = Domain(ends={"thicker_wall": (_mm(20), _mm(50))})
    column = only(preheat("95 degC", when="t > 30 mm"), domain=thick)
    assert {w.wall for w, _ in column.bounds} == {
        20, 40, 50, *(30 * (1 + Fraction(near, 100000)) for near in (-1, 0, 1))
    }  # fmt: skip


def test_critical_temperatures_are_those_of_the_grades():
    # Ac1 of A106-B, P1, P11, P22, P5 and P91 from memory of ASME B31.1 Table 129.3.1.
    assert CRITICAL == {"1": 725, "3": 735, "4": 775, "5A": 805, "5B": 820, "15E": 800}
