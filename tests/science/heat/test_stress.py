"""Thermal stresses against textbook formulas and an independent shell solution."""

from math import sqrt

import numpy as np
import pytest
from scipy.sparse import diags
from scipy.sparse.linalg import spsolve

from hts.science.heat.stress import (
    gradient_change,
    linear_through_wall,
    ramp_through_wall,
    restrained,
    restrained_both_ways,
)

E, A = 170e3, 14e-6


def test_through_wall():
    # Timoshenko and Goodier (from memory), E 170 GPa, 14e-6 /K, 30 K, Poisson 0.3.
    assert linear_through_wall(E, A, 30) == pytest.approx((-51.0, 51.0), abs=0.01)
    assert ramp_through_wall(E, A, 30) == pytest.approx((-68.0, 34.0), abs=0.01)


def test_restraint():
    # -E a dT and -E a dT / (1 - v), handbook formulas (second-hand).
    assert restrained(E, A, 100) == pytest.approx(-238.0)
    assert restrained_both_ways(E, A, 100) == pytest.approx(-340.0)


def test_ramp_stress_has_no_resultant():
    # A parabola from hot to cold: its mean over the wall lies a third of the way up from the
    # cold (insulated) face, so the faces differ from the mean by 2/3 and 1/3.
    hot, cold = ramp_through_wall(E, A, 30)
    assert cold == pytest.approx(-hot / 2)


def test_gradient_change_factors():
    # Thin shell theory, Poisson 0.3: a drop of dT over 2 sqrt(R t) gives 0.0972 and 0.1766 E a dT.
    radius, wall, drop = 0.2, 0.02, 300
    slope = drop / (2 * sqrt(radius * wall))
    found = gradient_change(E, A, slope, radius=radius, wall=wall)
    assert found.hoop / (E * A * drop) == pytest.approx(0.0972, abs=5e-5)
    assert found.bending / (E * A * drop) == pytest.approx(0.1766, abs=5e-5)


def test_gradient_change_against_finite_differences():
    # D w'''' + E t w / R^2 = E t a T / R with a kink in T at the middle.
    radius, wall, slope, nu = 0.2, 0.02, 2000.0, 0.3
    n, half = 4001, 1.0
    z = np.linspace(-half, half, n)
    dz = z[1] - z[0]
    rigidity = E * wall**3 / (12 * (1 - nu**2))
    stiffness = E * wall / radius**2
    free = radius * A * -slope * np.abs(z) / 2  # kink of -slope
    fourth = diags([1.0, -4.0, 6.0, -4.0, 1.0], [-2, -1, 0, 1, 2], shape=(n, n)) / dz**4
    # Far from the kink the shell follows the free expansion, so solve for the difference, whose
    # load is minus the fourth difference of the free shape.
    load = np.zeros(n)
    load[2:-2] = -(free[:-4] - 4 * free[1:-3] + 6 * free[2:-2] - 4 * free[3:-1] + free[4:]) / dz**4
    system = (rigidity * fourth + stiffness * diags([1.0], [0], shape=(n, n))).tocsc()
    w = spsolve(system, rigidity * load)
    total = w + free
    hoop = E * w / radius
    found = gradient_change(E, A, slope, radius=radius, wall=wall)
    middle = n // 2
    assert abs(hoop[middle]) == pytest.approx(found.hoop, rel=2e-3)
    curvature = (total[middle - 1] - 2 * total[middle] + total[middle + 1]) / dz**2
    assert abs(rigidity * curvature * 6 / wall**2) == pytest.approx(found.bending, rel=2e-2)


@pytest.mark.parametrize("poisson", [-0.1, 0.5, float("nan")])
def test_poisson(poisson):
    with pytest.raises(ValueError, match="Poisson"):
        linear_through_wall(E, A, 30, poisson)
