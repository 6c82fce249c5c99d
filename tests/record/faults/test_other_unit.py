"""Thermocouples away from the weld that are read in another unit: told, and what hangs on one of
them is not met. Arithmetic of the two scales, no source."""

from __future__ import annotations

import numpy as np

from hts.record import faults
from hts.record.faults.fault_kinds import WRONG_UNIT
from hts.record.judging import MET, NOT_SHOWN, judge
from tests.record.faults.runs import EDGES, TAGS, readings, record, stress_relief
from tests.record.judging.made import verdict
from tests.rows import each_row


def as_fahrenheit(celsius: np.ndarray) -> np.ndarray:
    return celsius * 1.8 + 32


def as_celsius(fahrenheit: np.ndarray) -> np.ndarray:
    return (fahrenheit - 32) / 1.8


@each_row("change", [as_fahrenheit, as_celsius])
@each_row("tag", sorted(EDGES))
@each_row("cold", [True, False])
def test_one_away_from_the_weld(change, tag: str, cold: bool) -> None:  # type: ignore[no-untyped-def]
    values = readings()
    values[tag] = change(values[tag])
    first = 0 if cold else 180  # the part is at 110 degC and more by then
    made = record({one: its[first:] for one, its in values.items()}, elapsed=_from(first))
    found = [one for one in faults.find(made, stress_relief()) if one.kind == WRONG_UNIT.name]
    if tag == "T7" and not cold:
        # A thing nearby may be as hot as it likes: nothing tells.
        assert found == []
        return
    assert len(found) == 1
    assert tag in (found[0].tag, *found[0].others)
    assert not set(TAGS) & {found[0].tag, *found[0].others}


def _from(first: int) -> np.ndarray:
    every = record(readings()).elapsed
    return every[first:] - every[first]


@each_row("seed", range(4))
@each_row("first", [0, 180, 400])
def test_sound_ones_are_not_blamed(seed: int, first: int) -> None:
    made = record({one: its[first:] for one, its in readings(seed=seed).items()},
                  elapsed=_from(first))  # fmt: skip
    assert [one for one in faults.find(made, stress_relief()) if one.kind == WRONG_UNIT.name] == []


def test_the_limit_of_a_thing_nearby_is_not_met_by_readings_in_doubt() -> None:
    values = readings()
    values["T7"] = 20 + (values["T7"] - 20) * 0.2
    for change, outcome in ((None, MET), (as_celsius, NOT_SHOWN)):
        given = values if change is None else {**values, "T7": change(values["T7"])}
        made = record(given)
        found = faults.find(made, stress_relief())
        judged = judge(faults.apply(made, found), stress_relief(), found)
        told = verdict(judged, "temperature of suction gate valve, seat (T7)")
        assert told.verdict == outcome
        assert ("in doubt: T7 (wrong unit)" in told.actual) == (outcome == NOT_SHOWN)
