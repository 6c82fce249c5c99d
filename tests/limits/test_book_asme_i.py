"""ASME BPVC I:2007 Table PW-39, P-3."""

import pytest

BOOK = ("asme-i", "2007")


@pytest.mark.parametrize(("t", "minutes"), [("1/8 in", 15), ("1 in", 60), ("4 in", 150)])
def test_hold(govern, t, minutes):
    # Table PW-39, P-3: 595 degC, 1 h/in and at least 15 min, then 2 h and 15 min/in.
    found = govern(*BOOK, "US", p_number="3", t=t)
    assert found["hold time"].minimum.to("min") == minutes
    assert found["hold temperature"].minimum.to("degF") == 1100


@pytest.mark.parametrize(
    ("wall", "carbon", "status"),
    [
        ("16 mm", "0.25 %", "exempt"),
        ("17 mm", "0.25 %", "required"),
        ("16 mm", "0.26 %", "required"),
    ],
)
def test_thin_girth_butts(govern, wall, carbon, status):
    # Table PW-39, P-3: girth butts to 16 mm with 0.25 % carbon at most are exempt.
    found = govern(*BOOK, p_number="3", wall=wall, specified_carbon=carbon)[
        "post-weld heat treatment"
    ]
    assert found.status == status
