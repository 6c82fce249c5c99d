"""Each detector alone, a little below the amount from which it tells of a fault (or to which), and
a little beyond it: the runs are those of `test_how_little`, the amounts within one in a hundred."""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module

import numpy as np

from hts.record.faults.fault import Fault
from hts.record.faults.signals import Signals
from hts.record.record import Floats, Record
from tests.record.faults.edges import EDGES
from tests.record.faults.runs import stress_relief
from tests.record.faults.test_how_little import (
    AT,
    HOURS,
    LADDERS,
    Change,
    Ladder,
    drifts,
    low,
    made,
    one,
    plus,
    sound_run,
    swapped,
    times_it,
    while_cold,
)
from tests.rows import each_row


def _pair(first: str, second: str, more: Change) -> Callable[[float], Record]:
    """A change of two of a zone, as where its control reads wrong and is followed."""
    return lambda by: made({tag: np.round(more(HOURS, v, by), 1) if tag in (first, second) else v
                            for tag, v in sound_run().items()})  # fmt: skip


def cut_off(h: Floats, v: Floats, by: float) -> Floats:
    return np.asarray(np.minimum(v, np.round(v.max() - by, 1)), dtype=np.float64)


def all_cut_off(by: float) -> Record:
    top = max(v.max() for v in sound_run().values())
    return made({tag: np.minimum(v, np.round(top - by, 1)) for tag, v in sound_run().items()})


def by_hand(h: Floats, v: Floats, by: float) -> Floats:
    known = (h <= 2.5) | (2.5 + by / 60 <= h)
    return np.asarray(np.interp(h, h[known], v[known]), dtype=np.float64)


def scatters(h: Floats, v: Floats, by: float) -> Floats:
    """In a part of the hold, by so many K besides its own noise."""
    noise = np.random.default_rng(5).normal(0.0, by, v.size)
    return np.where((h > 4.8) & (h < 5.6), np.round(v + noise, 1), v)


def without(h: Floats, v: Floats, by: float) -> Floats:
    """Three rows of every twenty, so many times."""
    rows = np.arange(v.size) - 300
    return np.where((rows >= 0) & (rows < 20 * int(by)) & (rows % 20 < 3), np.nan, v)


def clock_fast(by: float) -> Record:
    return made(sound_run(), AT * (1 + by / 100))


def mean_of_two(by: float) -> Record:
    run, random = sound_run(), np.random.default_rng(2)
    mean = (run["T1"] + run["T2"]) / 2 + random.normal(0.0, by, AT.size)
    return made({**run, "T4": np.round(mean, 1)})


def read_seldom(by: float) -> Record:
    """Every so many rows, and kept in between."""
    rows = np.arange(AT.size) // int(by) * int(by)
    return made({tag: v[rows] for tag, v in sound_run().items()})


def interpolated(by: float) -> Record:
    """Every so many rows, and a line in between."""
    return made({tag: np.round(np.interp(AT, AT[:: int(by)], v[:: int(by)]), 1)
                 for tag, v in sound_run().items()})  # fmt: skip


def smooth(by: float) -> Record:
    """No noise for so many minutes of the hold."""
    there = (HOURS > 4.5) & (4.5 + by / 60 > HOURS)
    run: dict[str, Floats] = {}
    for tag, values in sound_run().items():
        clean = np.convolve(np.pad(values, 20, "edge"), np.ones(41) / 41, "valid")
        run[tag] = np.asarray(np.where(there, np.round(clean, 1), values), dtype=np.float64)
    return made(run)


#: More changes, of which no other test climbs.
MORE = {
    "zone top above its control": Ladder("K", 3, 90, _pair("T1S", "T3", plus)),
    "zone top below its control by a share": Ladder("%", 1, 40, _pair("T1S", "T3", low)),
    "control of zone top drifts": Ladder("%", 0.1, 10, _pair("T1S", "T3", drifts(2.0, 1))),
    "T3 cut off": Ladder("K", 0.5, 300, one("T3", cut_off)),
    "all cut off": Ladder("K", 0.2, 300, all_cut_off),
    "T1S and T2S swapped": Ladder("h", 0.5, 12.5, swapped("T1S", "T2S")),
    "T1 and T2 swapped": Ladder("h", 0.5, 12.5, swapped("T1", "T2")),
    "T3 and T4 swapped": Ladder("h", 0.5, 12.5, swapped("T3", "T4")),
    "T5 times": Ladder("", 0.2, 5, one("T5", times_it)),
    "T6 above while cold": Ladder("K", 1, 80, one("T6", while_cold(plus))),
    "T3 drawn by hand": Ladder("min", 2, 200, one("T3", by_hand)),
    "T3 scatters in the hold": Ladder("K", 0.2, 30, one("T3", scatters)),
    "T3 blank, times": Ladder("", 1, 12, one("T3", without)),
    "clock fast": Ladder("%", 0.02, 10, clock_fast),
    "T4 is a mean": Ladder("K", 0.01, 2, mean_of_two),
    "read seldom": Ladder("rows", 1, 40, read_seldom),
    "a line between readings": Ladder("rows", 1, 40, interpolated),
    "smooth for": Ladder("min", 5, 300, smooth),
}
CHANGES = LADDERS | MORE


def _found(detector: Callable[[Signals], list[Fault]], name: str, by: float) -> list[Fault]:
    return detector(Signals(CHANGES[name].put(by), stress_relief()))


def _told(fault: Fault) -> str:
    spells = " ".join(f"{one.start:.0f}-{one.end:.0f}" for one in fault.wrong[:2])
    whose = "+".join(filter(None, (fault.tag, *fault.others))) or fault.zone or "all"
    return f"{fault.kind} {whose} {spells}"


@each_row("name", EDGES)
def test_the_edges_of_each_detector(name: str) -> None:
    module, function = name.split(".")
    detector = getattr(import_module(f"hts.record.faults.{module}"), function)
    for change, least, most, told in EDGES[name]:
        below, beyond = (_found(detector, change, by) for by in (least, most))
        assert bool(below) != bool(beyond), change
        assert (change, _told((below or beyond)[0])) == (change, told)
