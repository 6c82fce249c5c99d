"""Rates: hand-worked cases, and what has no limit."""

from __future__ import annotations

import numpy as np
import pytest

from hts.record.judging import MET, NOT_MET, NOT_SHOWN, judge
from hts.record.judging.courses import COVERAGE, Course, Readings, lines_of
from hts.record.judging.line import Line
from hts.record.judging.spells import spells
from tests.record.judging.made import (
    GOOD,
    MINUTE,
    Points,
    course,
    every,
    file_plan,
    record,
    run,
    spec_plan,
    verdict,
)
from tests.rows import each_row


def burst(minutes: float, rate: float = 240.0) -> Points:
    """GOOD, but from 100 min on so many minutes faster, and slower afterwards."""
    start = 300 + 70 / 60 * 100
    peak = start + rate * minutes / 60
    return ((0.0, 250.0), (30.0, 300.0), (100.0, start), (100.0 + minutes, peak), *GOOD[2:])


@each_row("window", ["1 min", "15 min", "30 min"])
@each_row("rate", [130.0, 240.0, 400.0])
@each_row(("minutes", "outcome"), [(14.0, MET), (16.0, NOT_MET)])
def test_over_rate_against_an_allowance_of_15_minutes(
    minutes: float, outcome: str, rate: float, window: str
) -> None:
    # Practice (a national inspector scheme): a rate may be exceeded for up to 15 min on end. How
    # long hangs neither on the window nor on how much too fast it was.
    plan = spec_plan(f"rate over {window}\nrate excursion at most 15 min each")
    found = verdict(run(plan, {"T2": burst(minutes, rate)}, seconds=10.0), "heating rate")
    assert found.verdict == outcome
    if outcome == NOT_MET:
        (failure,) = found.failures
        assert failure.tags == ("T2",)
        assert f"{rate:.0f} degC/h" in failure.sentence
        assert "16 min too fast" in failure.sentence
        assert failure.start == pytest.approx(100 * MINUTE, abs=5)


def test_times_too_fast_are_added_where_the_allowance_is_in_total() -> None:
    twice = (*burst(9.0)[:-3], (170.0, 540.0), (179.0, 576.0), *GOOD[2:])
    for words, outcome in (("each", MET), ("in total", NOT_MET)):
        plan = spec_plan(f"rate excursion at most 15 min {words}")
        found = verdict(run(plan, {"T2": twice}, seconds=10.0), "heating rate")
        assert found.verdict == outcome
    assert len(found.failures) == 2 and "18 min in all" in found.failures[0].sentence


def test_an_allowance_of_the_hold_is_none_of_the_rate() -> None:
    plan = spec_plan("excursion at most 30 min each")
    assert verdict(run(plan, {"T2": burst(14.0)}), "heating rate").verdict == NOT_MET


def test_without_an_allowance_any_window_counts() -> None:
    found = verdict(run(spec_plan(), {"T2": burst(14.0)}), "heating rate")
    assert found.verdict == NOT_MET
    # 240 degC/h for 14 of 15 min and the slower rest of the way for one.
    assert 220 < float(found.actual.split()[1]) < 240


def test_a_window_smooths_what_is_shorter() -> None:
    # Practice: the rate is taken over a stated window, not from reading to reading. 2 min at
    # 240 degC/h and 13 min at 100 come to 119 degC/h over 15 min.
    start = 300 + 70 / 60 * 100
    after = start + 8 + 13 / 60 * 100
    points = (*GOOD[:2], (100.0, start), (102.0, start + 8), (115.0, after), *GOOD[2:])
    assert verdict(run(spec_plan(), {"T2": points}), "heating rate").verdict == MET
    strict = spec_plan("rate over 1 min")
    assert verdict(run(strict, {"T2": points}), "heating rate").verdict == NOT_MET


@pytest.mark.parametrize(("rate", "outcome"), [(120.0, MET), (120.5, NOT_MET)])
def test_the_limit_itself_is_met(rate: float, outcome: str) -> None:
    up = 30 + 405 / rate * 60
    points = (*GOOD[:2], (up, 705.0), (up + 140, 705.0), (up + 400, 290.0))
    assert verdict(run(spec_plan(), points=points), "heating rate").verdict == outcome


def test_below_the_threshold_nothing_is_limited() -> None:
    # 400 degC/h up to 300 degC, where the limit begins to count.
    points = ((0.0, 20.0), (42.0, 300.0), (272.0, 705.0), (412.0, 705.0), (652.0, 290.0))
    found = verdict(run(spec_plan(), points=points), "heating rate")
    assert found.verdict == MET


def test_a_window_that_reaches_into_the_free_stretch_is_judged_by_the_rest() -> None:
    # 5 min from 300 to 310 degC are 120 degC/h: met, whatever happened just before.
    points = ((0.0, 20.0), (30.0, 300.0), (35.0, 310.0), (300.0, 705.0), (440.0, 705.0),
              (680.0, 290.0))  # fmt: skip
    assert verdict(run(spec_plan(), points=points), "heating rate").verdict == MET


def test_cooling_too_fast_is_told_with_its_clock_times() -> None:
    points = (*GOOD[:4], (460.0, 645.0), (480.0, 595.0), (700.0, 290.0))
    found = verdict(
        run(spec_plan(), {"T3": points}, points=(*GOOD[:4], (700.0, 290.0))), "cooling rate"
    )
    assert found.verdict == NOT_MET
    (failure,) = found.failures
    assert failure.tags == ("T3",)
    assert "T3 fell 150 degC/h over 15 min, limit 120 degC/h above 300 degC" in failure.sentence
    # It began 460 min after 06:00, within the window that first shows it.
    assert "2026-11-21 13:" in failure.sentence


def test_wobble_in_the_hold_is_no_heating() -> None:
    plan = spec_plan("rate over 2 min")
    wobble = tuple((260.0 + 2 * k, 700.0 + 10 * (k % 2)) for k in range(70))
    points = (*GOOD[:2], (259.0, 700.0), *wobble, (400.0, 705.0), GOOD[-1])
    assert verdict(run(plan, {"T2": points}), "heating rate").verdict == MET


@each_row("allowed", ["", "excursion at most 60 min in total"])
@each_row("depth", [5.0, 12.0, 25.0, 60.0])
@each_row(("rate", "outcome"), [(115.0, MET), (160.0, NOT_MET)])
def test_heated_up_again_from_below_the_range(
    rate: float, outcome: str, depth: float, allowed: str
) -> None:
    """The way back is heating from the lowest to where the rise ends, on which side of the edge
    of the range whatever part of it lies: 27 K and more at 160 degC/h are more than 10 min."""
    low, high = 690.0 - depth, 712.0
    back = 300.0 + (high - low) / rate * 60
    dip = (
        *GOOD[:3], (270.0, 705.0), (300.0, low), (back, high), (back + 20, 705.0), (500.0, 705.0),
        (740.0, 290.0),
    )  # fmt: skip
    found = verdict(run(spec_plan(allowed), {"T2": dip}), "heating rate")
    # A window of 15 min: 22 K and 5 K of 160 degC/h are 108 degC/h over it.
    assert found.verdict == (MET if depth == 5.0 else outcome)


def test_limits_that_hang_on_temperature() -> None:
    # The P91 example: at most 150 degC/h from 80 to 300 degC, 100 degC/h above.
    plan = file_plan("p91-pipe.hts", "tempering")
    slow = ((0.0, 60.0), (120.0, 300.0), (420.0, 750.0), (560.0, 750.0), (860.0, 290.0))
    found = verdict(run(plan, points=slow), "heating rate")
    assert found.verdict == MET
    assert "150 degC/h" in found.specified and "100 degC/h" in found.specified
    fast = ((0.0, 60.0), (120.0, 300.0), (330.0, 750.0), (470.0, 750.0), (770.0, 290.0))
    found = verdict(run(plan, points=fast), "heating rate")
    assert found.verdict == NOT_MET
    assert "limit 100 degC/h above 300 degC" in found.failures[0].sentence


def test_above_the_setpoint_the_limit_goes_on() -> None:
    # T1 runs ahead from 705 to 719 degC in 2 min, 420 degC/h, while T2 is not yet in range.
    plan = spec_plan("rate over 2 min")
    ahead = (*GOOD[:3], (262.0, 719.0), (300.0, 705.0), *GOOD[3:])
    behind = (*GOOD[:2], (280.0, 689.0), (300.0, 705.0), *GOOD[3:])
    found = verdict(run(plan, {"T1": ahead, "T2": behind}, seconds=30.0), "heating rate")
    assert found.verdict == NOT_MET and found.failures[0].tags == ("T1",)


def test_a_rate_that_was_not_seen_is_not_shown() -> None:
    plan, times = spec_plan(), every(60.0, 640.0)
    values = course(GOOD, times)
    values[(times > 100 * MINUTE) & (times < 130 * MINUTE)] = np.nan
    courses = {one.tag: course(GOOD, times) for one in plan.watched} | {"T2": values}
    judgement = judge(record(courses, times), plan)
    found = verdict(judgement, "heating rate")
    assert found.verdict == NOT_SHOWN
    assert "readings missing for 30 min" in found.actual
    assert verdict(judgement, "cooling rate").verdict == MET
    assert verdict(judgement, "hold time").verdict == MET
    assert verdict(judgement, "highest temperature").verdict == NOT_SHOWN


@each_row("seed", range(4))
@each_row(("minutes", "may_be"), [(13.5, {MET}), (16.0, {NOT_MET, NOT_SHOWN})])
@each_row("lag", [20.0, 60.0])
def test_a_rate_that_bends_is_timed_from_bend_to_bend(
    minutes: float, may_be: set[str], lag: float, seed: int
) -> None:
    """Metal bends: the rate goes from 116 to 240 and to 105 degC/h with a time constant, and the
    readings have noise of 0.2 K and tenths. The true time over 180 degC/h lies between the bends
    (derived: a first-order lag delays the two alike, by 0.63 and 0.79 of its constant)."""
    at = np.arange(0.0, 5 * 3600.0, 30.0)
    rate = np.where(at < 7200, 116.0, np.where(at < 7200 + minutes * 60, 240.0, 105.0))
    late = np.empty_like(rate)
    late[0] = rate[0]
    for row in range(1, len(at)):
        late[row] = rate[row - 1] + (late[row - 1] - rate[row - 1]) * np.exp(-30.0 / lag)
    values = 100 + np.concatenate(([0.0], np.cumsum(late[:-1]) * 30.0 / 3600))
    random = np.random.default_rng(seed)
    values = np.round(values + random.normal(0.0, 0.2, at.size), 1)
    line = lines_of([Readings(at, values[None, :], 180.0)])[0][0]
    assert line is not None
    found = [one for one in spells(_at(line, 180.0)) if one.when.length > 300]
    (one,) = found
    assert one.when.length / 60 == pytest.approx(minutes, abs=0.6)
    assert abs(one.when.length / 60 - minutes) <= 3 * one.doubt / 60 + 0.3
    sure = one.when.length / 60 + COVERAGE * one.doubt / 60 <= 15.0
    assert (MET if sure else NOT_SHOWN) in may_be


def _at(line: Line, limit: float) -> Course:
    """The course against one limit everywhere, K/h."""
    needed = np.diff(line.values) / limit
    return Course(line.times, line.values, needed, line.slack / limit * 3600, line.doubt)
