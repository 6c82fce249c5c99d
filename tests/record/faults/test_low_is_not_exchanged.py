"""One that reads low by a reversed extension is not changed over with an edge that happens to be
nearly as hot as the band. Arithmetic, no source."""

from __future__ import annotations

import pytest

from hts.record import faults
from tests.record.faults.runs import AIR, readings, record, stress_relief


@pytest.mark.parametrize("low", [0.07, 0.09, 0.11])
@pytest.mark.parametrize(("near", "far"), [(0.98, 0.95), (0.97, 0.94), (0.985, 0.9)])
@pytest.mark.parametrize("tag", ["T1", "T2", "T3", "T4"])
def test_beside_edges_that_are_hot(tag: str, low: float, near: float, far: float) -> None:
    values = readings()
    for edge, share in (("T5", near), ("T6", far)):
        values[edge] = AIR + (values[edge] - AIR) * share / 0.66
    values[tag] = AIR + (values[tag] - AIR) * (1 - low)
    found = faults.find(record(values), stress_relief())
    assert "exchanged" not in {one.kind for one in found}
    assert found
