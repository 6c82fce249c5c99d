"""EN 13445-4:2021. But for the tempering temperature (11.1) its figures are from memory."""

import math

import pytest

from tests.rows import each_row

BOOK = ("en-13445-4", "2021")


@pytest.mark.parametrize(
    ("outside", "wall", "heated", "insulated"),
    [
        # EN 13445-4, 5 and 10 roots of R times e: NPS 12 schedule 40, NPS 6 schedule 80.
        (323.8, 10.31, 197.7, 395.3),
        (168.3, 10.97, 141.7, 283.3),
    ],
)
def test_local_bands(govern, outside, wall, heated, insulated):
    radius = f"{outside / 2 - wall:.2f} mm"
    found = govern(*BOOK, inside_radius=radius, wall=f"{wall} mm")
    assert float(found["heated band"].minimum.to("mm")) == pytest.approx(heated, abs=0.05)
    assert float(found["gradient band"].minimum.to("mm")) == pytest.approx(insulated, abs=0.05)


@each_row(
    ("wall", "heating", "cooling"),
    [
        ("10 mm", 220, 280),
        ("25 mm", 220, 280),
        ("50 mm", 110, 140),
        ("100 mm", 55, 70),
        ("200 mm", 55, 70),
    ],
)
def test_rates(govern, wall, heating, cooling):
    # EN 13445-4, from memory: 5500/e and 7000/e between 25 and 100 mm.
    found = govern(*BOOK, wall=wall)
    assert math.isclose(found["heating rate"].maximum.to("degC/h"), heating)
    assert math.isclose(found["cooling rate"].maximum.to("degC/h"), cooling)


def test_charging(govern):
    # EN 13445-4, from memory: 400 degC, over 60 mm 300 degC.
    assert govern(*BOOK, wall="60 mm")["charge temperature"].maximum.to("degC") == 400
    assert govern(*BOOK, wall="61 mm")["charge temperature"].maximum.to("degC") == 300


@each_row(
    ("t", "minutes"), [("10 mm", 30), ("35 mm", 30), ("60 mm", 55), ("90 mm", 85), ("100 mm", 90)]
)
def test_hold_time(govern, t, minutes):
    # EN 13445-4, from memory: 30 min, e - 5, 40 + 0.5 e.
    for steel in ({"en_group": "1.1", "grade": "P265GH"}, {"grade": "16Mo3"}):
        found = govern(*BOOK, t=t, **steel)["hold time"]
        assert found.minimum.to("min") == minutes


@pytest.mark.parametrize(
    ("grade", "low", "high"),
    [("P265GH", 550, 600), ("13CrMo4-5", 630, 680), ("X10CrMoVNb9-1", 730, 770)],
)
def test_hold_range(govern, grade, low, high):
    # EN 13445-4, from memory.
    found = govern(*BOOK, grade=grade, delivery_condition="annealed")["hold temperature"]
    assert (found.minimum.to("degC"), found.maximum.to("degC")) == (low, high)


def test_tempered_steel(govern, lacking):
    # EN 13445-4:2021 11.1: not above the actual tempering temperature.
    facts = {"grade": "X10CrMoVNb9-1", "delivery_condition": "normalized-and-tempered"}
    hold = govern(*BOOK, tempering_temperature="760 degC", **facts)["hold temperature"]
    assert hold.maximum.to("degC") == 760
    assert lacking("hold temperature", *BOOK, **facts) == {"tempering_temperature"}
    sources = {demand.limit.id: demand.limit.source for demand in hold.demands}
    assert sources["below-tempering"].basis == "published"
    assert sources["hold-x10crmovnb9-1"].basis == "memory"


def test_governing_thickness(govern):
    # The clause is not remembered: the thicker part, to be safe (practice).
    found = govern("en-13445-4", "2021", thicker_wall="40 mm", thinner_wall="30 mm")
    assert found["governing thickness"].exactly.to("mm") == 40
