"""ASME BPVC VIII-2:2010, parts of Tables 6.8 and 6.11."""

import pytest

BOOK = ("asme-viii-2", "2010")
P15E = {"p_number": "15E", "chromium": "9 %", "least_chromium": "9 %"}


@pytest.mark.parametrize(
    ("filler", "system", "most"),
    # Table 6.11: nickel plus manganese of the filler sets the top of the range.
    [
        ("0.9 %", "SI", "800 degC"),
        ("1.0 %", "SI", "790 degC"),
        ("1.4 %", "US", "1450 degF"),
        ("0.5 %", "US", "1470 degF"),
    ],
)
def test_top_by_filler(govern, filler, system, most):
    found = govern(*BOOK, system, t="20 mm", filler_nickel_manganese=filler, **P15E)
    assert found["hold temperature"].maximum.show() == most


def test_rich_filler_has_no_top_here(govern, lacking):
    found = govern(*BOOK, t="20 mm", filler_nickel_manganese="1.5 %", **P15E)
    assert found["hold temperature"].maximum is None
    assert lacking("hold temperature", *BOOK, t="20 mm", **P15E) == {"filler_nickel_manganese"}


def test_least_of_thin_and_dissimilar(govern):
    # Table 6.11: 720 degC to 13 mm; 705 degC to a steel of less than 3 % Cr.
    facts = {"filler_nickel_manganese": "0.9 %", "t": "13 mm"}
    assert govern(*BOOK, **facts, **P15E)["hold temperature"].minimum.to("degC") == 720
    mixed = {**P15E, "least_chromium": "2.25 %"}
    assert govern(*BOOK, **facts, **mixed)["hold temperature"].minimum.to("degC") == 705
    nickel = govern(*BOOK, filler_kind="nickel", **facts, **P15E)
    assert nickel["hold temperature"].minimum.to("degC") == 705


def test_thick_p1(govern):
    # Table 6.8, as quoted elsewhere: 2 h and 0.6 min for each mm over 50.
    found = govern(*BOOK, p_number="1", t="150 mm")["hold time"]
    assert found.minimum.to("min") == 180
    assert not govern(*BOOK, p_number="1", t="100 mm")["hold time"].demands
