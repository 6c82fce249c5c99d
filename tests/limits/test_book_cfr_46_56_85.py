"""46 CFR 56.85, the older text with Table 56.85-10 (public law text)."""

import pytest

BOOK = "cfr-46-56.85"
TREATMENT = "post-weld heat treatment"


@pytest.mark.parametrize(
    ("wall", "status"), [("0.74 in", "none"), ("0.75 in", "required"), ("0.76 in", "required")]
)
def test_p1_from_three_quarters_of_an_inch(govern, wall, status):
    # Table: over 3/4 in; 56.85-15(i): less than 3/4 in is let go. At 3/4 in the stricter holds.
    assert govern(BOOK, p_number="1", wall=wall)[TREATMENT].status == status


def test_range_and_time(govern):
    # 1100 to 1200 degF; 1 h for each inch of the thicker wall and 1 h at least: 1 h at 1 in and
    # below, 1.5 in -> 1.5 h.
    found = govern(BOOK, p_number="1", wall="1 1/2 in")
    assert found["hold temperature"].minimum.to("degF") == 1100
    assert found["hold temperature"].maximum.to("degF") == 1200
    assert found["hold time"].minimum.to("min") == 90
    assert govern(BOOK, p_number="1", wall="3/4 in")["hold time"].minimum.to("min") == 60
    assert govern(BOOK, p_number="1", wall="1 in")["hold time"].minimum.to("min") == 60


@pytest.mark.parametrize(
    ("wall", "carbon", "least"),
    [("1 in", "0.31 %", 50), ("1.01 in", "0.31 %", 175), ("1.01 in", "0.30 %", 50)],
)
def test_preheat(govern, wall, carbon, least):
    found = govern(BOOK, p_number="1", wall=wall, specified_carbon=carbon)["preheat"]
    assert found.minimum.to("degF") == least
