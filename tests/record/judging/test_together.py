"""What is worked out for many thermocouples, or many runs, at once against the same done one by
one: told to the last digit alike."""

from __future__ import annotations

from typing import Any
from unittest.mock import patch

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hts.record.judging import Evidence, Stretch, judged, judged_together, line
from hts.record.judging.corners import corners_of_all
from hts.record.judging.courses import Course, Range, course, courses, windows_of, windows_over
from hts.record.judging.document import write
from hts.record.judging.fits import Part, Traces
from hts.record.judging.hold_clocks import held
from hts.record.judging.hold_verdicts import at_temperature
from hts.record.judging.limits import Piece
from hts.record.judging.line import Line, joined
from hts.record.judging.noise import last_digits, noise_levels
from hts.record.judging.right_run import _heats
from hts.record.judging.side_by_side import SideBySide, moments, ordered
from hts.record.record import Floats
from tests.record.judging.made import record, spec_plan
from tests.record.judging.test_papers import PREHEAT, WITH_PREHEAT
from tests.record.judging.ways import PLANS, WAYS, made

_MINUTES = np.arange(40) * 60.0
SEEDS = st.integers(0, 2**32 - 1)


def _trace(random: np.random.Generator, rows: int, digit: float) -> Floats:
    """Straight stretches with noise, in whole digits."""
    slopes = np.repeat(random.choice([-2.0, 0.0, 0.5, 1.0, 3.0], 5), rows // 5 + 1)[:rows]
    values = 300 + np.cumsum(slopes) + random.normal(0.0, random.choice([0.0, 0.2, 1.0]), rows)
    return np.asarray(np.round(values / digit) * digit if digit else values, dtype=np.float64)


def _lines(random: np.random.Generator, count: int) -> list[Line]:
    lines = []
    for _ in range(count):
        corners = int(random.integers(2, 12))
        times = np.cumsum(random.choice([1e-6, 30.0, 61.5, 900.0], corners))
        values = np.round(random.uniform(600.0, 740.0, corners), 1)
        doubt, slack = random.uniform(0, 5, corners), random.uniform(0, 0.01, corners - 1)
        lines.append(Line(times, values, doubt, 0.1, slack, 0.1))
    return lines


@given(SEEDS)
def test_moments_of_lines_are_placed_as_one_line_at_a_time(seed: int) -> None:
    random = np.random.default_rng(seed)
    lines = _lines(random, 4)
    together = SideBySide.lines([line.times for line in lines])
    values = np.concatenate([line.values for line in lines])
    asked = [np.round(random.uniform(-100, line.times[-1] + 100, 9), 1) for line in lines]
    asked = [np.concatenate((one, line.times)) for one, line in zip(asked, lines, strict=True)]
    of = np.repeat(np.arange(4), [len(one) for one in asked])
    found = together.at(together.place(moments(of, np.concatenate(asked))), values)
    alone = [np.interp(x, line.times, line.values) for x, line in zip(asked, lines, strict=True)]
    assert found.tolist() == np.concatenate(alone).tolist()
    twice = moments(np.tile(of, 2), np.tile(np.concatenate(asked), 2))
    assert ordered(twice).tolist() == np.unique(twice).tolist()


@settings(max_examples=50)
@given(SEEDS, st.sampled_from([60.0, 300.0, 3600.0]))
def test_courses_and_windows(seed: int, seconds: float) -> None:
    random = np.random.default_rng(seed)
    lines = _lines(random, 5)
    span = spec_plan().spans[1]
    limits = [Piece(650.0, 700.0, 50.0, span), Piece(700.0, np.inf, 100.0, span)]
    ranges = [
        [Range(690.0, 720.0, Stretch(*sorted(random.uniform(0, 2000, 2).tolist())))]
        * int(random.integers(0, 3))
        for _ in lines
    ]
    for sign in (1.0, -1.0):
        found = courses(lines, limits, sign, ranges)
        alone = [course(*one[:1], limits, sign, one[1]) for one in zip(lines, ranges, strict=True)]
        assert list(map(_told, found)) == list(map(_told, alone))
        windows, over = windows_of(found, seconds), windows_over(found, seconds)
        for one, its, spells in zip(alone, windows, over, strict=True):
            assert [part.tolist() for part in one.over(seconds)] == [part.tolist() for part in its]
            # What no window says is over its limit is not looked at any closer.
            assert bool(spells) == bool((its.ratio > 1 + 1e-6).any())


def _told(one: Course) -> list[object]:
    return [its.tolist() if isinstance(its, np.ndarray) else its for its in one]


@settings(max_examples=30)
@given(SEEDS)
def test_lines_of_many_traces(seed: int) -> None:
    random = np.random.default_rng(seed)
    parts = []
    for rows in (40, 40, 120, 40):
        times = np.cumsum(random.choice([30.0, 31.0], rows), dtype=np.float64)
        traces = [_trace(random, rows, float(random.choice([0.0, 0.1, 1.0]))) for _ in range(3)]
        parts.append(Part(times, np.stack(traces)))
    together = corners_of_all(parts)
    for part, lines in zip(parts, together, strict=True):
        for values, its in zip(part.values, lines, strict=True):
            ((alone,),) = corners_of_all([Part(part.times, values[None, :])])
            assert _figures(its) == _figures(alone)


@settings(max_examples=50)
@given(SEEDS)
def test_lines_that_plainly_cross_meet_where_the_loop_says(seed: int) -> None:
    """Of stretches of any kind, many of which do not cross where they part."""
    random = np.random.default_rng(seed)
    values = np.stack([_trace(random, 90, 0.1) for _ in range(6)])
    traces = Traces([Part(np.arange(90, dtype=np.float64) * 30.0, values)])
    edges = [[0, *sorted(random.choice(np.arange(2, 88, 3), 7, False).tolist()), 90]] * 6
    lines = joined(traces, edges)
    with patch.object(line, "_plainly", _never):
        assert list(map(_figures, lines)) == list(map(_figures, joined(traces, edges)))


_PLAINLY = line._plainly


def _never(*asked: Any) -> tuple[Any, ...]:
    *found, plain = _PLAINLY(*asked)
    return (*found, np.zeros_like(plain))


def _figures(its: Line) -> list[object]:
    return [np.asarray(one).tolist() for one in its]


@settings(max_examples=50)
@given(SEEDS, st.sampled_from([1, 2, 3]))
def test_the_row_a_corner_does_best_at(seed: int, step: int) -> None:
    """Against all rows one by one, in windows of all widths, of none, too."""
    random = np.random.default_rng(seed)
    rows = 60
    times = np.arange(rows, dtype=np.float64) * 30.0
    traces = Traces([Part(times, np.stack([_trace(random, rows, 0.1) for _ in range(3)]))])
    trace = random.integers(0, 3, 8)
    first, after = random.integers(0, 20, 8), random.integers(45, rows + 1, 8)
    low = first + 2 + random.integers(0, 10, 8)
    high = np.minimum(low + random.integers(-1, 5, 8) * random.integers(1, 9, 8), after - 2)
    found, off = traces.best_corners(trace, first, low, high, after, step)
    for at in range(8):
        every = np.arange(low[at], high[at] + 1, step)
        if not len(every):
            assert off[at] == np.inf
            continue
        its = (np.full(len(every), one[at]) for one in (trace, first, after))
        whose, begin, end = its
        parted = traces.parted(whose, begin, every, end)
        assert found[at] == every[np.argmin(parted)] and off[at] == parted.min()


@given(SEEDS)
def test_digits_and_noise_of_many_traces(seed: int) -> None:
    random = np.random.default_rng(seed)
    digits = random.choice([0.1, 0.5, 1.0, 1 / 1.8], 4)
    values = np.stack([_trace(random, 150, digit) for digit in digits])
    found = last_digits(values)
    alone = [last_digits(one[None, :])[0] for one in values]
    assert found.tolist() == alone
    for digit, told, its in zip(digits, found, values, strict=True):
        # A multiple of the digit they are in, or none where all are the same.
        assert told == 0.0 or abs(told / digit - round(told / digit)) < 1e-6, its
    noise = noise_levels(values, found)
    for its, told, one in zip(values, found, noise, strict=True):
        assert noise_levels(its[None, :], np.array([told]))[0].tolist() == one.tolist()


def test_runs_judged_together_are_judged_as_each_alone() -> None:
    """Runs of many ways, sound and not, of plans that limit rates and of one that does not."""
    plans = [*(one() for one in list(PLANS.values())[:2])]
    plans.append(spec_plan("", (PREHEAT, WITH_PREHEAT), cycle="preheat"))
    asked = [(plans[at % 3], way()) for at, way in enumerate(WAYS.values()) if at % 2]
    together, alone = ([Evidence(made(run), plan, run.faults) for plan, run in asked] for _ in "12")
    against = [("it says so",) if at % 7 == 0 else () for at in range(len(asked))]
    found = judged_together(together, "2026-11-20", against)
    for one, said, judgement in zip(alone, against, found, strict=True):
        assert write(judged(one, "2026-11-20", said)) == write(judgement)


@settings(max_examples=50)
@given(SEEDS)
def test_the_longest_at_temperature_of_all(seed: int) -> None:
    """With a blank, which makes each be looked at by itself, and without."""
    random = np.random.default_rng(seed)
    plan = spec_plan()
    times = np.cumsum(random.choice([30.0, 60.0], 30))
    courses = {one.tag: np.round(random.uniform(680.0, 700.0, 30), 1) for one in plan.watched}
    evidence = Evidence(record(courses, times - times[0]), plan)
    best = max(
        (_above(evidence.times, evidence.of(one.tag), 690.0), -at)
        for at, one in enumerate(plan.required)
    )
    lasted, tag, _ = at_temperature(evidence, 690.0)
    assert lasted == pytest.approx(best[0], abs=0.1) and tag == plan.required[-best[1]].tag
    courses[plan.required[0].tag][0] = np.nan
    blank = Evidence(record(courses, times - times[0]), plan)
    assert not blank.complete
    if tag != plan.required[0].tag:
        assert at_temperature(blank, 690.0) == at_temperature(evidence, 690.0)


def _above(times: np.ndarray, values: np.ndarray, low: float) -> float:
    """s, step by step."""
    lasted = 0.0
    for at in range(len(times) - 1):
        one, two = sorted((values[at] - low, values[at + 1] - low))
        part = 1.0 if one >= 0 else two / (two - one) if two > 0 else 0.0
        lasted += part * (times[at + 1] - times[at])
    return lasted


@settings(max_examples=50)
@given(SEEDS)
def test_each_time_it_was_heated_from_cold(seed: int) -> None:
    """Row by row: from when it was last cold to when it comes to the hold."""
    random = np.random.default_rng(seed)
    plan = spec_plan()
    levels = random.choice([20.0, 200.0, 400.0, 700.0, 710.0], 40)
    evidence = Evidence(record({one.tag: levels for one in plan.watched}, _MINUTES), plan)
    holds = held(plan)
    cold = min(plan.control_end or 1e9, holds[0].low / 2)
    came_from, was_cold, found = 0.0, True, []
    for at, level in zip(evidence.times.tolist(), levels.tolist(), strict=True):
        if level <= cold:
            came_from, was_cold = at, True
        elif level >= holds[0].low:
            if was_cold:
                found.append(Stretch(came_from, at))
            was_cold = False
    assert _heats(evidence, holds) == found
