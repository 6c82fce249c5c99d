"""Wire and insulation limits."""

import pytest

from hts.base.data import load
from hts.science.thermocouples.errors import NotDefined, UnknownName
from hts.science.thermocouples.wire import (
    governing_limit,
    insulation_limit,
    insulations,
    safe_wire_limit,
    wire_diameter,
    wire_limit,
)
from tests.rows import each_row

# ASTM E230, suggested upper temperature of protected couples (reprints): degC, degF by AWG.
LIMITS = {
    "K": {8: (1260, 2300), 14: (1090, 2000), 20: (980, 1800), 24: (870, 1600), 28: (870, 1600),
          30: (760, 1400)},
    "N": {8: (1260, 2300), 14: (1090, 2000), 20: (980, 1800), 24: (870, 1600), 28: (870, 1600),
          30: (760, 1400)},
    "J": {8: (760, 1400), 14: (590, 1100), 20: (480, 900), 24: (370, 700), 28: (370, 700),
          30: (320, 600)},
    "E": {8: (870, 1600), 14: (650, 1200), 20: (540, 1000), 24: (430, 800), 28: (430, 800),
          30: (430, 800)},
    "T": {14: (370, 700), 20: (260, 500), 24: (200, 400), 28: (200, 400), 30: (150, 300)},
}  # fmt: skip


def test_every_wire_of_the_data_is_among_those_checked():
    types = load("thermocouples")["wire_limits"]["types"]
    listed = {(type, row["awg"]) for type, rows in types.items() for row in rows}
    assert listed == {(type, awg) for type, limits in LIMITS.items() for awg in limits}


@each_row("type", LIMITS)
def test_upper_temperature_by_gauge(type):
    for awg, limit in LIMITS[type].items():
        found = wire_limit(type, awg)
        assert (found.celsius, found.fahrenheit) == limit
        # The two scales are rounded apart by no more than a rounding to 10 degC.
        assert abs((found.fahrenheit - 32) / 1.8 - float(found.celsius)) < 10


def test_no_figure():
    for type, awg in (("T", 8), ("K", 22), ("R", 24)):
        with pytest.raises(NotDefined, match=f"type {type}, {awg} AWG"):
            wire_limit(type, awg)
    with pytest.raises(UnknownName):
        wire_limit("X", 20)


@each_row(
    ("type", "awg", "whose", "celsius"),
    # A wire that is not listed lasts at least as long as the next thinner one that is.
    [
        ("J", 22, 24, 370),
        ("J", 20, 20, 480),
        ("J", 21, 24, 370),
        ("T", 8, 14, 370),
        ("K", 29, 30, 760),
    ],
)
def test_a_wire_between_two_listed_ones(type, awg, whose, celsius):
    found, limit = safe_wire_limit(type, awg)
    assert (found, limit.celsius) == (whose, celsius)


def test_no_wire_as_thin_is_listed():
    with pytest.raises(NotDefined):
        safe_wire_limit("K", 36)


@each_row(
    ("awg", "inches"),
    # ASTM B258 wire diameters, inch; 36 AWG is 0.0050 in and 0 AWG 0.3249 in.
    [(0, 0.3249), (8, 0.1285), (14, 0.0641), (20, 0.0320), (24, 0.0201), (30, 0.0100), (36, 0.005)],
)
def test_diameter(awg, inches):
    assert wire_diameter(awg) / 25.4 == pytest.approx(inches, abs=0.00005)


def test_diameter_out_of_table():
    for awg in (-1, 41):
        with pytest.raises(NotDefined):
            wire_diameter(awg)


@each_row(
    ("material", "low", "high"),
    [
        # Common practice, no source.
        ("glass braid", 482, 510),
        ("vitreous silica", 760, 1000),
        ("ceramic fibre", 1204, 1204),
        ("PVC", 105, 105),
        ("FEP", 200, 200),
        ("PTFE", 260, 260),
        ("polyimide", 260, 260),
    ],
)
def test_insulation(material, low, high):
    found = insulation_limit(material)
    assert (found.low, found.high) == (low, high)
    assert found.origin.basis == "practice"
    assert found.single_use == (material == "glass braid")
    assert material in insulations()


def test_insulation_governs_glass_braided_wire():
    # Derived: 20 AWG type K wire is good for 980 degC, its glass braid for 482.
    assert governing_limit("K", 20, "glass braid")[:2] == (482, "insulation")
    assert governing_limit("K", 20, "ceramic fibre")[:2] == (980, "wire")
    with pytest.raises(UnknownName):
        insulation_limit("paper")
