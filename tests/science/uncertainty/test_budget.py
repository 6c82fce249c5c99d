"""Budgets against GTC and uncertainties."""

import GTC
import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from hts.science.uncertainty.budget import budget, calibrated, resolution, tolerance

HALF_WIDTHS = st.lists(st.floats(0, 10), min_size=1, max_size=6)


def test_worked():
    # Type K class 1 at 620 degC +/-2.48, extension 1.5, recorder 1.0, cold junction 0.5:
    # GTC 1.5.1 and uncertainties 3.2.3 give u 1.7935 and U 3.5871; 1.645 u is 2.95.
    found = budget([tolerance(str(a), a) for a in (2.48, 1.5, 1.0, 0.5)])
    assert found.standard == pytest.approx(1.7935, abs=1e-4)
    assert found.expanded == pytest.approx(3.5871, abs=1e-4)
    assert found.one_sided == pytest.approx(2.95, abs=0.005)


@given(HALF_WIDTHS)
def test_oracles(half_widths):
    found = budget([tolerance(str(a), a) for a in half_widths]).standard
    by_gtc = sum(GTC.ureal(0, GTC.tb.uniform(a)) for a in half_widths)
    by_uncertainties = sum(ufloat(0, a / 3**0.5) for a in half_widths)
    assert found == pytest.approx(GTC.uncertainty(by_gtc))
    assert found == pytest.approx(by_uncertainties.std_dev)


@given(HALF_WIDTHS, st.floats(0, 10))
def test_another_term_never_helps(half_widths, more):
    terms = [tolerance(str(a), a) for a in half_widths]
    assert budget([*terms, tolerance("more", more)]).standard >= budget(terms).standard


def test_kinds_of_term():
    # EA-4/02 (second-hand): a / sqrt 3, q / sqrt 12 = half a step as a tolerance, U / k.
    assert resolution("display", 1.0).standard == pytest.approx(tolerance("half", 0.5).standard)
    assert calibrated("certificate", 1.2).standard == pytest.approx(0.6)
    assert calibrated("certificate", 1.2, 3).standard == pytest.approx(0.4)


def test_refusals():
    for bad in (-1, float("nan"), float("inf")):
        with pytest.raises(ValueError, match="wire"):
            tolerance("wire", bad)
    with pytest.raises(ValueError, match="coverage"):
        calibrated("certificate", 1, 0)
    with pytest.raises(ValueError, match="at least one"):
        budget([])
