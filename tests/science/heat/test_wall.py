"""The transient wall solver against exact and independent solutions."""

from math import exp, log, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from hts.base.arguments import NotCovered
from hts.science.heat.conduction import plane_wall, semi_infinite_flux
from hts.science.heat.lag import cylinder_lag, far_side_rise, plate_lag
from hts.science.heat.properties import CARBON_STEEL, constant
from hts.science.heat.wall import SurfaceFlux, SurfaceTemperature, Wall, heat_wall

STEEL = constant(35.0, 500.0, 10000.0)  # 7 mm2/s


def ramp(seconds):
    return 150 / 3600 * seconds


def test_cylinder_on_a_ramp():
    # Finite volumes with 200 and 400 cells, which agree to every digit given.
    wall = Wall(STEEL, 0.05, 0.15)
    states = heat_wall(wall, SurfaceTemperature(ramp), [300, 600, 1200, 3600],
                       start=0, step=5, cells=100)  # fmt: skip
    expected = [6.4123, 18.2903, 43.2234, 143.2228]
    assert [state.inside for state in states] == pytest.approx(expected, abs=5e-4)


def test_nonlinear_plate():
    # 25 mm of EN 1993-1-2 carbon steel, 10 kW/m2: method of lines with scipy's BDF.
    wall = Wall(CARBON_STEEL, 0.025)
    middle, end = heat_wall(wall, SurfaceFlux(lambda _: 1e4), [3600, 7200], step=30)
    assert (middle.outside, middle.inside) == pytest.approx((372.102, 369.104), abs=0.01)
    assert (end.outside, end.inside) == pytest.approx((642.611, 638.791), abs=0.01)
    # Energy balance: q time / (density x thickness), and the temperature it would be if even.
    assert end.heat == pytest.approx(1e4 * 7200 / (7850 * 0.025), rel=1e-6)
    lumped = brentq(lambda t: CARBON_STEEL.heat(20, t) - end.heat, 20, 1200)
    assert lumped == pytest.approx(640.064, abs=0.01)


def test_heat_is_kept_over_the_peak_of_specific_heat():
    # 10 minutes at a flux that carries the plate from 600 degC past the peak at 735 degC.
    wall = Wall(CARBON_STEEL, 0.010)
    (end,) = heat_wall(wall, SurfaceFlux(lambda _: 4e4), [800], start=600, step=20, cells=10)
    assert end.inside > 740
    assert end.heat == pytest.approx(4e4 * 800 / (7850 * 0.010), rel=1e-6)


def test_plate_on_a_ramp_follows_the_series():
    # Series solution of the slab with one face insulated (Carslaw and Jaeger, from memory).
    wall = Wall(STEEL, 0.05)
    times = [60, 200, 500, 2000]
    states = heat_wall(wall, SurfaceTemperature(ramp), times, start=0, step=4, cells=60)
    expected = [far_side_rise(0.05, 7e-6, 150, time) for time in times]
    assert [state.inside for state in states] == pytest.approx(expected, abs=2e-3)


def test_oscillating_surface():
    # NAFEMS T3: 0.1 m, k 35, c 440.5, density 7200, one face held at 0 and the other at
    # 100 sin(pi t / 40): 36.60 degC at 0.08 m and 32 s; 36.6031 by the exact eigen-series.
    # A bore coefficient without bound holds the cold face; the error of two grids, which falls
    # with the square of the cells, is taken out by Richardson's extrapolation.
    wall = Wall(constant(35.0, 440.5, 7200.0), 0.1, None, inside_h=1e9, ambient=0.0)
    drive = SurfaceTemperature(lambda time: 100 * sin(pi * time / 40))
    found = []
    for cells in (100, 200):
        (state,) = heat_wall(wall, drive, [32], start=0, step=0.2, cells=cells)
        face = cells * 4 // 5
        found.append((state.cells[face - 1] + state.cells[face]) / 2)
    assert (4 * found[1] - found[0]) / 3 == pytest.approx(36.6031, abs=5e-4)


def test_convecting_wall_cools_as_the_series():
    # One face insulated (flux 0), the other convecting: the plane wall series, Bi = 1.
    wall = Wall(STEEL, 0.05, None, inside_h=700.0, ambient=0.0)
    (state,) = heat_wall(wall, SurfaceFlux(lambda _: 0.0), [0.5 * 0.05**2 / 7e-6],
                         start=100, step=1, cells=60)  # fmt: skip
    assert state.inside == pytest.approx(100 * plane_wall(1, 1, 0.5), abs=0.01)
    assert state.outside == pytest.approx(100 * plane_wall(0, 1, 0.5), abs=0.02)


def test_early_flux_is_semi_infinite():
    wall = Wall(STEEL, 0.2)
    (state,) = heat_wall(wall, SurfaceFlux(lambda _: 1e4), [60], start=0, step=0.5, cells=200)
    assert state.outside == pytest.approx(semi_infinite_flux(0, 60, 7e-6, 35, 1e4), rel=1e-3)


@settings(max_examples=15, deadline=None)
@given(st.floats(0.01, 0.06), st.floats(20, 300))
def test_settled_lag_is_the_closed_form(thickness, rate):
    seconds = 20 * thickness**2 / 7e-6
    for inner, expected in (
        (None, plate_lag(thickness, 7e-6, rate)),
        (0.1, cylinder_lag(0.1, 0.1 + thickness, 7e-6, rate)),
    ):
        drive = SurfaceTemperature(lambda time: rate / 3600 * time)
        (state,) = heat_wall(Wall(STEEL, thickness, inner), drive, [seconds],
                             start=0, step=seconds / 100, cells=20)  # fmt: skip
        assert state.outside - state.inside == pytest.approx(expected, rel=3e-3)


def test_second_order_in_time():
    # The error of an exponential decay falls to a quarter when the step is halved.
    wall = Wall(constant(1e6, 500.0, 10000.0), 0.01, None, inside_h=100.0, ambient=0.0)
    exact = 100 * exp(-100 * 1000 / (500 * 10000 * 0.01))
    errors = []
    for step in (100, 50):
        (state,) = heat_wall(wall, SurfaceFlux(lambda _: 0.0), [1000],
                             start=100, step=step, cells=4)  # fmt: skip
        errors.append(abs(state.outside - exact))
    assert 3.3 < errors[0] / errors[1] < 4.7


def test_refusals():
    wall = Wall(CARBON_STEEL, 0.025)
    with pytest.raises(ValueError, match="rise"):
        heat_wall(wall, SurfaceFlux(lambda _: 0.0), [10, 5])
    with pytest.raises(NotCovered):
        heat_wall(wall, SurfaceFlux(lambda _: 1e6), [1000])
    with pytest.raises(ValueError, match="thickness"):
        heat_wall(Wall(CARBON_STEEL, 0), SurfaceFlux(lambda _: 0.0), [10])


@pytest.mark.parametrize(("inner", "cells"), [(0.1, 10), (0.1, 40), (0.02, 40), (None, 10)])
def test_a_pipe_that_loses_heat_to_its_bore_comes_to_rest(inner, cells):
    # In series, per radian: ln(ro/ri) / k of the wall and 1 / (h ri) of the bore; a plate L/k, 1/h.
    wall = Wall(STEEL, 0.05, inner, inside_h=200.0, ambient=30.0)
    steel = 0.05 / 35 if inner is None else log((inner + 0.05) / inner) / 35
    film = 1 / (200 * (inner or 1))
    (end,) = heat_wall(wall, SurfaceTemperature(lambda _: 600.0), [40_000], step=500, cells=cells)
    assert end.outside == 600
    assert end.inside == pytest.approx(30 + 570 * film / (film + steel), rel=1e-4)
    # The same heat put in as a flux over the outside brings the outside to the same temperature.
    flux = 570 / (film + steel) / (1 if inner is None else inner + 0.05)
    (end,) = heat_wall(wall, SurfaceFlux(lambda _: flux), [80_000], step=500, cells=cells)
    assert (end.outside, end.inside) == pytest.approx(
        (600, 30 + 570 * film / (film + steel)), rel=1e-3
    )


def test_heat_of_a_pipe_is_what_went_in():
    # 10 kW/m2 over the outside of 2 pi 0.15 m, into pi (0.15^2 - 0.1^2) m2 of 10000 kg/m3.
    wall = Wall(STEEL, 0.05, 0.1)
    states = heat_wall(wall, SurfaceFlux(lambda _: 1e4), [0, 600, 1200], start=0, step=60)
    assert [state.seconds for state in states] == [0, 600, 1200]
    assert states[0].heat == 0
    for state in states[1:]:
        taken = 1e4 * 2 * 0.15 * state.seconds / ((0.15**2 - 0.1**2) * 10000)
        assert state.heat == pytest.approx(taken, rel=1e-9)
    assert len(states[0].cells) == 40


@pytest.mark.parametrize("bad", [{"step": 0}, {"cells": 0}])
def test_steps_and_cells_are_positive(bad):
    with pytest.raises(ValueError, match=next(iter(bad))):
        heat_wall(Wall(STEEL, 0.025), SurfaceFlux(lambda _: 0.0), [10], **bad)
    with pytest.raises(ValueError, match=r"inside.h"):
        heat_wall(Wall(STEEL, 0.025, inside_h=-1.0), SurfaceFlux(lambda _: 0.0), [10])
