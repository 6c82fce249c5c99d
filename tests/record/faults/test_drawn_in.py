"""A line drawn in for a part of one course is told by its corners and by the others; metal that
goes its own way is not (common practice, no source)."""

import numpy as np
import pytest

from hts.record.faults import find
from tests.record.faults.runs import HOLD, late, readings, record, stress_relief, times
from tests.rows import each_row


@each_row("interval", [10.0, 60.0])
@each_row(("noise", "digit"), [(0.05, 0.1), (0.3, 0.1), (0.15, 1.0), (0.4, 1.0)])
@each_row(("begins", "ends"), [(3.2, 5.5), (5.5, 8.0), (2.0, 9.0)])
@each_row("tag", ["T1", "T4"])
def test_a_line_through_a_corner_of_the_cycle(
    interval: float, noise: float, digit: float, begins: float, ends: float, tag: str
) -> None:
    values, at = readings(interval, noise, digit), times(interval) / 3600
    line = (at > begins) & (at < ends)
    first, last = np.flatnonzero(line)[[0, -1]]
    drawn = np.interp(at, at[[first, last]], values[tag][[first, last]])
    values[tag] = np.where(line, np.round(drawn / digit) * digit, values[tag])
    (fault,) = find(record(values, interval), stress_relief())
    assert (fault.kind, fault.tag, fault.treatment) == ("filled-in", tag, "left out")
    assert fault.start == pytest.approx(begins * 3600, abs=900)
    assert fault.end == pytest.approx(ends * 3600, abs=900)


@pytest.mark.parametrize("digit", [0.1, 1.0])
@pytest.mark.parametrize("noise", [0.0, 0.05, 0.3])
def test_metal_that_goes_its_own_way_is_not(noise: float, digit: float) -> None:
    """The others held back for an hour in the ramp; one zone without heat; one heated evenly while
    the others hunt."""
    at, random = times(30.0), np.random.default_rng(2)
    program = np.interp(at / 3600, [0, 0.3, 4.2, 6.5, 12.5], [20.0, 20.0, HOLD, HOLD, 80.0])
    held_back = np.interp(at / 3600, [2.5, 3.0, 4.0], [0.0, 15.0, 0.0])
    lost = np.interp(at / 3600, [2.5, 3.3, 4.6], [0.0, 60.0, 0.0])
    hunting = 8 * np.sin(at / 240)
    for others in (program - held_back, late(at, program - lost, 300.0), program + hunting):
        values = readings(30.0, noise, digit)
        for tag in ("T1", "T2", "T3", "T4"):
            course = program if tag == "T1" else others
            values[tag] = np.round((course + random.normal(0.0, noise, at.size)) / digit) * digit
        kinds = {fault.kind for fault in find(record(values), stress_relief())}
        assert "filled-in" not in kinds
