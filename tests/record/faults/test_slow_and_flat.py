"""Flat at any level, gaps that are no change of the clock, slow logs of an open circuit."""

import numpy as np
import pytest

from hts.record.faults import find
from hts.record.faults.fault import Fault
from hts.record.record import HOTTEST, Floats
from tests.record.faults.runs import AIR, readings, record, stress_relief, times
from tests.rows import each_row


def found(values: dict[str, Floats], at: Floats, interval: float) -> list[Fault]:
    return list(find(record(values, interval, at), stress_relief()))


@each_row("level", [24.0, 95.0, 200.0])
@each_row("resolution", [0.1, 1.0])
def test_flat_at_any_level(level: float, resolution: float) -> None:
    """In the air of the shop, in wet insulation, on its own simulator: it does not respond."""
    run = readings(resolution=resolution)
    noise = np.random.default_rng(5).normal(0.0, 0.3, run["T3"].size)
    run["T3"] = np.round((level + noise) / resolution) * resolution
    told = [one for one in found(run, times(), 30.0) if one.tag == "T3"]
    assert [(one.kind, one.treatment) for one in told] == [("flat", "left out")]
    assert (told[0].start, told[0].end) == (0.0, times()[-1])


RAMP, HOLD = 2.0 * 3600, 5.0 * 3600


@each_row("begins", [RAMP, HOLD])
@each_row("minutes", [7.0, 23.0, 37.0, 75.0])
def test_a_gap_is_no_change_of_the_clock(begins: float, minutes: float) -> None:
    """The metal has gone on meanwhile, or was held: rows are missing, and the clock is right."""
    at = times()
    kept = (at <= begins) | (at >= begins + minutes * 60)
    run = {tag: values[kept] for tag, values in readings().items()}
    assert [one.kind for one in found(run, at[kept], 30.0)] == []


@pytest.mark.parametrize("minutes", [30.0, 60.0])
def test_a_gap_of_whole_half_hours_in_a_ramp_is_none_either(minutes: float) -> None:
    at = times()
    kept = (at <= RAMP) | (at >= RAMP + minutes * 60)
    run = {tag: values[kept] for tag, values in readings().items()}
    assert [one.kind for one in found(run, at[kept], 30.0)] == []


@pytest.mark.parametrize("minutes", [19.0, 30.0, 60.0])
def test_a_part_that_cooled_in_a_gap_is_no_change_of_the_clock(minutes: float) -> None:
    """The power failed while heating, and the recorder with it: what came back is colder."""
    at, run = times(), readings()
    off = minutes * 60
    left = {}
    for tag, values in run.items():
        here = values[at <= RAMP]
        lost = 0.1 * minutes / 19 * (here[-1] - AIR)
        left[tag] = np.concatenate((here, np.round(values[at > RAMP] - lost, 1)))
    clock = np.where(at > RAMP, at + off, at)
    assert "clock-jump" not in {one.kind for one in found(left, clock, 30.0)}


@each_row("interval", [120.0, 300.0, 600.0])
@each_row("begins", [RAMP, HOLD])
@each_row(("level", "kind"), [(1372.0, "open-upscale"), (-200.0, "open-downscale")])
def test_where_an_open_circuit_begins_in_a_slow_log(
    level: float, kind: str, begins: float, interval: float
) -> None:
    assert level < HOTTEST
    at, run = times(interval), readings(interval)
    run["T3"] = np.where(at >= begins, level, run["T3"])
    (one,) = [one for one in found(run, at, interval) if one.tag == "T3"]
    assert one.kind == kind and one.treatment == "left out"
    first = float(at[at >= begins][0])
    # The first wrong row and no sound one.
    assert one.start == pytest.approx(first, abs=1.0)
    assert one.end == at[-1]


def test_break_detection_that_takes_two_rows_of_a_slow_log() -> None:
    at, run = times(300.0), readings(300.0)
    first = int(np.searchsorted(at, RAMP))
    run["T3"][first:] = 1372.0
    run["T3"][first] = run["T3"][first - 1] + 350.0
    (one,) = [one for one in found(run, at, 300.0) if one.tag == "T3"]
    assert one.kind == "open-upscale"
    assert one.start == pytest.approx(float(at[first]), abs=1.0)
