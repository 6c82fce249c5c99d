"""Wrong in one part of the run only, and mended or not: which part, and what it was."""

import numpy as np
import pytest

from hts.record.faults import find
from hts.record.faults.fault import Fault
from hts.record.record import Floats
from tests.record.faults.runs import AIR, record, stress_relief, times
from tests.record.faults.test_changed_over import exchanged, with_spares
from tests.rows import each_row

HOURS = times() / 3600
#: Until it is mended while heating, from the hold on, and for a quarter of an hour.
PARTS = {
    "until mended": HOURS < 2.5,
    "from the hold on": HOURS >= 5.0,
    "for a time": (HOURS >= 5.0) & (HOURS < 5.25),
}


def found(run: dict[str, Floats]) -> list[Fault]:
    return list(find(record(run), stress_relief()))


def of_part(part: str) -> tuple[float, float]:
    rows = np.flatnonzero(PARTS[part])
    return float(times()[rows[0]]), float(times()[rows[-1]])


@each_row("part", PARTS)
@each_row("pair", [("T3", "T5"), ("T6", "T4"), ("T1", "T5")])
def test_two_changed_over(pair: tuple[str, str], part: str) -> None:
    run = with_spares()
    changed = exchanged(run, *pair)
    faults = found({tag: np.where(PARTS[part], changed[tag], run[tag]) for tag in run})
    first, second = sorted(pair)
    told = [(one.kind, one.tag, one.others, one.start, one.end) for one in faults]
    both = [(first, (second,)), (second, (first,))]
    assert told == [("exchanged", *one, *of_part(part)) for one in both]
    assert {one.treatment for one in faults} == {"left out"}


@each_row("part", PARTS)
@each_row("says", ["degF read as degC", "degC read as degF"])
def test_another_unit(says: str, part: str) -> None:
    run = with_spares()
    other = run["T3"] * 1.8 + 32 if says.startswith("degF") else (run["T3"] - 32) / 1.8
    run["T3"] = np.where(PARTS[part], np.round(other, 1), run["T3"])
    one, *more = found(run)
    assert more == []
    assert (one.kind, one.tag, one.start, one.end) == ("wrong-unit", "T3", *of_part(part))
    assert says in one.evidence


@each_row("part", ["until mended", "for a time"])
@each_row("share", [0.15, 0.4, 0.55, 0.7])
def test_wires_that_touch_until_somebody_parts_them(share: float, part: str) -> None:
    run = with_spares()
    low = np.round(AIR + share * (run["T4"] - AIR), 1)
    run["T4"] = np.where(PARTS[part], low, run["T4"])
    one, *more = found(run)
    assert more == []
    assert (one.kind, one.tag, one.start, one.end) == ("shorted", "T4", *of_part(part))
    figure = float(one.evidence.split(": ")[-1].split("%")[0])
    assert figure == pytest.approx(100 * share, abs=2)


def test_legs_changed_back_while_heating() -> None:
    run = with_spares()
    until = HOURS < 1.4
    run["T3"] = np.where(until, np.round(2 * AIR - run["T3"], 1), run["T3"])
    one, *more = found(run)
    assert more == []
    assert (one.kind, one.tag, one.start) == ("reversed", "T3", 0.0)
    assert one.end == times()[until][-1]


def test_a_part_that_steps_as_a_whole_is_no_fault_of_one() -> None:
    """A gap of the recorder in the ramp: all are hotter by as much after it."""
    run, kept = with_spares(), (HOURS < 2.0) | (HOURS > 2.4)
    cut = {tag: values[kept] for tag, values in run.items()}
    told = find(record(cut, elapsed=times()[kept]), stress_relief())
    assert not {one.kind for one in told} & {"exchanged", "shorted", "wrong-unit", "reversed"}
