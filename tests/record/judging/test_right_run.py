"""A record is of one run, of this revision, and not older than it."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from hts.record.judging import MET, NOT_SHOWN, judge
from hts.record.record import POWER_BACK, POWER_LOST, Event
from tests.record.judging.made import GOOD, MINUTE, course, every, record, run, spec_plan, verdict

NAME = "run of the record"


@pytest.mark.parametrize(("day", "outcome"), [(31, NOT_SHOWN), (1, MET), (2, MET)])
def test_a_run_before_the_revision(day: int, outcome: str) -> None:
    # Revision A is of 2026-11-01.
    start = datetime(2026, 10 if day == 31 else 11, day, 6, 0, tzinfo=UTC)
    plan, times = spec_plan(), every(60.0, 640.0)
    made = record({one.tag: course(GOOD, times) for one in plan.watched}, times, start=start)
    found = verdict(judge(made, plan), NAME)
    assert found.verdict == outcome
    if outcome != MET:
        assert "2026-10-31" in found.failures[0].sentence


def test_a_record_of_another_revision() -> None:
    plan, times = spec_plan(), every(60.0, 640.0)
    made = record({one.tag: course(GOOD, times) for one in plan.watched}, times)
    judgement = judge(made, plan, against=("log.csv says it is of revision 0",))
    assert verdict(judgement, NAME).verdict == NOT_SHOWN
    assert judgement.overall == NOT_SHOWN


def test_two_runs_in_one_record() -> None:
    # The first is broken off, the second is good.
    first = ((0.0, 250.0), (260.0, 700.0), (300.0, 700.0), (520.0, 280.0), (530.0, 250.0))
    twice = (*first, *((minutes + 540.0, degrees) for minutes, degrees in GOOD))
    judgement = run(spec_plan(), points=twice)
    found = verdict(judgement, NAME)
    assert found.verdict == NOT_SHOWN and "second run" in found.failures[0].sentence
    # A loss of power noted in between explains it.
    events = (Event(POWER_LOST, 300 * MINUTE), Event(POWER_BACK, 500 * MINUTE))
    assert verdict(run(spec_plan(), points=twice, events=events), NAME).verdict == MET
