"""The arithmetic on arrays against loops written from the definitions."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.record.judging.courses import course
from hts.record.judging.figures_without_limit import _course
from hts.record.judging.limits import Piece
from hts.record.judging.line import Line
from hts.record.judging.spreads import _pair
from hts.record.judging.stretches import beyond, inside, total, union
from hts.record.plan import HEAT
from hts.science.metallurgy.tempering import trace_parameter
from tests.record.judging.made import spec_plan

LOW, HIGH = 690.0, 720.0
READINGS = st.one_of(
    st.floats(670.0, 740.0).map(lambda x: round(x, 1)), st.sampled_from([LOW, HIGH, np.nan])
)


@st.composite
def traces(draw: st.DrawFn, most: int = 40) -> tuple[np.ndarray, np.ndarray]:
    """Times with uneven steps and gaps, and readings with blanks, of three thermocouples."""
    count = draw(st.integers(2, most))
    steps = draw(st.lists(st.sampled_from([30.0, 60.0, 61.5, 600.0]), min_size=count - 1,
                          max_size=count - 1))  # fmt: skip
    times = np.concatenate(([0.0], np.cumsum(steps)))
    rows = [draw(st.lists(READINGS, min_size=count, max_size=count)) for _ in range(3)]
    return times, np.array(rows)


def counted(times: np.ndarray, lowest: np.ndarray, highest: np.ndarray, gap: float) -> float:
    """Seconds in range, step by step: the part of each in which both lines are in range."""
    seconds = 0.0
    for i in range(len(times) - 1):
        step = times[i + 1] - times[i]
        ends = (lowest[i], lowest[i + 1], highest[i], highest[i + 1])
        if step > gap or any(np.isnan(end) for end in ends):
            continue
        start, finish = 0.0, 1.0
        for a, b in ((ends[0] - LOW, ends[1] - LOW), (HIGH - ends[2], HIGH - ends[3])):
            if a < 0 and b < 0:
                start, finish = 1.0, 0.0
            elif a < 0:
                start = max(start, -a / (b - a))
            elif b < 0:
                finish = min(finish, a / (a - b))
        seconds += max(0.0, finish - start) * step
    return seconds


@given(traces())
def test_time_in_range(trace: tuple[np.ndarray, np.ndarray]) -> None:
    times, rows = trace
    lowest, highest = rows.min(axis=0), rows.max(axis=0)
    found = inside(times, lowest, highest, LOW, HIGH, 180.0)
    # A millionth of a kelvin is forgiven on either side, which moves where the range is crossed.
    assert total(found) == pytest.approx(counted(times, lowest, highest, 180.0), abs=1e-2)
    assert all(a.end < b.start or a.end == pytest.approx(b.start) for a, b in pairwise(found))


@given(traces())
def test_no_reading_above_is_missed(trace: tuple[np.ndarray, np.ndarray]) -> None:
    times, rows = trace
    found = beyond(times, rows[0], HIGH, 180.0)
    for at, value in zip(times, rows[0], strict=True):
        above = value > HIGH + 1e-6
        assert above == any(one.start <= at <= one.end for one in found) or (
            value == pytest.approx(HIGH, abs=1e-5)
        )


@given(traces(), st.sampled_from([60.0, 120.0, 900.0]))
def test_rates_over_a_window(trace: tuple[np.ndarray, np.ndarray], seconds: float) -> None:
    times, rows = trace
    values = np.where(np.isnan(rows[0]), 700.0, rows[0])
    span = spec_plan().spans[1]
    assert span.action == HEAT
    limits = [Piece(680.0, 700.0, 50.0, span), Piece(700.0, np.inf, 100.0, span)]
    count = len(times) - 1
    line = Line(times, values, np.zeros(count + 1), 0.0, np.zeros(count), 0.0)
    found = course(line, limits, 1.0, [])
    starts, ratio, _ = found.over(seconds)

    def needed(start: float) -> float:
        """Kelvin by kelvin: how long the change in a window takes at the limits."""
        a, b = np.interp((start, start + seconds), times, values)
        steps = np.linspace(a, b, 2001)
        middles = (steps[1:] + steps[:-1]) / 2
        limit = np.where(middles < 680, np.inf, np.where(middles < 700, 50.0, 100.0))
        return float(np.sum((b - a) / 2000 / limit)) / seconds * 3600

    for start, told in zip(starts, ratio, strict=True):
        assert told == pytest.approx(needed(start), abs=0.05 + 0.01 * abs(told))
    if len(starts):
        # Nowhere between is a window that is faster.
        for start in np.linspace(times[0], times[-1] - seconds, 50):
            assert needed(start) <= ratio.max() + 0.05 + 0.01 * abs(ratio.max())


@given(traces())
def test_the_pair_that_differs_most(trace: tuple[np.ndarray, np.ndarray]) -> None:
    times, rows = trace
    pairs = [(0, 1), (1, 2)]
    for at in range(len(times)):
        if np.isnan(rows[:, at]).any():
            continue
        i, j = _pair(rows, pairs, at)
        assert rows[i, at] - rows[j, at] == max(abs(rows[a, at] - rows[b, at]) for a, b in pairs)


def test_union_joins_what_touches() -> None:
    from hts.record.judging import Stretch

    assert union([Stretch(5, 6), Stretch(0, 2), Stretch(1, 3), Stretch(3, 4)]) == [
        Stretch(0, 4),
        Stretch(5, 6),
    ]


def test_few_points_follow_a_course_as_well_as_all() -> None:
    # A day at one second, against the same course followed reading by reading.
    times = np.arange(0.0, 8 * 3600.0, 1.0)
    minutes = [0.0, 230.0, 370.0, 480.0]
    values = np.interp(times / 60, minutes, [300.0, 705.0, 705.0, 500.0])
    values += np.random.default_rng(7).normal(0.0, 0.5, len(times))
    whole = trace_parameter(zip((times / 3600).tolist(), values.tolist(), strict=True))
    assert trace_parameter(_course(times, values)) == pytest.approx(whole, abs=2.0)
