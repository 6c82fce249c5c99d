"""How long metal was at temperature, from the lines between readings; arithmetic, no source."""

from types import SimpleNamespace as Some
from typing import Any

import numpy as np
import pytest

from hts.record.judging.hold_verdicts import at_temperature


def evidence(**courses: list[float]) -> Any:
    values = np.array([*courses.values()], dtype=np.float64)
    times = 60.0 * np.arange(values.shape[1])
    complete = not np.isnan(values).any()
    required = [Some(tag=tag) for tag in courses]
    return Some(required=required, values=values, times=times, complete=complete)


def test_a_reading_at_the_limit_is_at_temperature() -> None:
    lasted, tag, when = at_temperature(evidence(T1=[600, 690, 700, 690, 600]), 690)
    assert (tag, *when) == ("T1", 60, 180)
    assert lasted == pytest.approx(120, abs=0.5)


def test_the_longest_of_all_counts_with_the_way_up_and_down() -> None:
    # From 660 to 720 degC in a minute: 690 degC is passed half way, twice.
    found = at_temperature(evidence(T1=[600, 690, 600, 600], T2=[660, 720, 720, 660]), 690)
    assert (found[1], *found[2]) == ("T2", 60, 120)
    assert found[0] == pytest.approx(30 + 60 + 30, abs=0.5)


def test_time_without_readings_between_two_hot_ones_is_counted_in() -> None:
    nan = float("nan")
    lasted, tag, _ = at_temperature(evidence(T1=[700, nan, nan, 700], T2=[700, 700, 600, 600]), 690)
    assert (tag, lasted) == ("T1", pytest.approx(180))


def test_never_hot_is_no_time() -> None:
    lasted, _, when = at_temperature(evidence(T1=[600, 610, 600]), 690)
    assert (lasted, *when) == (0, 0, 0)
