"""AWS D1.1 Table 3.3 (2015; 5.8 in 2020): least preheat, in both systems as printed."""

import pytest

BOOK = "aws-d1.1"

# AWS D1.1:2015 Table 3.3; columns A and B also in UFC 3-320-01A.
TABLE = {
    "A": (32, 150, 225, 300),
    "B": (32, 50, 150, 225),
    "C": (50, 150, 225, 300),
    "D": (32, 32, 32, 32),
}
CELSIUS = {32: 0, 50: 10, 150: 65, 225: 110, 300: 150}


@pytest.mark.parametrize("category", TABLE)
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
