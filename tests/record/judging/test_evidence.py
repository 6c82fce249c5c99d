"""What a record has to show: gaps, blanks, cuts and doubts, with their ends. GOOD is under control
from 30 min, where it is at 300 degC, to 635 min, the first reading below it again."""

from __future__ import annotations

import numpy as np

from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import HEATER_LOSS, HIGH, KEPT, LEFT_OUT, LOW, MEDIUM
from hts.record.judging import MET, NOT_SHOWN, Judgement, judge
from hts.record.judging.evidence import bridged
from hts.record.record import POWER_BACK, POWER_LOST, Event
from tests.record.judging.made import GOOD, MINUTE, course, every, record, run, spec_plan
from tests.record.judging.made import verdict as of
from tests.rows import each_row

DAY = "2026-11-21"


def blank(*spans: tuple[float, float], tag: str = "T2") -> Judgement:
    """One without readings from and to, both in minutes and both included."""
    plan, times = spec_plan(), every(60.0, 640.0)
    values = course(GOOD, times)
    for begin, end in spans:
        values[(times >= begin * MINUTE) & (times <= end * MINUTE)] = np.nan
    courses = {one.tag: course(GOOD, times) for one in plan.watched} | {tag: values}
    return judge(record(courses, times), plan)


def minutes(judgement: Judgement) -> list[tuple[float, float]]:
    return [(one.start / MINUTE, one.end / MINUTE) for one in judgement.evidence.blanks]


@each_row(
    ("spans", "found"),
    [
        ([(300, 301)], []),  # 299 to 302 min: 3 min, bridged
        ([(300, 302)], [(299, 303)]),  # 4 min: not known from the last to the next reading
        ([(300, 302), (304, 306)], [(299, 307)]),  # with one reading between, at 303 min
        ([(300, 302), (305, 307)], [(299, 303), (304, 308)]),
        ([(0, 29)], []),  # to 30 min, where control begins
        ([(0, 30)], [(0, 31)]),
        ([(635, 640)], [(634, 640)]),
        ([(636, 640)], []),  # from 635 min, where control ends
    ],
)
def test_blanks(spans: list[tuple[float, float]], found: list[tuple[float, float]]) -> None:
    judgement = blank(*spans)
    assert judgement.evidence.controlled == (30 * MINUTE, 635 * MINUTE)
    assert minutes(judgement) == found
    assert minutes(blank(*spans, tag="T4")) == []  # need not be in range
    there = of(judgement, "thermocouples")
    assert there.verdict == (NOT_SHOWN if found else MET)
    assert there.actual == ("readings missing of T2" if found else "complete")


def test_what_is_missing_is_told_with_its_length() -> None:
    found = of(blank((300, 302)), "highest temperature")
    assert found.verdict == NOT_SHOWN
    assert found.actual.endswith("; readings missing for 4 min")
    (one,) = of(blank((300, 302)), "thermocouples").failures
    assert one.tags == ("T2",)
    assert one.sentence == f"T2 has no reading for 4 min from {DAY} 10:59:00 to {DAY} 11:03:00"
    (one,) = of(blank((0, 640)), "thermocouples").failures
    assert one.sentence == "T2 has no reading in the whole record"


def test_bridged() -> None:
    times, nan = np.arange(6.0) * 10, np.nan
    values = np.array([nan, 10.0, nan, 30.0, nan, nan])
    np.testing.assert_allclose(bridged(times, values, 20.0), [nan, 10, 20, 30, nan, nan])
    np.testing.assert_allclose(bridged(times, values, 19.9), values)
    values = np.array([10.0, nan, nan, 40.0, nan, 60.0])
    np.testing.assert_allclose(bridged(times, values, 30.0), [10, 20, 30, 40, 50, 60])
    np.testing.assert_allclose(bridged(times, values, 20.0), [10, nan, nan, 40, 50, 60])


@each_row(
    ("events", "cuts"),
    [
        ([(POWER_LOST, 1), (POWER_BACK, 2)], [(1, 2)]),
        ([(POWER_BACK, 2), (POWER_LOST, 1)], [(1, 2)]),  # written down in whatever order
        ([(POWER_LOST, 1), (POWER_LOST, 2), (POWER_BACK, 3)], [(1, 3)]),
        ([(POWER_LOST, 1), (POWER_BACK, 2), (POWER_BACK, 3)], [(1, 2)]),
        ([(POWER_BACK, 2)], []),
        ([(POWER_LOST, 1), (POWER_BACK, 2), (POWER_LOST, 600)], [(1, 2), (600, 640)]),
    ],
)
def test_power_cuts(events: list[tuple[str, float]], cuts: list[tuple[float, float]]) -> None:
    judgement = run(spec_plan(), events=[Event(kind, at * MINUTE) for kind, at in events])
    found = [(one.start / MINUTE, one.end / MINUTE) for one in judgement.evidence.power_cuts]
    assert found == cuts


@each_row(
    ("tag", "others", "confidence", "treatment", "actual"),
    [
        ("T1", (), HIGH, KEPT, "in doubt: T1"),
        ("T1", (), MEDIUM, KEPT, "in doubt: T1"),
        ("T1", (), LOW, KEPT, "none found"),
        ("", (), HIGH, KEPT, "in doubt: the record"),
        ("T4", (), HIGH, KEPT, "none found"),  # need not be in range
        ("T4", ("T1",), HIGH, KEPT, "in doubt: T1, T4"),
        ("T1", (), HIGH, LEFT_OUT, "none in what counts; left out: T1"),
        ("", (), HIGH, LEFT_OUT, "none in what counts; left out: all"),
    ],
)
def test_doubt(
    tag: str, others: tuple[str, ...], confidence: str, treatment: str, actual: str
) -> None:
    made = run(spec_plan())
    fault = Fault("flat", tag, others, 60.0, 120.0, "for 1 min", confidence, treatment)
    found = of(judge(made.record, made.plan, (fault,)), "measuring chains")
    assert found.actual == actual
    assert found.verdict == (NOT_SHOWN if actual.startswith("in doubt") else MET)
    for one in found.failures:
        assert one.tags == tuple(filter(None, (tag, *others)))
    heat = fault._replace(kind=HEATER_LOSS.name)
    assert of(judge(made.record, made.plan, (heat,)), "measuring chains").verdict == MET


def test_one_in_doubt_proves_nothing_and_one_that_is_sound_does() -> None:
    made = run(spec_plan(), {"T2": ((*GOOD[:2], (260.0, 730.0), (400.0, 705.0), GOOD[-1]))})
    doubt = Fault("flat", "T2", (), 60.0, 120.0, "for 1 min", HIGH, KEPT)
    sound = of(judge(made.record, made.plan), "highest temperature")
    assert sound.verdict == "not met" and sound.failures[0].tags == ("T2",)
    found = of(judge(made.record, made.plan, (doubt,)), "highest temperature")
    assert found.verdict == NOT_SHOWN and found.failures == ()
    assert "which of two is wrong is not known" in found.actual


def test_ranges_reached_one_after_the_other_are_no_hold() -> None:
    """T2 just at 690 degC until 300 min, T3 below it until 310 min: never both."""
    early = (*GOOD[:2], (260.0, 690.0), (300.0, 690.0), (310.0, 600.0), (640.0, 290.0))
    late = (*GOOD[:2], (300.0, 600.0), (320.0, 700.0), (400.0, 700.0), (640.0, 290.0))
    found = of(run(spec_plan(), {"T2": early, "T3": late}), "hold time")
    assert found.failures[0].tags == ("T2",)
    assert found.failures[0].sentence == (
        "at no time were all in range together; the highest reading of T2 was the lowest of all"
    )
