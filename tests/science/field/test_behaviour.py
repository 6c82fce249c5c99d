"""What has to hold whatever the figures: grids, symmetry, signs, refusals."""

import numpy as np
import pytest

from hts.base.arguments import NotCovered
from hts.science.field.control import within_caps
from hts.science.field.mesh import mesh
from hts.science.field.metal import metal, tabulated
from hts.science.field.model import Model
from hts.science.field.pipe import Station, body, straight
from hts.science.field.surfaces import Bore, Cover, Zone, share_round
from hts.science.heat.properties import CARBON_STEEL
from tests.science.field.pipes import NINE_CHROME, heated


def lowest(model, targets, edge=0.0508):
    return model.steady(targets=targets)[0].extremes(-edge, edge)[0].celsius


@pytest.mark.parametrize("wall", [0.0127, 0.0254, 0.07])
def test_halving_grid_moves_the_lowest_little(wall):
    # Grid study: 0.3 K is what is asked.
    metal_ = NINE_CHROME
    outer, edge = 0.45, wall + 0.01
    coarse = heated(outer, wall, metal_, band=0.4, zones=4, places=(edge,))
    fine = heated(outer, wall, metal_, band=0.4, zones=4, places=(edge,), through=13,
                  fine=0.0058, coarse=0.015, cells_round=48)  # fmt: skip
    assert lowest(fine, [760] * 4, edge) == pytest.approx(lowest(coarse, [760] * 4, edge), abs=0.3)


def test_halving_the_step_moves_the_lowest_little():
    model = heated(0.45, 0.07, NINE_CHROME, band=0.5, zones=1, lean=0.0, cells_round=1)
    found = []
    for step in (300, 150):
        run = model.run(model.start(20), [0, 7.4 * 3600, 8.4 * 3600], step=step,
                        targets=lambda t: [min(20 + t / 36, 760)])  # fmt: skip
        found.append([field.extremes(-0.065, 0.065)[0].celsius for field in run.fields])
    assert found[0] == pytest.approx(found[1], abs=0.3)


def test_left_is_right():
    field, fluxes = heated(band=0.4, zones=4).steady(targets=[621] * 4)
    turned = np.roll(field.celsius[::-1], 1, axis=0)
    assert np.abs(turned - field.celsius).max() < 1e-6
    assert fluxes[1] == pytest.approx(fluxes[3], rel=1e-9)


def test_one_cell_round_is_the_same_as_many():
    settings = {"band": 0.4, "zones": 1, "lean": 0.0}
    flat = heated(**settings, cells_round=1).steady(targets=[621])[0]
    round_ = heated(**settings, cells_round=24).steady(targets=[621])[0]
    assert np.abs(round_.celsius - flat.celsius).max() < 1e-6


def test_half_a_pipe_is_the_same_as_all_of_it():
    half = straight(0.3, 0.02, NINE_CHROME, half_length=1.0)
    whole = body([Station(-1.0, 0.13, 0.15), Station(1.0, 0.13, 0.15)], NINE_CHROME)
    fields = []
    for pipe in (half, whole):
        grid = mesh(pipe, places=(0.15, -0.15) if pipe is whole else (0.15,))
        model = Model(pipe, grid, bore=[Bore(10, 0.5, 0.8)], cover=[Cover(5)],
                      zones=[Zone("band", -0.15, 0.15)])  # fmt: skip
        fields.append(model.steady(fluxes=[2e4])[0])
        assert model.heated_area[0] == pytest.approx(np.pi * 0.3 * 0.3)
    for z in (0.0, 0.1, 0.5):
        assert fields[0].at(0, z, 1) == pytest.approx(fields[1].at(0, z, 1), abs=5e-3)
        assert fields[0].at(0, -z) == pytest.approx(fields[1].at(0, -z), abs=5e-3)


def test_two_metals_alike_are_one():
    stations = [Station(-0.8, 0.13, 0.15), Station(0.8, 0.13, 0.15)]
    fields = []
    for other in (None, NINE_CHROME):
        pipe = body(stations, NINE_CHROME, other=other)
        model = Model(pipe, mesh(pipe), bore=[Bore(10)], cover=[Cover(5)],
                      zones=[Zone("band", -0.15, 0.15)])  # fmt: skip
        run = model.run(model.start(20), [0, 3600], fluxes=lambda t: [2e4])
        fields.append(run.fields[0].celsius)
    assert fields[0] == pytest.approx(fields[1], abs=1e-9)
    austenitic = tabulated("austenitic", 7900, [(20, 15), (800, 25)], [(20, 500), (800, 620)])
    pipe = body(stations, NINE_CHROME, other=austenitic)
    model = Model(pipe, mesh(pipe), bore=[Bore(10)], cover=[Cover(5)],
                  zones=[Zone("band", -0.15, 0.15)])  # fmt: skip
    field, _ = model.steady(fluxes=[2e4])
    assert field.at(0, 0.6) < field.at(0, -0.6)  # it conducts less


def test_signs():
    # T050: what has to move which way
    def low(**changes):
        settings = {"band": 0.4, "zones": 2, **changes}
        return lowest(heated(**settings), [621] * settings["zones"])

    usual = low()
    assert low(air=20) < usual < low(air=5)  # more draught, colder bore
    assert low(air=4, lean=0, emissivity=0) > usual  # a liner
    assert low(lean=0.9) < usual < low(lean=0.2)
    assert low(band=0.3) < usual < low(band=0.6)
    assert low(wall=0.05) < usual < low(wall=0.015)  # at the same z: the drop grows with the wall
    assert low(zones=1) < usual
    assert low(gap=10.0) < usual
    poorer = tabulated("poorer", 7850.0, [(20, 25.0)], [(20, 600)])
    assert low(metal=poorer) < usual


def test_fast_ramps_leave_the_inside_further_behind():
    model = heated(metal=NINE_CHROME, wall=0.05, band=0.5, zones=1, cells_round=1)
    behind = []
    for rate in (50, 100, 200):
        top = 600 / rate * 3600
        run = model.run(model.start(20), [0, top], targets=lambda t, r=rate: [20 + r * t / 3600])
        behind.append(run.fields[0].at(0, 0) - run.fields[0].at(0, 0, 1))
    assert behind[0] < behind[1] < behind[2]


def test_it_cools_when_switched_off():
    model = heated(metal=NINE_CHROME, band=0.5, zones=1, cells_round=1)
    hot, _ = model.steady(targets=[700])
    run = model.run(hot, [0, 3600, 7200], targets=lambda t: [np.nan])
    assert run.fluxes[1:].max() == 0.0
    assert 700 > run.followed[-2][0] > run.followed[-1][0] > 20


def test_what_cannot_be_worked_out_is_refused():
    pipe = straight(0.3, 0.02, metal(CARBON_STEEL), half_length=0.5)
    with pytest.raises(ValueError, match="three nodes"):
        mesh(pipe, through=2)
    model = Model(pipe, mesh(pipe), bore=[Bore(0)], cover=[Cover(0)], zones=[Zone("a", 0, 0.1)])
    with pytest.raises(ArithmeticError, match="no heat can leave"):
        model.steady(fluxes=[100.0])
    with pytest.raises(ValueError, match="either targets or fluxes"):
        model.steady()
    with pytest.raises(NotCovered, match="carbon steel"):
        model.run(model.start(20), [0, 36000], fluxes=lambda t: [2e5])
    with pytest.raises(ValueError, match="not on the pipe"):
        model.start(20).at(0, 0.6)
    for stations in (
        [(0, 0.1, 0.2)],
        [(0, 0.1, 0.2), (-1, 0.1, 0.2)],
        [(0, 0.2, 0.2), (1, 0.1, 0.2)],
    ):
        with pytest.raises(ValueError, match=r"pipe needs|in order"):
            body([Station(*s) for s in stations], NINE_CHROME)


def test_shares_round():
    assert share_round(8, 0, 45) == pytest.approx([0.5, 0.5, 0, 0, 0, 0, 0, 0])
    assert share_round(8, -22.5, 45) == pytest.approx([1, 0, 0, 0, 0, 0, 0, 0])
    assert share_round(24, 250, 220).sum() == pytest.approx(24 * 220 / 360)
    assert share_round(1, 30, 90) == pytest.approx([0.25])


def test_caps():
    answer = np.array([[1.0, 0.2], [0.2, 1.0]])
    follows = np.array([True, True])
    free = within_caps(answer, np.array([1.2, 1.2]), follows, np.zeros(2), np.full(2, 9.0))
    assert free == pytest.approx([1.0, 1.0])
    capped = within_caps(answer, np.array([1.2, 1.2]), follows, np.zeros(2), np.array([0.5, 9.0]))
    assert capped == pytest.approx([0.5, 1.1])
    # The second is warm enough from the first alone.
    off = within_caps(answer, np.array([2.0, 0.1]), follows, np.zeros(2), np.full(2, 9.0))
    assert off == pytest.approx([2.0, 0.0])


def test_heat_contents_are_exact():
    table = metal(CARBON_STEEL)
    at = np.array([20.0, 333.3, 735.0, 735.1, 799.9, 734.97, 735.02])
    content = table.at(at)[0]
    # Exact on the points of the table; between two, 2 J/kg at the peak are 0.0004 K.
    for celsius, found, within in zip(at, content, [1e-6] * 5 + [2.0] * 2, strict=True):
        assert found == pytest.approx(CARBON_STEEL.heat(20, float(celsius)), abs=within)
    assert table.scaled(conductivity=2.0).at(at)[2] == pytest.approx(2 * table.at(at)[2])
    with pytest.raises(NotCovered):
        table.check(np.array([1300.0]))
