"""Zone power against worked figures."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.base.arguments import NotCovered
from hts.science.heat.losses import insulated_pipe
from hts.science.heat.power import ASSUMPTIONS, Band, stored_energy, zone_power
from hts.science.heat.properties import CHROMIUM_9_STEEL, blanket_conductivity

BAND = Band(0.3239, 0.0254, 0.3, 0.05)


def test_worked_figures():
    # EN 1993-1-2 carbon steel, 323.9 x 25.4 mm, band 300 mm: 56.09 kg, 19.70 MJ to 620 degC;
    # 1.81 kW stored at 150 K/h and 620 degC (derived).
    assert BAND.mass == pytest.approx(56.09, abs=0.01)
    assert BAND.metal_area == pytest.approx(0.0238, abs=5e-5)
    assert stored_energy(BAND, 20, 620) == pytest.approx(19.70e6, abs=0.01e6)
    assert stored_energy(BAND, 20, 620) / (4 * 3600) == pytest.approx(1370, abs=5)
    assert zone_power(BAND, 620, 150).stored == pytest.approx(1814, abs=5)


def test_axial_part_is_that_of_two_fins():
    # k 33.354, 0.0238 m2, excess 600 K, both sides: 2 k A m x 600. Coefficients 10 outside and
    # 0 in the bore: m = sqrt(2 x 10 x 0.16195 / (33.354 x (0.16195^2 - 0.13655^2))) = 3.58 /m.
    power = zone_power(BAND, 620, 0)
    assert power.axial == pytest.approx(2 * 33.354 * 0.023819 * 3.5806 * 600, rel=1e-3)
    assert power.stored == power.bore == 0


def test_bore_and_blanket_parts():
    power = zone_power(BAND._replace(bore_h=10.0), 620, 0)
    # h x 2 pi ri x width x 600 K
    assert power.bore == pytest.approx(10 * 2 * 3.14159265 * 0.13655 * 0.3 * 600, rel=1e-6)
    loss = insulated_pipe(0.3239, 620, thickness=0.05, conductivity=blanket_conductivity,
                          ambient=20)  # fmt: skip
    assert power.blanket == pytest.approx(0.3 * loss.watts_per_metre)


@given(st.floats(10, 350), st.floats(0, 300))
def test_zones_add_up_to_the_ring(arc, rate):
    band = BAND._replace(bore_h=10.0)
    ring = zone_power(band, 600, rate)
    first, second = (zone_power(band, 600, rate, arc_degrees=a) for a in (arc, 360 - arc))
    assert ring.total == pytest.approx(sum(ring[:4]))
    for part in range(4):
        assert first[part] == pytest.approx(ring[part] * arc / 360)
    assert first.total + second.total == pytest.approx(ring.total)
    assert first.flux == pytest.approx(ring.flux)
    assert ring.total == pytest.approx(ring.flux * 3.141592653589793 * 0.3239 * 0.3)


@given(st.floats(0, 300), st.floats(0.1, 100))
def test_faster_needs_more(rate, more):
    assert zone_power(BAND, 600, rate + more).total > zone_power(BAND, 600, rate).total


def test_refusals():
    with pytest.raises(NotCovered):
        zone_power(BAND._replace(material=CHROMIUM_9_STEEL), 760, 80)
    for arc in (0, 360.1):
        with pytest.raises(ValueError, match="arc"):
            zone_power(BAND, 600, 100, arc_degrees=arc)
    with pytest.raises(ValueError, match="inner radius"):
        zone_power(BAND._replace(wall=0.2), 600, 100)


def test_assumptions_are_sentences_without_repeats():
    assert len(set(ASSUMPTIONS)) == len(ASSUMPTIONS) >= 5


def test_a_bore_that_loses_heat_makes_the_fins_shorter():
    # m = sqrt(2 (10 x 0.16195 + 10 x 0.13655) / (33.354 x (0.16195^2 - 0.13655^2))) = 4.86 /m.
    power = zone_power(BAND._replace(bore_h=10.0), 620, 0)
    assert power.axial == pytest.approx(2 * 33.354 * 0.023819 * 4.8612 * 600, rel=1e-3)
    assert zone_power(BAND, 620, 0, arc_degrees=360).total > 0
