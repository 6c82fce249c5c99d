"""Straight stretches of a trace, and how long a rate was over its limit, on ramps that are known
exactly. The bounds are derived from the ramps themselves."""

from __future__ import annotations

import numpy as np
import pytest

from hts.record.judging import MET, NOT_SHOWN, Verdict, judge
from hts.record.judging.corners import _straight, corners
from hts.record.judging.courses import COVERAGE, Course
from hts.record.judging.fits import Fit, Part, Traces
from hts.record.judging.hidden_rates import smallest_seen
from hts.record.judging.line import Line
from hts.record.judging.noise import last_digits, noise_levels
from hts.record.judging.spells import spells
from hts.record.plan import Plan
from tests.record.judging.made import record, spec_plan, verdict
from tests.rows import each_row

LIMIT = 120.0


def ramp(
    minutes: float, rate: float, beside: float, every: float, noise: float, digit: float, seed: int
) -> tuple[np.ndarray, np.ndarray]:
    """100 min at `beside` K/h, `minutes` at `rate`, 100 min at `beside` again."""
    random = np.random.default_rng(seed)
    times = np.arange(0.0, (200 + minutes) * 60, every)
    at = times + random.uniform(0.0, every)
    rises = np.cumsum([0.0, 100 * beside, minutes * rate, 110 * beside]) / 60
    values = 250 + np.interp(at / 60, np.cumsum([0.0, 100, minutes, 110]), rises)
    values = values + random.normal(0.0, noise, len(times)) if noise else values
    return times, np.round(values / digit) * digit if digit else values


def too_fast(times: np.ndarray, values: np.ndarray) -> tuple[float, float]:
    """Minutes over LIMIT, and what they are good to at 95 %."""
    line = corners(times, values)
    over = line.slopes * 3600 > LIMIT
    lasted = float(np.diff(line.times)[over].sum()) / 60
    return lasted, 2 * float(np.sqrt(np.sum(line.doubt**2))) / 60


@each_row("every", [5.0, 10.0, 30.0, 60.0])
@each_row("noise", [0.0, 0.1, 0.25])
@each_row("digit", [0.0, 0.1, 1.0])
def test_the_time_too_fast_is_the_time_the_true_rate_was(
    every: float, noise: float, digit: float
) -> None:
    for seed, (rate, beside) in enumerate([(240.0, 100.0), (130.0, 60.0), (240.0, 118.0)]):
        for minutes in (14.0, 16.0):
            lasted, _ = too_fast(*ramp(minutes, rate, beside, every, noise, digit, seed))
            assert lasted == pytest.approx(minutes, abs=0.95)


@pytest.mark.parametrize("digit", [0.1, 1.0, 2.0])
def test_its_uncertainty_holds_in_19_cases_of_20(digit: float) -> None:
    """Also where the readings of a ramp climb by whole digits, or nearly, from row to row, and are
    all rounded the same way: 120 K/h at 60 s in steps of 1 and 2 K."""
    random = np.random.default_rng(7)
    within = []
    for noise in (0.0, 0.1, 0.5, 1.0):
        for every in (5.0, 10.0, 30.0, 60.0):
            for rate, beside in ((150.0, 60.0), (180.0, 110.0), (240.0, 90.0), (240.0, 118.0)):
                minutes = float(random.choice([12.0, 14.0, 15.5, 17.0, 30.0]))
                seed = int(random.integers(2**31))
                times, values = ramp(minutes, rate, beside, every, noise, digit, seed)
                line = corners(times, values)
                if rate - LIMIT < smallest_seen(line.noise, line.digit, every, minutes * 60):
                    continue
                found = spells(_course(line))
                lasted = sum(spell.when.length for spell in found) / 60
                doubt = np.sqrt(sum(spell.doubt**2 for spell in found)) / 60
                within.append(abs(lasted - minutes) <= COVERAGE * doubt + 1e-3)
    assert len(within) > 50 and np.mean(within) >= 0.95


@pytest.mark.parametrize("digit", [0.1, 1.0, 2.0])
def test_an_over_rate_longer_than_allowed_is_never_met(digit: float) -> None:
    plan = spec_plan("rate over 15 min\nrate excursion at most 15 min each")
    random = np.random.default_rng(11)
    for noise in (0.0, 0.5, 1.0):
        for every in (5.0, 30.0, 60.0):
            for rate, beside, minutes in ((150.0, 110.0, 16.5), (240.0, 118.0, 16.5),
                                          (130.0, 60.0, 20.0)):  # fmt: skip
                found = _judged(plan, random, rate, beside, minutes, every, noise, digit)
                assert found.verdict != MET, (noise, every, rate, beside, found.actual)


def test_an_over_rate_within_what_is_allowed_is_met() -> None:
    plan = spec_plan("rate over 15 min\nrate excursion at most 15 min each")
    random = np.random.default_rng(12)
    for digit in (0.1, 1.0):
        for every in (5.0, 30.0):
            for rate, beside in ((150.0, 90.0), (240.0, 110.0)):
                found = _judged(plan, random, rate, beside, 12.0, every, 0.1, digit)
                assert found.verdict == MET, (digit, every, rate, found.failures)


def test_readings_too_coarse_to_show_an_over_rate_do_not_show_that_there_was_none() -> None:
    plan = spec_plan("rate over 15 min\nrate excursion at most 2 min each")
    found = _judged(plan, np.random.default_rng(1), 0.0, 90.0, 0.0, 60.0, 0.5, 2.0)
    assert found.verdict == NOT_SHOWN
    assert "more for 2 min would not show in these readings" in found.actual


def _judged(
    plan: Plan,
    random: np.random.Generator,
    rate: float,
    beside: float,
    minutes: float,
    every: float,
    noise: float,
    digit: float,
) -> Verdict:
    """The verdict on the heating rate of a run in which T2 rises at `rate` for some minutes."""
    top = 30 + 405 / beside * 60
    points = ((0.0, 250.0), (30.0, 300.0), (top, 705.0), (top + 140, 705.0), (top + 380, 290.0))
    begins = 300 + beside / 2
    ends = begins + rate * minutes / 60
    after = 60 + minutes + (705 - ends) / beside * 60
    fast = (*points[:2], (60.0, begins), (60 + minutes, ends), (after, 705.0), *points[3:])
    times = np.arange(0.0, points[-1][0] * 60, every)
    courses = {}
    for watched in plan.watched:
        its = fast if minutes and watched.tag == "T2" else points
        at = times + random.uniform(0.0, every)
        values = np.interp(at / 60, *zip(*its, strict=True))
        courses[watched.tag] = np.round((values + random.normal(0, noise, len(at))) / digit) * digit
    return verdict(judge(record(courses, times), plan), "heating rate")


def _course(line: Line) -> Course:
    needed = np.diff(line.values) / LIMIT
    return Course(line.times, line.values, needed, line.slack / LIMIT * 3600, line.doubt)


def test_a_corner_is_not_split() -> None:
    """A corner between two rows it is looked for at is one corner."""
    for seed in range(20):
        line = corners(*ramp(30.0, 240.0, 60.0, 5.0, 0.1, 0.1, seed))
        assert len(line.times) == 4


def test_the_last_digit_is_told_where_no_reading_comes_twice() -> None:
    # 118 K/h a minute apart: no two readings nearer than 1.9 K, given in tenths; and in degF.
    celsius = np.round(20 + np.arange(200) * 118 / 60, 1)
    assert last_digits(celsius[None, :])[0] == pytest.approx(0.1)
    fahrenheit = np.round((np.round(68 + np.arange(200) * 212.4 / 60) - 32) / 1.8, 6)
    assert last_digits(fahrenheit[None, :])[0] == pytest.approx(1 / 1.8)


@pytest.mark.parametrize("beside", [60.0, 100.0, 119.0])
def test_noise_is_no_rate(beside: float) -> None:
    for seed in range(5):
        times, values = ramp(15.0, beside, beside, 30.0, 1.0, 0.1, seed)
        assert too_fast(times, values)[0] == 0.0


def test_noise_is_measured() -> None:
    _, values = ramp(15.0, 100.0, 100.0, 10.0, 0.4, 0.0, 3)
    # A median of 60 absolute values is good to about 12 % (normal distribution).
    assert np.median(noise_levels(values[None, :], np.zeros(1))) == pytest.approx(0.4, rel=0.12)


@pytest.mark.parametrize(
    ("off", "rows", "ratio"), [(4.0, 3, 2.0), (4.0, 2, 1.0), (0.5, 10, 1.0), (32.0, 10, 2.0)]
)
def test_how_much_less_sure_a_line_is(off: float, rows: int, ratio: float) -> None:
    """By Birge's ratio, which is never below 1; two readings tell nothing of it."""
    assert Fit(0.0, 700.0, 0.0, 0.1, off, rows).ratio == ratio


@each_row(
    ("slopes", "edges", "kept"),
    [
        # Digits for each row, of whole digits read: a quarter all along, with a bend at row 12, or
        # two. Of straight readings less than 0.8 digits off no corner is left.
        ({0: 0.25}, [0, 7, 14, 24], [0, 24]),
        ({0: 0.25}, [0, 7, 24], [0, 24]),
        ({0: 0.25}, [0, 24], [0, 24]),
        ({0: 0.25, 12: 1.0}, [0, 6, 12, 24], [0, 12, 24]),
        ({0: 0.25, 12: 1.0}, [0, 12, 18, 24], [0, 12, 24]),
        ({0: 1.0, 8: 0.0, 16: 1.0}, [0, 8, 16, 24], [0, 8, 16, 24]),
        ({0: 1.0, 8: 0.0, 16: 1.0}, [0, 4, 8, 12, 16, 20, 24], [0, 8, 16, 24]),
    ],
)
def test_corners_that_rounding_explains(
    slopes: dict[int, float], edges: list[int], kept: list[int]
) -> None:
    steps = np.zeros(24)
    for row, slope in slopes.items():
        steps[row:] = slope
    values = np.floor(np.cumsum(steps) + 0.5)
    # A trace before it, of another digit.
    times = np.arange(24.0) * 60
    traces = Traces([Part(times, np.stack([times / 600, values]))])
    assert _straight(traces, 1, edges) == kept
