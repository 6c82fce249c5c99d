"""Lag across a wall against the closed solutions and their published use."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.science.heat.lag import cylinder_lag, far_side_rise, plate_lag, time_constant, time_lag
from tests.rows import each_row


@pytest.mark.parametrize(
    ("thickness", "expected"),
    # R t^2 / (2 a) (Carslaw and Jaeger, from memory), evaluated for 150 K/h and 7 mm2/s.
    [(0.025, 1.8601), (0.050, 7.4405), (0.100, 29.7619)],
)
def test_plate(thickness, expected):
    assert plate_lag(thickness, 7e-6, 150) == pytest.approx(expected, abs=1e-4)


def test_cylinder():
    # Closed form (Carslaw and Jaeger, from memory), confirmed by finite volumes.
    assert cylinder_lag(0.150, 0.200, 7e-6, 150) == pytest.approx(6.7772, abs=1e-4)


@pytest.mark.parametrize(("thickness", "seconds"), [(0.025, 36), (0.05, 145), (0.1, 579)])
def test_time_constant(thickness, seconds):
    # t^2 / (a (pi/2)^2), evaluated for 7 mm2/s.
    assert time_constant(thickness, 7e-6) == pytest.approx(seconds, abs=0.5)


@given(st.floats(0.005, 0.2), st.floats(1.001, 3))
def test_cylinder_lags_less_than_a_plate(inner, ratio):
    outer = inner * ratio
    plate = plate_lag(outer - inner, 7e-6, 150)
    assert 0 < cylinder_lag(inner, outer, 7e-6, 150) < plate * (1 + 1e-6)


def test_wide_thin_cylinder_is_a_plate():
    assert cylinder_lag(10, 10.01, 7e-6, 150) == pytest.approx(plate_lag(0.01, 7e-6, 150), rel=1e-3)


@given(st.floats(0, 1e5), st.floats(0.01, 1e4))
def test_far_side_never_falls_and_never_leads(seconds, later):
    now = far_side_rise(0.05, 7e-6, 150, seconds)
    assert 0 <= now <= 150 / 3600 * seconds + 1e-9
    assert far_side_rise(0.05, 7e-6, 150, seconds + later) >= now - 1e-9


def test_far_side_settles_to_the_steady_lag():
    # The transient falls by 1/e in each time constant (144.7 s here).
    rise = far_side_rise(0.05, 7e-6, 150, 7200)
    assert 150 * 2 - rise == pytest.approx(plate_lag(0.05, 7e-6, 150), abs=1e-9)


@given(st.floats(0, 1e4), st.floats(1, 400))
def test_cooling_mirrors_heating(seconds, rate):
    up, down = (far_side_rise(0.05, 7e-6, r, seconds) for r in (rate, -rate))
    assert up == -down
    assert plate_lag(0.05, 7e-6, -rate) == -plate_lag(0.05, 7e-6, rate)


def test_time_lag_times_rate_is_the_lag():
    assert time_lag(0.05, 7e-6) * 150 / 3600 == pytest.approx(plate_lag(0.05, 7e-6, 150))


@each_row("inner", [0, -0.1, 0.2, float("nan")])
def test_meaningless_walls_are_refused(inner):
    with pytest.raises(ValueError, match="above zero"):
        cylinder_lag(inner, 0.2, 7e-6, 150)
