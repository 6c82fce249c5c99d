"""The field solver against what was measured, and against figures of an earlier model.

Three measured differences, one of them a forum note; the bore convection was chosen on them, so
they show that one set of figures fits all three and no more. Set: mean 12 W/m2K, 1.7 times as
much at the bottom, emissivity 0.8.
"""

import pytest

from hts.science.field.metal import metal
from hts.science.field.surfaces import Place, Zone
from hts.science.heat.properties import CARBON_STEEL
from tests.science.field.pipes import NINE_CHROME, heated

#: Mean convection in the bore and how much more at the bottom.
SETS = [(8, 0.5), (12, 0.7), (18, 0.7)]


def drop(band, air, lean, emissivity=0.8):
    """Outside 12:00 on the weld less bore 6:00 at 2 t, 18 in x 1 in at 621 degC, two zones."""
    field, _ = heated(band=band, air=air, lean=lean, emissivity=emissivity).steady(
        targets=[621, 621]
    )
    return field.at(0, 0) - field.at(180, 0.0508, 1.0)


@pytest.mark.parametrize(("air", "lean"), SETS)
def test_narrow_and_wide_band(air, lean):
    # AWS D10.10/D10.10M:2021, annex on the heated band, p. 97 (published): T040, 67 K at a ratio
    # of 1.19 (165 mm); T041, below 25 K at 5 and above (691 mm). The bore was not described.
    narrow = drop(0.165, air, lean)
    assert narrow == pytest.approx(67, abs=12 if (air, lean) == (12, 0.7) else 19)
    assert drop(0.691, air, lean) < 25


def test_insulated_bore():
    # T042, same source: 13 K with the bore insulated; the ratio is not said beside it.
    wide, narrow = drop(0.691, 1.0, 0.0, 0.0), drop(0.165, 1.0, 0.0, 0.0)
    assert wide < 13 < narrow < 33
    assert wide == pytest.approx(6, abs=1.5)


def test_thick_wall_with_a_narrow_band():
    # T043, a field report on a forum, common practice: more than 80 K, outside less inside
    found = []
    for air, lean in ((5, 0.3), (12, 0.7), (25, 0.7)):
        model = heated(0.45, 0.07, NINE_CHROME, band=0.21, beyond=0.21, air=air, lean=lean)
        field, _ = model.steady(targets=[760, 760])
        found.append(field.at(180, 0) - field.at(180, 0, 1))
    assert found[1] > 80
    # An earlier model of the same physics gave 62, 81, 105.
    assert found == pytest.approx([62, 81, 105], abs=7)


def test_one_zone_leaves_the_bottom_behind():
    # T044, derived, an earlier model: outside 6:00 below 12:00, band 665 mm
    for (air, lean), known in zip(SETS, (26, 54, 79), strict=True):
        field, _ = heated(band=0.665, zones=1, air=air, lean=lean).steady(targets=[621])
        assert field.at(0, 0) - field.at(180, 0) == pytest.approx(known, abs=5)


def test_radiation_across_the_bore_evens_the_ring():
    # T045, derived, an earlier model. Its insulation is not stated: 0.22 m beyond the band.
    differences = []
    for emissivity in (0.0, 0.8):
        model = heated(metal=metal(CARBON_STEEL), band=0.665, zones=1, emissivity=emissivity,
                       beyond=0.22)  # fmt: skip
        field, _ = model.steady(targets=[621])
        differences.append(field.at(0, 0) - field.at(180, 0))
    assert differences == pytest.approx([195.8, 53.8], abs=1.0)


@pytest.mark.parametrize(("gap", "known"), [(0.02, 20.8), (0.04, 39.5), (0.06, 56.2)])
def test_dip_beside_a_gap(gap, known):
    # T046, T047, derived, an earlier model: two zones, gaps the whole length of the band
    degrees = gap / 0.2286 * 57.29578
    model = heated(metal=metal(CARBON_STEEL), band=0.4, air=10, lean=0.0, gap=degrees,
                   cells_round=96)  # fmt: skip
    field, _ = model.steady(targets=[621, 621])
    assert 621 - field.at(90, 0) == pytest.approx(known, abs=2)


def thick(**settings):
    return heated(0.45, 0.07, NINE_CHROME, band=0.5, zones=4, places=(0.0605, 0.065), **settings)


@pytest.mark.parametrize("grid", [{}, {"through": 9, "fine": 0.006, "cells_round": 48}])
def test_thick_nine_chrome_at_the_hold(grid):
    # T048, derived, an earlier model: five grids agreed to 0.1 K
    field, fluxes = thick(**grid).steady(targets=[760] * 4)
    places = [(180, 0, 1), (180, 0.065, 1), (0, 0.065, 1), (90, 0.065, 1)]
    found = [field.at(*place) for place in places]
    assert found == pytest.approx([708.32, 700.21, 716.1, 708.09], abs=0.5)
    assert fluxes.mean() / 1000 == pytest.approx(21.91, abs=0.1)


@pytest.mark.parametrize(
    ("bore", "known"),
    [
        ({}, [288, 687, 699, 701]),
        ({"air": 4.0, "lean": 0.0, "emissivity": 0.0}, [298, 720, 733, 734]),
    ],
)
def test_thick_nine_chrome_on_the_way(bore, known):
    # T049, derived, an earlier model: at 3 h, the end of the ramp, and 1 h and 2 h later. It took
    # the edge of the soak band at a cell inside it: 4.5 mm inside, half a cell.
    model = thick(**bore, cells_round=16)
    top = 7.4 * 3600
    run = model.run(model.start(20), [0, 3 * 3600, top, top + 3600, top + 7200],
                    targets=lambda t: [min(20 + t / 36, 760)] * 4)  # fmt: skip
    lowest = [field.extremes(-0.0605, 0.0605)[0].celsius for field in run.fields]
    assert lowest == pytest.approx(known, abs=3)
    # Heat put in less lost is heat taken up.
    assert run.content[-1] == pytest.approx(run.heat[-1], rel=1e-6)


def test_power_falls_short():
    # No source: a zone at its cap stays behind, and the others do not make up for it.
    model = heated(band=0.4, zones=2)
    free, fluxes = model.steady(targets=[621, 621])
    capped = heated(band=0.4, zones=2)
    most = 0.8 * float(fluxes[1] * capped.heated_area[1])
    zones = (capped.zones[0], capped.zones[1]._replace(most=most))
    model = type(capped)(capped.pipe, capped.mesh, bore=[], cover=[], zones=zones)
    model._equations = capped._equations
    field, given = model.steady(targets=[621, 621])
    assert given[1] == pytest.approx(0.8 * fluxes[1])
    assert field.at(0, 0) == pytest.approx(621, abs=0.01)
    assert field.at(180, 0) < 600 < free.at(180, 0)
    # A thermocouple warmer than its setpoint: the zone gives nothing.
    _, given = capped.steady(targets=[621, 100])
    assert given[1] == 0.0 < given[0]


def test_a_place_that_follows_elsewhere():
    model = heated(band=0.4, zones=1)
    zone = Zone("1", -0.2, 0.2, follows=Place(180, 0.05))
    other = type(model)(model.pipe, model.mesh, bore=[], cover=[], zones=[zone])
    other._equations = model._equations
    other._equations._prepare_zones([zone])
    field, _ = other.steady(targets=[621])
    assert field.at(180, 0.05) == pytest.approx(621, abs=0.01)
