"""Readings that were not measured, or by a chain that cannot be right: found, and never met.

The runs are straight lines with noise (common practice, no source); each of these was called met
before it was looked for."""

from __future__ import annotations

import numpy as np
import pytest

from hts.record import faults
from hts.record.faults import find
from hts.record.judging import MET, Judgement, judge
from hts.record.record import REPLACED, Event
from tests.record.faults import runs as shape
from tests.record.faults.test_changed_over import with_spares
from tests.record.judging.made import GOOD, MINUTE, Points, course, every, record, spec_plan
from tests.record.judging.made import verdict as of
from tests.rows import each_row

PLAN = spec_plan("excursion at most 10 min in total")
SECONDS = 30.0
TIMES = every(SECONDS, 640.0)
#: From cold, heated without a limit to 300 degC.
COLD: Points = ((0.0, 20.0), (20.0, 20.0), (90.0, 300.0), *((m + 60, d) for m, d in GOOD[2:]))


def noisy(points: Points = GOOD, noise: float = 0.25, digit: float = 0.1, seed: int = 1):  # type: ignore[no-untyped-def]
    random = np.random.default_rng(seed)
    times = every(SECONDS, points[-1][0])
    found = {}
    for number, one in enumerate(PLAN.watched):
        part = 0.65 if one.place == "heated edge" else 1.0
        values = 20 + (course(points, times) - 20) * part + random.normal(0.0, 0.5)
        values = (
            values + 0.8 * np.sin(times / 1500 + number) + random.normal(0.0, noise, len(times))
        )
        found[one.tag] = np.round(values / digit) * digit
    return found


def judged(courses: dict[str, np.ndarray], events: tuple[Event, ...] = ()) -> Judgement:
    times = every(SECONDS, (len(next(iter(courses.values()))) - 1) * SECONDS / MINUTE)
    made = record(courses, times, events)
    found = faults.find(made, PLAN)
    return judge(faults.apply(made, found), PLAN, found)


def kinds(judgement: Judgement) -> set[str]:
    return {fault.kind for fault in judgement.faults}


@each_row("points", [GOOD, COLD])
@each_row("noise", [0.1, 0.25, 0.6])
@each_row("digit", [0.1, 1.0])
def test_a_sound_run_is_met_without_a_fault(points: Points, noise: float, digit: float) -> None:
    for seed in range(3):
        judgement = judged(noisy(points, noise, digit, seed))
        assert kinds(judgement) == set()
        assert judgement.overall == MET


@each_row("by", [5.0, 8.0])
@each_row("every_minutes", [7.0, 12.0])
def test_contactors_that_close_together_are_no_step_of_the_cold_junction(
    by: float, every_minutes: float
) -> None:
    """Within a row all rise alike, and come back by the next; it goes on so the whole time."""
    courses = noisy(COLD)
    period = int(every_minutes * 60 / SECONDS)
    for values in courses.values():
        turn = np.arange(len(values)) % period
        values += np.round(by * np.where(turn < 2, turn / 2, (period - turn) / (period - 2)), 1)
    assert "cold-junction" not in kinds(judged(courses))


@each_row("digit", [0.1, 1.0])
@each_row(("start", "minutes"), [(120, 10), (280, 30), (275, 110)])
def test_a_recorder_that_hangs(start: int, minutes: int, digit: float) -> None:
    courses = noisy(digit=digit)
    rows = slice(int(start * 60 / SECONDS), int((start + minutes) * 60 / SECONDS))
    for values in courses.values():
        values[rows] = values[rows.start - 1]
    judgement = judged(courses)
    assert kinds(judgement) == {"all-stand-still"}
    assert judgement.overall != MET


@pytest.mark.parametrize("digit", [0.1, 1.0])
def test_rows_that_stand_there_twice(digit: float) -> None:
    courses = noisy(digit=digit)
    for values in courses.values():
        values[700:760] = values[560:620]
    judgement = judged(courses)
    assert kinds(judgement) == {"rows-repeated"}
    assert judgement.overall != MET


@each_row("digit", [0.1, 1.0])
@each_row("by", [0.0, -1.0])
def test_rows_put_in_again_the_last_one_first(digit: float, by: float) -> None:
    courses = noisy(digit=digit)
    for values in courses.values():
        values[700:760] = values[639:579:-1] + by
    judgement = judged(courses)
    assert kinds(judgement) == {"rows-repeated"}
    assert judgement.overall != MET


@each_row("noise", [0.0, 0.25])
def test_a_course_that_is_alike_on_its_two_sides_was_not_put_in_again(noise: float) -> None:
    """Up and down by the same ramp, and a hold that swings evenly under its controller."""
    times = every(SECONDS, 640.0)
    ramp = 20 + np.minimum(times, times[::-1]) / times[-1] * 1200
    swings = np.minimum(ramp, 600 + 4 * np.abs(np.mod(times / 1800, 1) - 0.5))
    random = np.random.default_rng(1)
    courses = {
        one.tag: np.round(swings * part + random.normal(0.0, noise, len(times)), 1)
        for one, part in zip(PLAN.watched, np.linspace(1, 0.97, len(PLAN.watched)), strict=True)
    }
    assert "rows-repeated" not in kinds(judged(courses))


@each_row("off", [0.0, 0.3, -2.0])
@each_row("share", [1.0, 1.005])
def test_a_column_that_is_a_copy(off: float, share: float) -> None:
    courses = noisy()
    courses["T3"] = np.round((courses["T2"] * share + off) * 10) / 10
    judgement = judged(courses)
    assert kinds(judgement) == {"copied"}
    assert {judgement.faults[0].tag, *judgement.faults[0].others} == {"T2", "T3"}
    assert judgement.overall != MET


@pytest.mark.parametrize("off", [30.0, -30.0])
def test_a_copy_in_whole_degrees(off: float) -> None:
    courses = noisy(digit=1.0)
    courses["T3"] = courses["T2"] + np.round(off / 10)
    assert kinds(judged(courses)) == {"copied"}


#: Steep and without a level: in whole degrees such a course hardly shows its noise.
STEEP: Points = ((0.0, 20.0), (110.0, 300.0), (310.0, 620.0), (640.0, 90.0))


@pytest.mark.parametrize("digit", [1.0, 5 / 9])
def test_a_copy_whose_noise_hardly_shows(digit: float) -> None:
    """The record has noise, which one channel near a level shows; the two steep ones hardly do."""
    tags = [one.tag for one in PLAN.watched if one.required]
    (edge,) = [one.tag for one in PLAN.watched if one.place == "heated edge"]
    for seed in range(4):
        courses = noisy(STEEP, 0.06, digit, seed)
        level = np.minimum(courses[edge], 180.0)
        level += np.random.default_rng(seed).normal(0.0, 0.3, len(level))
        courses[edge] = np.round(level / digit) * digit
        assert "copied" not in kinds(judged(courses))
        courses[tags[1]] = courses[tags[0]].copy()
        assert "copied" in kinds(judged(courses))


@each_row("digit", [0.1, 1.0, 5 / 9])
@each_row("noise", [0.06, 0.1])
def test_two_side_by_side_in_coarse_digits_are_no_copies(digit: float, noise: float) -> None:
    """The same metal and the same error; only the noise is of each."""
    tags = [one.tag for one in PLAN.watched if one.required]
    random = np.random.default_rng(4)
    for points in (GOOD, STEEP):
        courses = noisy(points, 0.06, 0.001)
        beside = courses[tags[0]] + random.normal(0.0, noise, len(courses[tags[0]]))
        courses[tags[1]] = beside
        rounded = {tag: np.round(values / digit) * digit for tag, values in courses.items()}
        assert "copied" not in kinds(judged(rounded))


@pytest.mark.parametrize("off", [30.0, -30.0])
def test_a_spare_that_reads_otherwise(off: float) -> None:
    courses = noisy()
    courses["T1S"] = courses["T1S"] + off
    judgement = judged(courses)
    assert kinds(judgement) == {"disagree"}
    (fault,) = judgement.faults
    assert (fault.tag, fault.others) == ("T1", ("T1S",))
    assert fault.confidence == "high" and "at the same place" in fault.evidence
    assert judgement.overall != MET
    assert of(judgement, "measuring chains").verdict != MET


def test_a_spare_that_was_put_in_use_is_not_compared_with_what_it_replaced() -> None:
    courses = noisy()
    courses["T1"][700:] -= 40.0
    judgement = judged(courses, (Event(REPLACED, 700 * SECONDS, "T1", "T1S"),))
    assert "disagree" not in kinds(judgement)


def test_spares_count_for_the_highest_temperature() -> None:
    courses = noisy()
    courses["T1S"][600:640] += 20.0
    found = of(judged(courses), "highest temperature")
    assert found.verdict != MET and "T1S" in found.actual


@pytest.mark.parametrize("off", [25.0, -20.0])
def test_one_that_is_apart_when_all_are_cold(off: float) -> None:
    courses = noisy(COLD)
    courses["T3"] = courses["T3"] + off
    judgement = judged(courses)
    assert kinds(judgement) & {"apart-when-cold", "offset"}
    assert judgement.overall != MET


@pytest.mark.parametrize("what", ["a copy", "nothing", "something else"])
def test_a_column_nobody_asked_for_changes_no_verdict(what: str) -> None:
    courses = noisy()
    rows = len(courses["T1"])
    times = every(SECONDS, 640.0)
    bad = {**courses, "T2": np.where((TIMES > 17400) & (TIMES < 19800), 660.0, courses["T2"])}
    for before in (courses, bad):
        made = record(before, times)
        found = faults.find(made, PLAN)
        plain = judge(faults.apply(made, found), PLAN, found)
        more = {
            "a copy": before["T1"],
            "nothing": np.full(rows, np.nan),
            "something else": np.random.default_rng(3).uniform(0, 100, rows),
        }[what]
        extra = record({"X": more}, times).series
        made = made._replace(unmapped=extra)
        found = faults.find(made, PLAN)
        assert judge(faults.apply(made, found), PLAN, found).verdicts == plain.verdicts


@each_row("digit", [0.1, 1.0])
@each_row("apart", [0.0, 2.0])
def test_a_channel_that_shows_another_for_a_part_of_the_run_shows_nothing(
    digit: float, apart: float
) -> None:
    """Bridged to its neighbour when it failed, in the hold and after."""
    courses = noisy(noise=0.3, digit=digit)
    at = int(300 * MINUTE / SECONDS)
    courses["T2"][at:] = courses["T1"][at:] + apart
    judgement = judged(courses)
    assert "copied" in kinds(judgement) and judgement.overall != MET
    (fault,) = [one for one in judgement.faults if one.kind == "copied"]
    assert {fault.tag, *fault.others} == {"T1", "T2"}
    assert fault.start == pytest.approx(at * SECONDS, abs=5 * SECONDS)


def test_a_spare_noted_on_both_channels_is_no_copy() -> None:
    courses = noisy()
    at = int(300 * MINUTE / SECONDS)
    courses["T1"][at:] = courses["T1S"][at:]
    judgement = judged(courses, (Event(REPLACED, at * SECONDS, "T1", "T1S"),))
    assert "copied" not in kinds(judgement)


@pytest.mark.parametrize("digit", [2.0, 5.0])
def test_steps_of_coarse_digits_are_no_fault_of_the_cold_junction(digit: float) -> None:
    for seed in range(3):
        assert "cold-junction" not in kinds(judged(noisy(digit=digit, seed=seed)))


def test_quick_rows_of_a_quiet_record_repeat_by_chance() -> None:
    """Read every 4 s with a noise of half a digit: in dozens of rows all read as before."""
    for seed in (1, 2):
        run = shape.readings(4.0, noise=0.05, seed=seed)
        same = np.all(np.abs([np.diff(values) for values in run.values()]) < 1e-9, axis=0)
        assert np.count_nonzero(same) > 10
        assert find(shape.record(run, 4.0), shape.stress_relief()) == ()


@pytest.mark.parametrize("lag", [120.0, 300.0, 600.0])
def test_an_edge_that_is_late_is_not_exchanged_with_a_control(lag: float) -> None:
    """It goes against its own zone as the control of the other one does, which has its spare."""
    run = with_spares()
    run["T3"] = np.round(shape.late(shape.times(), run["T3"], lag), 1)
    run["T4"] = np.round(shape.late(shape.times(), run["T4"], lag / 2), 1)
    kinds_found = {one.kind for one in find(shape.record(run), shape.stress_relief())}
    assert "exchanged" not in kinds_found


@pytest.mark.parametrize("rows", [2, 3])
def test_a_second_recorder_that_reads_less_often(rows: int) -> None:
    """What stands there twice is one reading: it makes no copy of two, and is told as too seldom. A
    copy among its columns is one all the same."""
    for copy in (False, True):
        courses = noisy()
        tags = list(courses)[2:]
        its = np.arange(len(TIMES)) // rows * rows
        if copy:
            courses[tags[1]] = courses[tags[0]] + 1.0
        for tag in tags:
            courses[tag] = courses[tag][its]
        made = record(courses, TIMES)
        for tag in tags:
            made.series[tag] = made.series[tag]._replace(rows=its)
        found = faults.find(made, PLAN)
        assert [one.kind for one in found] == ["copied"] * copy
        judgement = judge(faults.apply(made, found), PLAN, found)
        seldom = rows * SECONDS > MINUTE
        assert (of(judgement, "readings").verdict == MET) is not seldom
        assert (tags[0] in of(judgement, "readings").actual) is seldom


@pytest.mark.parametrize("digit", [0.1, 1.0])
@pytest.mark.parametrize("level", [0.0, 3.0])
def test_two_that_one_heater_moves_are_no_copies(digit: float, level: float) -> None:
    """The metal goes to and fro as its heater is switched, far more than the noise of either; they
    draw apart while it is heated. With noise alone in place of that they are one."""
    random = np.random.default_rng(3)
    courses = noisy(noise=0.05, digit=digit)
    one, other = list(courses)[:2]
    switched = late_of(3.0 * np.sign(np.sin(TIMES / 90)), 2)
    apart = 2.5 * course(((0.0, 0.0), (150.0, 1.0), (270.0, 0.2), (640.0, -1.0)), TIMES)
    for tag in (one, other):
        own = random.normal(0.0, 0.05, len(TIMES)) + (tag == other) * (apart + level)
        courses[tag] = np.round((course(GOOD, TIMES) + switched + own) / digit) * digit
    assert "copied" not in kinds(judged(courses))
    courses[other] = courses[one] + level
    assert "copied" in kinds(judged(courses))


def late_of(values: np.ndarray, rows: int) -> np.ndarray:
    """As metal follows what heats it: means of so many rows before."""
    return np.convolve(values, np.ones(rows) / rows)[: len(values)]


def furnace(seed: int, noise: float, digit: float, channels: int = 7):  # type: ignore[no-untyped-def]
    """A part in a furnace read each minute: its air is kept to within some tenths of a kelvin, and
    each place follows by its own lag and is off by its own amount (common practice, no source)."""
    random = np.random.default_rng(seed)
    at = np.arange(0.0, 16 * 3600.0, 60.0)
    air = np.interp(at / 3600, [0, 0.3, 5.3, 11.3, 16.0], [20.0, 20.0, 610.0, 610.0, 140.0])
    air = air + np.cumsum(random.normal(0.0, 0.02, at.size))
    air = air + random.uniform(0.0, 0.4) * np.sin(at / random.uniform(60.0, 240.0))
    found = {}
    for tag in list(shape.TAGS | shape.EDGES)[:channels]:
        course = shape.late(at, air, random.uniform(200.0, 1500.0)) + random.normal(0.0, 1.0)
        course = course + random.normal(0.0, noise, at.size)
        found[tag] = np.round(course / digit) * digit
    return at, found


@pytest.mark.parametrize("noise", [0.0, 0.03, 0.1, 0.7])
@pytest.mark.parametrize("digit", [1.0, 5 / 9])
def test_a_quiet_furnace_in_whole_degrees_is_sound(noise: float, digit: float) -> None:
    """All stand still for hours, and rows come as some did before."""
    told = ("all-stand-still", "rows-repeated", "filled-in", "worked-out", "coarse", "stuck")
    for seed in range(4):
        at, values = furnace(seed, noise, digit, 3 + seed)
        found = find(shape.record(values, 60.0, at), shape.stress_relief())
        assert not {one.kind for one in found} & set(told)


@pytest.mark.parametrize("seed", [0, 1, 2])
def test_a_recorder_that_hangs_beside_a_quiet_furnace(seed: int) -> None:
    """For an hour and a half of a hold, in which each channel comes and goes by a digit."""
    at, values = furnace(seed, 0.25, 1.0)
    for its in values.values():
        its[430:520] = its[429]
    found = find(shape.record(values, 60.0, at), shape.stress_relief())
    assert [one.kind for one in found if one.kind != "exchanged"] == ["all-stand-still"]


@each_row("digit", [0.1, 1.0])
@each_row("coarser", [2.0, 5.0, 10.0])
def test_one_channel_in_coarser_steps(digit: float, coarser: float) -> None:
    courses = noisy(digit=digit)
    courses["T3"] = np.round(courses["T3"] / coarser) * coarser
    judgement = judged(courses)
    assert kinds(judgement) == {"coarse"}
    assert judgement.overall != MET


def test_a_mean_in_whole_degrees() -> None:
    courses = noisy(digit=1.0)
    courses["T3"] = np.round((courses["T1"] + courses["T2"]) / 2)
    judgement = judged(courses)
    assert [(one.kind, one.tag) for one in judgement.faults] == [("worked-out", "T3")]
    assert judgement.overall != MET


@pytest.mark.parametrize("digit", [0.1, 1.0])
def test_a_copy_for_a_part_of_the_hold(digit: float) -> None:
    courses = noisy(digit=digit)
    courses["T3"][560:680] = courses["T2"][560:680]
    judgement = judged(courses)
    assert kinds(judgement) == {"copied"}
    assert judgement.overall != MET
