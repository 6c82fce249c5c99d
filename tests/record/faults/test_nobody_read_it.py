"""Readings that nobody took: kept from before, cut off, filled in, copied with a delay, written
twice, or by a clock that ran fast. Each lies in the hold and was called met before it was looked
for; the runs are those of test_not_measured (common practice, no source)."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from hts.record import faults
from hts.record.judging import MET, Judgement, judge
from tests.record.faults.test_not_measured import COLD, PLAN, SECONDS, judged, kinds, noisy
from tests.record.judging.made import every, record
from tests.record.judging.made import verdict as of
from tests.rows import each_row

Courses = dict[str, np.ndarray]
#: Row in the hold at which it begins, and the tags of the zone that T1 controls.
BEGINS = int(290 * 60 / SECONDS)


def rows(minutes: float) -> slice:
    return slice(BEGINS, BEGINS + int(minutes * 60 / SECONDS))


def kept(courses: Courses, part: slice, tags: int) -> None:
    for values in list(courses.values())[:tags]:
        values[part] = values[part.start - 1]


def straight(courses: Courses, part: slice, _: int) -> None:
    for values in courses.values():
        count = part.stop - part.start
        line = np.linspace(values[part.start - 1], values[part.stop], count + 2)[1:-1]
        values[part] = np.round(line, 1)


def twice(courses: Courses, part: slice, _: int) -> None:
    for values in courses.values():
        half = (part.stop - part.start) // 2
        values[part] = np.repeat(values[part.start : part.start + half], 2)


@pytest.mark.parametrize(
    ("change", "kind", "tags"),
    [
        (kept, "stuck", 1),
        (kept, "stuck", 2),
        (kept, "stuck", len(PLAN.watched) - 1),
        (straight, "filled-in", 0),
        (twice, "rows-repeated", 0),
    ],
)
@pytest.mark.parametrize("minutes", [12.0, 40.0])
def test_rows_of_the_hold_that_nobody_read(
    change: Callable[[Courses, slice, int], None], kind: str, tags: int, minutes: float
) -> None:
    for seed in range(3):
        courses = noisy(seed=seed)
        change(courses, rows(minutes), tags)
        judgement = judged(courses)
        # A line that is level stands still, too.
        assert kinds(judgement) & {kind, "all-stand-still" if change is straight else kind}
        assert judgement.overall != MET


@each_row("digit", [0.1, 1.0])
@each_row("added", [1.0, -1.0, 3.0])
def test_rows_put_in_again_with_an_amount_added(added: float, digit: float) -> None:
    """What is measured twice never differs by one amount in every cell."""
    courses = noisy(digit=digit)
    part = rows(20.0)
    for values in courses.values():
        values[part.stop : part.stop + 40] = values[part] + added
    judgement = judged(courses)
    assert kinds(judgement) == {"rows-repeated"}
    assert f"each reading {added:.1f} K higher".replace("-1.0 K higher", "1.0 K lower") in (
        judgement.faults[0].evidence
    )
    assert judgement.overall != MET


@each_row("minutes", [60.0, 90.0])
def test_a_ramp_drawn_in_where_noise_is_finer_than_the_digits(minutes: float) -> None:
    """On the way from one whole degree to the next each goes to and fro; a drawn line never does
    (derived: rounding keeps the order of what only rises, or only falls)."""
    for seed in range(3):
        courses = noisy(((0.0, 300.0), (600.0, 540.0)), digit=1.0, seed=seed)
        assert "filled-in" not in kinds(judged(courses))
        part = slice(400, 400 + int(minutes * 60 / SECONDS))
        for values in courses.values():
            line = np.linspace(values[part.start - 1], values[part.stop], part.stop - part.start)
            values[part] = np.round(line)
        assert "filled-in" in kinds(judged(courses))


@pytest.mark.parametrize("above", [0.3, 3.0])
def test_a_scale_that_ends_below_what_the_metal_reaches(above: float) -> None:
    courses = noisy()
    top = round(max(values.max() for values in courses.values()) - above, 1)
    cut = {tag: np.minimum(values, top) for tag, values in courses.items()}
    long = {tag for tag, values in cut.items() if np.count_nonzero(values == top) > 200}
    judgement = judged(cut)
    found = {one.tag for one in judgement.faults if one.kind == "cut-off"}
    assert found >= long and bool(found) == bool(long)
    assert not found or judgement.overall != MET


@each_row("late", [1, 2, 7])
@each_row("offset", [0.0, 1.3])
def test_a_copy_some_rows_late(late: int, offset: float) -> None:
    courses = noisy()
    one, other = list(courses)[:2]
    courses[other] = np.round(np.roll(courses[one], late) + offset, 1)
    judgement = judged(courses)
    assert {(one, other)} == {
        tuple(sorted((f.tag, *f.others))) for f in judgement.faults if f.kind == "copied"
    }
    assert judgement.overall != MET


def by_the_clock(times: np.ndarray) -> Judgement:
    made = record(noisy(), times)
    found = faults.find(made, PLAN)
    return judge(faults.apply(made, found), PLAN, found)


@each_row("times_as_far", [1.25, 1.5, 2.0])
@each_row("first", [120, BEGINS])
def test_rows_that_come_less_often_for_a_time(times_as_far: float, first: int) -> None:
    """The recorder is to read every minute: stamps 90 s apart are of another setting, or of a clock
    that runs fast, and make a hold longer than it was."""
    times = every(60.0, len(next(iter(noisy().values()))) - 1)
    apart = np.diff(times)
    apart[first : first + 80] *= times_as_far
    readings = of(by_the_clock(np.concatenate(([0.0], np.cumsum(apart)))), "readings")
    assert readings.verdict != MET
    assert "for a time every" in readings.actual


@each_row(("times_as_far", "told"), [(0.85, True), (0.5, False), (1.13, True), (2.0, False)])
def test_rows_of_the_hold_at_times_no_recorder_can_be_set_to(
    times_as_far: float, told: bool
) -> None:
    """Half a minute and two minutes can be set; common practice, no source."""
    apart = np.full(len(next(iter(noisy().values()))) - 1, 60.0)
    apart[BEGINS : BEGINS + 80] = np.round(60.0 * times_as_far)
    judgement = by_the_clock(np.concatenate(([0.0], np.cumsum(apart))))
    assert kinds(judgement) == ({"clock-rate"} if told else set())
    assert judgement.overall != MET or not told


def test_a_few_rows_that_are_late_are_no_other_interval() -> None:
    times = every(60.0, len(next(iter(noisy().values()))) - 1)
    apart = np.diff(times)
    apart[::20] *= 1.6
    assert of(by_the_clock(np.concatenate(([0.0], np.cumsum(apart)))), "readings").verdict == MET


@pytest.mark.parametrize("off", [-9.0, 9.0, 10.5])
def test_one_that_is_off_while_all_are_cold(off: float) -> None:
    """Within what two sound chains may differ by when hot, but cold metal is as warm in one place
    as in another."""
    courses = noisy(COLD)
    first = next(iter(courses))
    middle = float(np.median([values[0] for values in courses.values()]))
    courses[first] = np.round(courses[first] + middle + off - courses[first][0], 1)
    judgement = judged(courses)
    # One that stays off by as much is known for an offset.
    told = {one.kind for one in judgement.faults if one.tag == first}
    assert told & {"apart-when-cold", "offset"}
    assert judgement.overall != MET


@each_row("digit", [0.1, 1.0])
@each_row("noise", [0.02, 0.25])
@each_row("minute", [50.0, 75.0, 420.0])
def test_a_recorder_that_hangs_away_from_the_hold(
    digit: float, noise: float, minute: float
) -> None:
    """From the ramp on, or from the cooling, to the end: metal does not stop at once everywhere."""
    courses = noisy(COLD, noise, digit)
    at = int(minute * 60 / SECONDS)
    for values in courses.values():
        values[at:] = values[at - 1]
    judgement = judged(courses)
    assert kinds(judgement) == {"all-stand-still"}
    assert judgement.overall != MET


@pytest.mark.parametrize("noise", [0.02, 0.1, 0.25])
@pytest.mark.parametrize("minutes", [20.0, 60.0])
def test_a_part_yet_cold_is_no_recorder_that_hangs(noise: float, minutes: float) -> None:
    still = tuple((minute + minutes, degrees) for minute, degrees in COLD)
    for seed in range(4):
        courses = noisy(((0.0, 20.0), *still), noise, 1.0, seed)
        assert not kinds(judged(courses)) & {"all-stand-still", "rows-repeated"}
