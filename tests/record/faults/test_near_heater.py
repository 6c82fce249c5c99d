"""A junction at a heater that is switched on and off, mains pick-up, and zones with copies."""

import numpy as np
import pytest

from hts.record.faults import find
from hts.record.faults.fault import Fault
from hts.record.record import Floats
from tests.record.faults.runs import record, stress_relief, times
from tests.record.faults.test_changed_over import excess, with_spares
from tests.rows import each_row


def found(run: dict[str, Floats]) -> list[Fault]:
    return list(find(record(run), stress_relief()))


def switched(run: dict[str, Floats], tag: str, on: float, most: float) -> Floats:
    """K above the part of a junction at a heater that is on for a share of the time: what the
    heater is hotter by while it is on, half of it gone a row later (from memory: seconds to
    minutes)."""
    random = np.random.default_rng(11)
    gives = excess(run, tag, most) > 0.02 * most
    hot = np.where(gives & (random.uniform(size=gives.size) < on), most, 0.0)
    return np.asarray(hot + np.concatenate(([0.0], hot[:-1])), dtype=np.float64) / 2


@each_row("on", [0.4, 0.6, 0.8])
@each_row("most", [12.0, 20.0, 30.0])
def test_at_a_heater_that_is_switched(most: float, on: float) -> None:
    run = with_spares()
    run["T3"] = np.round(run["T3"] + switched(run, "T3", on, most), 1)
    told = [(one.kind, one.tag) for one in found(run)]
    assert told == [("near-heater", "T3")]


@pytest.mark.parametrize("most", [6.0, 12.0, 25.0])
def test_voltage_of_the_mains_goes_to_and_fro(most: float) -> None:
    """While the heaters are on as well, but above and below."""
    run = with_spares()
    on = excess(run, "T3", 1.0) > 0.02
    swing = most * np.sin(np.random.default_rng(4).uniform(0, 2 * np.pi, on.size))
    run["T3"] = np.round(run["T3"] + np.where(on, swing, 0.0), 1)
    assert [(one.kind, one.tag) for one in found(run)] == [("mains-pick-up", "T3")]


@pytest.mark.parametrize("late", [0, 3])
def test_no_sound_one_is_blamed_beside_copies(late: int) -> None:
    """The spare and the other one of a zone are copies of those of another zone, which lags."""
    run = with_spares()
    for copy, of in (("T1S", "T2"), ("T3", "T4")):
        run[copy] = np.concatenate((run[of][:1].repeat(late), run[of][: len(times()) - late]))
    faults = found(run)
    assert {one.kind for one in faults} <= {"copied", "disagree"}  # T1 and the copy of another
    assert {frozenset((one.tag, *one.others)) for one in faults} >= {
        frozenset(("T1S", "T2")),
        frozenset(("T3", "T4")),
    }
