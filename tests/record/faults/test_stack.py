"""Records looked at together: none of their faults is lost by that, and none is told otherwise."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hts.record.faults import find, find_each
from hts.record.faults.find import DETECTORS
from hts.record.faults.signals import Signals
from hts.record.faults.stack import lasting, stacks
from hts.record.record import Event, Record, Series
from tests.record.faults.runs import record, stress_relief, times
from tests.record.faults.test_screens import EVERY_WAY, made

_NOISE, _DIGITS = [0.0, 0.05, 0.15, 0.3, 1.0, 3.0], [0.01, 0.1, 1.0]
#: Way, seed, noise K and last digit K.
_RUNS = st.tuples(
    st.sampled_from(sorted(EVERY_WAY)),
    st.integers(0, 10_000),
    st.sampled_from(_NOISE),
    st.sampled_from(_DIGITS),
)


def _counted(of: Record) -> Record:
    """With a count beside the clock that goes slower than it."""
    its = Series(
        "count", of.elapsed * 0.9, np.zeros(len(of.elapsed), np.uint8), "Elapsed time", "s"
    )
    return of._replace(unmapped={"count": its})


#: What sets a record apart from others of its kind, so that it is looked at by itself.
_ODD: dict[str, Any] = {
    "nothing": lambda of: of,
    "one less": lambda of: of._replace(series=dict(list(of.series.items())[1:])),
    "another order": lambda of: of._replace(series=dict(reversed(of.series.items()))),
    "a blank": lambda of: record(
        {tag: its.values for tag, its in of.series.items()}, 120.0, blanks={"T3": [7]}
    ),
    "a column without a change": lambda of: of._replace(
        series=of.series | {"T7": of.series["T7"]._replace(values=np.full(len(of.elapsed), 21.0))}
    ),
    "an event": lambda of: of._replace(events=(Event("note", 60.0),)),
    "a later clock": lambda of: of._replace(elapsed=of.elapsed * 1.5, interval=180.0),
    "a gap": lambda of: record(
        {tag: its.values for tag, its in of.series.items()},
        elapsed=times(120.0) + 5400.0 * (times(120.0) > 9000.0),
    ),
    "a count": _counted,
    "few rows": lambda of: record(
        {tag: its.values[::6] for tag, its in of.series.items()}, elapsed=times(120.0)[::6]
    ),
}


@settings(max_examples=20)
@given(runs=st.lists(_RUNS, min_size=2, max_size=4), interval=st.sampled_from([60.0, 120.0]))
def test_a_screen_that_is_shut_hides_no_fault(runs: list[Any], interval: float) -> None:
    its = [made(*run, interval, []) for run in runs]
    for numbers, stack in stacks(its, stress_relief()):
        signals = [Signals(its[number], stress_relief()) for number in numbers]
        for detector in DETECTORS:
            shut = np.flatnonzero(~detector.may(stack)).tolist()
            assert [(detector.may, runs[numbers[at]]) for at in shut
                    if detector.find(signals[at])] == []  # fmt: skip


@settings(max_examples=10)
@given(runs=st.lists(st.tuples(_RUNS, st.sampled_from(sorted(_ODD))), min_size=1, max_size=5))
def test_many_are_told_as_each_by_itself(runs: list[Any]) -> None:
    its = [_ODD[odd](made(*run, 120.0, [])) for run, odd in runs]
    assert find_each(its, stress_relief()) == [find(one, stress_relief()) for one in its]


@pytest.mark.parametrize("odd", sorted(set(_ODD) - {"one less", "another order", "a later clock"}))
def test_what_stands_in_a_stack(odd: str) -> None:
    """Only what is complete and has nothing beside its readings."""
    its = _ODD[odd](made("sound", 1, 0.3, 0.1, 120.0, []))
    assert bool(list(stacks([its], stress_relief()))) == (odd == "nothing")


def test_of_sound_records_most_screens_are_shut() -> None:
    """Or nothing were gained by them."""
    its = [made("sound", seed, 0.3, 0.1, 60.0, []) for seed in range(8)]
    ((numbers, stack),) = stacks(its, stress_relief())
    opened = np.array([one.may(stack) for one in DETECTORS])
    assert numbers == list(range(8)) and opened.mean() < 0.15


@given(
    mask=st.lists(st.booleans(), min_size=12, max_size=40),
    least=st.integers(1, 9),
)
def test_rows_on_end(mask: list[bool], least: int) -> None:
    found = lasting(np.array([mask]), least)[0].tolist()
    assert found == [all(mask[at : at + least]) for at in range(len(mask) - least + 1)]
