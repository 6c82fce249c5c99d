"""Holds beside holds: the time of each is the time in its own step, whatever the others spend above
its foot; and a step into a hold is gone through where its range begins. Arithmetic, no source."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from hts.record.judging import MET, NOT_MET, NOT_SHOWN, hold_courses
from hts.record.judging.hold_clocks import Held
from hts.record.judging.hold_verdicts import mean_temperature
from hts.record.judging.verdict import Stretch
from tests.record.judging.made import GOOD, MINUTE, Points, run, spec_plan, verdict
from tests.record.judging.test_papers import QUALIFIED
from tests.rows import each_row

UP = (
    "heat to 705 degC  at most 120 degC/h",
    "heat to 500 degC at most 120 degC/h\n  hold 480 .. 520 degC for 15 min at most 60 min\n"
    "  heat to 705 degC at most 120 degC/h",
)
MOST = ("for 2 h\n", "for 2 h at most 160 min\n")
_COOL = "cool to 300 degC  at most 120 degC/h\n"
DOWN = (
    _COOL,
    "cool to 500 degC at most 120 degC/h\n  hold 480 .. 520 degC for 15 min at most 60 min\n"
    f"  {_COOL}",
)
TWICE = (
    _COOL,
    "cool to 400 degC at most 120 degC/h\n  heat to 705 degC at most 120 degC/h\n"
    f"  hold 690 .. 720 degC for 2 h at most 160 min\n  {_COOL}",
)


def up(more: float = 0.0) -> Points:
    """500 degC held for 20 min and `more`, then 705 degC for 140 min."""
    return ((0.0, 250.0), (30.0, 300.0), (140.0, 500.0), (160.0 + more, 500.0),
            (275.0 + more, 705.0), (415.0 + more, 705.0), (655.0 + more, 290.0))  # fmt: skip


def down(more: float = 0.0) -> Points:
    return (*GOOD[:4], (520.0, 500.0), (545.0 + more, 500.0), (680.0 + more, 290.0))


def twice(first: float = 0.0, second: float = 0.0) -> Points:
    low = (580.0 + first, 400.0)
    end = 890.0 + first + second
    return (*GOOD[:3], (400.0 + first, 705.0), low, (750.0 + first, 705.0), (end, 705.0),
            (end + 240.0, 290.0))  # fmt: skip


@each_row(
    ("changes", "points", "outcomes"),
    [
        # 480 to 500 and 500 to 520 degC, each 11 min, and the hold: 42 min.
        ((UP,), up(), {3: MET}),
        ((UP,), up(18.0), {3: NOT_MET}),
        # The one below does not take from the one above.
        ((UP, MOST), up(), {3: MET, 5: MET}),
        ((MOST, DOWN), down(), {3: MET, 5: MET}),
        ((MOST, DOWN), down(20.0), {3: MET, 5: NOT_MET}),
        ((MOST, TWICE), twice(), {3: MET, 6: MET}),
        ((MOST, TWICE), twice(5.0), {3: NOT_MET, 6: MET}),
        ((MOST, TWICE), twice(0.0, 5.0), {3: MET, 6: NOT_MET}),
    ],
)
def test_each_hold_has_its_own_time(changes: tuple, points: Points, outcomes: dict) -> None:
    judgement = run(spec_plan("", *changes), points=points)
    found = {number: verdict(judgement, f"longest hold, step {number}").verdict
             for number in outcomes}  # fmt: skip
    assert found == outcomes


def test_what_goes_above_the_range_and_back_is_still_in_the_hold() -> None:
    over = (*up()[:3], (145.0, 530.0), (180.0, 530.0), (185.0, 500.0), *up(30.0)[3:])
    found = verdict(run(spec_plan("", UP), {"T2": over}, points=up(30.0)), "longest hold, step 3")
    # T1 was held for 72 min, as T2 was: its excursion is not taken off.
    (one,) = found.failures
    assert found.verdict == NOT_MET
    assert one.end - one.start >= 70 * MINUTE


def test_one_that_never_comes_to_the_next_hold_has_left_this_one() -> None:
    cold = tuple((at, min(to, 620.0)) for at, to in up())
    found = verdict(run(spec_plan("", UP), {"T3": cold}, points=up()), "longest hold, step 3")
    assert found.verdict == MET


def test_a_run_that_stays_in_the_first_hold_is_too_long() -> None:
    stays = (*up()[:3], (300.0, 500.0))
    found = verdict(run(spec_plan("", UP), points=stays), "longest hold, step 3")
    assert found.verdict == NOT_MET


SLOW = ("at most 120 degC/h\n  hold", "at most 120 degC/h at least 90 degC/h\n  hold")


def test_a_step_into_a_hold_is_gone_through_where_the_range_begins() -> None:
    lower = tuple((at, to * 0.99) for at, to in GOOD)
    found = verdict(run(spec_plan("", SLOW), {"T3": lower}), "slowest rate, step 2")
    assert (found.verdict, found.actual) == (MET, "104 degC/h (T3)")
    assert "from 300 degC to 690 degC, where the hold begins" in found.specified
    # One that creeps on within the range is not slow for that.
    creeps = (*GOOD[:2], (250.0, 695.0), (400.0, 705.0), GOOD[4])
    assert verdict(run(spec_plan("", SLOW), {"T3": creeps}), "slowest rate, step 2").verdict == MET
    # One that stops short of the range has not gone through; one that is late is slow.
    short = tuple((at, min(to, 689.0)) for at, to in GOOD)
    late = (*GOOD[:2], (230.0, 600.0), (315.0, 705.0), *GOOD[3:])
    for other, outcome in ((short, NOT_SHOWN), (late, NOT_MET)):
        found = verdict(run(spec_plan("", SLOW), {"T3": other}), "slowest rate, step 2")
        assert found.verdict == outcome


@each_row(
    ("first", "second", "outcome"),
    [
        # 157 min at 690 degC and above: both steps have one range, and no reading tells them apart.
        ("for 1 h at most 80 min", "for 1 h at most 80 min", MET),
        ("for 1 h at most 80 min", "for 1 h at most 70 min", NOT_MET),
        ("for 1 h at most 100 min", "for 1 h", MET),
        ("for 1 h", "for 1 h at most 100 min", MET),
        # More may be the time of the step without a most.
        ("for 1 h at most 90 min", "for 1 h", NOT_SHOWN),
        ("for 1 h", "for 1 h at most 90 min", NOT_SHOWN),
    ],
)
def test_neighbouring_holds_of_one_range(first: str, second: str, outcome: str) -> None:
    hold = "hold 690 .. 720 degC for 2 h\n"
    two = f"hold 690 .. 720 degC {first}\n  hold 690 .. 720 degC {second}\n"
    found = verdict(run(spec_plan("", (hold, two))), "longest hold")
    assert found.verdict == outcome
    if outcome == NOT_SHOWN:
        assert "90 min" in found.specified or "1 h 30 min" in found.specified
        assert "do not tell how much of it was step" in found.failures[0].sentence


def step(low: float, high: float, cooled: float | None = None) -> Held:
    return Held(low, high, 60.0, None, (), cooled)


@each_row(
    ("one", "other", "between"),
    [
        # The top of the lower one, where it ends below or where the other begins.
        ((480, 520), (690, 720), 520),
        ((690, 720), (720, 750), 720),
        # 705 and 725 are the middles, each outside the other range.
        ((690, 720), (710, 740), 715),
        # One middle lies in the other range, or just at its edge.
        ((690, 720), (700, 730), None),
        ((690, 720), (705, 735), None),
        ((690, 720), (706, 734), None),
        ((690, 720), (704, 800), None),
        ((690, 720), (690, 720), None),
    ],
)
def test_what_parts_two_holds(
    one: tuple[float, float], other: tuple[float, float], between: float | None
) -> None:
    assert hold_courses._between(step(*one), step(*other)) == between
    assert hold_courses._between(step(*other), step(*one)) == between


_LOW, _HIGH = (480.0, 520.0), (690.0, 720.0)


@each_row(
    ("values", "ranges", "arrived", "border"),
    [
        # 500 to 700 in 100 s: 520 is passed after 10 s.
        ((500, 500, 700, 700), (_LOW, _HIGH), (0.0, 200.0), 110.0),
        # Once more below before all were in the next hold: the last time counts.
        ((500, 530, 510, 700), (_LOW, _HIGH), (0.0, 300.0), 200 + 100 * 10 / 190),
        # Never as cold as the first hold, or as hot as the hold it comes down from.
        ((600, 650, 700, 700), (_LOW, _HIGH), (0.0, 200.0), 0.0),
        ((600, 600, 500, 500), (_HIGH, _LOW), (0.0, 200.0), 0.0),
        # Down: 700 to 500, where the next begins at its top; not yet down to it.
        ((700, 700, 500, 500), (_HIGH, _LOW), (0.0, 200.0), 190.0),
        ((700, 700, 600, 560), (_HIGH, _LOW), (0.0, 300.0), None),
        # Not all came into the next hold: one that was half way there, at 605, had left this one.
        ((500, 605, 500, 500), (_LOW, _HIGH), (0.0, None), 100 * 20 / 105),
        ((500, 604, 500, 500), (_LOW, _HIGH), (0.0, None), 300.0),
    ],
)
def test_when_one_left_a_hold_for_the_next(
    values: tuple[float, ...],
    ranges: tuple[tuple[float, float], tuple[float, float]],
    arrived: tuple[float, float | None],
    border: float | None,
) -> None:
    times = np.arange(len(values)) * 100.0
    record = SimpleNamespace(end=float(times[-1]))
    evidence: Any = SimpleNamespace(times=times, record=record)
    clocks: Any = [SimpleNamespace(arrived=at, left=None) for at in arrived]
    holds = tuple(step(*its) for its in ranges)
    found = hold_courses._border(evidence, holds, clocks, 0, np.array(values, dtype=float))
    assert found == (None if border is None else pytest.approx(border))


def test_where_the_part_cools_between_two_holds_its_coldest_parts_them() -> None:
    times = np.arange(7) * 100.0
    values = np.array([700.0, 300.0, 700.0, 500.0, 400.0, 450.0, 700.0])
    evidence: Any = SimpleNamespace(times=times, record=SimpleNamespace(end=600.0))
    holds = (step(690, 720, cooled=400.0), step(690, 720))
    for left, arrived, border in (
        (200.0, 600.0, 400.0),
        (200.0, None, None),  # nothing tells that it was left
        (600.0, 500.0, 500.0),  # over before it was left
    ):
        clocks: Any = [SimpleNamespace(arrived=0.0, left=left), SimpleNamespace(arrived=arrived)]
        assert hold_courses._border(evidence, holds, clocks, 0, values) == border
    # Cooled, but no further than into one of the ranges: they are told apart by them, or not.
    holds = (step(690, 720, cooled=690.0), step(690, 720))
    assert hold_courses._border(evidence, holds, clocks, 0, values) is None


def test_the_mean_of_a_hold_is_over_its_time() -> None:
    """Half of highest and lowest: 700 and 704 within the first piece, of two readings 60 s apart,
    a mean of 702; 690 for 120 s in the second, one reading of which is blank; the third is one
    reading long and weighs nothing. (702 x 60 + 690 x 120) / 180 = 694."""
    times = np.array([0.0, 60.0, 120.0, 180.0, 240.0, 300.0, 900.0])
    lowest = np.array([698.0, 700.0, 0.0, 680.0, np.nan, 680.0, 500.0])
    highest = np.array([702.0, 708.0, 0.0, 700.0, np.nan, 700.0, 500.0])

    def between(start: float, end: float) -> slice:
        return slice(*np.searchsorted(times, (start, end + 1e-6)))

    evidence: Any = SimpleNamespace(
        times=times, lowest=lowest, highest=highest, record=SimpleNamespace(between=between)
    )
    pieces = (Stretch(0.0, 60.0), Stretch(180.0, 300.0), Stretch(900.0, 900.0))
    clock: Any = SimpleNamespace(intervals=pieces)
    assert mean_temperature(evidence, clock) == pytest.approx(694.0)
    clock.intervals = pieces[2:]
    assert mean_temperature(evidence, clock) is None


def test_what_a_procedure_covers_is_told_from_the_hottest_hold() -> None:
    """P = 978 (20 + log10 2.6) = 19.97 is over 19.5; T1 came to 690 degC, the foot of the hotter
    hold, at 160 + 190/205 x 115 min, and left it by 415 + 15/415 x 240 min."""
    owner = (
        "joint ",
        'procedure P-T "Invented" {\n  revision  1 on 2026-01-01 status for construction\n'
        "  tempering parameter at most 19.5\n}\n\njoint ",
    )
    plan = spec_plan("", UP, owner, ("  governed by", "  follows P-T\n  governed by"))
    found = verdict(run(plan, points=up()), "tempering parameter, all treatments")
    (failure,) = found.failures
    assert found.verdict == NOT_MET
    assert failure.start / MINUTE == pytest.approx(160 + 190 / 205 * 115, abs=0.01)
    assert failure.end / MINUTE == pytest.approx(415 + 15 / 415 * 240, abs=0.01)


def test_time_at_temperature_is_that_of_the_hottest_hold() -> None:
    """At 690 degC and above for 157 min 5 s (423.68 less 266.59) and an hour before, and nothing of
    the hold at 500 degC."""
    changes = (UP, ("  axis horizontal\n", QUALIFIED % "3 h"))
    found = verdict(
        run(spec_plan("", *changes), points=up()), "time at temperature, all treatments"
    )
    assert found.verdict == MET and found.actual.startswith("3 h 37 min 5 s: ")
