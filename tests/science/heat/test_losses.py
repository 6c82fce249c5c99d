"""Losses against `ht` and its documentation."""

import ht
import pytest
import scipy.constants
from hypothesis import given
from hypothesis import strategies as st

from hts.base.arguments import NotCovered
from hts.science.heat.losses import (
    STEFAN_BOLTZMANN,
    _air_heat,
    cylinder_nusselt,
    insulated_pipe,
    layered_cylinder,
    natural_convection,
    radiation,
)
from tests.rows import each_row


def test_radiation():
    # ht.q_rad 1.2.0 with the CODATA constant; a black surface at 620 degC gives 35.66 kW/m2.
    assert radiation(0.9, 60, 20) == pytest.approx(251.767, abs=0.01)
    assert radiation(1.0, 620, 20) == pytest.approx(35660, abs=10)


@given(st.floats(0, 1), st.floats(-50, 1200), st.floats(-50, 1200))
def test_radiation_oracle(emissivity, hot, cold):
    # ht 1.2.0 carries the constant of CODATA 2014, so each is taken by its own.
    expected = ht.q_rad(emissivity, hot + 273.15, cold + 273.15) / ht.q_rad(1.0, 1.0, 0.0)
    found = radiation(emissivity, hot, cold) / STEFAN_BOLTZMANN
    assert found == pytest.approx(expected, rel=1e-9, abs=1e-3)


def test_stefan_boltzmann():
    # CODATA 2018, exact since the units of 2019; oracle: scipy.
    assert pytest.approx(scipy.constants.sigma, rel=1e-9) == STEFAN_BOLTZMANN


@given(st.floats(0.5, 10), st.floats(1e-3, 1e11))
def test_churchill_chu_oracle(prandtl, grashof):
    expected = ht.Nu_horizontal_cylinder_Churchill_Chu(Pr=prandtl, Gr=grashof)
    assert cylinder_nusselt(grashof * prandtl, prandtl) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize(
    ("diameter", "surface", "expected"),
    # Churchill and Chu through ht 1.2.0 with tabulated air; own air within 1 %.
    [(0.3239, 60, 4.82), (0.3239, 100, 5.76), (0.2191, 80, 5.55)],
)
def test_natural_convection(diameter, surface, expected):
    assert natural_convection(diameter, surface, 20) == pytest.approx(expected, rel=0.01)


def test_layered_cylinder():
    # Worked example in the documentation of ht 1.2.0.
    loss = layered_cylinder(
        453.15 - 273.15, 301.15 - 273.15, inner_diameter=0.0779272, inside_h=1e12,
        outside_h=22.697193, layers=[(0.0054864, 56.045), (0.05, 0.0598535265)],
    )  # fmt: skip
    assert loss == pytest.approx(73.12000884, abs=1e-6)


@each_row(
    ("thickness", "conductivity", "watts", "surface"),
    # Balance solved with ht 1.2.0: 323.9 mm at 620 degC in 20 degC, emissivity 0.9.
    [(0.025, 0.12, 2466, 151), (0.050, 0.12, 1453, 101), (0.075, 0.12, 1071, 79),
     (0.050, 0.08, 1006, 81)],
)  # fmt: skip
def test_insulated_pipe(thickness, conductivity, watts, surface):
    loss = insulated_pipe(0.3239, 620, thickness=thickness, ambient=20,
                          conductivity=lambda _: conductivity)  # fmt: skip
    assert loss.watts_per_metre == pytest.approx(watts, rel=2e-3)
    assert loss.surface == pytest.approx(surface, abs=1)


@given(st.floats(0.02, 0.1), st.floats(0.001, 0.05), st.floats(150, 800))
def test_thicker_blanket_loses_less(thickness, more, celsius):
    thin, thick = (
        insulated_pipe(0.3, celsius, thickness=t, ambient=20, conductivity=lambda _: 0.1)
        for t in (thickness, thickness + more)
    )
    assert thick.watts_per_metre < thin.watts_per_metre
    assert 20 < thick.surface < thin.surface < celsius


def test_refusals():
    with pytest.raises(ValueError, match="emissivity"):
        radiation(1.1, 100, 20)
    with pytest.raises(ValueError, match="absolute zero"):
        radiation(0.9, -300, 20)
    with pytest.raises(NotCovered):
        cylinder_nusselt(1e13, 0.7)
    with pytest.raises(ValueError, match="hotter"):
        insulated_pipe(0.3, 20, thickness=0.05, ambient=20, conductivity=lambda _: 0.1)


def test_specific_heat_of_air():
    # Incropera's table of air, from memory: 1007 at 300 K, 1030 at 500 K, 1121 at 900 K; 1006 at
    # 250 K, where the figure of 300 K stands.
    assert _air_heat(300) == _air_heat(250) == 1007
    assert _air_heat(900) == pytest.approx(1121, abs=0.01)
    assert _air_heat(500) == pytest.approx(1030, rel=0.02)


@each_row(("surface", "ambient"), [(400, 20), (600, 20), (60, 20), (20, 60)])
def test_natural_convection_of_hot_air(surface, ambient):
    # Air by the ideal gas and Sutherland's formulas, Churchill and Chu through ht: worked apart.
    film = (surface + ambient) / 2 + 273.15
    mu = 1.716e-5 * (film / 273.15) ** 1.5 * (273.15 + 110.4) / (film + 110.4)
    k = 0.0241 * (film / 273.15) ** 1.5 * (273.15 + 164.54) / (film + 164.54)
    rho, cp = 101325 / 287.05 / film, 1007 + 0.19 * max(film - 300, 0)
    grashof = 9.80665 * abs(surface - ambient) / film * 0.3**3 * (rho / mu) ** 2
    nusselt = ht.Nu_horizontal_cylinder_Churchill_Chu(Pr=mu * cp / k, Gr=grashof)
    assert natural_convection(0.3, surface, ambient) == pytest.approx(nusselt * k / 0.3, rel=3e-3)


def test_layers_from_inside_out():
    # Two layers by hand: 1/(20 x 0.05) + ln(60/50)/40 + ln(110/60)/0.1 + 1/(10 x 0.11).
    loss = layered_cylinder(500, 20, inner_diameter=0.1, inside_h=20, outside_h=10,
                            layers=[(0.01, 40), (0.05, 0.1)])  # fmt: skip
    assert loss == pytest.approx(2 * 3.14159265 * 480 / (1 + 0.0045580 + 6.0613580 + 0.9090909),
                                 rel=1e-6)  # fmt: skip
