"""What is worked out by a shorter way, against the plain one."""

from __future__ import annotations

from itertools import combinations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from hts.record.judging import Evidence
from hts.record.judging.fits import Part, Traces
from hts.record.judging.hidden_rates import _Within
from hts.record.judging.hold_verdicts import _surely_shorter, at_temperature
from tests.record.judging.made import record, spec_plan

SEEDS = st.integers(0, 2**32 - 1)
SIZES = st.integers(30, 900)


@given(SEEDS, SIZES)
def test_rows_left_out_together_would_not_have_done_better(seed: int, rows: int) -> None:
    random = np.random.default_rng(seed)
    values = 300 + np.cumsum(random.choice([-1.0, 0.0, 2.0], (3, rows)), axis=1)
    traces = Traces([Part(np.arange(rows) * 30.0, np.round(values, 1))])
    trace = np.repeat(np.arange(3), 4)
    first, after = np.zeros_like(trace), np.full_like(trace, rows)
    low, high = (random.integers(2, rows - 1, len(trace)) for _ in "ab")
    wanted, least = traces.best_corners(trace, first, low, high, after)
    # Where there is a best at all, within a little more than it is off by, and not within less.
    most = np.where(np.isfinite(least), least + 1.0, 0.0)
    found = traces.best_corners_within(trace, first, low, high, after, most)
    np.testing.assert_array_equal(found[0], np.where(np.isfinite(least), wanted, low))
    np.testing.assert_array_equal(found[1], least)
    _, none = traces.best_corners_within(trace, first, low, high, after, least / 2 - 1.0)
    assert (none >= np.where(np.isfinite(least), least, np.inf)).all()


@given(SEEDS, SIZES)
def test_sums_in_windows_are_those_of_their_rows(seed: int, rows: int) -> None:
    random = np.random.default_rng(seed)
    values = random.normal(0.0, 1.0, (2, rows))
    first = np.sort(random.integers(0, rows - 4, 9))
    after = np.minimum(first + random.integers(1, 20, 9), rows)
    plainly = [[its[a:b].sum() for a, b in zip(first, after, strict=True)] for its in values]
    np.testing.assert_allclose(_Within(first, after).summed(values), plainly, atol=1e-9)


@given(SEEDS)
def test_the_spread_is_that_of_the_pairs(seed: int) -> None:
    random = np.random.default_rng(seed)
    asked = spec_plan()
    times = np.arange(50) * 60.0
    columns = {}
    for one in asked.required:
        values = np.round(random.uniform(600, 700, len(times)), 1)
        values[random.random(len(times)) < random.choice([0.0, 0.4, 0.9])] = np.nan
        columns[one.tag] = values
    # As they are: blanks so near to one another would be bridged.
    evidence = Evidence(record(columns, times), asked)
    evidence.__dict__["longest_gap"] = 0.0
    values = evidence.values
    apart = np.array(
        [np.abs(values[i] - values[j]) for i, j in combinations(range(len(values)), 2)]
    )
    np.testing.assert_array_equal(evidence.spread, np.fmax.reduce(apart))


@given(SEEDS)
def test_a_hold_that_is_surely_short_enough_is(seed: int) -> None:
    random = np.random.default_rng(seed)
    asked = spec_plan()
    times = np.arange(40) * 60.0
    begin, end = np.sort(random.integers(0, 40, 2)).tolist()
    hot = (times >= times[begin]) & (times <= times[end])
    courses = {
        one.tag: np.where(hot, 700.0, 650.0) + random.integers(-5, 6, len(times))
        for one in asked.required
    }
    evidence = Evidence(record(courses, times), asked)
    longest = at_temperature(evidence, 697.0)[0]
    for most in (longest - 1.0, longest, longest + 120.0):
        assert not (_surely_shorter(evidence, 697.0, most) and longest > most)
