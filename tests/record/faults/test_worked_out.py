"""Columns that are the mean of others are found; noise that all share is none of them.
Arithmetic, no source."""

from __future__ import annotations

import numpy as np
import pytest

from hts.record import faults
from hts.record.faults.fault_kinds import WORKED_OUT
from hts.record.judging import MET, judge
from tests.record.faults.runs import readings, record, stress_relief
from tests.rows import each_row


def found(values: dict[str, np.ndarray]) -> list[faults.Fault]:
    told = faults.find(record(values), stress_relief())
    return [one for one in told if one.kind == WORKED_OUT.name]


@each_row("parts", [("T1", "T4"), ("T1", "T3", "T4"), ("T1", "T3", "T4", "T5")])
@each_row("noise", [0.15, 0.3])
@each_row("above", [0.0, 3.0])
def test_a_mean_of_others_is_not_measured(
    parts: tuple[str, ...], noise: float, above: float
) -> None:
    values = readings(noise=noise)
    values["T2"] = np.round(np.mean([values[one] for one in parts], axis=0) + above, 1)
    (told,) = found(values)
    assert told.tag == "T2"
    assert told.evidence.startswith(f"is the mean of {', '.join(parts[:-1])} and {parts[-1]}")
    made = record(values)
    assert judge(made, stress_relief(), (told,)).overall != MET


@pytest.mark.parametrize("shared", [0.0, 0.2, 1.0])
@pytest.mark.parametrize("digit", [0.1, 1.0])
def test_noise_that_all_share_is_no_mean(shared: float, digit: float) -> None:
    for seed in range(4):
        values = readings(seed=seed, resolution=0.01)
        random = np.random.default_rng(seed)
        everywhere = random.normal(0.0, shared, len(values["T1"])) if shared else 0.0
        values = {tag: np.round((one + everywhere) / digit) * digit for tag, one in values.items()}
        assert found(values) == []
