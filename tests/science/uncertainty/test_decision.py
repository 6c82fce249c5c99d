"""Decision rules of ILAC-G8 and the probability of JCGM 106."""

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from hts.science.uncertainty.decision import (
    acceptance,
    conformance_probability,
    guard_band,
    verdict,
)
from tests.rows import each_row


@pytest.mark.parametrize(
    ("reading", "expected"),
    # JCGM 106 form with scipy 1.17.1: limits 595 and 650, u = 3.
    [(600, 0.952), (605, 0.9996), (598, 0.841)],
)
def test_probability(reading, expected):
    decimals = len(str(expected)) - 2
    found = conformance_probability(reading, 595, 650, 3)
    assert found == pytest.approx(expected, abs=0.51 * 10**-decimals)


def test_probability_to_the_last_digit():
    # JCGM 106 form, Phi(50/3) - Phi(-5/3), scipy 1.17.1.
    assert conformance_probability(600, 595, 650, 3) == pytest.approx(0.95221, abs=1e-6)


@given(st.floats(500, 800), st.floats(595, 640), st.floats(0, 60), st.floats(0.01, 30))
def test_probability_oracle(reading, low, width, u):
    expected = norm.cdf((low + width - reading) / u) - norm.cdf((low - reading) / u)
    found = conformance_probability(reading, low, low + width, u)
    assert found == pytest.approx(expected, abs=1e-12)
    assert 0 <= found <= 1


def test_guarded_acceptance():
    # Soak 595 to 650 with U = 6.16 (u = 3.08): readings 601.2 to 643.8 are accepted.
    found = acceptance(595, 650, guard_band("guarded", 3.08))
    assert found == pytest.approx((601.16, 643.84))
    assert guard_band("simple", 3.08) == 0
    assert guard_band("one-sided 95 %", 3) == pytest.approx(4.935)


@each_row(
    ("reading", "expected"),
    # ILAC-G8:09/2019, the four statements, w = 6.16.
    [(601.2, "pass"), (643.8, "pass"), (601.1, "conditional pass"), (595, "conditional pass"),
     (594.9, "conditional fail"), (656, "conditional fail"), (588.8, "fail"), (657, "fail")],
)  # fmt: skip
def test_verdict(reading, expected):
    assert verdict(reading, 595, 650, 6.16) == expected


@given(st.floats(500, 700), st.floats(0.1, 10))
def test_guarded_pass_has_at_most_2_5_percent_risk_on_each_side(reading, u):
    # ILAC-G8:09/2019: guard band U = 2 u gives at most 2.5 % false acceptance at one limit.
    for low, high in ((595, None), (None, 650)):
        if verdict(reading, low, high, guard_band("guarded", u)) == "pass":
            assert conformance_probability(reading, low, high, u) >= 0.975
        if verdict(reading, low, high, 0) == "pass":
            assert conformance_probability(reading, low, high, u) >= 0.5 - 1e-12


def test_one_sided_and_impossible():
    assert acceptance(595, None, 5) == (600, inf)
    assert acceptance(None, 650, 5) == (-inf, 645)
    assert not acceptance(595, 600, 3).possible
    assert verdict(597.5, 595, 600, 3) == "conditional pass"


def test_certain_reading():
    assert conformance_probability(595, 595, 650, 0) == 1
    assert conformance_probability(594, 595, 650, 0) == 0


def test_refusals():
    with pytest.raises(ValueError, match="at least one limit"):
        verdict(600, None, None, 1)
    with pytest.raises(ValueError, match="above the upper"):
        acceptance(650, 595, 1)
    with pytest.raises(ValueError, match="unknown decision rule"):
        guard_band("generous", 1)
    with pytest.raises(ValueError, match="negative"):
        conformance_probability(600, 595, 650, -1)


@given(st.floats(590, 600), st.floats(0.5, 5))
def test_one_limit_oracle(reading, u):
    # JCGM 106 form (from memory) with scipy.
    above = conformance_probability(reading, 595, None, u)
    below = conformance_probability(reading, None, 595, u)
    assert above == pytest.approx(norm.sf((595 - reading) / u), abs=1e-12)
    assert above + below == pytest.approx(1)


def test_no_uncertainty_needs_no_guard_band():
    assert guard_band("guarded", 0) == 0
