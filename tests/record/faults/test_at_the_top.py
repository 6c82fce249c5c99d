"""A channel that ends below what the metal reaches is told by the others, which rise above it and
come back; metal that is a little colder is not (common practice, no source)."""

import numpy as np
import pytest

from hts.record.faults import find
from tests.record.faults.runs import HOLD, late, readings, record, stress_relief, times
from tests.rows import each_row


@each_row("interval", [10.0, 60.0])
@each_row(("noise", "digit"), [(0.05, 0.1), (0.3, 0.1), (0.15, 1.0), (0.4, 1.0)])
@each_row("below", [16.0, 30.0])
@each_row("tag", ["T1", "T4"])
def test_cut_off_below_the_hold(
    interval: float, noise: float, digit: float, below: float, tag: str
) -> None:
    values = readings(interval, noise, digit)
    values[tag] = np.minimum(values[tag], HOLD - below)
    (fault,) = find(record(values, interval), stress_relief())
    assert (fault.kind, fault.tag, fault.treatment) == ("cut-off", tag, "left out")
    hot = times(interval)[values[tag] == HOLD - below]
    # A lone reading at the top, with those before and after it below, is left as it is.
    assert fault.start == pytest.approx(hot[0], abs=900) and fault.end <= hot[-1]


@each_row("interval", [10.0, 60.0])
@each_row(("noise", "digit"), [(0.05, 0.1), (0.3, 0.01), (0.6, 1.0), (0.15, 1.0)])
@each_row("below", [10.0, 16.0, 30.0])
def test_a_range_that_ends_for_all(
    interval: float, noise: float, digit: float, below: float
) -> None:
    """None is left to rise: each piles up at the figure where the range ends."""
    values = readings(interval, noise, digit)
    tags = ("T1", "T2", "T3", "T4")
    for tag in tags:
        values[tag] = np.minimum(values[tag], HOLD - below)
    found = find(record(values, interval), stress_relief())
    assert {one.tag for one in found if one.treatment == "left out"} == set(tags)
    assert {one.kind for one in found} <= {"cut-off", "stuck", "flat"}


@each_row("seed", [1, 2, 3])
@each_row(("noise", "digit"), [(0.0, 1.0), (0.1, 1.0), (0.3, 1.0), (0.6, 1.0), (0.3, 0.1)])
def test_a_hold_at_one_figure_is_no_range_that_ends(noise: float, digit: float, seed: int) -> None:
    """All are kept at the same temperature, in whole degrees, some of them a little below it."""
    at = times(30.0)
    random = np.random.default_rng(seed)
    program = np.interp(at / 3600, [0, 0.3, 4.2, 6.5, 12.5], [20.0, 20.0, HOLD, HOLD, 80.0])
    values = readings(30.0, noise, digit)
    for tag, off in zip(("T1", "T2", "T3", "T4"), (0.0, -0.2, -0.3, 0.1), strict=True):
        course = late(at, program, 300.0) + off + random.normal(0.0, noise, at.size)
        values[tag] = np.round(course / digit) * digit
    kinds = {fault.kind for fault in find(record(values, 30.0), stress_relief())}
    assert "cut-off" not in kinds


@pytest.mark.parametrize("noise", [0.02, 0.15, 0.4])
@pytest.mark.parametrize("interval", [10.0, 60.0])
def test_colder_metal_is_not(noise: float, interval: float) -> None:
    """Kept colder in the hold; first to arrive there, and first to leave; last."""
    at = times(interval)
    random = np.random.default_rng(1)
    program = np.interp(at / 3600, [0, 0.3, 4.2, 6.5, 12.5], [20.0, 20.0, HOLD, HOLD, 80.0])
    rounded = late(at, program, 300.0)
    courses = {
        "first": late(at, np.where(at < 5 * 3600, np.minimum(program + 6, HOLD), program), 60.0),
        "last": late(at, program, 900.0),
    }
    # What is kept colder comes to its level as slowly as the others do to theirs.
    courses["colder"] = late(at, rounded - 8 * (rounded - 20) / (HOLD - 20), 300.0)
    for course in courses.values():
        values = readings(interval, noise, 1.0)
        for tag in ("T1", "T2", "T4"):
            values[tag] = np.round(rounded + random.normal(0.0, noise, at.size))
        values["T3"] = np.round(course + random.normal(0.0, noise, at.size))
        kinds = {fault.kind for fault in find(record(values, interval), stress_relief())}
        assert "cut-off" not in kinds
