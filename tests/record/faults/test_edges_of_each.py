"""Each detector alone, a little below the amount from which it tells of a fault (or to which), and
a little beyond it: the runs are those of `test_how_little`, the amounts within one in a hundred.

What is told is kept (`tests.told`); that it is told on one side and not on the other holds whatever
is kept. The thresholds are ours (basis: practice), where no source stands beside them.
"""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module
from pathlib import Path

import numpy as np

from hts.record.faults.fault import Fault
from hts.record.faults.signals import Signals
from hts.record.record import Floats, Record
from tests import told
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

KEPT = Path(__file__).with_name("told") / "edges-of-each.txt"


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
    "T3 blank, times": Ladder("", 1, 12, one("T3", without)),
    "clock fast": Ladder("%", 0.02, 10, clock_fast),
    "T4 is a mean": Ladder("K", 0.01, 2, mean_of_two),
    "read seldom": Ladder("rows", 1, 40, read_seldom),
    "a line between readings": Ladder("rows", 1, 40, interpolated),
    "smooth for": Ladder("min", 5, 300, smooth),
}
CHANGES = LADDERS | MORE

#: By detector: the change that is made, and its amounts on either side.
EDGES: dict[str, list[tuple[str, float, float]]] = {
    "agreement.apart_when_cold": [
        ("T6 above while cold", 7.934, 7.957),
        ("zone top above its control", 6.943, 6.96),
        ("T1S above while cold", 6.743, 6.763),
        ("T2S above", 7.844, 7.867),
        ("T3 below", 7.733, 7.756),
        ("T3 below while cold", 7.733, 7.756),
        ("T3 stands at", 27.63, 27.73),
        ("T3 times", 0.6165, 0.6186),
        ("T5 above", 7.834, 7.854),
    ],
    "agreement.disagreeing": [
        ("control of zone top drifts", 0.4255, 0.4268),
        ("zone top above its control", 10.93, 10.96),
        ("zone top below its control by a share", 2.431, 2.438),
        ("T1 at a heater", 13.41, 13.45),
        ("T1S above while cold", 11.04, 11.08),
        ("T2S above", 10.82, 10.86),
        ("drift up of T1", 0.4229, 0.4243),
    ],
    "came_off.came_off": [
        ("T3 comes loose", 66.9, 67.11),
        ("T3 falls off", 2.932, 2.94),
        ("T3 falls off", 62.78, 62.93),
        ("T3 low from the hold on", 8.203, 8.232),
        ("T3 low from the hold on", 19.73, 19.81),
        ("T3 put back after", 10.97, 11.02),
        ("T4 cools on", 1.043, 1.047),
    ],
    "changed_over.with_an_edge": [
        ("T3 and T6 swapped", 8.644, 8.668),
    ],
    "clocks.clock_jumps": [
        ("clock set ahead", 7.267, 7.293),
    ],
    "copied_late.copied_late": [
        ("T4 is T3, late", 60.82, 61.02),
    ],
    "copied_part.copied_for_a_time": [
        ("T1S is T1 for a while", 19.96, 20.04),
        ("T4 is T3 for a while", 20.95, 21.03),
        ("T7 is T5 for a while", 22.99, 23.08),
    ],
    "copies.copied": [
        ("T4 is a mean", 0.1504, 0.1511),
        ("T4 is T3 with noise", 0.0548, 0.05499),
    ],
    "filled_in.filled_in": [
        ("smooth for", 30.96, 31.05),
        ("all stand", 8.973, 9.002),
        ("all straight", 6.981, 7.001),
    ],
    "for_a_part.for_a_part": [
        ("T3 and T6 swapped", 0.6662, 0.6681),
        ("T3 and T6 swapped", 11.94, 11.98),
        ("T3 put back after", 3.993, 4.007),
        ("T3 put back after", 5.984, 6.005),
        ("T3 stands while heated", 159.7, 160.3),
    ],
    "heater_output.near_heaters": [
        ("T1 at a heater", 7.861, 7.885),
        ("T3 at a heater", 5.289, 5.305),
    ],
    "heating.heater_losses": [
        ("zone top cools for", 0.2569, 0.2576),
        ("zone top cools on", 25.29, 25.37),
    ],
    "leapt_back.leapt_back": [
        ("T1S above while cold", 25.84, 25.93),
        ("T3 below while cold", 25.41, 25.49),
        ("T3 open for a while", 9.981, 10.02),
        ("T3 open for a while", 102.7, 103.2),
    ],
    "levels.lost_places": [
        ("T3 and T6 swapped", 1.863, 1.869),
        ("T3 below while cold", 55.84, 56.01),
        ("T3 falls off", 168.2, 168.7),
        ("T3 open for a while", 31.91, 32.03),
        ("T3 times", 0.6226, 0.6247),
        ("all cool, zone top faster", 2.98, 2.993),
        ("rows of a spike", 45.96, 46.09),
    ],
    "levels.reading_low": [
        ("T3 below", 20.92, 20.99),
        ("T3 falls off", 97.01, 97.23),
        ("T4 cools on", 8.85, 8.874),
        ("T4 is T3, late", 87.86, 88.14),
        ("T4 leaks above 550 degC", 21.61, 21.7),
        ("T4 leaks above 550 degC", 140.1, 140.7),
        ("step down of T4 in the hold", 29.43, 29.51),
    ],
    "misreading.misreading": [
        ("T1 at a heater", 20.9, 20.97),
        ("T3 at a heater", 27.69, 27.78),
        ("T3 goes to", 228.8, 229.6),
        ("T3 goes to", 831.3, 834.1),
        ("T4 cools on", 1.337, 1.341),
        ("T4 low", 3.149, 3.16),
        ("step up of T3", 33.48, 33.57),
    ],
    "noisy.pick_up": [
        ("T3 times", 6.914, 6.937),
        ("T4 is T3 with noise", 1.619, 1.625),
        ("pick-up of T3", 1.766, 1.773),
    ],
    "other_unit.along_the_pipe": [
        ("T5 times", 1.639, 1.644),
        ("T5 times", 3.03, 3.037),
        ("T3 goes to", 117.5, 118),
        ("T3 goes to", 315.6, 316.7),
        ("T3 put back after", 125.9, 126.4),
        ("T3 stands at", 117.5, 118),
        ("T3 stands at", 315.6, 316.7),
        ("T3 times", 0.1955, 0.1962),
        ("T3 times", 0.5254, 0.5272),
    ],
    "put_in_again.put_in_again": [
        ("rows again", 21.96, 22.03),
    ],
    "repeats.as_the_row_before": [
        ("read seldom", 1.997, 2.002),
        ("read seldom", 15.98, 16.03),
        ("all stand", 10.98, 11.03),
    ],
    "repeats.frozen": [
        ("read seldom", 10.98, 11.02),
        ("all stand", 5.983, 6.003),
    ],
    "repeats.repeated": [
        ("rows again", 9.979, 10.01),
    ],
    "scale.open_circuits": [
        ("T3 goes to", 794.7, 797.3),
        ("T3 open for a while", 2.994, 3.006),
        ("T3 stands at", 794.7, 797.3),
    ],
    "scattered.scattered": [
        ("T3 put back, times", 2.991, 3.001),
        ("T4 leaks above 550 degC", 103.8, 104.3),
        ("pick-up of T3", 1.17, 1.175),
    ],
    "seams.seams": [
        ("rows again", 60.97, 61.14),
    ],
    "spikes.spikes": [
        ("T3 open for a while", 2.994, 3.006),
        ("T3 put back after", 3.993, 4.007),
        ("pick-up of T3", 5.58, 5.599),
        ("rows of a spike", 3.999, 4.01),
        ("spikes of T3", 19.84, 19.9),
    ],
    "steps.steps": [
        ("T1S above while cold", 8.234, 8.258),
        ("T1S above while cold", 47.73, 47.88),
        ("T3 low from the hold on", 0.9968, 1.001),
        ("T3 low from the hold on", 23.09, 23.18),
        ("T3 stands while heated", 14.99, 15.05),
        ("T3 stands while heated", 22.95, 23.03),
        ("step down of T4 in the hold", 8.032, 8.053),
    ],
    "still.flat": [
        ("T3 moves about 95 degC", 8.844, 8.878),
    ],
    "still.stuck": [
        ("T3 cut off", 6.046, 6.059),
        ("all cut off", 2.447, 2.454),
        ("all cut off", 88.24, 88.46),
        ("T2 stands in the hold", 38.97, 39.08),
        ("T3 goes to", 35.29, 35.41),
        ("T3 open for a while", 7.976, 8.005),
        ("T3 stands while heated", 9.975, 10.01),
    ],
    "too_still.too_still": [
        ("T3 cut off", 1.449, 1.453),
        ("T3 cut off", 10.54, 10.57),
        ("all cut off", 1.549, 1.554),
        ("all cut off", 221.1, 221.8),
        ("smooth for", 34.99, 35.1),
        ("smooth for", 39.98, 40.1),
        ("T2 stands in the hold", 10.99, 11.02),
        ("T3 open for a while", 8.969, 9.001),
        ("T3 stands while heated", 9.975, 10.01),
        ("all stand", 9.976, 10.01),
        ("all straight", 21.96, 22.03),
        ("all straight", 40.98, 41.1),
    ],
    "whole_record.cold_junction": [
        ("all stand", 2.995, 3.005),
        ("all stand", 9.976, 10.01),
        ("step of all", 4.14, 4.152),
        ("step of all for half an hour", 4.14, 4.152),
    ],
    "whole_record.settings_of_all": [
        ("all times", 0.5102, 0.5115),
        ("all times", 0.6234, 0.625),
        ("all times", 1.798, 1.803),
        ("all times", 2.085, 2.091),
    ],
    "in_the_loop.in_the_loop": [
        ("control of zone top drifts", 0.4972, 0.4988),
        ("control of zone top drifts", 8.816, 8.844),
        ("zone top above its control", 11.42, 11.46),
        ("zone top below its control by a share", 1.907, 1.913),
    ],
    "at_the_top.at_the_top": [
        ("T3 cut off", 11.24, 11.27),
        ("all cut off", 2.246, 2.252),
    ],
    "changed_over.with_spares": [
        ("T1 and T2 swapped", 8.92, 8.94),
        ("T1S and T2S swapped", 8.92, 8.94),
    ],
    "exchanged.exchanged": [
        ("T1 and T2 swapped", 8.883, 8.902),
    ],
    "drawn_in.drawn_in": [
        ("T3 drawn by hand", 112.8, 113.2),
    ],
    "resampled.resampled": [
        ("a line between readings", 39.9, 40),
    ],
}


def _found(detector: Callable[[Signals], list[Fault]], name: str, by: float) -> list[Fault]:
    return detector(Signals(CHANGES[name].put(by), stress_relief()))


def _told(fault: Fault) -> str:
    spells = " ".join(f"{one.start:.0f}-{one.end:.0f}" for one in fault.wrong[:3])
    whose = "+".join(filter(None, (fault.tag, *fault.others)))
    sure = f"{fault.confidence}, {fault.treatment}"
    return f"  {fault.kind} {whose or fault.zone} {spells}: {fault.evidence}; {sure}"


@each_row("name", EDGES)
def test_the_edges_of_each_detector(name: str) -> None:
    module, function = name.split(".")
    detector = getattr(import_module(f"hts.record.faults.{module}"), function)
    lines = []
    for change, *amounts in EDGES[name]:
        below, beyond = (_found(detector, change, by) for by in amounts)
        assert bool(below) != bool(beyond), change
        side = "from" if beyond else "to"
        lines.append(f"{change}, {side} {amounts[bool(beyond)]:g}")
        lines += [_told(fault) for fault in beyond or below]
    told.same(KEPT, name, "\n".join(lines))
