"""The field solver against exact solutions; every value was recomputed outside the project.

Basis of all values: derived (formula beside each), from textbooks by Carslaw and Jaeger, and by
Siegel and Howell, from memory.
"""

from math import log, pi, sqrt

import numpy as np
import pytest
from scipy.special import iv, ivp, kv, kvp

from hts.science.field.mesh import mesh
from hts.science.field.metal import metal, tabulated
from hts.science.field.model import Model
from hts.science.field.pipe import straight
from hts.science.field.surfaces import Bore, Cover, Zone
from hts.science.heat.conduction import fin_parameter, half_distance, long_cylinder, plane_wall
from hts.science.heat.properties import CARBON_STEEL


def constant(k, diffusivity=7e-6):
    heat = [(20.0, k / diffusivity / 5000.0)]
    return tabulated("constant", 5000.0, [(20.0, k)], heat, low=-500.0)


def wave_amplitude(n, length):
    """T = (A I_n + B K_n)(pi r / L): flux 1e4 outside less 3 T, loss 20 T in the bore."""
    ri, ro, k, m = 0.2032, 0.2286, 35.0, pi / length
    rows = [
        [k * m * ivp(n, m * ri) - 20 * iv(n, m * ri), k * m * kvp(n, m * ri) - 20 * kv(n, m * ri)],
        [k * m * ivp(n, m * ro) + 3 * iv(n, m * ro), k * m * kvp(n, m * ro) + 3 * kv(n, m * ro)],
    ]
    a, b = np.linalg.solve(rows, [0.0, 1e4])
    return [a * iv(n, m * r) + b * kv(n, m * r) for r in (ri, ro)]


@pytest.mark.parametrize(
    ("n", "length", "known", "within"),
    [
        (0, 0.5, (183.893946197, 188.676993886), 0.005),  # T001
        (1, 0.5, None, 0.005),  # T002
        (2, 0.5, (77.8934972462, 82.1096239976), 0.005),  # T003
        (4, 0.5, (27.8889687484, 31.7945367292), 0.02),  # T004
        (1, 1.0, None, 0.005),  # T005
    ],
)
def test_waves_of_flux_round_and_along(n, length, known, within):
    exact = wave_amplitude(n, length)
    if known:
        assert exact == pytest.approx(known, rel=1e-7)
    pipe = straight(0.4572, 0.0254, constant(35.0), half_length=length)
    grid = mesh(pipe, fine_to=length, fine=length / 96, through=9,
                cells_round=64 if n == 4 else 48)  # fmt: skip
    bare = [Bore(20, air=0.0)], [Cover(3, air=0.0)]
    model = Model(pipe, grid, bore=bare[0], cover=bare[1], zones=[Zone("all", 0.0, length)])
    # Any shape of flux, in place of the even one of a zone.
    shape = np.cos(np.radians(n * grid.angles))[:, None] * np.cos(pi * grid.z / length)
    model._equations._zone_area = model._equations._zone_area * shape
    field, _ = model.steady(fluxes=[1e4])
    found = [field.at(0.0, 0.0, depth) for depth in (1.0, 0.0)]
    assert found == pytest.approx(exact, rel=within)
    if n:
        assert field.at(180.0 / n, 0.0, 0.0) == pytest.approx(-found[1], rel=1e-6)


def cooled(times, step):
    """A hollow cylinder that starts at 1 degC, surroundings 0: h 30 in the bore, 200 outside."""
    pipe = straight(0.4, 0.05, constant(35.0), half_length=0.2)
    grid = mesh(pipe, through=9, fine=0.1)
    model = Model(pipe, grid, bore=[Bore(30, air=0.0)], cover=[Cover(200, air=0.0)], zones=[])
    run = model.run(model.start(1.0), [0, *times], fluxes=lambda t: [], step=step)
    return [(f.at(0, 0.1, 1.0), f.at(0, 0.1, 0.0)) for f in run.fields]


def test_hollow_cylinder_that_cools():
    first, later = cooled([60, 600], 60)
    # T006: roots of k R' + h R = 0 on both faces
    assert first == pytest.approx((0.969356511979, 0.873675738508), abs=1e-2)
    # T007
    assert later == pytest.approx((0.586966445349, 0.519640287077), abs=4e-4)


def test_finite_hollow_cylinder_is_a_product_with_a_plate():
    # Length 0.5 m, both ends h 100: T009 after 600 s, T010 after 3600 s
    known = [(0.586412625823, 0.519149991695), (0.0297991148131, 0.0263811000549)]
    for seconds, found, exact in zip((600, 3600), cooled([600, 3600], 30), known, strict=True):
        plate = plane_wall(0.0, 100 * 0.25 / 35, 7e-6 * seconds / 0.25**2)
        assert [plate * share for share in found] == pytest.approx(exact, abs=4e-4)


def test_solid_cylinder_is_a_product_too():
    # T011, T012: radius and half length 50 mm, h 200, k 35, a 7e-6, 300 s
    fourier, biot = 7e-6 * 300 / 0.05**2, 200 * 0.05 / 35
    centre = long_cylinder(0, biot, fourier) * plane_wall(0, biot, fourier)
    corner = long_cylinder(1, biot, fourier) * plane_wall(1, biot, fourier)
    assert (centre, corner) == pytest.approx((0.572257212202, 0.435047388965), abs=1e-8)


def test_thick_metal_that_begins_to_warm():
    # T013: erfc(x) - exp(...) erfc(...): h 100, k 35, a 7e-6, 600 s; a ring so large it is flat
    pipe = straight(100.0, 0.4, constant(35.0), half_length=0.2)
    grid = mesh(pipe, through=65, fine=0.1)
    model = Model(pipe, grid, bore=[Bore(0)], cover=[Cover(100, air=1.0)], zones=[])
    field = model.run(model.start(0.0), [0, 600], fluxes=lambda t: [], step=15).fields[0]
    found = field.at(0, 0.1, 0.0), field.at(0, 0.1, 0.025 / 0.4)
    assert found == pytest.approx((0.178896781578, 0.12601390173), abs=4e-4)


@pytest.mark.parametrize(
    ("outer", "wall", "k", "inside", "outside", "known"),
    [
        (0.4572, 0.0254, 38, 10, 3, (3.61138482962, 0.27690208803, 0.191933901609)),  # T015
        (0.710, 0.035, 30, 15, 2, (3.94315874418, 0.253603789468, 0.175784751649)),  # T016
    ],
)
def test_beyond_the_band_the_pipe_is_a_fin(outer, wall, k, inside, outside, known):
    ri, ro = outer / 2 - wall, outer / 2
    m = fin_parameter(ri, ro, k, inside, outside)
    assert (m, 1 / m, half_distance(m)) == pytest.approx(known, rel=1e-8)  # T014 to T017
    pipe = straight(outer, wall, constant(k), half_length=2.5)
    grid = mesh(pipe, fine_to=1.5, fine=0.01)
    surfaces = {"bore": [Bore(inside, air=0.0)], "cover": [Cover(outside, air=0.0)]}
    model = Model(pipe, grid, **surfaces, zones=[Zone("band", -0.2, 0.2)])
    field, _ = model.steady(fluxes=[1e4])
    fall = field.at(0, 0.6 + known[2], 0.5) / field.at(0, 0.6, 0.5)
    assert fall == pytest.approx(0.5, abs=2e-3)


@pytest.mark.parametrize(
    ("outer", "wall", "k", "h", "held", "known"),
    [
        (0.4572, 0.0254, 35, 35, 621, 14.0478273634),  # T018
        (0.450, 0.070, 28, 30, 760, 43.1297965611),  # T019
    ],
)
def test_floor_no_band_width_beats(outer, wall, k, h, held, known):
    # T018 to T020: an endless heated pipe, R = ln(ro/ri)/k, drop = (T - air) R/(R + 1/(h ri))
    ri = outer / 2 - wall
    r = log(outer / 2 / ri) / k
    assert (held - 20) * r / (r + 1 / (h * ri)) == pytest.approx(known, rel=1e-7)
    pipe = straight(outer, wall, constant(k), half_length=0.3)
    model = Model(pipe, mesh(pipe), bore=[Bore(h)], cover=[Cover(0)], zones=[Zone("all", 0, 0.3)])
    rise = 1e4 * outer / 2 * (r + 1 / (h * ri))
    field, _ = model.steady(fluxes=[1e4 * (held - 20) / rise])
    assert field.at(0, 0, 0) == pytest.approx(held, abs=0.05)
    assert field.at(0, 0, 0) - field.at(0, 0, 1) == pytest.approx(known, abs=0.02)


@pytest.mark.parametrize(("gap", "known"), [(0.05, 97.4983009845), (0.025, 50.6751268534)])
def test_unheated_strip(gap, known):
    # T021: thin plate 25 mm, k 30, h 30, 20 kW/m2: (q/h)(1 - exp(-m g/2)), m = sqrt(h/(k t))
    m = sqrt(30 / (30 * 0.025))
    assert 20e3 / 30 * (1 - np.exp(-m * gap / 2)) == pytest.approx(known, rel=1e-9)
    # As thin as the formula takes it to be: a fifth of the wall, five times the conductivity.
    pipe = straight(200.0, 0.005, constant(150.0), half_length=2.0)
    grid = mesh(pipe, places=(gap / 2,), fine_to=1.0, fine=0.005)
    model = Model(pipe, grid, bore=[Bore(0)], cover=[Cover(30, air=0.0)],
                  zones=[Zone("beside", gap / 2, 2.0)])  # fmt: skip
    field, _ = model.steady(fluxes=[20e3])
    assert 20e3 / 30 - field.at(0, 0, 0.5) == pytest.approx(known, rel=0.003)


def test_band_heating():
    # An exact series along the pipe; the values of tests/science/heat/test_section.py.
    exact = {(0.0, 0.0): 549.0645, (0.0, 1.0): 540.8653, (0.05, 0.0): 527.4885,
             (0.05, 1.0): 519.3282, (0.1, 0.0): 459.5228, (0.1, 1.0): 455.1536,
             (0.2, 0.0): 311.8738, (0.5, 0.0): 108.0217, (1.0, 0.0): 42.8571}  # fmt: skip
    pipe = straight(2 * 0.10955, 0.025, constant(35.0), half_length=1.0)
    grid = mesh(pipe, places=(0.05, 0.1, 0.2, 0.5), fine_to=0.25, fine=0.01)
    model = Model(pipe, grid, bore=[Bore(10)], cover=[Cover(5)], zones=[Zone("band", -0.1, 0.1)])
    field, _ = model.steady(fluxes=[20e3])
    for (z, depth), celsius in exact.items():
        assert field.at(0, z, depth) == pytest.approx(celsius, abs=0.15)


@pytest.mark.parametrize(
    ("begin", "flux", "seconds", "step"), [(20, 10e3, 7200, 300), (600, 5e3, 18000, 300)]
)
def test_heat_put_in_is_heat_taken_up(begin, flux, seconds, step):
    # T028: heat balance, also through the peak of the specific heat of carbon steel at 735 degC
    pipe = straight(0.4572, 0.0254, metal(CARBON_STEEL), half_length=0.05)
    model = Model(pipe, mesh(pipe), bore=[Bore(0)], cover=[Cover(0)], zones=[Zone("all", 0, 0.05)])
    run = model.run(model.start(begin), [0, seconds], fluxes=lambda t: [flux], step=step)
    put = flux * float(model.heated_area[0]) * seconds
    assert model.heated_area[0] == pytest.approx(pi * 0.4572 * 0.1, rel=1e-9)
    assert run.content[-1] == pytest.approx(put, rel=1e-6)
    assert run.heat[-1] == pytest.approx(put, rel=1e-9)
    mass = 7850 * pi * (0.2286**2 - 0.2032**2) * 0.1
    mean = float((run.fields[-1].celsius * model.mesh.volume).sum() / model.mesh.volume.sum())
    assert CARBON_STEEL.heat(begin, mean) == pytest.approx(put / mass, rel=2e-3)
