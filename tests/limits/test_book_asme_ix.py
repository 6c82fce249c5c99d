"""ASME BPVC IX: what a qualification supports."""

import pytest

BOOK = "asme-ix"


def test_time_at_temperature(govern, lacking):
    # ASME BPVC IX QW-407.2: the test piece had 80 % of the time; 10 h support 12.5 h.
    found = govern(BOOK, toughness_tested="yes", qualified_hold="10 h")["total hold"]
    assert found.maximum.to("h") == 12.5
    assert not govern(BOOK, toughness_tested="no", qualified_hold="10 h")["total hold"].demands
    assert lacking("total hold", BOOK, toughness_tested="yes") == {"qualified_hold"}
    assert "toughness_tested" in lacking("total hold", BOOK)


@pytest.mark.parametrize(
    ("system", "qualified", "unit", "least"),
    [("SI", "150 degC", "degC", 95), ("US", "300 degF", "degF", 200)],
)
def test_preheat(govern, system, qualified, unit, least):
    # ASME BPVC IX QW-406: not more than 55 degC (100 degF) less than the test piece had.
    found = govern(BOOK, None, system, qualified_preheat=qualified)["preheat"]
    assert found.minimum.to(unit) == least
