"""Exact solutions against textbook values and scipy."""

from math import erfc, sqrt, tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq
from scipy.special import j0, j1

from hts.science.heat.conduction import (
    _bessel,
    _cylinder_root,
    _wall_root,
    fin_parameter,
    half_distance,
    long_cylinder,
    plane_wall,
    semi_infinite_flux,
    semi_infinite_step,
)
from tests.rows import each_row


@pytest.mark.parametrize(
    ("biot", "fourier", "middle", "surface", "root"),
    # Series evaluated with scipy; first roots from Incropera, Table 5.1 (from memory).
    [(1, 0.5, 0.772526, 0.504522, 0.860334), (10, 0.2, 0.829255, 0.122482, 1.42887)],
)
def test_plane_wall(biot, fourier, middle, surface, root):
    assert plane_wall(0, biot, fourier) == pytest.approx(middle, abs=1e-6)
    assert plane_wall(1, biot, fourier) == pytest.approx(surface, abs=1e-6)
    assert _wall_root(biot, 0) == pytest.approx(root, abs=5e-6)


def test_first_roots():
    # Incropera, Table 5.1 (from memory).
    assert _wall_root(0.1, 0) == pytest.approx(0.3111, abs=5e-5)
    assert _cylinder_root(1.0, 0) == pytest.approx(1.2558, abs=5e-5)


def test_short_cylinder_is_the_product():
    # Product of the two series with Bi 1 and Fo 0.5 both ways, evaluated with scipy.
    centre = plane_wall(0, 1, 0.5) * long_cylinder(0, 1, 0.5)
    assert centre == pytest.approx(0.423797, abs=2e-6)


@given(st.integers(0, 3), st.floats(0, 300))
def test_bessel(order, x):
    # Oracle: scipy.
    from scipy.special import jv

    assert _bessel(order, x) == pytest.approx(jv(order, x), abs=1e-13)


@settings(max_examples=20)
@given(st.floats(0.01, 100), st.integers(0, 20))
def test_roots(biot, n):
    root = _wall_root(biot, n)
    assert root * tan(root) == pytest.approx(biot, rel=1e-6)
    root = _cylinder_root(biot, n)
    expected = brentq(lambda x: x * j1(x) - biot * j0(x), root - 0.5, root + 0.5) if n else root
    assert root == pytest.approx(expected, abs=1e-9)
    assert root * j1(root) - biot * j0(root) == pytest.approx(0, abs=1e-8)


@pytest.mark.parametrize("solution", [plane_wall, long_cylinder])
def test_nothing_has_cooled_at_first(solution):
    assert solution(0, 1, 0.001) == pytest.approx(1, abs=1e-9)


@given(st.floats(0.05, 20), st.floats(0.01, 2), st.floats(0.01, 1))
def test_walls_cool_from_outside_and_for_good(biot, fourier, later):
    middle, surface = plane_wall(0, biot, fourier), plane_wall(1, biot, fourier)
    assert 0 <= surface <= middle <= 1 + 1e-9
    assert plane_wall(0, biot, fourier + later) <= middle


def test_semi_infinite():
    # erfc(0.5), Carslaw and Jaeger (from memory).
    assert semi_infinite_step(0.020, 40, 1e-5) == pytest.approx(erfc(0.5), abs=1e-12)
    assert semi_infinite_step(0.020, 40, 1e-5) == pytest.approx(0.4795, abs=1e-6)


def test_semi_infinite_flux_is_the_slope_at_the_surface():
    near = [semi_infinite_flux(x, 100, 7e-6, 35, 1e4) for x in (0, 1e-6)]
    assert (near[0] - near[1]) / 1e-6 * 35 == pytest.approx(1e4, rel=1e-4)


def test_half_distance():
    # ln 2 / m, evaluated for two pipes.
    thin = fin_parameter(0.2191 / 2 - 0.013, 0.2191 / 2, 40, 10, 30)
    thick = fin_parameter(0.457 / 2 - 0.0254, 0.457 / 2, 35, 10, 10)
    assert half_distance(thin) == pytest.approx(0.078, abs=5e-4)
    assert half_distance(thick) == pytest.approx(0.146, abs=5e-4)


def test_refusals():
    for bad in ((1.1, 1, 1), (0, 0, 1), (0, 1, 0), (0, 1, float("nan"))):
        with pytest.raises(ValueError, match=r"must|series"):
            plane_wall(*bad)
    with pytest.raises(ValueError, match="parameter"):
        half_distance(0)


@each_row("depth", [0.0, 0.002, 0.01, 0.05])
def test_heat_of_a_flux_is_all_in_the_body(depth):
    # The flux that passes a depth is erfc of it: the slope there, by a difference.
    spread, step = 7e-6 * 100, 1e-6
    near, far = (semi_infinite_flux(x, 100, 7e-6, 35, 1e4) for x in (depth, depth + step))
    passing = 1e4 * erfc((depth + step / 2) / (2 * sqrt(spread)))
    assert (near - far) / step * 35 == pytest.approx(passing, rel=1e-4)
