"""Carbon equivalents against the printed formulas."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.science.metallurgy.carbon_equivalent import CE, CE_RANGE, CET, PCM, cen
from hts.science.metallurgy.composition import Bounds, outside
from tests.rows import each_row

CARBON_MANGANESE = {"C": 0.18, "Si": 0.35, "Mn": 1.45, "Cr": 0.05, "Ni": 0.05, "Cu": 0.05}
P22 = {"C": 0.12, "Si": 0.25, "Mn": 0.5, "Cr": 2.25, "Mo": 1.0}
LOW_ALLOY = {"C": 0.16, "Si": 0.3, "Mn": 1.2, "Cr": 0.4, "Mo": 0.3, "V": 0.04, "Ni": 0.5,
             "Cu": 0.05, "B": 0.002}  # fmt: skip
ELEMENTS = ["C", "Si", "Mn", "Cr", "Mo", "Ni", "Cu", "V", "Nb", "B", "Ti"]

compositions = st.dictionaries(st.sampled_from(ELEMENTS), st.floats(0, 5))


@pytest.mark.parametrize(
    ("composition", "ce", "cet", "pcm"),
    [
        # IIW formula, EN 1011-2 CET and Ito and Bessyo's Pcm, worked by hand; the first:
        # CE .18 + 1.45/6 + .05/5 + .1/15; CET .18 + .145 + .1/20 + .05/40;
        # Pcm .18 + .35/30 + 1.55/20 + .05/60.
        (CARBON_MANGANESE, 0.4383, 0.33125, 0.2700),
        (P22, 0.8533, 0.3825, 0.3325),
        (LOW_ALLOY, 0.5447, 0.3450, 0.2948),
    ],
)
def test_worked(composition, ce, cet, pcm):
    assert CE(composition).value == pytest.approx(ce, abs=5e-5)
    assert CET(composition).value == pytest.approx(cet, abs=5e-5)
    assert PCM(composition).value == pytest.approx(pcm, abs=5e-5)


def test_cen_worked():
    # Yurioka's formula (from memory): at C 0.12 % the weight is exactly 0.75.
    # 0.12 + 0.75 (0.24/24 + 1.2/6) = 0.2775
    assert cen({"C": 0.12, "Si": 0.24, "Mn": 1.2}).value == pytest.approx(0.2775)
    # High carbon: the weight tends to 1. 0.6 + 1.2/6
    assert cen({"C": 0.6, "Mn": 1.2}).value == pytest.approx(0.8, abs=1e-6)


def test_what_is_missing_is_named():
    found = CE({"C": 0.2, "Mn": 1.0})
    assert found.missing == ("Cr", "Mo", "V", "Ni", "Cu")
    assert CE(LOW_ALLOY).missing == ()
    assert cen({"C": 0.1}).missing == ("Si", "Mn", "Cu", "Ni", "Cr", "Mo", "Nb", "V", "B")


def test_what_is_out_of_range_is_named():
    # EN 1011-2 method A (limits from memory): chromium to 0.9, molybdenum to 0.75 %.
    found = {entry.name: str(entry) for entry in CE(P22).outside}
    assert found == {"Cr": "Cr 2.25 % is above 0.9 %", "Mo": "Mo 1 % is above 0.75 %"}
    assert str(PCM({"C": 0.05}).outside[0]) == "C 0.05 % is below 0.07 %"
    assert CE(CARBON_MANGANESE).outside == CET(CARBON_MANGANESE).outside == ()


@given(compositions, st.sampled_from(ELEMENTS), st.floats(0.001, 1))
def test_alloying_never_lowers_a_carbon_equivalent(composition, element, more):
    richer = {**composition, element: composition.get(element, 0.0) + more}
    for formula in (CE, CET, PCM, cen):
        assert formula(richer).value >= formula(composition).value - 1e-12


@given(compositions)
def test_unstated_is_zero(composition):
    full = {element: composition.get(element, 0.0) for element in ELEMENTS}
    for formula in (CE, CET, PCM, cen):
        assert formula(full).value == pytest.approx(formula(composition).value)
        assert formula(full).missing == ()


@each_row("content", [-0.1, 100.1, float("nan"), float("inf")])
def test_impossible_contents_are_refused(content):
    for formula in (CE, cen):
        with pytest.raises(ValueError, match="content of Mn"):
            formula({"C": 0.2, "Mn": content})


def test_ends_of_a_range_are_in_it():
    assert outside({"C": 0.2}, {"C": Bounds(0.2, 0.2)}) == ()


@pytest.mark.parametrize(
    ("formula", "lowest", "highest"),
    [
        # EN 1011-2 method A, from memory.
        (CE, {"C": 0.05}, {"C": 0.25, "Si": 0.8, "Mn": 1.7, "Cr": 0.9, "Cu": 1.0, "Ni": 2.5,
                           "Mo": 0.75, "V": 0.20}),
        # EN 1011-2 method B, from memory.
        (CET, {"C": 0.05, "Mn": 0.5}, {"C": 0.32, "Si": 0.8, "Mn": 1.9, "Cr": 1.5, "Cu": 0.7,
                                       "Mo": 0.75, "Nb": 0.06, "Ni": 2.5, "Ti": 0.12, "V": 0.18,
                                       "B": 0.005}),
        # Ito and Bessyo 1968, range from memory.
        (PCM, {"C": 0.07}, {"C": 0.22}),
    ],
)  # fmt: skip
def test_ranges(formula, lowest, highest):
    assert formula(highest).outside == formula({**highest, **lowest}).outside == ()
    above = formula({name: value + 1e-6 for name, value in highest.items()})
    assert {entry.name for entry in above.outside} == set(highest)
    below = formula({name: value - 1e-6 for name, value in lowest.items()})
    assert {entry.name for entry in below.outside} == set(lowest)
    assert set(formula.ranges) == set(highest)


def test_range_of_ce():
    # EN 1011-2 method A, from memory: CE 0.30 to 0.70 %.
    assert CE_RANGE[:2] == (0.30, 0.70)


@pytest.mark.parametrize(
    ("formula", "shares"),
    [
        # The printed formulas, element by element: what 1 % of it adds is one part in so many.
        (CE, {"C": 1, "Mn": 6, "Cr": 5, "Mo": 5, "V": 5, "Ni": 15, "Cu": 15}),
        (CET, {"C": 1, "Mn": 10, "Mo": 10, "Cr": 20, "Cu": 20, "Ni": 40}),
        (PCM, {"C": 1, "Si": 30, "Mn": 20, "Cu": 20, "Cr": 20, "Ni": 60, "Mo": 15, "V": 10,
               "B": 0.2}),
    ],
)  # fmt: skip
def test_each_element_alone(formula, shares):
    for element in ELEMENTS:
        expected = 1 / shares[element] if element in shares else 0
        assert formula({element: 1.0}).value == pytest.approx(expected)
    assert formula({}).value == 0


def test_each_element_of_cen_alone():
    # Yurioka, from memory; at C 0.12 % the bracket counts 0.75 times.
    for element, parts in {"Si": 24, "Mn": 6, "Cu": 15, "Ni": 20, "Cr": 5, "Mo": 5, "Nb": 5,
                           "V": 5, "B": 0.2, "Ti": float("inf")}.items():  # fmt: skip
        found = cen({"C": 0.12, element: 1.0}).value
        assert found == pytest.approx(0.12 + 0.75 / parts)
    # tanh(-2.4) = -0.98367 without carbon: 0.50408 / 6.
    assert cen({"Mn": 1.0}).value == pytest.approx(0.0840136, abs=1e-6)
