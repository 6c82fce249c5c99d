"""A worse record is never better off: not by a fault that grows, nor by a column that is added.

What the readings of a sound run become is written down here by itself, from memory and common
practice, no source; nothing of it knows how a fault is looked for.
"""

from __future__ import annotations

import io
from collections.abc import Callable
from datetime import datetime, timedelta
from functools import lru_cache
from pathlib import Path

import numpy as np
import pytest

from hts.record.faults import apply, find
from hts.record.faults.fault_kinds import HIGH
from hts.record.judging import MET, NOT_MET, NOT_SHOWN, Judgement, judge
from hts.record.reading import Options, read
from hts.record.record import Floats
from hts.record.simulation import Ask, simulate
from tests.record.detection import run_of
from tests.sampling import thinned, whose_turn

SPEC = "p22-header"
START = datetime(2026, 11, 20, 6)
ORDER = {NOT_MET: 0, NOT_SHOWN: 1, MET: 2}
#: Rows, one each minute: heating from 300 degC, the hold, cooling to 300 degC.
HEATING, HOLD, COOLING = slice(60, 260), slice(290, 390), slice(420, 640)

Table = tuple[Floats, Floats]
Worse = Callable[[Floats, Floats, float], Table]


@lru_cache(maxsize=1)
def sound() -> tuple[list[str], list[str], Table]:
    """The head of a simulated log, the titles of its columns, its minutes and its readings."""
    lines = simulate(run_of(SPEC), Ask(seed=8111, start=START)).splitlines()
    at = next(i for i, line in enumerate(lines) if line.startswith("time,"))
    values = np.genfromtxt(io.StringIO("\n".join(lines[at + 1 :])), delimiter=",")[:, 1:]
    return lines[:at], lines[at].split(",")[1:], (np.arange(len(values)) * 1.0, values)


def written(titles: list[str], minutes: Floats, values: Floats) -> str:
    rows = [",".join(["time", *titles])]
    for at, row in zip(minutes.tolist(), values.tolist(), strict=True):
        clock = START + timedelta(seconds=round(at * 60))
        cells = ("" if np.isnan(one) else f"{one:.1f}" for one in row)
        rows.append(",".join([f"{clock:%Y-%m-%d %H:%M:%S}", *cells]))
    return "\n".join([*sound()[0], *rows]) + "\n"


def judged(text: str, folder: Path) -> Judgement:
    path, run = folder / "log.csv", run_of(SPEC)
    path.write_text(text)
    record = read([str(path)], run.run.tags, Options())
    found = find(record, run)
    return judge(apply(record, found), run, found)


def column(tag: str) -> int:
    return next(i for i, title in enumerate(sound()[1]) if title.split()[0] == tag)


def added(tag: str, shape: Callable[[Floats, Floats], Floats], rows: slice = slice(None)) -> Worse:
    """`shape` of minutes and readings of one column, so many times, in some rows."""

    def worse(minutes: Floats, values: Floats, much: float) -> Table:
        at = column(tag)
        values[rows, at] += much * shape(minutes[rows], values[rows, at])
        return minutes, values

    return worse


def even(minutes: Floats, values: Floats) -> Floats:
    return np.ones_like(values)


def for_long(tag: str, to: Callable[[Floats], float | Floats]) -> Worse:
    """Readings of so many minutes of the hold as `to` makes them."""

    def worse(minutes: Floats, values: Floats, much: float) -> Table:
        rows, at = slice(HOLD.start, HOLD.start + int(much)), column(tag)
        if much:
            values[rows, at] = to(values[rows, at])
        return minutes, values

    return worse


def quicker(rows: slice) -> Worse:
    """The same change in less time: so many times as fast."""

    def worse(minutes: Floats, values: Floats, much: float) -> Table:
        steps = np.diff(minutes)
        steps[rows] /= 1 + much
        return np.concatenate(([0.0], np.cumsum(steps))), values

    return worse


def cut(minutes: Floats, values: Floats, much: float) -> Table:
    kept = len(minutes) - int(much)
    return minutes[:kept], values[:kept]


def shorter(minutes: Floats, values: Floats, much: float) -> Table:
    """So many minutes of the hold are not there, and the clock goes on without them."""
    kept = np.delete(values, slice(HOLD.start, HOLD.start + int(much)), axis=0)
    return minutes[: len(kept)], kept


def noisy(minutes: Floats, values: Floats, much: float) -> Table:
    values[:, column("T3")] += np.random.RandomState(5).normal(0.0, 1.0, len(values)) * much
    return minutes, values


WORSE: dict[str, tuple[Worse, tuple[float, ...]]] = {
    "deeper": (added("T3", even, slice(320, 345)), (-4, -9, -16, -30, -60, -150, -400, -690)),
    "deeper, a spare": (added("T2S", even, slice(320, 345)), (-4, -16, -30, -60, -150, -400)),
    "deeper, all day": (added("T3", even), (-3, -6, -12, -20, -30, -50, -80, -120)),
    "hotter": (added("T1", even, slice(320, 335)), (5, 9, 16, 30, 60, 150, 400)),
    "hotter, an edge": (added("T9", even, slice(320, 335)), (50, 200, 270, 400, 600)),
    "hotter, an edge, as metal is": (
        added("T9", lambda minutes, _: np.interp(minutes, (150, 320, 380, 600), (0, 1, 1, 0))),
        (50, 200, 280, 400, 500, 600, 800),
    ),
    "a spare off": (added("T2S", even), (6, 12, 20, 30, 60, 120)),
    "low by a share": (
        added("T4", lambda _, values: 20 - values),
        (0.005, 0.015, 0.03, 0.06, 0.12, 0.3, 0.6, 0.9),
    ),
    "drift": (added("T2", lambda minutes, _: minutes / 60), (0.2, 1, 2, 4, 8, 16, 32)),
    "cold for longer": (for_long("T3", lambda values: values - 25), (2, 5, 11, 20, 40, 80)),
    "blank for longer": (for_long("T3", lambda values: values * np.nan), (1, 2, 4, 8, 20, 60, 99)),
    "still for longer": (for_long("T3", lambda values: values[0] - 40), (2, 5, 11, 30, 90)),
    "heated faster": (quicker(HEATING), (0.02, 0.05, 0.15, 0.4, 1, 3)),
    "cooled faster": (quicker(COOLING), (0.1, 0.3, 0.6, 1, 3)),
    "ended sooner": (cut, (5, 40, 90, 200, 330, 420, 480)),
    "held shorter": (shorter, (4, 9, 14, 25, 50, 90)),
    "noisier": (noisy, (0.1, 0.5, 1, 2, 4, 8, 16)),
}


@pytest.mark.parametrize("kind", thinned(whose_turn(WORSE), 2))
def test_what_grows_worse_is_not_met_again(kind: str, tmp_path: Path) -> None:
    worse, steps = WORSE[kind]
    _, titles, (minutes, values) = sound()
    told = [MET]
    for much in steps:
        made = worse(minutes.copy(), values.copy(), much)
        judgement = judged(written(titles, *made), tmp_path)
        if judgement.overall == MET and _beside(judgement):
            continue
        told.append(judgement.overall)
    lost = next((at for at, one in enumerate(told) if one != MET), len(told))
    assert MET not in told[lost:], told
    assert told[-1] != MET, told


def _beside(judgement: Judgement) -> bool:
    """Whether a thermocouple that need not be in range jumps as no metal does: that is told, with
    no doubt, and shows nothing of the weld."""
    needed = {one.tag for one in judgement.plan.required}
    return any(one.confidence == HIGH and one.tag not in needed for one in judgement.faults)


BASES: dict[str, tuple[Worse, float] | None] = {
    "sound": None,
    "too cold": (added("T3", even, slice(320, 345)), -30),
    "blank": (for_long("T3", lambda values: values * np.nan), 30),
    "a spare off": (added("T2S", even), 30),
    "drift": (added("T2", lambda minutes, _: minutes / 60), 8),
    "noisy": (noisy, 8),
}
OTHER_BASES = [base for base in BASES if base != "sound"]
COLUMNS: dict[str, tuple[str, Callable[[Floats], Floats]]] = {
    "a copy of its own": ("T3 [degC]", lambda values: values[:, column("T3")]),
    "a copy under another name": ("Pen 31 [degC]", lambda values: values[:, column("T3")]),
    "a copy of a sound one": ("T3B [degC]", lambda values: values[:, column("T4")]),
    "blank": ("T3 spare [degC]", lambda values: values[:, 0] * np.nan),
    "blank, without a title": ("", lambda values: values[:, 0] * np.nan),
    "a pressure": ("pressure [bar]", lambda values: values[:, 0] / 7),
    "the mean of all": ("mean [degC]", lambda values: values[:, :8].mean(axis=1)),
}


@pytest.mark.parametrize("base", ["sound", *whose_turn(OTHER_BASES)])
def test_a_column_that_is_added_makes_nothing_better(base: str, tmp_path: Path) -> None:
    from hts.record.errors import RecordError

    _, titles, (minutes, values) = sound()
    minutes, values = minutes.copy(), values.copy()
    if (worse := BASES[base]) is not None:
        minutes, values = worse[0](minutes, values, worse[1])
    bare = judged(written(titles, minutes, values), tmp_path)
    assert (bare.overall == MET) == (base == "sound")
    outcomes = {one.requirement: ORDER[one.verdict] for one in bare.verdicts}
    for what, (title, of) in COLUMNS.items():
        more = np.column_stack((values, of(values)))
        try:
            told = judged(written([*titles, title], minutes, more), tmp_path)
        except RecordError:
            continue  # asked back, which is no verdict
        better = [
            one.requirement
            for one in told.verdicts
            if ORDER[one.verdict] > outcomes.get(one.requirement, 2)
        ]
        assert not better and ORDER[told.overall] <= ORDER[bare.overall], (what, better)
