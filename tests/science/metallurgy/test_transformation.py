"""Lower critical temperatures against worked figures and published ranges."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.science.metallurgy.transformation import ANDREWS, SANTELLA_91, SANTELLA_T92


@pytest.mark.parametrize(
    ("composition", "expected"),
    [
        # Andrews 1965, worked: 723 - 9.63 - 1.69 + 7.275 + 1.69 and 723 - 4.815 + 7.275 + 38.025
        ({"Mn": 0.9, "Ni": 0.1, "Si": 0.25, "Cr": 0.1}, 720.6),
        ({"Mn": 0.45, "Si": 0.25, "Cr": 2.25}, 763.5),
    ],
)
def test_andrews(composition, expected):
    assert ANDREWS(composition).value == pytest.approx(expected, abs=0.05)


def test_grade_91_worked():
    # Santella 2012, term by term: 805 + 22.5 + 17.195 + 5.73 + 7.791 + 1.536
    #                              - 6.37 - 6.53 - 27.225 - 14.46
    composition = {"Cr": 9.0, "Mo": 0.95, "Si": 0.30, "V": 0.21, "Nb": 0.08, "C": 0.10,
                   "N": 0.05, "Mn": 0.45, "Ni": 0.20}  # fmt: skip
    assert SANTELLA_91(composition).value == pytest.approx(805.167, abs=1e-3)
    assert SANTELLA_91(composition).missing == ()


def test_t92_worked():
    # Santella 2012, term by term: 778 + 44.1 + 11.3 + 18.9 + 5.725 + 8.72 + 1.414
    #                              - 8.06 - 7.535 - 24.795 - 13.6
    composition = {"Cr": 9.0, "Mo": 0.5, "W": 1.75, "Si": 0.25, "V": 0.20, "Nb": 0.07, "C": 0.10,
                   "N": 0.05, "Mn": 0.45, "Ni": 0.20}  # fmt: skip
    assert SANTELLA_T92(composition).value == pytest.approx(814.169, abs=1e-3)


# Composition of A335 P91 (from memory), mass %.
P91 = {"Cr": (8.0, 9.5), "Mo": (0.85, 1.05), "Si": (0.20, 0.50), "V": (0.18, 0.25),
       "Nb": (0.06, 0.10), "C": (0.08, 0.12), "N": (0.030, 0.070), "Mn": (0.30, 0.60),
       "Ni": (0.0, 0.40)}  # fmt: skip


@given(st.fixed_dictionaries({name: st.floats(*limits) for name, limits in P91.items()}))
def test_grade_91_stays_in_the_published_range(composition):
    # Santella 2012: 766 to 856 degC over the composition of the grade.
    assert 766 <= SANTELLA_91(composition).value <= 856


def test_nickel_and_manganese_lower_it():
    # Santella 2012: B9 weld metal can be as low as 676 degC, because of nickel and manganese.
    plain = {"Cr": 9.0, "Mo": 0.95, "Mn": 0.5, "Ni": 0.1}
    rich = {**plain, "Mn": 1.2, "Ni": 0.8}
    for formula in (SANTELLA_91, SANTELLA_T92, ANDREWS):
        assert formula(rich).value < formula(plain).value


def test_andrews_arsenic_and_tungsten():
    # Andrews 1965: 723 + 290 x 0.01 + 6.38 x 0.5
    assert ANDREWS({"As": 0.01, "W": 0.5}).value == pytest.approx(723 + 2.9 + 3.19)
