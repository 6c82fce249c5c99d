"""ASME B31.1 against values worked out from its paragraphs."""

import pytest

from hts.base.quantities import TEMPERATURE, Quantity
from tests.rows import each_row

BOOK = "asme-b31.1"
TREATMENT = "post-weld heat treatment"


@each_row(
    ("wall", "rate"),
    # ASME B31.1 132.5: 600 degF/h by half the thickness in inches, never more than 600 degF/h.
    [("1 in", 600), ("2 in", 600), ("4 in", 300), ("6 in", 200)],
)
@each_row("edition", ["2014", "2016", "2018"])
def test_rates_are_for_above_600_degf(govern, edition, wall, rate):
    found = govern(BOOK, edition, "US", p_number="1", wall=wall)
    for name in ("heating rate", "cooling rate"):
        (demand,) = found[name].demands
        assert demand.maximum.to("degF/h") == rate
        # 500 degF/h at 500 degF on 6 in is allowed: the rule begins at 600 degF.
        assert demand.above == Quantity.read("600 degF", TEMPERATURE)


def test_600_degf_per_hour_is_a_difference(govern):
    # ASME B31.1 132.5: 600 degF/h is 333 degC/h; converted as a temperature it would be 315.
    rate = govern(BOOK, "2018", wall="1 in")["heating rate"].maximum
    assert float(rate.to("degC/h")) == pytest.approx(333.3, abs=0.05)


def test_p7_and_p10i_cool_slowly(govern):
    # ASME B31.1 Table 132.1.1-1: 55 degC/h above 650 degC.
    for p_number in ("7", "10I"):
        found = govern(BOOK, "2018", p_number=p_number, wall="20 mm")["cooling rate"]
        assert found.setter("maximum").limit.id == "cooling-p7-p10i"
        assert found.maximum.to("degC/h") == 55


@each_row(
    ("wall", "preheat", "layers", "status"),
    [
        # ASME B31.1 Table 132.2-1: 200 degF over 1 in, several layers over 3/16 in.
        ("2 in", "200 degF", "multiple", "exempt"),
        ("2 in", "150 degF", "multiple", "required"),
        ("1 in", "50 degF", "multiple", "exempt"),
        ("1 in", "50 degF", "single", "required"),
        ("3/16 in", "50 degF", "single", "exempt"),
    ],
)
def test_when_p1_is_exempt(govern, wall, preheat, layers, status):
    facts = {"p_number": "1", "wall": wall, "preheat": preheat, "layers": layers}
    assert govern(BOOK, "2018", "US", **facts)[TREATMENT].status == status


def test_the_preheat_of_thick_p1_has_to_be_known(lacking):
    facts = {"p_number": "1", "wall": "30 mm", "layers": "multiple"}
    assert lacking(TREATMENT, BOOK, "2018", **facts) == {"preheat"}


@pytest.mark.parametrize(
    ("p_number", "wall", "minutes", "low", "high"),
    [
        # The values of ASME B31.3-2016 Table 331.1.1, which this code shares (from memory).
        ("1", "1 in", 60, 1100, 1200),
        ("4", "3 in", 135, 1200, 1300),
        ("15E", "6 in", 315, 1300, 1425),
    ],
)
def test_holds(govern, p_number, wall, minutes, low, high):
    found = govern(BOOK, "2018", "US", p_number=p_number, wall=wall)
    assert found["hold time"].minimum.to("min") == minutes
    hold = found["hold temperature"]
    assert (hold.minimum.to("degF"), hold.maximum.to("degF")) == (low, high)
    assert {d.limit.source.basis for d in hold.demands} == {"memory"}


def test_bands(govern):
    # ASME B31.1 132.7, from memory: three walls in all; twice the header beyond a branch weld.
    assert govern(BOOK, "2018", wall="20 mm")["soak band"].minimum.to("mm") == 60
    branch = govern(BOOK, "2018", weld_kind="branch", run_wall="20 mm", cap_width="30 mm")
    assert branch["soak band"].minimum.to("mm") == 110


@each_row(("sketch", "thickness"), [("1", 18), ("2", 25), ("3", 20), ("4", 25), ("5", 18)])
def test_branch_sketches(govern, sketch, thickness):
    # The sketches as in ASME B31.3 Figure 328.5.4D, the lesser of the weld and the thicker part:
    # B31.1 132.4 from memory.
    facts = {"branch_wall": "10 mm", "run_wall": "25 mm", "pad_thickness": "12 mm"}
    found = govern(
        BOOK, "2018", weld_kind="branch", branch_sketch=sketch, fillet_cover="8 mm",
        wall="25 mm", thicker_wall="25 mm", **facts,
    )  # fmt: skip
    assert found["governing thickness"].exactly.to("mm") == thickness
