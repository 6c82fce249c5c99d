"""ASME BPVC VIII-2:2010, parts of Tables 6.8 and 6.11."""

import pytest

from tests.rows import each_row

BOOK = ("asme-viii-2", "2010")
P15E = {"p_number": "15E", "chromium": "9 %", "least_chromium": "9 %"}


@each_row(
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


def test_rich_filler_has_the_general_top(govern, lacking):
    # The range itself, 730 to 775 degC, is from memory.
    found = govern(*BOOK, t="20 mm", filler_nickel_manganese="1.5 %", **P15E)["hold temperature"]
    assert (found.minimum.show(), found.maximum.show()) == ("730 degC", "775 degC")
    assert found.setter("maximum").limit.source.basis == "memory"
    assert lacking("hold temperature", *BOOK, t="20 mm", **P15E) == {"filler_nickel_manganese"}


@each_row(
    ("facts", "least"),
    # ASME BPVC VIII-2:2010 Table 6.11, note (b): of a weld to another steel the chromium of the
    # filler decides, or that it is austenitic or nickel-based; 720 degC to 13 mm is note (a).
    [
        ({"t": "13 mm"}, 720),
        ({"t": "14 mm"}, 730),
        ({"t": "13 mm", "dissimilar": "yes", "filler_chromium": "2.25 %"}, 705),
        ({"t": "30 mm", "dissimilar": "yes", "filler_chromium": "2.9 %"}, 705),
        ({"t": "30 mm", "dissimilar": "yes", "filler_chromium": "3 %"}, 730),
        ({"t": "30 mm", "dissimilar": "yes", "filler_chromium": "9 %"}, 730),
        ({"t": "30 mm", "dissimilar": "yes", "filler_kind": "nickel"}, 705),
        ({"t": "30 mm", "dissimilar": "no", "filler_kind": "nickel"}, 730),
        ({"t": "30 mm", "dissimilar": "no", "filler_chromium": "2.25 %"}, 730),
    ],
)
def test_least_of_thin_and_dissimilar(govern, facts, least):
    found = govern(*BOOK, filler_nickel_manganese="0.9 %", **P15E, **facts)["hold temperature"]
    assert found.minimum.to("degC") == least


def test_thick_p1(govern):
    # Table 6.8, as quoted elsewhere: 2 h and 0.6 min for each mm over 50.
    found = govern(*BOOK, p_number="1", t="150 mm")["hold time"]
    assert found.minimum.to("min") == 180
    assert not govern(*BOOK, p_number="1", t="100 mm")["hold time"].demands


@pytest.mark.parametrize(
    ("facts", "mm"),
    [
        # 6.4.2.7 from memory, as VIII-1 UW-40(f): the thinner of a butt, the throat, the cavity.
        ({"weld_kind": "girth-butt", "thicker_wall": "40 mm", "thinner_wall": "30 mm"}, 30),
        ({"weld_kind": "fillet", "thicker_wall": "40 mm", "throat": "9 mm"}, 9),
        ({"weld_kind": "repair", "thicker_wall": "40 mm", "groove_depth": "12 mm"}, 12),
    ],
)
def test_governing_thickness(govern, facts, mm):
    found = govern("asme-viii-2", "2010", p_number="1", **facts)["governing thickness"]
    assert found.exactly.to("mm") == mm
