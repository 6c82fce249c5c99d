"""AWS D1.1 Table 3.3 (2015; 5.8 in 2020): least preheat, in both systems as printed."""

import pytest

from tests.rows import each_row

BOOK = "aws-d1.1"

# AWS D1.1:2015 Table 3.3; columns A and B also in UFC 3-320-01A.
TABLE = {
    "A": (32, 150, 225, 300),
    "B": (32, 50, 150, 225),
    "C": (50, 150, 225, 300),
    "D": (32, 32, 32, 32),
}
CELSIUS = {32: 0, 50: 10, 150: 65, 225: 110, 300: 150}


@each_row("category", TABLE)
def test_table(govern, category):
    for wall, least in zip(("3/4 in", "1.5 in", "2.5 in", "3 in"), TABLE[category], strict=True):
        found = govern(BOOK, "2015", "US", preheat_category=category, wall=wall)["preheat"]
        assert found.minimum.to("degF") == least
    for wall, least in zip(("20 mm", "38 mm", "65 mm", "66 mm"), TABLE[category], strict=True):
        found = govern(BOOK, "2015", "SI", preheat_category=category, wall=wall)["preheat"]
        assert found.minimum.to("degC") == CELSIUS[least]


def test_category_b_at_one_inch(govern):
    # AWS D1.1:2015 Table 3.3 and UFC 3-320-01A: 50 degF, not 150 degF.
    found = govern(BOOK, "2015", "US", preheat_category="B", wall="1 in")["preheat"]
    assert found.minimum.to("degF") == 50


def test_2020_is_taken_to_be_alike(govern):
    (demand,) = govern(BOOK, "2020", preheat_category="A", wall="30 mm")["preheat"].demands
    assert (demand.limit.source.basis, demand.limit.source.confidence) == ("memory", "medium")


def test_width_and_category(govern, lacking):
    # AWS D1.1 5.6: as wide as the part is thick, 75 mm at least.
    assert govern(BOOK, "2015", wall="20 mm")["preheat width"].minimum.to("mm") == 75
    assert govern(BOOK, "2015", wall="90 mm")["preheat width"].minimum.to("mm") == 90
    assert lacking("preheat", BOOK, "2015", wall="20 mm") == {"preheat_category"}


@pytest.mark.parametrize(("wall", "most"), [("1.5 in", 400), ("2 in", 450)])
def test_interpass_of_tempered_steel(govern, wall, most):
    # AWS D1.1, from memory.
    found = govern(BOOK, "2015", "US", wall=wall, delivery_condition="quenched-and-tempered")
    assert found["interpass"].maximum.to("degF") == most


@each_row(
    ("system", "wall", "heating", "cooling"),
    [
        # 5.8.1 as quoted elsewhere: 5600/t to 220, no need below 55 degC/h; cooling 6500/t to 260.
        # 5600/20 = 280 -> 220; 5600/25.4545 = 220; 5600/40 = 140; 5600/120 = 46.7 -> 55.
        ("SI", "20 mm", 220, 260),
        ("SI", "40 mm", 140, 162.5),
        ("SI", "120 mm", 55, 55),
        # 400/t(in) to 400, 500/t(in) to 500, no need below 100 degF/h: 2 in -> 200 and 250.
        ("US", "1 in", 400, 500),
        ("US", "2 in", 200, 250),
        ("US", "6 in", 100, 100),
    ],
)
def test_rates_of_stress_relief(govern, system, wall, heating, cooling):
    found = govern("aws-d1.1", "2015", system, wall=wall)
    unit, above = ("degC/h", 315) if system == "SI" else ("degF/h", 600)
    for quantity, most in (("heating rate", heating), ("cooling rate", cooling)):
        (demand,) = found[quantity].demands
        assert demand.maximum.to(unit) == most
        assert demand.above.to(unit[:4]) == above


@each_row(
    ("wall", "minutes"),
    [
        # Table 5.2 (memory): 15 min for each 1/4 in or part; over 2 in, 2 h and 15 min by inch.
        ("1/4 in", 15),
        ("0.3 in", 30),
        ("2 in", 120),
        ("2.1 in", 135),
        ("4 in", 150),
    ],
)
def test_times_of_stress_relief(govern, wall, minutes):
    assert (
        govern("aws-d1.1", "2015", "US", p_number="1", wall=wall)["hold time"].minimum.to("min")
        == minutes
    )


def test_range_and_spreads_of_stress_relief(govern):
    found = govern("aws-d1.1", "2015", wall="20 mm", p_number="1", delivery_condition="normalized")
    assert found["hold temperature"].minimum.to("degC") == 600
    assert found["hold temperature"].maximum.to("degC") == 650
    assert found["charge temperature"].maximum.to("degC") == 315
    assert found["holding spread"].maximum.to("K") == 85
    (heating,) = found["heating spread"].demands
    assert (heating.maximum.to("K"), heating.within.to("m")) == (140, 5)
    facts = {"wall": "1 in", "p_number": "11B", "delivery_condition": "quenched-and-tempered"}
    tempered = govern("aws-d1.1", "2015", "US", **facts)
    assert tempered["hold temperature"].maximum.to("degF") == 1100
    assert tempered["hold temperature"].minimum is None
    inch = govern(
        "aws-d1.1", "2015", "US", wall="1 in", p_number="1", delivery_condition="as-rolled"
    )
    assert inch["hold temperature"].minimum.to("degF") == 1100
    assert inch["hold temperature"].maximum.to("degF") == 1200
    assert inch["charge temperature"].maximum.to("degF") == 600
    assert inch["holding spread"].maximum.to("degF") == 150
    (heating,) = inch["heating spread"].demands
    assert (heating.maximum.to("degF"), heating.within.to("ft")) == (250, 15)
