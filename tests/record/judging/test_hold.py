"""The hold clock: hand-worked cases of practice."""

from __future__ import annotations

import numpy as np
import pytest

from hts.record.judging import MET, NOT_MET, NOT_SHOWN, judge
from hts.record.record import POWER_BACK, POWER_LOST, Event
from tests.record.judging.made import (
    GOOD,
    HOUR,
    MINUTE,
    Points,
    course,
    every,
    record,
    run,
    spec_plan,
    verdict,
)


def dip(
    at: float, minutes: float, to: float, base: float = 705.0
) -> tuple[tuple[float, float], ...]:
    """GOOD with a dip, below 690 degC for exactly so many minutes: it takes a minute each way."""
    edge = (base - 690.0) / (base - to)
    return (
        *GOOD[:3],
        (at - edge, base),
        (at - edge + 1, to),
        (at + minutes + edge - 1, to),
        (at + minutes + edge, base),
        *GOOD[3:],
    )


def hold(points: Points, seconds: float = 1.0, **more: object) -> float:
    judgement = run(spec_plan("interrupted hold adds up"), {"T2": points}, seconds=seconds)
    assert judgement.hold is not None
    return judgement.hold.total


def test_the_clock_runs_while_all_are_in_range() -> None:
    # Enters at 690 on the way up (405 K in 230 min) and leaves at 690 on the way down (415 K in
    # 240 min), by the straight lines of the course: worked by hand.
    enters = 30 + (690 - 300) / 405 * 230
    leaves = 400 + (705 - 690) / 415 * 240
    judgement = run(spec_plan())
    assert judgement.hold is not None
    assert judgement.hold.total == pytest.approx((leaves - enters) * MINUTE, abs=1e-2)


def test_it_starts_when_the_lowest_reaches_the_range() -> None:
    # Practice of acceptance: the clock starts with the lowest required thermocouple.
    late = (*GOOD[:2], (260.0, 680.0), (280.0, 690.0), (300.0, 705.0), *GOOD[3:])
    judgement = run(spec_plan(), {"T2": late})
    assert judgement.hold is not None
    assert judgement.hold.arrived == pytest.approx(280 * MINUTE)
    assert judgement.hold.last == "T2"


def test_twelve_minutes_low_are_excluded() -> None:
    # Practice (a disputed furnace chart): 12 min below the range do not count, the rest does.
    without = hold(dip(310, 12, 680))
    assert run(spec_plan()).hold.total - without == pytest.approx(12 * MINUTE, abs=1.0)  # type: ignore[union-attr]


def test_a_hold_need_not_be_continuous() -> None:
    # ASME construction codes ask for the time, not for it in one piece (from memory).
    points = (
        *GOOD[:3],
        (330.0, 705.0), (360.0, 660.0), (390.0, 705.0), (460.0, 705.0), (700.0, 290.0),
    )  # fmt: skip
    low = 2 * (705 - 690) / 45 * 30
    for rule, outcome in (
        ("interrupted hold adds up", MET),
        ("interrupted hold starts again", NOT_MET),
    ):
        judgement = run(spec_plan(rule), points=points)
        assert judgement.hold is not None
        pieces = sorted((*judgement.hold.intervals, *judgement.hold.lost))
        assert len(pieces) == 2
        assert verdict(judgement, "hold time").verdict == outcome
    between = pieces[1].start - pieces[0].end
    assert between == pytest.approx((60 - low) * MINUTE, rel=1e-6)


@pytest.mark.parametrize(("minutes", "outcome"), [(120.0, MET), (119.9, NOT_MET)])
def test_the_least_itself_is_enough(minutes: float, outcome: str) -> None:
    jump = ((0.0, 250.0), (30.0, 300.0), (260.0, 690.0), (260.0 + minutes, 690.0), (520.0, 290.0))
    judgement = run(spec_plan(), points=jump, seconds=6.0)
    found = verdict(judgement, "hold time")
    assert found.verdict == outcome
    if outcome == NOT_MET:
        (failure,) = found.failures
        assert "1 h 59 min 54 s of 2 h" in failure.sentence


def test_a_reading_at_the_limit_is_in_range() -> None:
    # 720 degC and 690 degC belong to the range: the interval of the language has both ends.
    flat = ((0.0, 250.0), (30.0, 300.0), (260.0, 720.0), (400.0, 720.0), (640.0, 290.0))
    judgement = run(spec_plan(), points=flat)
    assert verdict(judgement, "hold time").verdict == MET
    assert verdict(judgement, "highest temperature").verdict == MET


def test_a_hold_never_reached_names_the_coldest() -> None:
    cold = (*GOOD[:2], (260.0, 684.25), (400.0, 684.25), GOOD[-1])
    found = verdict(run(spec_plan(), {"T3": cold}), "hold time")
    assert found.verdict == NOT_MET
    assert found.failures[0].tags == ("T3",)
    assert "684.2" in found.failures[0].sentence and "690 degC" in found.failures[0].sentence


def test_only_the_controlling_count_where_the_text_says_so() -> None:
    cold = (*GOOD[:2], (260.0, 680.0), (400.0, 680.0), GOOD[-1])
    plan = spec_plan("hold counts while controlling in range")
    assert verdict(run(plan, {"T3": cold}), "hold time").verdict == MET
    assert verdict(run(plan, {"T2": cold}), "hold time").verdict == NOT_MET


def test_the_controlling_count_once_all_have_been_in_range() -> None:
    late = (*GOOD[:2], (260.0, 680.0), (300.0, 690.0), (310.0, 680.0), (400.0, 680.0), GOOD[-1])
    counts = ("for 2 h\n", "for 2 h counts from all in range\n")
    plan = spec_plan("hold counts while controlling in range", counts)
    judgement = run(plan, {"T3": late})
    assert judgement.hold is not None
    assert judgement.hold.arrived == pytest.approx(300 * MINUTE)
    begins = ("for 2 h\n", "for 2 h counts from controlling in range\n")
    judgement = run(spec_plan("", begins), {"T3": late})
    assert verdict(judgement, "hold time").verdict == MET


def test_readings_that_are_missing_do_not_count() -> None:
    plan, times = spec_plan(), every(60.0, 640.0)
    values = course(GOOD, times)
    values[(times > 280 * MINUTE) & (times < 360 * MINUTE)] = np.nan
    courses = {one.tag: course(GOOD, times) for one in plan.watched} | {"T2": values}
    judgement = judge(record(courses, times), plan)
    found = verdict(judgement, "hold time")
    # 157 min in range without the blank; 78 min of it are blank, which could be enough or not.
    assert found.verdict == NOT_SHOWN
    assert verdict(judgement, "thermocouples").verdict == NOT_SHOWN
    assert judgement.overall == NOT_SHOWN


def test_a_single_blank_is_bridged() -> None:
    plan, times = spec_plan(), every(60.0, 640.0)
    values = course(GOOD, times)
    values[300] = np.nan
    courses = {one.tag: course(GOOD, times) for one in plan.watched} | {"T2": values}
    judgement = judge(record(courses, times), plan)
    assert judgement.hold is not None
    assert judgement.hold.total == pytest.approx(run(plan).hold.total)  # type: ignore[union-attr]


def test_a_required_thermocouple_without_a_column_is_not_shown() -> None:
    plan, times = spec_plan(), every(60.0, 640.0)
    courses = {one.tag: course(GOOD, times) for one in plan.watched if one.tag != "T3"}
    judgement = judge(record(courses, times), plan)
    assert judgement.overall == NOT_SHOWN
    assert verdict(judgement, "hold time").verdict == NOT_SHOWN


def test_no_time_counts_across_a_gap() -> None:
    plan = spec_plan("interrupted hold adds up")
    times = every(60.0, 640.0)
    times = times[(times <= 300 * MINUTE) | (times >= 320 * MINUTE)]
    courses = {one.tag: course(GOOD, times) for one in plan.watched}
    judgement = judge(record(courses, times), plan)
    assert judgement.hold is not None
    assert run(plan).hold.total - judgement.hold.total == pytest.approx(20 * MINUTE)  # type: ignore[union-attr]
    found = verdict(judgement, "readings")
    assert found.verdict == NOT_SHOWN
    assert "20 min" in found.failures[0].sentence


def test_a_repeated_hold_after_a_power_cut() -> None:
    points = (
        *GOOD[:3],
        (300.0, 705.0), (420.0, 510.0), (540.0, 705.0), (660.0, 705.0), (900.0, 290.0),
    )  # fmt: skip
    events = (Event(POWER_LOST, 300 * MINUTE), Event(POWER_BACK, 420 * MINUTE))
    plan = spec_plan(
        "on power loss resume at the present temperature within 2 h\n"
        "excursion at most 10 min in total"
    )
    judgement = run(plan, points=points, events=events)
    assert verdict(judgement, "power loss").verdict == MET
    assert verdict(judgement, "hold time").verdict == MET
    # The cut is an interruption, which has a rule of its own, and no excursion.
    assert verdict(judgement, "time outside the hold range").verdict == MET
    short = spec_plan("on power loss resume at the present temperature within 1 h")
    judgement = run(short, points=points, events=events)
    assert verdict(judgement, "power loss").verdict == NOT_MET
    again = spec_plan("on power loss restart the cycle")
    judgement = run(again, points=points, events=events)
    assert verdict(judgement, "power loss").verdict == NOT_MET
    assert judgement.hold is not None
    assert judgement.hold.arrived > 420 * MINUTE  # type: ignore[operator]


def test_a_hold_broken_off_and_begun_again_without_a_word() -> None:
    points = (
        *GOOD[:3],
        (320.0, 705.0), (560.0, 290.0), (570.0, 290.0), (800.0, 695.0), (940.0, 695.0),
        (1180.0, 280.0),
    )  # fmt: skip
    plan = spec_plan(
        "excursion at most 10 min in total\ninterrupted hold starts again\n"
        "holding spread at most 30 K"
    )
    judgement = run(plan, points=points)
    assert judgement.hold is not None and len(judgement.hold.lost) == 1
    assert verdict(judgement, "hold time").verdict == MET
    assert verdict(judgement, "time outside the hold range").verdict == MET
    assert verdict(judgement, "interruption of the hold").verdict == NOT_SHOWN
    assert judgement.overall == NOT_SHOWN
    events = (Event(POWER_LOST, 320 * MINUTE), Event(POWER_BACK, 560 * MINUTE))
    judgement = run(plan, points=points, events=events)
    assert "interruption of the hold" not in [one.requirement for one in judgement.verdicts]


def test_two_holds_of_one_program() -> None:
    plan = spec_plan(
        "",
        (
            "  heat to 705 degC  at most 120 degC/h\n",
            "  hold 290 .. 340 degC for 1 h\n  heat to 705 degC  at most 120 degC/h\n",
        ),
    )
    points = ((0.0, 250.0), (40.0, 310.0), (110.0, 310.0), (340.0, 705.0), (480.0, 705.0),
              (720.0, 290.0))  # fmt: skip
    judgement = run(plan, points=points)
    first, second = judgement.holds
    assert first.total == pytest.approx((110 + 30 / 395 * 230 - (40 / 60 * 40)) * MINUTE, rel=1e-3)
    assert second.total > 2 * HOUR
    assert [one.action for one in judgement.segments] == ["heat", "hold", "heat", "hold", "cool"]
    # The part comes through the first range again as it cools: that is no hold.
    assert first.left < second.arrived  # type: ignore[operator]
