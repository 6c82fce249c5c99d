"""The estimate of heating power, against a heat balance by hand."""

from math import pi
from pathlib import Path

import pytest

from hts.job.compiler import JointSheet, compile_spec
from hts.job.compiler.power import estimate
from hts.language.model import Spec
from tests.texts import examples

ROOT = Path(__file__).parents[3]


def sheets(name: str) -> tuple[JointSheet, ...]:
    path = str(ROOT / "specs" / name)
    loader = examples()
    return compile_spec(Spec(loader.read(path), loader)).joints


def test_the_heat_stored_is_mass_times_specific_heat_times_rate() -> None:
    """610 mm by 39.6 mm, 930 mm long, four equal zones, 108 K/h. Specific heat of carbon steel at
    700 degC: 666 + 13002 / (738 - 700) = 1008 J/(kg K), EN 1993-1-2:2005 3.4.1.2, from memory."""
    found = estimate(sheets("p22-header.hts")[0])
    assert found is not None and float(found.rate.value) == 108
    mass = pi * 0.0396 * (0.610 - 0.0396) * 0.930 * 7850
    stored = mass * (666 + 13002 / 38) * 108 / 3600 / 4
    for zone in found.zones:
        assert float(zone.stored.value) == pytest.approx(stored, abs=60)
        parts = zone.stored.value + zone.blanket.value + zone.along.value
        assert float(zone.heating.value) == pytest.approx(float(parts), abs=160)
        assert float(zone.heating.value - zone.holding.value) == pytest.approx(stored, abs=110)
    assert found.assumptions


def test_a_hold_beyond_the_properties_says_so() -> None:
    found = next(one for sheet in sheets("p91-pipe.hts") if (one := estimate(sheet)) is not None)
    assert any("700 °C" in text for text in found.assumptions)


def test_without_heaters_there_is_none() -> None:
    assert estimate(sheets("induction-preheat.hts")[0]) is None
