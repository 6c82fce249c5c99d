"""EN 1011-2 methods A and B and its cooling time."""

from math import tanh

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.base.arguments import NotCovered
from hts.science.metallurgy.carbon_equivalent import CET
from hts.science.metallurgy.cooling_time import (
    cooling_time,
    three_dimensional,
    transition_thickness,
    two_dimensional,
)
from hts.science.metallurgy.preheat import governing_cet, method_b
from hts.science.metallurgy.preheat_thickness import (
    combined_thickness,
    hydrogen_scale,
    thickness_without_preheat,
)
from tests.rows import each_row

CETS, THICKNESSES = st.floats(0.2, 0.5), st.floats(10, 90)
HYDROGENS, INPUTS = st.floats(1, 20), st.floats(0.5, 4)


@each_row(
    ("cet", "thickness", "hydrogen", "heat_input", "expected"),
    [
        # EN 1011-2:2001 equation C.8 (second-hand), evaluated.
        (0.30, 20, 5, 1.0, 56.53),
        (0.33, 40, 5, 1.5, 119.61),
        (0.33, 80, 10, 1.5, 175.77),
        (0.40, 50, 5, 2.0, 180.72),
        (0.35, 60, 4, 1.2, 150.48),
        (0.30, 10, 5, 0.5, 26.46),
        (0.45, 90, 15, 4.0, 271.16),
    ],
)
def test_method_b(cet, thickness, hydrogen, heat_input, expected):
    found = method_b(cet, thickness, hydrogen, heat_input)
    assert found.celsius == pytest.approx(expected, abs=0.01)
    assert found.outside == ()


def test_method_b_published_example():
    # Public worked example: C .18 Mn 1.4 Cu .2 Ni .1, 1 1/4 in, HD 5, 40 kJ/in x 0.8: 109.7.
    cet = CET({"C": 0.18, "Mn": 1.4, "Cu": 0.2, "Ni": 0.1}).value
    assert cet == pytest.approx(0.3325)
    assert method_b(cet, 31.75, 5, 40 * 0.8 / 25.4).celsius == pytest.approx(109.7, abs=0.05)


@given(CETS, THICKNESSES, HYDROGENS, INPUTS)
def test_parts_make_the_sum(cet, thickness, hydrogen, heat_input):
    # EN 1011-2 gives both the parts (from memory) and equation C.8.
    equation = (697 * cet + 160 * tanh(thickness / 35) + 62 * hydrogen**0.35
                + (53 * cet - 32) * heat_input - 328)  # fmt: skip
    assert method_b(cet, thickness, hydrogen, heat_input).celsius == pytest.approx(equation)


@given(CETS, THICKNESSES, HYDROGENS, INPUTS, st.floats(0.001, 1))
def test_method_b_is_monotone(cet, thickness, hydrogen, heat_input, more):
    here = method_b(cet, thickness, hydrogen, heat_input).celsius
    assert method_b(cet + more, thickness, hydrogen, heat_input).celsius > here
    assert method_b(cet, thickness + more, hydrogen, heat_input).celsius >= here
    assert method_b(cet, thickness, hydrogen + more, heat_input).celsius > here
    # 53 CET - 32 is negative throughout the range of CET.
    assert method_b(cet, thickness, hydrogen, heat_input + more).celsius < here


def test_method_b_names_what_is_out_of_range():
    # EN 1011-2:2001 Annex C (second-hand): CET 0.2-0.5, d 10-90, HD 1-20, Q 0.5-4, 1000 MPa.
    found = method_b(0.55, 8, 25, 4.5, yield_mpa=1100)
    assert [entry.name for entry in found.outside] == [
        "CET", "thickness", "diffusible hydrogen", "heat input", "yield strength",
    ]  # fmt: skip
    assert method_b(0.5, 90, 20, 4.0, yield_mpa=1000).outside == ()


def test_weld_metal_may_govern():
    # EN 1011-2 Annex C method B (from memory): weld metal not 0.03 % below the base metal.
    assert governing_cet(0.33) == 0.33
    assert governing_cet(0.33, 0.30) == pytest.approx(0.33)
    assert governing_cet(0.33, 0.31) == pytest.approx(0.34)
    assert governing_cet(0.33, 0.20) == 0.33


@each_row("bad", [(-0.1, 20, 5, 1), (0.3, 0, 5, 1), (0.3, 20, -1, 1), (0.3, 20, 5, 0)])
def test_method_b_refuses_nonsense(bad):
    with pytest.raises(ValueError, match="must"):
        method_b(*bad)


@each_row(
    ("hydrogen", "ce", "heat_input", "expected"),
    [
        # EN 1011-2:2001 Table C.1, p. 17.
        (7, 0.43, 1.0, 60),
        (16, 0.49, 1.0, 25),
        (16, 0.43, 2.0, 80),
        (12, 0.49, 2.0, 55),
        (12, 0.43, 1.0, 50),
        (4, 0.49, 1.0, 50),
        (3, 0.49, 1.0, 60),
        (3, 0.43, 2.0, 100),
        # between columns: the next more severe one
        (7, 0.40, 1.9, 60),
        (7, 0.44, 3.0, 65),
    ],
)
def test_method_a_table(hydrogen, ce, heat_input, expected):
    assert thickness_without_preheat(hydrogen, ce, heat_input).thickness_mm == expected


def test_method_a_says_nothing_beyond_its_table():
    assert thickness_without_preheat(7, 0.50, 1.0) is None
    assert thickness_without_preheat(7, 0.43, 0.9) is None


@given(st.floats(0, 30), st.floats(0.3, 0.49), st.floats(1, 4), st.floats(0, 1))
def test_method_a_is_monotone(hydrogen, ce, heat_input, more):
    here = thickness_without_preheat(hydrogen, ce, heat_input).thickness_mm
    assert thickness_without_preheat(hydrogen + more, ce, heat_input).thickness_mm <= here
    assert thickness_without_preheat(hydrogen, ce, heat_input + more).thickness_mm >= here
    assert thickness_without_preheat(hydrogen, max(0, ce - more), heat_input).thickness_mm >= here


@each_row(
    ("hydrogen", "scale"),
    # EN 1011-2:2001 Annex C: A above 15, B to 15, C to 10, D to 5, E 3 and less.
    [(15.1, "A"), (15, "B"), (10, "C"), (5, "D"), (3, "E"), (0, "E")],
)
def test_hydrogen_scale(hydrogen, scale):
    assert hydrogen_scale(hydrogen) == scale


def test_combined_thickness():
    # EN 1011-2 (from memory): a butt adds both walls, a fillet three, opposed fillets half.
    assert combined_thickness(20, 20) == 40
    assert combined_thickness(20, 20, 12) == 52
    assert combined_thickness(20, 20, 12, opposed_fillets=True) == 26
    with pytest.raises(ValueError, match="two parts"):
        combined_thickness(20)


def test_cooling_time():
    # EN 1011-2 Annex D (from memory), evaluated.
    assert three_dimensional(150, 1.5) == pytest.approx(11.769, abs=1e-3)
    assert two_dimensional(20, 1.5, 12) == pytest.approx(17.756, abs=1e-3)


@given(st.floats(0, 400), st.floats(0.3, 5), st.floats(0.5, 2))
def test_both_formulas_agree_at_the_transition(preheat, heat_input, ratio):
    thickness = transition_thickness(preheat, heat_input)
    thin = two_dimensional(preheat, heat_input, thickness)
    assert thin == pytest.approx(three_dimensional(preheat, heat_input))
    found = cooling_time(preheat, heat_input, thickness * ratio)
    if abs(ratio - 1) > 1e-6:
        assert found.flow == ("2-D" if ratio < 1 else "3-D")


@given(st.floats(0, 400), st.floats(0.3, 5), st.floats(5, 100), st.floats(1, 90))
def test_hotter_and_thinner_cools_slower(preheat, heat_input, thickness, more):
    here = cooling_time(preheat, heat_input, thickness).seconds
    assert cooling_time(preheat + more, heat_input, thickness).seconds > here
    assert cooling_time(preheat, heat_input, thickness + more).seconds <= here


def test_no_cooling_time_from_500_degrees():
    with pytest.raises(NotCovered):
        three_dimensional(500, 1.5)


@each_row(
    ("hydrogen", "row"),
    # EN 1011-2:2001 Table C.1, p. 17, row by row: CE 0.49 at 1.0 and 2.0, CE 0.43 at 1.0 and 2.0.
    [(16, (25, 50, 40, 80)), (12, (30, 55, 50, 90)), (7, (35, 65, 60, 100)),
     (4, (50, 100, 100, 100)), (2, (60, 100, 100, 100))],
)  # fmt: skip
def test_method_a_whole_table(hydrogen, row):
    columns = ((0.49, 1.0), (0.49, 2.0), (0.43, 1.0), (0.43, 2.0))
    found = [thickness_without_preheat(hydrogen, *column).thickness_mm for column in columns]
    assert found == list(row)
