"""All channels in another unit, also of runs that went wrong besides. Arithmetic, no source."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from hts.record import faults
from hts.record.judging import MET, judge
from tests.record.faults.runs import AIR, HOLD, readings, record, stress_relief, times
from tests.rows import each_row

Change = Callable[[np.ndarray], np.ndarray]


def as_fahrenheit(celsius: np.ndarray) -> np.ndarray:
    return celsius * 1.8 + 32


def as_celsius(fahrenheit: np.ndarray) -> np.ndarray:
    return (fahrenheit - 32) / 1.8


def ten_times(celsius: np.ndarray) -> np.ndarray:
    return celsius * 10


def a_tenth(celsius: np.ndarray) -> np.ndarray:
    return celsius / 10


def a_tenth_in_fahrenheit(celsius: np.ndarray) -> np.ndarray:
    return as_celsius(as_fahrenheit(celsius) / 10)


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


@each_row("run", [whole, too_low, stopped, short])
@each_row("unit", [as_fahrenheit, as_celsius, None])
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


@each_row("run", [whole, short])
@each_row("moved", [ten_times, a_tenth, a_tenth_in_fahrenheit])
def test_a_decimal_point_in_the_wrong_place_is_named(run: Change, moved: Change) -> None:
    values = {tag: moved(run(its)) for tag, its in readings().items()}
    made = record(values, elapsed=times()[: len(values["T1"])])
    if moved is a_tenth_in_fahrenheit:
        series = {tag: its._replace(unit="degF") for tag, its in made.series.items()}
        made = made._replace(series=series)
    found = faults.find(made, stress_relief())
    assert [one.kind for one in found if not one.tag] == ["wrong-scale"]
    assert judge(faults.apply(made, found), stress_relief(), found).overall != MET


@each_row("interval", [10.0, 60.0])
@each_row("digit", [0.1, 1.0])
@each_row(("begins", "ends"), [(1.0, 3.0), (5.0, 99.0), (7.0, 9.0)])
@each_row("unit", [as_fahrenheit, as_celsius])
def test_all_go_over_to_another_unit_and_back(
    interval: float, digit: float, begins: float, ends: float, unit: Change
) -> None:
    values, at = readings(interval, 0.25, digit), times(interval) / 3600
    wrong = (at >= begins) & (at < ends)
    values = {
        tag: np.where(wrong, np.round(unit(its) / digit) * digit, its)
        for tag, its in values.items()
    }
    made = record(values, interval)
    found = faults.find(made, stress_relief())
    (fault,) = [one for one in found if not one.tag and one.kind != "all-stand-still"]
    assert (fault.kind, fault.treatment) == ("wrong-unit", "left out")
    (spell,) = fault.spells
    edges = (at[wrong][0] * 3600, at[wrong][-1] * 3600)
    assert (spell.start, spell.end) == pytest.approx(edges, abs=1.0)
    assert judge(faults.apply(made, found), stress_relief(), found).overall != MET


@pytest.mark.parametrize("by", [-30.0, 20.0, 60.0])
def test_a_step_of_all_by_one_amount_is_no_unit(by: float) -> None:
    values, at = readings(), times() / 3600
    values = {tag: its + by * (at >= 3.0) for tag, its in values.items()}
    kinds = {one.kind for one in faults.find(record(values), stress_relief())}
    assert "wrong-unit" not in kinds and "cold-junction" in kinds
