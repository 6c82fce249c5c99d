"""Properties of steel and blanket against EN 1993-1-2 and handbook figures."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from hts.base.arguments import NotCovered
from hts.science.heat.curve import table
from hts.science.heat.properties import (
    CARBON_STEEL,
    CHROMIUM_2_STEEL,
    CHROMIUM_9_STEEL,
    STAINLESS_STEEL,
    blanket_conductivity,
    constant,
)
from tests.rows import each_row

BREAKS = (600.0, 735.0, 750.0, 800.0, 860.0, 900.0)


@each_row(
    ("celsius", "conductivity", "specific_heat"),
    [
        # EN 1993-1-2:2005 3.4, evaluated from the printed formulas.
        (20, 53.334, 439.80),
        (100, 50.670, 487.62),
        (200, 47.340, 529.76),
        (300, 44.010, 564.74),
        (400, 40.680, 605.88),
        (500, 37.350, 666.50),
        (600, 34.020, 760.22),
        (620, 33.354, 776.19),
        (650, 32.355, 813.75),
        (700, 30.690, 1008.16),
        (720, 30.024, 1388.33),
        (735, 29.524, 5000.0),
        (760, 28.692, 1159.48),
        (800, 27.300, 803.26),
        (900, 27.300, 650.0),
    ],
)
def test_carbon_steel(celsius, conductivity, specific_heat):
    assert CARBON_STEEL.conductivity.at(celsius) == pytest.approx(conductivity, abs=0.001)
    assert CARBON_STEEL.specific_heat.at(celsius) == pytest.approx(specific_heat, abs=0.01)


@each_row(
    ("celsius", "expected"),
    # EN 1993-1-2:2005 3.4, evaluated from the printed formulas.
    [(20, 0.0), (100, 0.0009984), (600, 0.0083984), (750, 0.011), (900, 0.0118)],
)
def test_carbon_steel_elongation(celsius, expected):
    assert CARBON_STEEL.elongation.at(celsius) == pytest.approx(expected, abs=1e-7)


@each_row(
    ("celsius", "kilojoules"),
    # EN 1993-1-2:2005 3.4, integrated by adaptive quadrature.
    [(200, 88.2), (300, 142.9), (600, 335.7), (620, 351.1), (650, 374.9), (700, 419.1),
     (720, 442.1), (735, 475.4), (750, 511.4), (760, 524.4)],
)  # fmt: skip
def test_carbon_steel_enthalpy(celsius, kilojoules):
    assert CARBON_STEEL.heat(20, celsius) / 1000 == pytest.approx(kilojoules, abs=0.1)


@each_row(
    ("celsius", "conductivity", "specific_heat"),
    # EN 1993-1-2:2005 Annex C (formulas from memory), evaluated.
    [(20, 14.854, 455.48), (300, 18.410, 511.43), (600, 22.220, 542.18), (900, 26.030, 563.98),
     (1000, 27.300, 573.00)],
)  # fmt: skip
def test_stainless_steel(celsius, conductivity, specific_heat):
    assert STAINLESS_STEEL.conductivity.at(celsius) == pytest.approx(conductivity, abs=0.001)
    assert STAINLESS_STEEL.specific_heat.at(celsius) == pytest.approx(specific_heat, abs=0.01)


def test_stainless_steel_elongation():
    # EN 1993-1-2:2005 Annex C (formula from memory), evaluated.
    assert STAINLESS_STEEL.elongation.at(600) == pytest.approx(1.06874e-2, abs=1e-7)
    assert STAINLESS_STEEL.elongation.at(20) == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("material", [CARBON_STEEL, STAINLESS_STEEL, CHROMIUM_9_STEEL])
@given(start=st.floats(20, 600), end=st.floats(20, 600))
def test_heat_is_the_integral_of_specific_heat(material, start, end):
    # Oracle: scipy's adaptive quadrature.
    low, high = sorted((start, end))
    corners = [t for t in (100, 200, 300, 400, 500) if low < t < high]
    expected, _ = quad(material.specific_heat.at, start, end, points=corners or None)
    assert material.heat(start, end) == pytest.approx(expected, rel=1e-5, abs=1e-3)


@given(start=st.floats(20, 1200), middle=st.floats(20, 1200), end=st.floats(20, 1200))
def test_heat_adds_up(start, middle, end):
    parts = CARBON_STEEL.heat(start, middle) + CARBON_STEEL.heat(middle, end)
    assert CARBON_STEEL.heat(start, end) == pytest.approx(parts, abs=1e-5)


@given(cold=st.floats(20, 1199), step=st.floats(0.01, 1))
def test_heat_rises_with_temperature(cold, step):
    assert CARBON_STEEL.heat(20, cold + step) > CARBON_STEEL.heat(20, cold)


@each_row("celsius", BREAKS)
def test_branches_meet_as_the_standard_prints_them(celsius):
    # EN 1993-1-2:2005 3.4: the formulas leave jumps of at most 0.06 W/(m K) at 800 degC and
    # 0.44 J/(kg K) at 900 degC.
    below, above = celsius - 1e-9, celsius
    curve = CARBON_STEEL.specific_heat
    assert curve.at(below) == pytest.approx(curve.at(above), abs=0.45)
    curve = CARBON_STEEL.conductivity
    assert curve.at(below) == pytest.approx(curve.at(above), abs=0.061)


def test_outside_the_range_is_refused():
    for celsius in (19.9, 1200.1, float("nan")):
        with pytest.raises(NotCovered):
            CARBON_STEEL.conductivity.at(celsius)
    with pytest.raises(NotCovered, match="to 600 degC"):
        CHROMIUM_9_STEEL.heat(20, 705)


def test_chromium_steels():
    # Handbook figures, from memory: 9Cr 28 W/(m K) at 200, 2.25Cr 31 to 32 at 600 degC.
    assert CHROMIUM_9_STEEL.conductivity.at(200) == pytest.approx(28)
    assert CHROMIUM_9_STEEL.conductivity.at(450) == pytest.approx(29.5)
    assert 31 <= CHROMIUM_2_STEEL.conductivity.at(600) <= 32
    # Screening diffusivity at 600 to 700 degC is 5 to 5.5 mm2/s, within 15 % (derived).
    for steel in (CHROMIUM_9_STEEL, CHROMIUM_2_STEEL):
        assert 5e-6 * 0.85 <= steel.diffusivity(600) <= 5.5e-6 * 1.15


def test_diffusivity():
    # EN 1993-1-2:2005 3.4, evaluated: 5.701 mm2/s at 600 degC.
    assert CARBON_STEEL.diffusivity(600) == pytest.approx(5.701e-6, abs=1e-9)


@given(st.floats(0, 999), st.floats(0, 1))
def test_blanket_conducts_more_when_hotter(celsius, step):
    assert blanket_conductivity(celsius + step) >= blanket_conductivity(celsius)


def test_blanket():
    # Catalogue ranges, from memory: 0.09 to 0.10 at 400 and 0.14 to 0.16 at 600 degC mean.
    assert 0.09 <= blanket_conductivity(400) <= 0.10
    assert 0.14 <= blanket_conductivity(600) <= 0.16
    assert blanket_conductivity(80) == blanket_conductivity(200)
    with pytest.raises(NotCovered):
        blanket_conductivity(1001)


def test_table_passes_through_its_points():
    curve = table("thing", "unit", [(0, 1.0), (10, 3.0), (30, 2.0)])
    assert [curve.at(t) for t in (0, 5, 10, 20, 30)] == pytest.approx([1, 2, 3, 2.5, 2])
    assert curve.between(0, 30) == pytest.approx(20 + 50)


def test_constant_properties_must_be_positive():
    with pytest.raises(ValueError, match="specific heat"):
        constant(35, 0, 7850)


@each_row(
    ("curve", "expected"),
    [
        # 9Cr-1Mo-V: tube handbook, from memory.
        (CHROMIUM_9_STEEL.conductivity, [26, 27, 28, 28, 29, 30, 30]),
        (CHROMIUM_9_STEEL.specific_heat, [440, 480, 510, 550, 630, 660, 770]),
        # 2.25Cr-1Mo: handbooks, from memory; conductivity between its points by straight lines.
        (CHROMIUM_2_STEEL.conductivity, [36.5, 36.5, 36.5, 35.75, 35, 33.5, 31.5]),
        (CHROMIUM_2_STEEL.specific_heat, [440, 490, 530, 570, 620, 680, 790]),
    ],
)
def test_chromium_tables(curve, expected):
    places = (20, 100, 200, 300, 400, 500, 600)
    assert [curve.at(celsius) for celsius in places] == pytest.approx(expected)
    # By straight lines between them.
    half = [(low + high) / 2 for low, high in pairwise(places)]
    between = [(low + high) / 2 for low, high in pairwise(expected)]
    assert [curve.at(celsius) for celsius in half] == pytest.approx(between)


def test_ranges():
    # EN 1993-1-2:2005: 20 to 1200 degC. Handbook tables: as far as they go.
    for steel in (CARBON_STEEL, STAINLESS_STEEL):
        for curve in (steel.conductivity, steel.specific_heat, steel.elongation):
            assert (curve.low, curve.high) == (20, 1200)
    assert CHROMIUM_2_STEEL.conductivity.at(700) == pytest.approx(29.5)
    assert CHROMIUM_2_STEEL.specific_heat.high == CHROMIUM_9_STEEL.conductivity.high == 600


def test_densities_and_how_far_conductivities_differ():
    # EN 1993-1-2:2005 3.2.2 and Annex C; 9Cr: tube handbook, from memory; 2.25Cr as carbon steel.
    # Sets of figures for one steel differ by some 12 % for 9Cr, 8 % for 2.25Cr (from memory).
    steels = (CARBON_STEEL, STAINLESS_STEEL, CHROMIUM_9_STEEL, CHROMIUM_2_STEEL)
    assert [steel.density for steel in steels] == [7850, 7850, 7700, 7850]
    assert [steel.spread for steel in steels[2:]] == [0.12, 0.08]


def test_blanket_above_600():
    # Catalogue ranges, from memory: 0.06 at 200, 0.20 to 0.22 at 800, 0.27 to 0.31 at 1000 degC.
    assert blanket_conductivity(200) == pytest.approx(0.06)
    assert 0.205 <= blanket_conductivity(800) <= 0.215
    assert 0.27 <= blanket_conductivity(1000) <= 0.31
    assert blanket_conductivity(700) == pytest.approx(0.18)
