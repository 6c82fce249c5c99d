"""Each detector alone, a little below the amount from which it tells of a fault (or to which), and
a little beyond it: the runs are those of `test_how_little`, the amounts within one in a hundred.

What is told is kept (`tests.told`); that it is told on one side and not on the other holds whatever
is kept. The thresholds are ours (basis: practice), where no source stands beside them.
"""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module
from pathlib import Path

from hts.record.faults.fault import Fault
from hts.record.faults.signals import Signals
from tests import told
from tests.record.faults.runs import stress_relief
from tests.record.faults.test_how_little import LADDERS
from tests.rows import each_row

KEPT = Path(__file__).with_name("told") / "edges-of-each.txt"
#: By detector: the change that is made, and its amounts on either side.
EDGES: dict[str, list[tuple[str, float, float]]] = {
    "agreement.apart_when_cold": [
        ("T1S above while cold", 6.743, 6.763),
        ("T2S above", 7.844, 7.867),
        ("T3 below", 7.733, 7.756),
        ("T3 below while cold", 7.733, 7.756),
        ("T3 stands at", 27.63, 27.73),
        ("T3 times", 0.6165, 0.6186),
        ("T5 above", 7.834, 7.854),
    ],
    "agreement.disagreeing": [
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
        ("T4 is T3 with noise", 0.0548, 0.05499),
    ],
    "filled_in.filled_in": [
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
        ("all stand", 10.98, 11.03),
    ],
    "repeats.frozen": [
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
        ("T2 stands in the hold", 38.97, 39.08),
        ("T3 goes to", 35.29, 35.41),
        ("T3 open for a while", 7.976, 8.005),
        ("T3 stands while heated", 9.975, 10.01),
    ],
    "too_still.too_still": [
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
}


def _found(detector: Callable[[Signals], list[Fault]], name: str, by: float) -> list[Fault]:
    return detector(Signals(LADDERS[name].put(by), stress_relief()))


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
