"""One that reads low by a reversed extension is not changed over with an edge that happens to be
nearly as hot as the band. Arithmetic, no source."""

from __future__ import annotations

import numpy as np
import pytest

from hts.record import faults
from tests.record.faults.runs import AIR, HOLD, late, readings, record, stress_relief, times
from tests.rows import each_row


@each_row("low", [0.07, 0.09, 0.11])
@each_row(("near", "far"), [(0.98, 0.95), (0.97, 0.94), (0.985, 0.9)])
@each_row("tag", ["T1", "T2", "T3", "T4"])
def test_beside_edges_that_are_hot(tag: str, low: float, near: float, far: float) -> None:
    values = readings()
    for edge, share in (("T5", near), ("T6", far)):
        values[edge] = AIR + (values[edge] - AIR) * share / 0.66
    values[tag] = AIR + (values[tag] - AIR) * (1 - low)
    found = faults.find(record(values), stress_relief())
    assert "exchanged" not in {one.kind for one in found}
    assert found


@pytest.mark.parametrize("resolution", [0.1, 1.0])
def test_edges_that_are_late_go_with_each_other(resolution: float) -> None:
    """Both controls go alike, and both edges of the soak band, later by a minute and a half: each
    goes with its own kind of place in the other zone, and nothing is changed over."""
    run, at = readings(), times()
    random = np.random.default_rng(3)
    course = np.interp(at / 3600, [0, 0.3, 4.2, 6.5, 12.5], [AIR, AIR, HOLD, HOLD, 80.0])
    for tag, lag in (("T1", 1.0), ("T2", 1.0), ("T3", 90.0), ("T4", 90.0)):
        its = late(at, course, lag) + random.normal(0.0, 0.25, at.size)
        run[tag] = np.round(its / resolution) * resolution
    told = faults.find(record(run), stress_relief())
    assert "exchanged" not in {one.kind for one in told}
