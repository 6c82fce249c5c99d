"""Hydrogen diffusion against published diffusivities and the sheet solution."""

from math import erfc, pi, sqrt

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from scipy.integrate import quad

from hts.base.arguments import NotCovered
from hts.science.metallurgy.hydrogen import (
    _MEASURED,
    SLOW_BOUND,
    dose_for,
    dose_of,
    hours_for,
    lattice_diffusivity,
    measured_diffusivity,
    share_left,
)
from tests.rows import each_row


@each_row(
    ("celsius", "expected"),
    # König and Lange 1975, evaluated; 250 degC to the digits given.
    [(100, 3.07e-5), (200, 4.63e-5), (250, 5.36e-5), (300, 6.05e-5)],
)
def test_lattice(celsius, expected):
    assert lattice_diffusivity(celsius) == pytest.approx(expected, abs=1e-7)


def test_lattice_at_250():
    # König and Lange 1975: 10^(-3.67 - 1438 / (4.575 x 523.15)) = 5.36e-5
    assert lattice_diffusivity(250) == pytest.approx(5.36e-5, abs=1e-8)


@each_row(("celsius", "expected"), _MEASURED)
def test_measured_points(celsius, expected):
    assert measured_diffusivity(celsius) == pytest.approx(expected)


def test_measured_spot_values():
    # Coe and Moreton 1969, 0.73 % C steel, cm2/s.
    assert measured_diffusivity(60) == pytest.approx(2.0e-7)
    assert measured_diffusivity(250) == pytest.approx(6.2e-5)
    assert measured_diffusivity(350) == pytest.approx(5.1e-5)


@given(st.integers(1, len(_MEASURED) - 1), st.floats(0, 1))
def test_measured_lies_between_its_neighbours(k, share):
    (cold, a), (hot, b) = _MEASURED[k - 1], _MEASURED[k]
    found = measured_diffusivity(min(hot, cold + share * (hot - cold)))
    assert min(a, b) * (1 - 1e-9) <= found <= max(a, b) * (1 + 1e-9)


@each_row(
    ("scaled", "mean", "middle"),
    # Series for a plane sheet, evaluated.
    [(0.05, 0.4959, 0.7723), (0.20, 0.1126, 0.1769), (0.30, 0.0420, 0.0659),
     (0.50, 0.0058, 0.0092)],
)  # fmt: skip
def test_shares(scaled, mean, middle):
    # A wall of 10 mm is 1 cm, so the dose is the scaled dose.
    assert share_left(scaled, 10) == pytest.approx(mean, abs=5.1e-5)
    assert share_left(scaled, 10, place="deepest") == pytest.approx(middle, abs=5.1e-5)


def test_ten_percent():
    # Dose / L^2 for 10 % left: 0.2120 in the mean, 0.2578 at the middle.
    assert dose_for(0.1, 10) == pytest.approx(0.2120, abs=5e-5)
    assert dose_for(0.1, 10, place="deepest") == pytest.approx(0.2578, abs=5e-5)


@each_row(
    ("thickness", "diffusivity", "mean", "deepest", "digits"),
    [
        # Coe and Moreton at 250 and 350 degC, and the slow bound; series evaluated.
        (25, 6.2e-5, 5.9, 7.2, 0.05),
        (50, 6.2e-5, 23.748, 28.873, 0.005),
        (50, 5.1e-5, 28.9, 35.1, 0.05),
        (25, SLOW_BOUND, 36.8, 44.8, 0.05),
    ],
)
def test_hours(thickness, diffusivity, mean, deepest, digits):
    found = (
        hours_for(0.1, thickness, diffusivity),
        hours_for(0.1, thickness, diffusivity, place="deepest"),
    )
    assert found == pytest.approx((mean, deepest), abs=digits)


@given(st.floats(1e-6, 3))
def test_against_the_full_series(scaled):
    # 20 000 terms of both series; the alternating one is averaged over its last two sums.
    m = 2 * np.arange(20000) + 1
    decay = np.exp(-((m * pi) ** 2) * scaled)
    assert share_left(scaled, 10) == pytest.approx(8 / pi**2 * np.sum(decay / m**2), abs=3e-5)
    if scaled > 1e-5:
        middle = 4 / pi * np.sum((-1.0) ** np.arange(20000) / m * decay)
        assert share_left(scaled, 10, place="deepest") == pytest.approx(middle, abs=1e-9)


def test_short_and_long_forms_meet():
    for place in ("mean", "deepest"):
        below, above = (share_left(0.02 + d, 10, place=place) for d in (-1e-12, 1e-12))
        assert below == pytest.approx(above, abs=1e-9)


def test_profile_integrates_to_the_mean():
    # Independent form: images of erfc through the half-thickness, Fo small.
    scaled = 0.03

    def left(x):
        return 1 - sum(
            (-1) ** n
            * (erfc((n + x) / (2 * sqrt(scaled))) + erfc((n + 1 - x) / (2 * sqrt(scaled))))
            for n in range(4)
        )

    assert share_left(scaled, 10) == pytest.approx(quad(left, 0, 1)[0], abs=1e-9)
    assert share_left(scaled, 10, place="deepest") == pytest.approx(left(0.5), abs=1e-9)


@example(1e-9, 10.0, "mean")
@example(1e-9, 10.0, "deepest")
@given(st.floats(0.01, 0.95), st.floats(5, 200), st.sampled_from(["mean", "deepest"]))
def test_dose_goes_there_and_back(left, thickness, place):
    dose = dose_for(left, thickness, place=place)
    assert share_left(dose, thickness, place=place) == pytest.approx(left, rel=1e-9)
    # Twice the wall takes four times the dose, and so does one closed face.
    assert dose_for(left, 2 * thickness, place=place) == pytest.approx(4 * dose)
    assert dose_for(left, thickness, faces=1, place=place) == pytest.approx(4 * dose)


@given(st.floats(0, 2), st.floats(0, 1))
def test_hydrogen_only_leaves(dose, more):
    for place in ("mean", "deepest"):
        assert 0 <= share_left(dose + more, 10, place=place) <= share_left(dose, 10, place=place)
    assert share_left(dose, 10) <= share_left(dose, 10, place="deepest") + 1e-12


def test_dose_of_a_hold():
    # D x time: 6.2e-5 x 2 x 3600 s
    assert dose_of([(0, 250), (2, 250)]) == pytest.approx(6.2e-5 * 7200)


def test_dose_of_a_ramp_is_the_integral():
    expected = quad(measured_diffusivity, 100, 350, points=[155, 210, 250, 310], limit=200)[0]
    course = [(0, 20), (3.3, 350)]  # 100 K/h
    assert dose_of(course) == pytest.approx(expected / 100 * 3600, rel=1e-4)
    # A course that cools counts the same.
    assert dose_of([(0, 350), (3.3, 20)]) == pytest.approx(expected / 100 * 3600, rel=1e-4)


def test_cold_time_counts_nothing():
    assert dose_of([(0, 20), (1000, 99)]) == 0
    warm = dose_of([(0, 60), (10, 60)], counted_from=50)
    assert warm == pytest.approx(2.0e-7 * 36000)


def test_dose_with_another_diffusivity():
    assert dose_of([(0, 200), (1, 250), (2, 300)], lambda _: SLOW_BOUND) == pytest.approx(0.072)
    assert dose_of([(0, 200), (1, 200)], lattice_diffusivity) == pytest.approx(
        3600 * 10 ** (-3.67 - 1438 / (4.575 * 473.15))
    )


def test_refusals():
    for celsius in (24, 301):
        with pytest.raises(NotCovered):
            lattice_diffusivity(celsius)
    for celsius in (43, 651):
        with pytest.raises(NotCovered):
            measured_diffusivity(celsius)
    for left in (0, 1, -1, float("nan")):
        with pytest.raises(ValueError, match="share left"):
            dose_for(left, 25)
    with pytest.raises(ValueError, match="faces"):
        share_left(0.1, 25, faces=3)
    with pytest.raises(ValueError, match="goes back"):
        dose_of([(1, 250), (0, 250)])
