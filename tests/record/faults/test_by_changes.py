"""Recorders that keep a reading only when it has changed by so much, and metal that climbs far
beyond its program: made by arithmetic, no source."""

from __future__ import annotations

import numpy as np

from hts.record.faults import find
from hts.record.record import Floats
from tests.record.faults.runs import readings, record, stress_relief, times
from tests.rows import each_row


def _by_changes(values: Floats, least: float) -> Floats:
    kept = values.copy()
    for row in range(1, len(kept)):
        if abs(values[row] - kept[row - 1]) < least:
            kept[row] = kept[row - 1]
    return kept


@each_row("least", [3.0, 6.0, 12.0])
@each_row("interval", [10.0, 60.0])
def test_what_is_recorded_by_changes_was_not_written_over(least: float, interval: float) -> None:
    values = {tag: _by_changes(its, least) for tag, its in readings(interval, 0.5).items()}
    kinds = {one.kind for one in find(record(values, interval), stress_relief())}
    assert "edited" not in kinds
    assert kinds, "and not a word is said of it"


@each_row("most", range(150, 200, 5))
def test_metal_that_climbs_is_no_open_circuit(most: int) -> None:
    """It comes to so much above the hold and stands there: heaters at their full power."""
    values = readings()
    at = times() / 3600
    far = most * (1 - np.exp(-np.maximum(at - 4.2, 0) / 0.5))
    for tag in ("T1", "T2"):
        values[tag] = np.round(values[tag] + np.where(at < 9, far, far[at < 9][-1]), 1)
    kinds = {(one.kind, one.tag) for one in find(record(values), stress_relief())}
    assert not {("open-upscale", "T1"), ("open-upscale", "T2")} & kinds
