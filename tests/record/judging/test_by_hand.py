"""Small parts of judging, each on little made by hand: what stands in, what comes too seldom, what
was begun again, and records without what counts."""

from __future__ import annotations

from types import SimpleNamespace as Stub
from typing import Any

import numpy as np

from hts.record.judging import MET, NOT_MET, NOT_SHOWN, judge, kept_hot
from hts.record.judging.evidence import Evidence
from hts.record.judging.interruptions import _again_from_start
from hts.record.record import REPLACED, Event
from tests.record.judging.made import GOOD, course, every, record, spec_plan
from tests.record.judging.made import verdict as of
from tests.rows import each_row

NAN = float("nan")


@each_row(
    ("rarer", "outcome", "actual", "told"),
    [
        ({}, MET, "every 1 min", []),
        ({"T2": 1}, MET, "every 1 min", []),
        ({"T2": 5}, NOT_MET, "every 1 min, T2 every 5 min",
         ["those of T2 come every 5 min, 1 min is asked for"]),
        ({"T2": 5, "T3": 5}, NOT_MET, "every 1 min, T2, T3 every 5 min",
         ["those of T2, T3 come every 5 min, 1 min is asked for"]),
        # Of several the worst is told beside the interval, each in a sentence.
        ({"T2": 5, "T3": 10}, NOT_MET, "every 1 min, T3 every 10 min",
         ["those of T2 come every 5 min, 1 min is asked for",
          "those of T3 come every 10 min, 1 min is asked for"]),
    ],
)  # fmt: skip
def test_thermocouples_of_files_that_are_read_less_often(
    rarer: dict[str, int], outcome: str, actual: str, told: list[str]
) -> None:
    plan, times = spec_plan(), every(60.0, 640.0)
    made = record({one.tag: course(GOOD, times) for one in plan.watched}, times)
    for tag, each in rarer.items():
        rows = np.arange(len(times)) // each
        again = made.series[tag].values[rows * each]
        made.series[tag] = made.series[tag]._replace(rows=rows, values=again)
    found = of(judge(made, plan), "readings")
    assert (found.verdict, found.actual) == (outcome, actual)
    assert [failure.sentence for failure in found.failures] == told


@each_row("tags", [("T4",), ("T3", "T4"), ("T1", "T3"), ()])
def test_a_record_without_a_thermocouple_that_counts_shows_no_hold(tags: tuple[str, ...]) -> None:
    times = every(60.0, 640.0)
    made = record({tag: course(GOOD, times) for tag in ("T1S", *tags)}, times)
    judgement = judge(made, spec_plan())
    assert of(judgement, "hold time").verdict == NOT_SHOWN
    assert of(judgement, "thermocouples").verdict == NOT_SHOWN
    assert of(judgement, "highest temperature").verdict != MET


@each_row(
    ("notes", "tag", "duty"),
    [
        ([], "T1S", "T1S"), ([("T1", "T1S", 100.0)], "T1S", "T1"),
        ([("T1", "T1S", 100.0)], "T1", "T1"), ([("T1", "T1S", 600.0)], "T1S", "T1"),
        ([("T1", "T1S", 600.1)], "T1S", "T1S"), ([("X9", "T1S", 100.0)], "T1S", "T1S"),
        # Of two notes on one thermocouple the later counts.
        ([("T1", "T1S", 100.0), ("T1", "T4", 200.0)], "T1S", "T1S"),
        ([("T1", "T4", 200.0), ("T1", "T1S", 100.0)], "T4", "T1"),
        ([("T1", "T1S", 100.0), ("T2", "T4", 200.0)], "T4", "T2"),
    ],
)  # fmt: skip
def test_whose_duty_a_thermocouple_has(
    notes: list[tuple[str, str, float]], tag: str, duty: str
) -> None:
    events = tuple(Event(REPLACED, at, lost, by) for lost, by, at in notes)
    by_tag = {name: Stub(tag=name) for name in ("T1", "T1S", "T2", "T4")}
    evidence: Any = Stub(record=Stub(events=events, end=600.0), plan=Stub(by_tag=by_tag))
    evidence.replaced = Evidence.replaced.func(evidence)  # type: ignore[attr-defined]
    evidence.taken_over = Evidence.taken_over.func(evidence)  # type: ignore[attr-defined]
    assert Evidence.duty_of(evidence, by_tag[tag]).tag == duty  # type: ignore[arg-type]


@each_row(
    ("start", "after", "outcome"),
    [
        # As cold as the start and hot again; a hair beside it is not, nor is cold at the end alone.
        (300.0, [600, 300, 500, 700, 250], MET), (300.0, [600, 300.1, 500, 700, 250], NOT_MET),
        (300.0, [700, 600, 300, 200], NOT_MET), (300.0, [NAN, NAN, NAN], NOT_MET),
        (300.0, [NAN, 299, NAN, 700], MET),
        # Without a temperature control starts at, where the program itself starts.
        (None, [600, 250, 700, 20], MET), (None, [600, 251, 700, 20], NOT_MET),
    ],
)  # fmt: skip
def test_a_cycle_that_was_begun_again(
    start: float | None, after: list[float], outcome: str
) -> None:
    readings = np.array([20.0, 705.0, *after])
    evidence: Any = Stub(
        plan=Stub(control_start=start, spans=[Stub(start=250.0), Stub(start=999.0)]),
        highest=readings, times=np.arange(len(readings)) * 60.0, words=Stub(edge=str),
    )  # fmt: skip
    found, sentence = _again_from_start(evidence, 120.0, "off")
    told = "" if outcome == MET else f"; the cycle was not begun again at {start or 250.0} or below"
    assert (found, sentence) == (outcome, f"off{told}")


def test_a_preheat_the_text_does_not_give_is_shown_elsewhere() -> None:
    plan = Stub(comes_hot="from preheat", kept_before=None, why=lambda *_: None, address="W1/c")
    evidence: Any = Stub(plan=plan, words=None, record=Stub(end=600.0, events=()))
    (found,) = kept_hot.verdicts(evidence, [])
    assert (found.verdict, found.elsewhere) == (NOT_SHOWN, True)
    plan.comes_hot = None
    assert kept_hot.verdicts(evidence, []) == []
