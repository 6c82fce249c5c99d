"""What the text does not allow is not allowed: dips, interruptions, and words that excuse too much.

Each of these records was called met before the judge was made strict."""

from __future__ import annotations

import numpy as np
import pytest

from hts.record.judging import MET, NOT_MET, NOT_SHOWN, Judgement, judge
from hts.record.record import POWER_BACK, POWER_LOST, Event
from tests.record.judging.made import GOOD, MINUTE, Points, course, every, record, run, spec_plan
from tests.record.judging.made import verdict as of
from tests.rows import each_row

OUTSIDE = "time outside the hold range"


def dip(start: float, minutes: float, to: float, hold: float = 250.0) -> Points:
    """GOOD with a longer hold, in which the reading is at `to` for so many minutes."""
    end = 260.0 + hold
    return (
        *GOOD[:3],
        (start, 705.0), (start + 1, to), (start + minutes - 1, to), (start + minutes, 705.0),
        (end, 705.0), (end + 240.0, 290.0),
    )  # fmt: skip


LONG: Points = (*GOOD[:3], (510.0, 705.0), (750.0, 290.0))


def dipped(plan_words: str, points: Points, events: tuple[Event, ...] = ()) -> Judgement:
    return run(spec_plan(plan_words), {"T3": points}, events, LONG, seconds=30.0)


def test_a_dip_ends_the_count_unless_pieces_add_up() -> None:
    # 90 min before and 150 after: in one piece only the second is long enough; 90 and 100 are not.
    assert of(dipped("", dip(350.0, 10.0, 680.0)), "hold time").verdict == MET
    short = dip(350.0, 60.0, 680.0)
    assert of(dipped("", short), "hold time").verdict == NOT_MET
    found = of(dipped("interrupted hold adds up", short), "hold time")
    assert found.verdict == MET and "lowest 680.0 degC (T3)" in found.actual


def test_without_a_stated_excursion_none_is_allowed() -> None:
    for words in ("interrupted hold adds up", "interrupted hold adds up\nexcursion at most 5 min"):
        found = of(dipped(words, dip(350.0, 10.0, 680.0)), OUTSIDE)
        assert found.verdict == NOT_MET and "T3" in found.failures[0].tags
    assert "no excursion is allowed for" in of(dipped("", LONG), OUTSIDE).specified
    assert of(dipped("", LONG), OUTSIDE).verdict == MET


def test_a_dip_that_is_tolerated_ends_the_count_all_the_same() -> None:
    for words, outcome, pieces in (("", NOT_MET, 1), ("interrupted hold adds up\n", MET, 2)):
        judgement = dipped(
            f"{words}excursion at most 12 min in total", dip(350.0, 10.0, 680.0, 140.0)
        )
        assert of(judgement, "hold time").verdict == outcome
        assert of(judgement, OUTSIDE).verdict == MET
        assert len(judgement.holds[0].intervals) == pieces


def test_a_minute_without_power_does_not_excuse_an_hour_of_a_cold_zone() -> None:
    events = (Event(POWER_LOST, 350 * MINUTE), Event(POWER_BACK, 351 * MINUTE))
    words = (
        "on power loss resume at the present temperature within 1 h\n"
        "interrupted hold adds up\nexcursion at most 10 min in total\n"
        "holding spread at most 40 K"
    )
    judgement = dipped(words, dip(350.0, 60.0, 640.0), events)
    assert of(judgement, OUTSIDE).verdict == NOT_MET
    assert of(judgement, "spread during the hold").verdict == NOT_MET
    assert "lowest 640.0 degC (T3)" in of(judgement, "hold time").actual


def cut(off: float, back: float, to: float) -> Points:
    """All cool for `off` minutes to `to` and are back in range after `back` more."""
    at = 350.0
    return (
        *GOOD[:3], (at, 705.0), (at + off, to), (at + off + back, 705.0), (600.0, 705.0),
        (840.0, 290.0),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("back", "outcome"),
    [(60.0, MET), (90.0, MET), (180.0, NOT_MET)],
)
def test_the_way_back_is_excused_as_far_as_it_is_allowed(back: float, outcome: str) -> None:
    # Down to 640 degC; 50 K up to the range at 120 degC/h are 25 min, at half of that 50.
    words = (
        "on power loss resume at the present temperature within 1 h\n"
        "interrupted hold adds up\nexcursion at most 10 min in total"
    )
    events = (Event(POWER_LOST, 350 * MINUTE), Event(POWER_BACK, 390 * MINUTE))
    points = cut(40.0, back, 640.0)
    judgement = run(spec_plan(words), events=events, points=points, seconds=30.0)
    found = of(judgement, OUTSIDE)
    assert found.verdict == outcome
    assert "by loss of power" in found.actual


def test_power_noted_as_lost_while_the_part_is_kept_hot_excuses_nothing() -> None:
    events = (Event(POWER_LOST, 340 * MINUTE), Event(POWER_BACK, 420 * MINUTE))
    words = (
        "on power loss resume at the present temperature within 2 h\n"
        "interrupted hold adds up\nexcursion at most 10 min in total"
    )
    judgement = dipped(words, dip(355.0, 60.0, 640.0), events)
    assert of(judgement, OUTSIDE).verdict == NOT_MET


def test_making_a_record_worse_never_makes_it_met() -> None:
    """Lower, hotter or away: a record that is not met stays so, and one that is does not."""
    plan, times = spec_plan("excursion at most 10 min in total"), every(60.0, 640.0)
    random = np.random.default_rng(11)
    base = {one.tag: course(GOOD, times) for one in plan.watched}
    assert judge(record(base, times), plan).overall == MET
    bad = {
        **base,
        "T2": np.where((times > 290 * MINUTE) & (times < 320 * MINUTE), 680.0, base["T2"]),
    }
    for courses in (bad, base):
        for _ in range(40):
            tag = str(random.choice([one.tag for one in plan.required]))
            start = int(random.integers(240, 380))
            rows = slice(start, start + int(random.integers(12, 120)))
            values = courses[tag].copy()
            if random.integers(3) == 0:
                values[rows] = np.nan
            elif random.integers(2):
                values[rows] -= random.uniform(16.0, 200.0)
            else:
                values[rows] += random.uniform(16.0, 200.0)
            worse = judge(record({**courses, tag: values}, times), plan)
            assert worse.overall in (NOT_MET, NOT_SHOWN)


TWO_HOLDS = (
    "  heat to 705 degC  at most 120 degC/h\n",
    "  heat to 350 degC  at most 120 degC/h\n"
    "  hold 335 .. 365 degC for 1 h\n"
    "  heat to 705 degC  at most 120 degC/h\n",
)
#: Minutes and degC: held at 350 degC from 60 to 180 min, at 705 degC from 380 to 520 min.
BOTH = ((0.0, 250.0), (60.0, 350.0), (180.0, 350.0), (380.0, 705.0), (520.0, 705.0), (780.0, 290.0))


@each_row(("allowed", "enough"), [("", False), ("10 min", False), ("90 min", True)])
@each_row("hot", [370.0, 400.0])
def test_above_the_range_of_a_hold_that_is_not_the_hottest(
    hot: float, allowed: str, enough: bool
) -> None:
    """Far below the range of the last one, and out of its own for half an hour."""
    more = f"excursion at most {allowed} in total\ninterrupted hold adds up" if allowed else ""
    plan = spec_plan(more, TWO_HOLDS)
    assert run(plan, points=BOTH).overall == MET
    # Up and down at 100 degC/h, so that no rate is too fast.
    up = (hot - 350.0) / 100.0 * 60
    way = ((100.0, 350.0), (100.0 + up, hot), (120.0 + up, hot), (120.0 + 2 * up, 350.0))
    whole = run(plan, {"T2": (*BOTH[:2], *way, *BOTH[2:])}, points=BOTH)
    if allowed:
        found = of(whole, OUTSIDE)
        assert found.verdict == (MET if enough else NOT_MET)
        assert enough or f"T2 was up to {hot:.1f} degC" in found.failures[0].sentence
    else:
        # In one piece: the time after it counts alone, and was not enough.
        assert of(whole, "hold time, step 3").verdict == NOT_MET


def test_noise_at_the_entry_of_the_range_is_no_excursion() -> None:
    """One creeps into it and crosses its edge to and fro; a dip of 5 min later is one."""
    plan = spec_plan("interrupted hold adds up")
    edge = ((262.0, 690.2), (263.0, 689.6), (264.0, 690.3), (265.0, 689.8), (268.0, 690.5))
    creeps: Points = (*GOOD[:2], (260.0, 689.0), *edge, (300.0, 700.0), *GOOD[3:])
    judgement = run(plan, {"T2": creeps})
    assert (of(judgement, OUTSIDE).verdict, of(judgement, OUTSIDE).actual) == (MET, "none")
    falls: Points = (*creeps[:8], (300.0, 700.0), (304.0, 688.0), (310.0, 688.0), (314.0, 700.0),
                     *GOOD[3:])  # fmt: skip
    assert of(run(plan, {"T2": falls}), OUTSIDE).verdict == NOT_MET
