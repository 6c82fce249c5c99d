"""The field solver against finite elements on pipes drawn by chance.

Source: none published; the elements of `elements.py` are written apart from the solver and share
no code with it. Bounds: 1.0 K everywhere, 1.5 K on tapers, on a mesh as predictions use it.
"""

import random

import numpy as np
import pytest

pytest.importorskip("skfem", reason="scikit-fem is not installed")

from hts.science.field.mesh import mesh
from hts.science.field.metal import tabulated
from hts.science.field.model import Model
from hts.science.field.pipe import Station, body, straight
from hts.science.field.surfaces import Bore, Cover, Zone
from tests.science.field.elements import Axisymmetric, Table, ring

_SEEDS = [pytest.param(n, marks=pytest.mark.long) if n > 1 else n for n in range(1, 9)]


def _drawn(seed):
    """A pipe of 100 to 900 mm, its metal, widths and losses, all by chance."""
    chance = random.Random(seed)
    outer = chance.uniform(0.05, 0.45)
    wall = min(chance.uniform(0.008, 0.07), outer / 3)
    band = chance.uniform(3, 8) * (outer * wall) ** 0.5
    k_cold, k_hot = chance.uniform(15, 50), chance.uniform(24, 34)
    rows_k = [(20.0, k_cold), (chance.uniform(300, 600), k_hot), (1000.0, k_hot)]
    rows_c = [(20.0, 450.0), (500.0, 650.0), (chance.uniform(680, 740), 1000.0), (790.0, 750.0)]
    return chance, outer, wall, band, rows_k, rows_c


def _stepped(values, edge):
    return lambda z: np.where(np.abs(z) < edge, values[0], values[1])


@pytest.mark.parametrize("seed", _SEEDS)
def test_over_time(seed):
    chance, outer, wall, band, rows_k, rows_c = _drawn(seed)
    half, edge = band / 2, band / 2 + chance.uniform(0.1, 0.3)
    length = edge + 0.4
    inside, losses = chance.uniform(4, 30), (chance.uniform(2, 5), 25.0)
    hours = chance.uniform(0.6, 1.5)
    # Heats the wall by about 650 K in that time.
    flux = 7800 * 620 * wall * 650 / (hours * 3600) + 6000
    end = hours * 3600
    fe = Axisymmetric(
        lambda z: outer - wall + 0 * z, lambda z: outer + 0 * z, [0, half, edge, length],
        Table(rows_k), through=2, size=0.03, bore=inside, cover=_stepped(losses, edge),
        flux=_stepped((flux, 0.0), half), density=7800.0, heat=Table(rows_c),
    )  # fmt: skip
    field = fe.run(20.0, end, end / 45, lambda t: 1.0)
    pipe = straight(2 * outer, wall, tabulated("drawn", 7800.0, rows_k, rows_c), half_length=length)
    model = Model(
        pipe, mesh(pipe, places=(half, edge), fine_to=max(0.3, half), cells_round=1),
        bore=[Bore(inside)], cover=[Cover(losses[0], end=edge), Cover(losses[1], start=edge)],
        zones=[Zone("1", -half, half)],
    )  # fmt: skip
    ours = model.run(model.start(20.0), [0.0, end], fluxes=lambda t: [flux], step=300).fields[-1]
    for z in (0.0, 0.5 * half, half, half + 0.5 * (edge - half), edge):
        for depth in (0.0, 0.5, 1.0):
            assert ours.at(0.0, z, depth) == pytest.approx(fe.at(field, z, depth), abs=1.0), (
                z, depth)  # fmt: skip


@pytest.mark.parametrize("seed", _SEEDS)
def test_round_the_pipe(seed):
    chance, outer, wall, band, _, _ = _drawn(seed + 100)
    half, edge = band / 2, band / 2 + 0.2
    length, k = edge + 0.4, chance.uniform(22, 45)
    inside, lean, losses = chance.uniform(5, 25), chance.uniform(0.2, 0.7), (3.0, 25.0)
    first, second = chance.choice([45, 60, 75]), chance.choice([105, 120, 150])
    fluxes = [chance.uniform(0.7, 1.3) * (400 * inside + 4000) for _ in range(3)]
    a, b = np.radians([first, second])

    def flux(angle, z):
        return np.where(z < half, np.select([angle < a, angle < b], fluxes[:2], fluxes[2]), 0.0)

    fe = ring(
        outer - wall, outer, length, k, angles=[0, a, b, np.pi], lengths=[0, half, edge, length],
        through=2, round_=np.pi / 12, size=0.04, bore=lambda t, z: inside * (1 - lean * np.cos(t)),
        cover=_stepped(losses, edge), flux=flux,
    )  # fmt: skip
    metal = tabulated("even", 7800.0, [(20.0, k)], [(20.0, 600.0)])
    pipe = straight(2 * outer, wall, metal, half_length=length)
    model = Model(
        pipe, mesh(pipe, places=(half, edge), fine_to=max(0.3, half), cells_round=24),
        bore=[Bore(inside, lean, air=0.0)],
        cover=[Cover(losses[0], end=edge, air=0.0), Cover(losses[1], start=edge, air=0.0)],
        zones=[
            Zone("top", -half, half, 360 - first, first),
            Zone("right", -half, half, first, second),
            Zone("bottom", -half, half, second, 360 - second),
            Zone("left", -half, half, 360 - second, 360 - first),
        ],
    )  # fmt: skip
    field, _ = model.steady(fluxes=[fluxes[0], fluxes[1], fluxes[2], fluxes[1]])
    for degrees in (0.0, 90.0, 180.0):
        for z in (0.0, 0.5 * half, edge):
            for depth in (0.0, 1.0):
                there = fe(np.radians(degrees), z, depth)
                assert field.at(degrees, z, depth) == pytest.approx(there, abs=1.0), (
                    degrees,
                    z,
                    depth,
                )


@pytest.mark.parametrize("seed", _SEEDS)
def test_unequal_walls(seed):
    chance, outer, wall, band, _, _ = _drawn(seed + 200)
    thick = min(wall * chance.uniform(1.3, 2.0), outer / 2)
    slope = chance.choice([1.0, 2.0, 3.0, 4.0])  # length of the taper for each unit of wall
    start = 0.012
    end = start + slope * (thick - wall)
    half, edge = max(band / 2, end + 0.02), max(band / 2, end + 0.02) + 0.25
    length, k, inside = edge + 0.5, chance.uniform(24, 40), chance.uniform(6, 25)
    losses, flux = (3.0, 25.0), 450 * inside + 6000

    def inner(z):
        share = np.clip((z - start) / (end - start), 0, 1)
        return outer - wall - share * (thick - wall)

    fe = Axisymmetric(
        inner, lambda z: outer + 0 * z, sorted([-length, -edge, -half, 0, start, end, half, edge,
                                                length]),
        Table([(20.0, k)]), through=3, size=0.015, bore=inside, cover=_stepped(losses, edge),
        flux=_stepped((flux, 0.0), half),
    )  # fmt: skip
    field = fe.steady()
    stations = [
        Station(-length, outer - wall, outer), Station(start, outer - wall, outer),
        Station(end, outer - thick, outer), Station(length, outer - thick, outer),
    ]  # fmt: skip
    pipe = body(stations, tabulated("even", 7800.0, [(20.0, k)], [(20.0, 600.0)]))
    grid = mesh(pipe, places=(-edge, -half, start, end, half, edge), fine_to=max(0.3, half),
                fine=0.005, through=13, cells_round=1)  # fmt: skip
    model = Model(
        pipe, grid, bore=[Bore(inside)],
        cover=[Cover(losses[1], end=-edge), Cover(losses[0], -edge, edge),
               Cover(losses[1], start=edge)],
        zones=[Zone("1", -half, half)],
    )  # fmt: skip
    ours, _ = model.steady(fluxes=[flux])
    for z in (-half, -0.03, 0.0, (start + end) / 2, end + 0.01, half):
        for depth in (0.0, 1.0):
            there = fe.at(field, z, depth)
            assert ours.at(0.0, z, depth) == pytest.approx(there, abs=1.5), (
                z, depth)  # fmt: skip
