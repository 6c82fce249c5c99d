"""How little of each fault is found, and as what: each is put into a run by more and more, from
where it is lost in the noise to where nobody could miss it.

What is found is kept (`tests.told`); that what is worse is never passed over in silence, where what
is less is told, holds whatever is kept.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import numpy as np
import pytest

from hts.record.faults import find
from hts.record.record import Floats, Record
from tests import told
from tests.record.faults.runs import AIR, record, stress_relief, times
from tests.record.faults.test_told import Run, _cooling, _heater, _sound
from tests.sampling import whose_turn

KEPT = Path(__file__).with_name("told") / "how-little.txt"
INTERVAL = 60.0
AT = times(INTERVAL)
HOURS = AT / 3600
#: Amounts that are tried first, and how near the edge between two of them is looked for.
_RUNGS, _NEAR = 9, 1.03
NOTHING = "nothing"


def sound_run() -> Run:
    return _sound(INTERVAL)


class Ladder(NamedTuple):
    """From `least` to `most` of `unit`; `put` makes the record. `gaps` says why nothing is told of
    some amounts beyond one that is told."""

    unit: str
    least: float
    most: float
    put: Callable[[float], Record]
    gaps: str = ""


Change = Callable[[Floats, Floats, float], Floats]


def one(tag: str, change: Change) -> Callable[[float], Record]:
    """A change of one thermocouple, of its hours, its readings and the amount."""
    return lambda by: made({**sound_run(), tag: np.round(change(HOURS, sound_run()[tag], by), 1)})


def all_of(change: Change) -> Callable[[float], Record]:
    return lambda by: made(
        {tag: np.round(change(HOURS, v, by), 1) for tag, v in sound_run().items()}
    )


def made(run: Run, elapsed: Floats = AT) -> Record:
    return record(run, INTERVAL, elapsed)


def between(start: float, end: float, change: Change) -> Change:
    """The change from one hour to another."""
    return lambda h, v, by: np.where((h >= start) & (h < end), change(h, v, by), v)


def plus(h: Floats, v: Floats, by: float) -> Floats:
    return v + by


def minus(h: Floats, v: Floats, by: float) -> Floats:
    return v - by


def times_it(h: Floats, v: Floats, by: float) -> Floats:
    return v * by


def low(h: Floats, v: Floats, by: float) -> Floats:
    """By so many % of the rise."""
    return v - (v - AIR) * by / 100


def while_cold(change: Change) -> Change:
    return lambda h, v, by: np.where(v < 100, change(h, v, by), v)


def drifts(hour: float, sign: float) -> Change:
    """By so many % an hour."""
    return lambda h, v, by: v * (1 + sign * by / 100 * np.maximum(h - hour, 0))


def at_heater(h: Floats, v: Floats, by: float) -> Floats:
    return v + (_heater(h, v) - v) * by / 60


def leaks(above: float, power: float) -> Change:
    """By so many K at 600 degC, and nothing below."""
    return lambda h, v, by: v - by * (np.maximum(v - above, 0) / (600 - above)) ** power


def loose(h: Floats, v: Floats, by: float) -> Floats:
    return v - (v - AIR) * by / 100 * (1 - np.exp(-np.maximum(h - 3, 0) / 0.5))


def falls_off(h: Floats, v: Floats, by: float) -> Floats:
    """In the hold, with a time constant of so many minutes."""
    last = v[h < 5][-1]
    return np.where(h < 5, v, AIR + (last - AIR) * np.exp(-np.maximum(h - 5, 0) * 60 / by))


def put_back(h: Floats, v: Floats, by: float) -> Floats:
    """Off for 24 min so many times, every 48 min, and put back each time."""
    off = v - (v - AIR) * 0.5 * (1 - np.exp(-np.mod(h - 2, 0.8) * 60 / 6))
    return np.where((h >= 2) & (h < 2 + 0.8 * int(by)) & (np.mod(h - 2, 0.8) < 0.4), off, v)


def put_back_after(h: Floats, v: Floats, by: float) -> Floats:
    """Off in the hold for so many minutes."""
    off = v - (v - AIR) * 0.5 * (1 - np.exp(-np.maximum(h - 4.5, 0) * 60 / 6))
    return np.where((h >= 4.5) & (h < 4.5 + by / 60), off, v)


def noise(h: Floats, v: Floats, by: float) -> Floats:
    return np.where(v > 300, v + by * np.random.default_rng(5).normal(0.0, 1.0, v.size), v)


def stands(hour: float) -> Change:
    """For so many minutes."""
    return lambda h, v, by: np.where((h > hour) & (h <= hour + by / 60), v[h > hour][0], v)


def opens(h: Floats, v: Floats, by: float) -> Floats:
    return np.where((h >= 2) & (h < 2 + by / 60), 1372.0, v)


def moves(h: Floats, v: Floats, by: float) -> Floats:
    return 95 + by * np.sin(9 * h)


def spikes(h: Floats, v: Floats, by: float) -> Floats:
    return v + np.where(np.arange(v.size) % 211 == 100, by, 0)


def long_spikes(h: Floats, v: Floats, by: float) -> Floats:
    return v + np.where(np.arange(v.size) % 211 < int(by), 60, 0)


def hung(by: float) -> Record:
    """All stand for so many minutes."""
    rows, first = np.arange(AT.size), int(3 * 3600 / INTERVAL)
    rows[first : first + int(by)] = first
    return made({tag: v[rows] for tag, v in sound_run().items()})


def again(by: float) -> Record:
    """So many minutes stand there twice."""
    rows, first = np.arange(AT.size), int(4.5 * 3600 / INTERVAL)
    rows[first + int(by) : first + 2 * int(by)] -= int(by)
    return made({tag: v[rows] for tag, v in sound_run().items()})


def straight(by: float) -> Record:
    """Every column on a line for so many minutes."""
    known = (HOURS <= 5) | (5 + by / 60 <= HOURS)
    return made(
        {
            tag: np.round(np.interp(HOURS, HOURS[known], v[known]), 1)
            for tag, v in sound_run().items()
        }
    )


def copied(tag: str, of: str) -> Callable[[float], Record]:
    """From five hours on for so many minutes."""

    def put(by: float) -> Record:
        run = sound_run()
        there = (HOURS > 5) & (5 + by / 60 > HOURS)
        return made({**run, tag: np.where(there, run[of], run[tag])})

    return put


def copied_with_noise(by: float) -> Record:
    run, random = sound_run(), np.random.default_rng(2)
    return made({**run, "T4": np.round(run["T3"] + random.normal(0.0, by, AT.size), 1)})


def copied_late(by: float) -> Record:
    run, rows = sound_run(), np.maximum(np.arange(AT.size) - int(by), 0)
    return made({**run, "T4": run["T3"][rows]})


def swapped(first: str, second: str) -> Callable[[float], Record]:
    """For the last so many hours."""

    def put(by: float) -> Record:
        run, late = sound_run(), HOURS[-1] - by <= HOURS
        a, b = run[first], run[second]
        return made({**run, first: np.where(late, b, a), second: np.where(late, a, b)})

    return put


def set_ahead(by: float) -> Record:
    """The clock, after four hours, by so many minutes; rows came all the time."""
    return made(sound_run(), np.where(HOURS >= 4, AT + 60 * by, AT))


def cools(tags: tuple[str, ...], hour: float, constant: float) -> Callable[[float], Record]:
    """For so many hours."""
    return lambda by: made(_cooling(tags, hour, hour + by, constant)(sound_run(), AT))


def cools_on(tags: tuple[str, ...], hour: float) -> Callable[[float], Record]:
    """By a constant of so many hours."""
    return lambda by: made(_cooling(tags, hour, 99.0, by)(sound_run(), AT))


def cools_faster(by: float) -> Record:
    """All by a constant of 20 h, zone top by one of so many hours."""
    run = _cooling(BOTTOM, 4.6, 99.0, 20.0)(sound_run(), AT)
    return made(_cooling(TOP, 4.6, 99.0, by)(run, AT))


TOP, ALL = ("T1", "T1S", "T3"), ("T1", "T1S", "T3", "T2", "T2S", "T4")
BOTTOM = ALL[3:]
_SETTING = "told where a wrong setting would put the hold"
_BY_ITSELF = "as slowly as it cools by itself"
LADDERS = {
    "step up of T3": Ladder("K", 2, 90, one("T3", between(3, 99, plus))),
    "step down of T4 in the hold": Ladder("K", 2, 90, one("T4", between(5.2, 99, minus))),
    "step of all": Ladder("K", 1, 60, all_of(between(3.5, 99, plus))),
    "step of all for half an hour": Ladder("K", 1, 60, all_of(between(3.5, 4, plus))),
    "T2S above": Ladder("K", 1, 80, one("T2S", plus)),
    "T3 below": Ladder("K", 1, 80, one("T3", minus)),
    "T5 above": Ladder("K", 5, 200, one("T5", plus)),
    "T1S above while cold": Ladder("K", 1, 80, one("T1S", while_cold(plus))),
    "T3 below while cold": Ladder("K", 1, 80, one("T3", while_cold(minus))),
    "drift down of T3": Ladder("% an hour", 0.1, 10, one("T3", drifts(2.5, -1))),
    "drift up of T1": Ladder("% an hour", 0.1, 10, one("T1", drifts(1.5, 1))),
    "T4 low": Ladder(
        "% of the rise",
        1,
        95,
        one("T4", low),
        "more than a reversed extension costs and less than a shorted lead: a place may be so cold",
    ),
    "T3 low from the hold on": Ladder("% of the rise", 0.5, 95, one("T3", between(4.4, 99, low))),
    "T3 comes loose": Ladder("% of the rise", 1, 99, one("T3", loose)),
    "T3 falls off": Ladder("min", 0.5, 400, one("T3", falls_off)),
    "T3 put back, times": Ladder("", 1, 9, one("T3", put_back)),
    "T3 put back after": Ladder(
        "min",
        2,
        300,
        one("T3", put_back_after),
        "too long for a spike and too short for a junction that came off: the dip itself is judged",
    ),
    "T4 leaks": Ladder("K at 600 degC", 1, 200, one("T4", leaks(350, 2))),
    "T4 leaks above 450 degC": Ladder("K at 600 degC", 1, 200, one("T4", leaks(450, 1.5))),
    "T4 leaks above 550 degC": Ladder("K at 600 degC", 1, 200, one("T4", leaks(550, 1.5))),
    "T3 at a heater": Ladder("K", 2, 150, one("T3", at_heater)),
    "T1 at a heater": Ladder("K", 2, 150, one("T1", at_heater)),
    "pick-up of T3": Ladder("K", 0.5, 60, one("T3", noise)),
    "T3 stands while heated": Ladder("min", 2, 200, one("T3", stands(2.5))),
    "T2 stands in the hold": Ladder("min", 2, 100, one("T2", stands(4.7))),
    "T3 moves about 95 degC": Ladder("K", 1, 300, one("T3", moves)),
    "T3 open for a while": Ladder("min", 1, 200, one("T3", opens)),
    "T3 stands at": Ladder("degC", 10, 1400, one("T3", lambda h, v, by: 0 * v + by)),
    "T3 goes to": Ladder("degC", 10, 1400, one("T3", between(3, 99, lambda h, v, by: 0 * v + by))),
    "T3 times": Ladder("", 0.08, 12, one("T3", times_it), "once is right"),
    "all times": Ladder("", 0.4, 2.5, all_of(times_it), _SETTING),
    "all above": Ladder("K", 2, 200, all_of(plus), _SETTING),
    "spikes of T3": Ladder("K", 5, 200, one("T3", spikes)),
    "rows of a spike": Ladder("", 1, 60, one("T3", long_spikes)),
    "T4 is T3 with noise": Ladder(
        "K", 0.02, 3, copied_with_noise, "one with noise of its own is no copy"
    ),
    "T4 is T3 for a while": Ladder("min", 2, 400, copied("T4", "T3")),
    "T1S is T1 for a while": Ladder("min", 2, 400, copied("T1S", "T1")),
    "T7 is T5 for a while": Ladder("min", 2, 400, copied("T7", "T5")),
    "T4 is T3, late": Ladder("rows", 1, 120, copied_late, "more than sixty rows late"),
    "T3 and T6 swapped": Ladder("h", 0.2, 12.5, swapped("T3", "T6")),
    "all stand": Ladder("min", 1, 120, hung),
    "rows again": Ladder("min", 2, 120, again),
    "all straight": Ladder("min", 2, 120, straight),
    "clock set ahead": Ladder("min", 1, 200, set_ahead),
    "zone top cools on": Ladder("h", 1, 60, cools_on(TOP, 4.6), _BY_ITSELF),
    "zone top cools for": Ladder("h", 0.1, 4, cools(TOP, 4.6, 6.0)),
    "all cool, zone top faster": Ladder("h", 1, 20, cools_faster, _BY_ITSELF),
    "T4 cools on": Ladder("h", 1, 60, cools_on(("T4",), 5.0), _BY_ITSELF),
    "all cool for": Ladder("h", 0.1, 4, cools(ALL, 4.6, 5.0)),
}


def _found(ladder: Ladder, by: float) -> str:
    its = find(ladder.put(by), stress_relief())
    said = {f"{f.kind} {'+'.join(filter(None, (f.tag, *f.others)))} {f.confidence}" for f in its}
    return "; ".join(sorted(said)) or NOTHING


def _climbed(ladder: Ladder) -> list[tuple[str, float]]:
    """What is found in turn, and up to which amount."""
    rungs = np.geomspace(ladder.least, ladder.most, _RUNGS).tolist()
    found = [_found(ladder, by) for by in rungs]
    steps = []
    for low, high, here, above in zip(rungs, rungs[1:], found, found[1:], strict=False):
        while above != here:
            # The first edge above; what lies between two edges may be a third thing.
            low_, high_, other = low, high, above
            while high_ > low_ * _NEAR:
                middle = (low_ * high_) ** 0.5
                seen = _found(ladder, middle)
                if seen == here:
                    low_ = middle
                else:
                    high_, other = middle, seen
            steps.append((here, low_))
            low, here = high_, other
    return [*steps, (found[-1], ladder.most)]


@pytest.mark.parametrize("name", whose_turn(LADDERS, 4))
def test_how_little_is_found(name: str) -> None:
    ladder = LADDERS[name]
    climbed = _climbed(ladder)
    lines = [f"{found}: to {by:.3g} {ladder.unit}".rstrip() for found, by in climbed]
    told.same(KEPT, name, "\n".join(lines))
    silent = [number for number, (found, _) in enumerate(climbed) if found == NOTHING]
    passed_over = silent[-1:] not in ([], [0])
    assert passed_over == bool(ladder.gaps), "nothing is told of more than what is told"
