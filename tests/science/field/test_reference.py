"""The field solver against finite elements worked out elsewhere (scikit-fem, quadratic elements).

Basis: derived. In time: steps of 20 s, two-step backward differences on the heat content.
"""

import numpy as np
import pytest

from hts.science.field.mesh import mesh
from hts.science.field.metal import tabulated
from hts.science.field.model import Model
from hts.science.field.pipe import Station, body, straight
from hts.science.field.surfaces import Bore, Cover, Zone
from tests.science.field.pipes import NINE_CHROME

EVEN = tabulated("even", 7850.0, [(20, 33)], [(20, 600)])


@pytest.mark.parametrize(
    ("through", "fine", "step", "within"), [(7, 0.0115, 300, 1.0), (9, 0.006, 60, 0.5)]
)
def test_heated_over_time(through, fine, step, within):
    # T030 after 3600 s, T031 after 7200 s: outside and bore at z 0 and 0.05, outside 0.2 and 0.4.
    # The finer mesh is fine all along: in the foot of the curve, at 0.4 m, the coarse part counts.
    known = {
        3600: [719.028, 699.246, 705.776, 686.082, 451.415, 96.512],
        7200: [920.709, 899.501, 903.3, 882.213, 600.939, 169.255],
    }
    pipe = straight(0.4572, 0.0254, NINE_CHROME, half_length=1.0)
    coarse = 0.03 if through == 7 else fine
    grid = mesh(pipe, places=(0.05, 0.2, 0.4, 0.45), fine=fine, coarse=coarse, through=through)
    cover = [Cover(3, end=0.45), Cover(25, start=0.45)]
    model = Model(pipe, grid, bore=[Bore(20)], cover=cover, zones=[Zone("band", -0.2, 0.2)])
    run = model.run(model.start(20), [0, *known], fluxes=lambda t: [35e3], step=step)
    for field, expected in zip(run.fields, known.values(), strict=True):
        places = [(0, 0, 0), (0, 0, 1), (0, 0.05, 0), (0, 0.05, 1), (0, 0.2, 0), (0, 0.4, 0)]
        off = np.array([field.at(*place) for place in places]) - expected
        assert np.abs(off).max() < within


@pytest.mark.parametrize(
    ("through", "fine", "cells", "within"), [(7, 0.0115, 24, 1.0), (9, 0.006, 96, 0.4)]
)
def test_unlike_zones_round_the_pipe(through, fine, cells, within):
    # T032, T033: 24, 30 and 36 kW/m2 round the pipe, bore 20 (1 - 0.5 cos), excess over 0
    known = [1002.636, 941.923, 892.614, 990.658, 924.314, 869.739, 976.867, 852.853, 581.334]
    pipe = straight(0.4572, 0.0254, EVEN, half_length=1.0)
    grid = mesh(pipe, places=(0.05, 0.2, 0.45), fine=fine, through=through, cells_round=cells)
    zones = [Zone("top", -0.2, 0.2, -45, 45), Zone("right", -0.2, 0.2, 45, 135),
             Zone("left", -0.2, 0.2, 225, 315), Zone("bottom", -0.2, 0.2, 135, 225)]  # fmt: skip
    cover = [Cover(3, end=0.45, air=0), Cover(25, start=0.45, air=0)]
    model = Model(pipe, grid, bore=[Bore(20, 0.5, air=0)], cover=cover, zones=zones)
    field, _ = model.steady(fluxes=[24e3, 30e3, 30e3, 36e3])
    places = [(0, 0, 0), (90, 0, 0), (180, 0, 0), (0, 0, 1), (90, 0, 1), (180, 0, 1),
              (45, 0.05, 0), (180, 0.05, 1), (180, 0.2, 0)]  # fmt: skip
    assert [field.at(*place) for place in places] == pytest.approx(known, abs=within)


@pytest.mark.parametrize(
    ("slope", "outside", "bore"),
    [
        (  # T034: taper 1:4
            0.25,
            [526.68, 743.73, 746.17, 738.27, 718.56, 692.22, 651.67, 568.17, 364.42],
            [518.76, 729.44, 731.84, 723.77, 698.67, 666.9, 620.95, 544.13, 360.23],
        ),
        (  # T036: nearly a step, 2:1
            2.0,
            [522.02, 733.64, 733.17, 724.18, 706.47, 686.41, 651.32, 569.12, 365.14],
            [514.13, 719.42, 718.83, 709.17, 671.92, 657.78, 624.02, 545.3, 360.93],
        ),
    ],
)
def test_unequal_walls(slope, outside, bore):
    # T034 to T036: flush outside, the bore tapers from 25.4 mm of wall to 50.8 mm
    ro, ri = 0.2286, 0.2032
    stations = [Station(-1.2, ri, ro), Station(0.03, ri, ro),
                Station(0.03 + 0.0254 / slope, ri - 0.0254, ro),
                Station(1.2, ri - 0.0254, ro)]  # fmt: skip
    pipe = body(stations, EVEN)
    z = (-0.2, -0.05, 0, 0.02, 0.05, 0.0808, 0.12, 0.18, 0.3)
    grid = mesh(pipe, places=(*z, -0.5, 0.2, 0.5), fine_to=0.35, fine=0.005)
    cover = [Cover(3, -0.5, 0.5), Cover(25, start=0.5), Cover(25, end=-0.5)]
    model = Model(pipe, grid, bore=[Bore(20)], cover=cover, zones=[Zone("band", -0.2, 0.2)])
    field, _ = model.steady(fluxes=[25e3])
    assert [field.at(0, place, 0) for place in z] == pytest.approx(outside, abs=1.5)
    assert [field.at(0, place, 1) for place in z] == pytest.approx(bore, abs=1.5)
    # The sloping surface keeps its true area: exact for a cone.
    cone = np.pi * (2 * ri - 0.0254) * np.hypot(0.0254, 0.0254 / slope)
    straight_parts = 2 * np.pi * (ri * 1.23 + (ri - 0.0254) * (1.17 - 0.0254 / slope))
    assert grid.bore.area.sum() == pytest.approx(cone + straight_parts, rel=1e-6)
    volume = np.pi * (1.23 * (ro**2 - ri**2) + (1.17 - 0.0254 / slope) * (ro**2 - 0.1778**2))
    volume += np.pi * 0.0254 / slope * (ro**2 - (ri**2 + ri * 0.1778 + 0.1778**2) / 3)
    assert grid.volume.sum() == pytest.approx(volume, rel=1e-4)


def test_step_outside():
    # No source: the same wall inside out loses the same heat as it is given.
    ro, ri = 0.2286, 0.2032
    stations = [Station(-1.0, ri, ro), Station(0.05, ri, ro), Station(0.05, ri, ro + 0.02),
                Station(1.0, ri, ro + 0.02)]  # fmt: skip
    pipe = body(stations, EVEN)
    model = Model(pipe, mesh(pipe, places=(0.2,)), bore=[Bore(20)], cover=[Cover(3)],
                  zones=[Zone("band", -0.2, 0.2)])  # fmt: skip
    field, _ = model.steady(fluxes=[25e3])
    assert float(model._equations.inflow(field.celsius, np.array([25e3]))) == pytest.approx(
        0, abs=1
    )
    assert field.at(0, -0.05) > field.at(0, 0.15)
