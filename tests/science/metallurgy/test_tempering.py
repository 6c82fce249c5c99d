"""The tempering parameter, equivalences, ramps and traces."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.base.arguments import NotCovered
from hts.science.metallurgy.tempering import (
    equivalent_hours,
    hours_at,
    parameter,
    ramp_hours,
    ramp_hours_followed,
    total,
    trace_parameter,
)
from tests.rows import each_row

TEMPERATURES, HOURS = st.floats(500, 800), st.floats(0.05, 100)


@each_row(
    ("celsius", "hours", "expected"),
    # T (20 + log10 t), t in hours, evaluated.
    [(600, 2, 17725.8), (620, 1, 17863.0), (690, 4, 19842.9), (705, 8, 20446.4),
     (760, 2, 20974.0)],
)  # fmt: skip
def test_parameter(celsius, hours, expected):
    assert parameter(celsius, hours) == pytest.approx(expected, abs=0.05)


def test_parameter_in_thousands():
    # Same formula, printed as P / 1000.
    assert parameter(705, 1) / 1000 == pytest.approx(19.563, abs=5e-4)


@pytest.mark.parametrize(
    ("treatments", "expected", "published"),
    [
        # API 934 meeting 2011 slides, CrMoV plate, added up at the first temperature.
        (((730, 4), (675, 40), (710, 32)), 21331.8, 21333),
        (((750, 3), (670, 50), (710, 32)), 21417.1, 21418),
    ],
)
def test_sum_of_treatments(treatments, expected, published):
    # The slides take 0 degC as 273 K: 0.15 degC lower here is the same absolute temperature.
    shifted = [(celsius - 0.15, hours) for celsius, hours in treatments]
    found = total(shifted, treatments[0][0] - 0.15).parameter
    assert found == pytest.approx(expected, abs=0.5)
    assert found == pytest.approx(published, abs=2)


@pytest.mark.parametrize(
    ("reference", "expected"),
    # The first example above, added up at other temperatures.
    [(675, 21314), (710, 21327), (730, 21335)],
)
def test_sum_depends_on_the_reference(reference, expected):
    found = total([(730, 4), (675, 40), (710, 32)], reference)
    assert found.parameter == pytest.approx(expected, abs=0.5)
    assert found.reference == reference


def test_no_time_is_worth_none():
    assert equivalent_hours(730, 0, 675) == 0
    with pytest.raises(ValueError, match="hours must not be negative"):
        equivalent_hours(730, -1, 675)


@given(TEMPERATURES, HOURS, TEMPERATURES)
def test_equivalence_goes_there_and_back(celsius, hours, reference):
    there = equivalent_hours(celsius, hours, reference)
    assert equivalent_hours(reference, there, celsius) == pytest.approx(hours, rel=1e-9)
    assert parameter(reference, there) == pytest.approx(parameter(celsius, hours))
    assert (there > hours) == (reference < celsius) or there == pytest.approx(hours)


@given(st.lists(st.tuples(TEMPERATURES, HOURS), min_size=1, max_size=5), TEMPERATURES)
def test_sum_is_at_least_its_largest_part(treatments, reference):
    found = total(treatments, reference)
    assert found.hours >= max(equivalent_hours(*t, reference) for t in treatments)
    assert total(reversed(treatments), reference).hours == pytest.approx(found.hours)


@each_row(
    ("celsius", "rate", "expected"),
    # T / (2.3 k (20 - log10 k)) (second-hand), evaluated; for instance
    # 893.15 / (2.3 x 150 x (20 - 2.17609)) = 893.15 / 6149.25 = 0.14525.
    [(600, 200, 0.1072), (620, 100, 0.21574), (620, 150, 0.14525), (690, 55, 0.417),
     (705, 55, 0.42347), (760, 80, 0.3103)],
)  # fmt: skip
def test_ramp_formula(celsius, rate, expected):
    decimals = len(str(expected)) - 2
    assert ramp_hours(celsius, rate) == pytest.approx(expected, abs=0.51 * 10**-decimals)


@each_row(
    ("celsius", "rate", "expected"),
    # The parameter carried along in 200 000 steps with numpy.
    [(600, 200, 0.0977), (620, 100, 0.1967), (620, 150, 0.1323), (690, 55, 0.3802),
     (705, 55, 0.3860), (760, 80, 0.2822)],
)  # fmt: skip
def test_ramp_followed(celsius, rate, expected):
    assert ramp_hours_followed(celsius, rate) == pytest.approx(expected, abs=5e-4)


@given(st.floats(550, 780), st.floats(20, 300))
def test_ramp_formula_is_eight_to_ten_percent_high(celsius, rate):
    # Derived for the usual rates and temperatures; a little wider over this whole range.
    assert 1.06 < ramp_hours(celsius, rate) / ramp_hours_followed(celsius, rate) < 1.12


def test_which_cycle_is_more_severe():
    # Required 600 degC 2 h at 200 K/h both ways, qualified 620 degC 1 h at 100 K/h: by the ramp
    # formula 2.2145 h against 1.4315 h, and the qualified cycle is the more severe.
    required, qualified = 2 + 2 * ramp_hours(600, 200), 1 + 2 * ramp_hours(620, 100)
    assert (required, qualified) == pytest.approx((2.2145, 1.4315), abs=1e-4)
    assert parameter(620, qualified) > parameter(600, required)


def cycle(top, hold, rate):
    up = (top - 20) / rate
    return [(0, 20), (up, top), (up + hold, top), (up + hold + up, 20)]


@given(TEMPERATURES, HOURS)
def test_hold_alone_is_the_parameter(celsius, hours):
    trace = [(0, celsius), (hours / 3, celsius), (hours, celsius)]
    assert trace_parameter(trace) == pytest.approx(parameter(celsius, hours))


@given(st.floats(550, 780), st.floats(0.5, 10), st.floats(30, 300))
def test_ramps_add_a_little(top, hold, rate):
    found = trace_parameter(cycle(top, hold, rate))
    lowest, highest = parameter(top, hold), parameter(top, hold + 2 * ramp_hours(top, rate))
    assert lowest < found < highest


def test_finer_records_of_the_same_course_agree():
    coarse = cycle(705, 2, 100)
    fine = []
    for (t0, c0), (t1, c1) in pairwise(coarse):
        fine += [(t0 + k / 97 * (t1 - t0), c0 + k / 97 * (c1 - c0)) for k in range(98)]
    assert trace_parameter(fine) == pytest.approx(trace_parameter(coarse), abs=0.05)


def test_two_holds_follow_the_order_of_the_state():
    # By hand: 2 h at 700 are worth t at 720 with equal P, then 1 h more.
    at_720 = hours_at(720, parameter(700, 2)) + 1
    trace = [(0, 700), (2, 700), (2, 720), (3, 720)]
    assert trace_parameter(trace) == pytest.approx(parameter(720, at_720), abs=0.01)


def test_a_trace_that_ends_cold_keeps_its_parameter():
    hot = trace_parameter([(0, 700), (2, 700)])
    assert trace_parameter([(0, 700), (2, 700), (2, -40), (30, -40)]) == pytest.approx(hot)


def test_refusals():
    with pytest.raises(ValueError, match="hours"):
        parameter(600, 0)
    with pytest.raises(ValueError, match="absolute zero"):
        parameter(-274, 1)
    with pytest.raises(NotCovered):
        ramp_hours(600, 0.5)
    with pytest.raises(ValueError, match=r"goes back: 0 h after 1 h"):
        trace_parameter([(1, 600), (0, 600)])
    for empty in ([], [(0, 600)], [(1, 600), (1, 700)]):
        with pytest.raises(ValueError, match="at least two points"):
            trace_parameter(empty)
    with pytest.raises(ValueError, match="hours"):
        total([], 700)
