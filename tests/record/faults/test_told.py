"""What is found of each way a chain can go wrong, word for word: kind, thermocouples, times,
evidence, how sure, and what becomes of the readings.

That each fault is found, and no other, is worked out in the other tests of this room; here the
same faults are put into other thermocouples, at other intervals and by other amounts.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path

import numpy as np

from hts.record.faults import apply, find
from hts.record.record import LEFT_OUT, Floats, Record
from hts.record.simulation.wiring import WIRING, Setting
from hts.science.thermocouples.faults import wrong_input
from tests import told
from tests.record.faults.runs import AIR, readings, record, stress_relief, times
from tests.rows import each_row

KEPT = Path(__file__).with_name("told")
Run = dict[str, Floats]
Way = Callable[[Run, Floats], Run]


@cache
def _sound(interval: float) -> Run:
    run = readings(interval, seed=3)
    random = np.random.default_rng(11)
    for spare, of in (("T1S", "T1"), ("T2S", "T2")):
        run[spare] = np.round(run[of] + random.normal(0.0, 0.3, run[of].size) + 0.4, 1)
    return run


def _one(tag: str, change: Callable[[Floats, Floats], Floats]) -> Way:
    """A change of one thermocouple, of its hours and readings."""
    return lambda run, at: {**run, tag: np.round(change(at / 3600, run[tag]), 1)}


def _all(change: Callable[[Floats, Floats], Floats]) -> Way:
    return lambda run, at: {tag: np.round(change(at / 3600, v), 1) for tag, v in run.items()}


def _from(hour: float, change: Callable[[Floats], Floats], until: float = 99.0):  # type: ignore[no-untyped-def]
    return lambda h, v: np.where((h >= hour) & (h < until), change(v), v)


def _heater(h: Floats, v: Floats) -> Floats:
    smooth = np.convolve(np.pad(v, 7, "edge"), np.ones(15) / 15, "valid")
    power = np.maximum(np.gradient(smooth, h) + (v - AIR) / 7, 0)
    return v + 60 * power / power.max()


def _swapped(one: str, other: str, hour: float = 0.0) -> Way:
    def swap(run: Run, at: Floats) -> Run:
        late = at / 3600 >= hour
        first, second = run[one], run[other]
        return {**run, one: np.where(late, second, first), other: np.where(late, first, second)}

    return swap


def _cooling(tags: tuple[str, ...], begins: float, ends: float, constant: float) -> Way:
    """These get no heat from one hour to another, and come up again by 120 K/h."""

    def lose(run: Run, at: Floats) -> Run:
        h, made = at / 3600, dict(run)
        for tag in tags:
            start = float(np.interp(begins, h, run[tag]))
            cold = AIR + (start - AIR) * np.exp(-(h - begins) / constant)
            back = float(np.interp(ends, h, cold)) + 120 * (h - ends)
            lower = np.minimum(run[tag], np.where(h < ends, cold, back))
            made[tag] = np.round(np.where(h < begins, run[tag], lower), 1)
        return made

    return lose


def _rows_again(run: Run, at: Floats) -> Run:
    """An hour of the hold stands there a second time."""
    first, rows = int(np.searchsorted(at, 4.5 * 3600)), int(3600 / (at[1] - at[0]))
    return {
        tag: np.concatenate((v[: first + rows], v[first : first + rows], v[first + 2 * rows :]))
        for tag, v in run.items()
    }


def _hung(run: Run, at: Floats) -> Run:
    first, last = np.searchsorted(at, (3.0 * 3600, 3.6 * 3600))
    rows = np.arange(at.size)
    rows[first:last] = first
    return {tag: v[rows] for tag, v in run.items()}


def _noise(most: float) -> Callable[[Floats, Floats], Floats]:
    def pick_up(h: Floats, v: Floats) -> Floats:
        random = np.random.default_rng(5)
        return v + np.where(v > 300, most * np.sin(random.uniform(0, 6.28, v.size)), 0)

    return pick_up


WAYS: dict[str, Way] = {
    "sound": lambda run, at: run,
    "type N set": _one("T3", lambda h, v: np.array([wrong_input("K", "N", t, 25.0) for t in v])),
    "type J set": _one("T2", lambda h, v: np.array([wrong_input("K", "J", t, 25.0) for t in v])),
    "degF, one": _one("T4", lambda h, v: v * 1.8 + 32),
    "degF, all": _all(lambda h, v: v * 1.8 + 32),
    "a tenth": _one("T3", lambda h, v: v / 10),
    "ten times": _one("T6", lambda h, v: v * 10),
    "a step up": _one("T3", _from(3.0, lambda v: v + 22)),
    "a step down in the hold": _one("T4", _from(5.2, lambda v: v - 13)),
    "a step of all": _all(_from(3.5, lambda v: v + 9)),
    "a step of all and back": _all(_from(3.0, lambda v: v + 12, 4.0)),
    "offset": _one("T2S", lambda h, v: v + 9),
    "offset of an edge": _one("T5", lambda h, v: v + 40),
    "off while cold": _one("T1S", lambda h, v: v + np.where(v < 100, 14, 0)),
    "drift down": _one("T3", lambda h, v: v * (1 - 0.02 * np.maximum(h - 2.5, 0))),
    "drift up": _one("T1", lambda h, v: v * (1 + 0.012 * np.maximum(h - 1.5, 0))),
    "low by a share": _one("T4", lambda h, v: AIR + (v - AIR) * 0.82),
    "low from the hold on": _one("T3", _from(4.4, lambda v: AIR + (v - AIR) * 0.7)),
    "comes loose": _one("T3", lambda h, v: v - (v - AIR) * 0.3 * (1 - np.exp(
        -np.maximum(h - 3, 0) / 0.5))),
    "leaks when hot": _one("T4", lambda h, v: v - 0.0006 * np.maximum(v - 350, 0) ** 2),
    "at a heater": _one("T3", _heater),
    "control at a heater": _one("T1", _heater),
    "pick-up": _one("T3", _noise(14.0)),
    "pick-up of two": lambda run, at: _one("T1", _noise(9.0))(_one("T2", _noise(11.0))(run, at),
                                                              at),
    "24 degC": _one("T3", lambda h, v: 24 + 0 * v),
    "95 degC": _one("T4", lambda h, v: 95 + 0.2 * np.sin(9 * h)),
    "200 degC": _one("T6", lambda h, v: 200 + 0 * v),
    "stands for 20 min": _one("T3", lambda h, v: np.where((h > 3) & (h < 3.34), v[h > 3][0], v)),
    "stands for 50 min": _one("T2", lambda h, v: np.where((h > 5) & (h < 5.85), v[h > 5][0], v)),
    "open and back": _one("T3", _from(2.0, lambda v: 0 * v + 1372, 2.2)),
    "open down from the start": _one("T5", lambda h, v: 0 * v - 200),
    "open by and by": _one("T4", lambda h, v: np.where(h < 3, v, np.minimum(1372, v + (h - 3)
                                                                            * 4000))),
    "swapped": _swapped("T3", "T4"),
    "swapped with an edge": _swapped("T3", "T6"),
    "swapped with the spare from an hour on": _swapped("T1", "T1S", 3.0),
    "swapped with an edge from an hour on": _swapped("T4", "T6", 3.5),
    "a copy": lambda run, at: {**run, "T4": run["T3"]},
    "a copy, a little off": lambda run, at: {**run, "T2": np.round(run["T1"] + 0.7, 1)},
    "rows again": _rows_again,
    "all stand": _hung,
    "zone top cools": _cooling(("T1", "T1S", "T3"), 4.6, 6.0, 6.0),
    "zone bottom cools on": _cooling(("T2", "T2S", "T4"), 3.0, 99.0, 9.0),
    "one of a zone cools": _cooling(("T4",), 5.0, 99.0, 6.0),
    "all cool": _cooling(("T1", "T1S", "T3", "T2", "T2S", "T4"), 4.6, 5.6, 5.0),
    "fell off in the hold": _one("T3", lambda h, v: np.where(
        h < 5, v, AIR + (v[h < 5][-1] - AIR) * np.exp(-np.maximum(h - 5, 0) * 9))),
    "spikes, small": _one("T3", lambda h, v: v + np.where(np.arange(v.size) % 211 == 100, 28, 0)),
    "spikes, one": _one("T2", lambda h, v: v + np.where(np.arange(v.size) == 400, -90, 0)),
}  # fmt: skip


def _lines(made: Record, plan: bool) -> str:
    found = find(made, stress_relief() if plan else None)
    left = apply(made, found)
    lines = []
    for one in found:
        spells = ", ".join(f"{a:.0f} to {b:.0f}" for a, b in one.spells[:6])
        others = f" and {', '.join(one.others)}" if one.others else ""
        zone = f", zone {one.zone}, over {one.over}" if one.zone else ""
        lines.append(
            f"{one.kind} {one.tag}{others} {one.start:.0f} to {one.end:.0f} [{spells}]{zone}: "
            f"{one.evidence}; {one.confidence}; {one.treatment}"
        )
    away = {tag: int((s.status == LEFT_OUT).sum()) for tag, s in left.series.items()}
    left_out = ", ".join(f"{tag} {rows}" for tag, rows in away.items() if rows)
    return "\n".join([*lines, f"left out {left_out or 'none'}"])


@each_row("way", WAYS)
def test_each_way_a_chain_goes_wrong(way: str) -> None:
    run = WAYS[way](_sound(60.0), times(60.0))
    told.same(KEPT / "every-60-s.txt", way, _lines(record(run, 60.0), True))


@each_row("kind", WIRING)
def test_each_fault_of_wiring_at_an_edge_and_without_a_plan(kind: str) -> None:
    run, at = _sound(30.0), times(30.0)
    hold = (int(np.searchsorted(at, 4.2 * 3600)), int(np.searchsorted(at, 6.5 * 3600)))
    lines = []
    for tag, plan in (("T6", True), ("T3", False)):
        setting = Setting("K", hold[0] - 100, hold)
        trace = WIRING[kind].put(run[tag], setting, np.random.RandomState(4))
        rows = {mark: [r for r, t in trace.texts.items() if bool(t) == mark] for mark in (1, 0)}
        made = record({**run, tag: np.round(trace.values, 1)}, 30.0, None, {tag: rows[1]},
                      {tag: rows[0]})  # fmt: skip
        lines.append(_lines(made, plan))
    told.same(KEPT / "wiring.txt", kind, "\n".join(lines))


@each_row("by", [-3600.0, -200.0, 200.0, 3600.0])
def test_clocks_that_are_set(by: float) -> None:
    """From four hours on; ahead it leaves a gap, and back the rows run over the same time."""
    at = times(30.0)
    moved = np.where(at >= 4 * 3600, at + by, at)
    kept = moved > np.maximum.accumulate(np.concatenate(([-1.0], moved[:-1])))
    run = {tag: values[kept] for tag, values in _sound(30.0).items()}
    made = record(run, 30.0, moved[kept])
    told.same(KEPT / "clocks.txt", f"{by:g} s", _lines(made, True))
