"""Whatever a record holds, it is judged, and missing evidence is never called met."""

from __future__ import annotations

import json
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hts.record.judging import MET, NOT_SHOWN, document, judge, text
from hts.record.plan import Plan
from hts.record.record import EVENTS, Event
from tests.record.judging.made import GOOD, course, every, file_plan, record, spec_plan

PLANS = (
    spec_plan("guard band expanded uncertainty\nexcursion at most 10 min each"),
    file_plan("p22-header.hts"),
    file_plan("p91-pipe.hts", "bake"),
    file_plan("p91-pipe.hts", "preheat"),
    file_plan("p91-pipe.hts", "tempering"),
)
DEGREES = st.one_of(st.floats(-50.0, 1300.0), st.sampled_from([np.nan, 690.0, 720.0, 300.0]))


@st.composite
def records(draw: st.DrawFn, plan: Plan) -> object:
    count = draw(st.integers(2, 30))
    steps = draw(st.lists(st.sampled_from([1.0, 60.0, 900.0, 7200.0]), min_size=count - 1,
                          max_size=count - 1))  # fmt: skip
    times = np.concatenate(([0.0], np.cumsum(steps)))
    tags = [one.tag for one in plan.watched]
    kept = draw(st.lists(st.sampled_from(tags), unique=True))
    courses = {
        tag: np.array(draw(st.lists(DEGREES, min_size=count, max_size=count))) for tag in kept
    }
    events = [
        Event(draw(st.sampled_from(EVENTS)), draw(st.floats(-3600.0, times[-1] + 3600.0)),
              draw(st.sampled_from([*tags, "T99"])), draw(st.sampled_from(tags)))
        for _ in range(draw(st.integers(0, 3)))
    ]  # fmt: skip
    return record(courses, times, events)


@pytest.mark.parametrize("plan", PLANS, ids=lambda plan: plan.address)
@given(data=st.data())
def test_any_record_is_judged(plan: Plan, data: st.DataObject) -> None:
    made = data.draw(records(plan))
    judgement = judge(made, plan)  # type: ignore[arg-type]
    json.loads(document.write(judgement), parse_constant=lambda name: pytest.fail(name))
    assert text.write(judgement)
    for clock in judgement.holds:
        assert all(a.end <= b.start for a, b in pairwise(clock.intervals))
        assert clock.total <= judgement.record.end


@given(
    tag=st.sampled_from([one.tag for one in spec_plan().required]),
    start=st.integers(0, 600),
    length=st.integers(1, 640),
)
def test_taking_readings_away_never_makes_a_record_better(
    tag: str, start: int, length: int
) -> None:
    plan, times = spec_plan(), every(60.0, 640.0)
    courses = {one.tag: course(GOOD, times) for one in plan.watched}
    assert judge(record(courses, times), plan).overall == MET
    values = courses[tag].copy()
    values[start : start + length] = np.nan
    judgement = judge(record({**courses, tag: values}, times), plan)
    # Two blanks are bridged; what is before or after the control of the run does not matter.
    needed = start + length > 30 and start < 634 and length > 2
    assert judgement.overall == (NOT_SHOWN if needed else MET)


def test_a_record_of_nothing() -> None:
    plan, times = spec_plan(), every(60.0, 640.0)
    judgement = judge(record({}, times), plan)
    assert judgement.overall == NOT_SHOWN
    shown = [one.requirement for one in judgement.verdicts if one.verdict == MET]
    assert shown == ["readings", "calibration of recorder R1"]
