"""All channels in another unit, also of runs that went wrong besides. Arithmetic, no source."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from hts.record import faults
from hts.record.judging import MET, judge
from tests.record.faults.runs import AIR, HOLD, readings, record, stress_relief, times

Change = Callable[[np.ndarray], np.ndarray]


def as_fahrenheit(celsius: np.ndarray) -> np.ndarray:
    return celsius * 1.8 + 32


def as_celsius(fahrenheit: np.ndarray) -> np.ndarray:
    return (fahrenheit - 32) / 1.8


def whole(values: np.ndarray) -> np.ndarray:
    return values


def too_low(values: np.ndarray) -> np.ndarray:
    return AIR + (values - AIR) * (1 - 38 / HOLD)


def stopped(values: np.ndarray) -> np.ndarray:
    return values[: int(np.argmax(times() > 3.2 * 3600))]  # at 440 degC


def short(values: np.ndarray) -> np.ndarray:
    """Half an hour of the hold."""
    at = times()
    return values[(at < 4.6 * 3600) | (at > 6.4 * 3600)]


@pytest.mark.parametrize("run", [whole, too_low, stopped, short])
@pytest.mark.parametrize("unit", [as_fahrenheit, as_celsius, None])
def test_the_unit_is_named(run: Change, unit: Change | None) -> None:
    values = {tag: run(its) for tag, its in readings().items()}
    if unit is not None:
        values = {tag: unit(its) for tag, its in values.items()}
    made = record(values, elapsed=times()[: len(values["T1"])])
    found = faults.find(made, stress_relief())
    if unit is None or (run is stopped and unit is as_celsius):
        # One that stopped at 440 degC and reads 227 may as well have stopped there.
        assert "wrong-unit" not in [one.kind for one in found]
        return
    assert [one.kind for one in found if not one.tag] == ["wrong-unit"]
    assert judge(faults.apply(made, found), stress_relief(), found).overall != MET
