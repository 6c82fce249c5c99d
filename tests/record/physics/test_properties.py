"""Making a record worse never makes it met, and a further column never makes a verdict better."""

from __future__ import annotations

from collections.abc import Callable
from copy import deepcopy
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import pytest

from tests.record.physics.cases import Situation, hold, make
from tests.record.physics.grading import ask
from tests.record.physics.kinds import ALL
from tests.record.physics.plants import MINUTE, PLANTS
from tests.record.physics.recorder import write

#: From worst to best; a record that is refused is no better than any.
BETTER = {"not met": 0, "refused": 0, "not shown": 1, "conditionally met": 2, "met": 3}
SHORT = PLANTS[1], PLANTS[3]


@cache
def situation(kind: str, plant: int = 0) -> Situation:
    return make(
        next(one for one in ALL if one.name == kind),
        SHORT[plant],
        np.random.default_rng([8, plant]),
    )[0]


def rank(made: Situation, folder: Path) -> int:
    path = folder / "run.csv"
    write(made.table, made.settings, path)
    overall = ask(made.run.plant, path).overall
    return next(value for word, value in BETTER.items() if overall.startswith(word))


# --- worse ----------------------------------------------------------------------------------------


def rows(made: Situation, begin: float, minutes: float) -> np.ndarray:
    at = hold(made.run, begin)
    return (made.table.seconds >= at) & (made.table.seconds < at + minutes * MINUTE)


def colder(made: Situation) -> None:
    """One required thermocouple below the range for a good while."""
    limits = made.run.plant.limits
    some = rows(made, 0.3, 25)
    column = made.table.column("T2")
    made.table.values[some, column] = np.minimum(made.table.values[some, column], limits.low - 9)


def hotter(made: Situation) -> None:
    made.table.values[rows(made, 0.3, 6), made.table.column("T3")] += 45


def without_rows(made: Situation) -> None:
    keep = ~rows(made, 0.3, 25)
    made.table.seconds, made.table.values = made.table.seconds[keep], made.table.values[keep]


def without_readings(made: Situation) -> None:
    made.table.values[rows(made, 0.2, 40), made.table.column("T1")] = np.nan


def without_a_thermocouple(made: Situation) -> None:
    made.table.values[:, made.table.column("T4")] = np.nan


def without_the_end(made: Situation) -> None:
    keep = made.table.seconds < hold(made.run, 1.0) + 10 * MINUTE
    made.table.seconds, made.table.values = made.table.seconds[keep], made.table.values[keep]


def faster(made: Situation) -> None:
    """The clock runs slow while heating: all rates are half as high again."""
    seconds = made.table.seconds
    start, end = made.run.at[1], made.run.at[2]
    made.table.seconds = np.where(
        seconds < start,
        seconds,
        np.where(seconds < end, start + (seconds - start) / 1.5, seconds - (end - start) / 3),
    )


WORSE: tuple[Callable[[Situation], None], ...] = (
    colder, hotter, without_rows, without_readings, without_a_thermocouple, without_the_end, faster,
)  # fmt: skip


@pytest.mark.parametrize("spoil", WORSE, ids=lambda one: one.__name__)
def test_a_met_record_made_worse_is_not_met(
    tmp_path: Path, spoil: Callable[[Situation], None]
) -> None:
    made = deepcopy(situation("met: plain"))
    spoil(made)
    assert rank(made, tmp_path) < BETTER["met"]


def test_the_record_they_spoil_is_met(tmp_path: Path) -> None:
    assert rank(situation("met: plain"), tmp_path) == BETTER["met"]


@pytest.mark.parametrize(
    ("kind", "spoil"),
    [
        ("hold short", without_rows),
        ("hold short", faster),
        ("zone too hot", colder),
        ("zone too hot", without_readings),
        ("heating too fast", hotter),
    ],
)
def test_a_record_that_is_not_met_is_not_healed(
    tmp_path: Path, kind: str, spoil: Callable[[Situation], None]
) -> None:
    made = deepcopy(situation(kind, 1))
    spoil(made)
    assert rank(made, tmp_path) < BETTER["met"]


# --- further columns ------------------------------------------------------------------------------


def further(made: Situation, name: str, values: np.ndarray, unit: str = "") -> None:
    made.table.tags = [*made.table.tags, name]
    made.table.values = np.column_stack([made.table.values, values])
    if unit:
        made.table.units = {**made.table.units, name: unit}


def duplicate(made: Situation) -> None:
    further(made, "T1 copy", made.table.values[:, made.table.column("T1")])


def second_of_the_name(made: Situation) -> None:
    further(made, "T2", made.table.values[:, made.table.column("T1")])


def blank(made: Situation) -> None:
    further(made, "T99", np.full(len(made.table.seconds), np.nan))


def output(made: Situation) -> None:
    further(made, "Zone 1 output", np.linspace(0, 100, len(made.table.seconds)), "%")


def room(made: Situation) -> None:
    further(made, "Room", np.full(len(made.table.seconds), 19.0))


@cache
def without_it(kind: str) -> int:
    with TemporaryDirectory() as folder:
        return rank(situation(kind, 1), Path(folder))


FURTHER = (duplicate, second_of_the_name, blank, output, room)


@pytest.mark.parametrize("add", FURTHER, ids=lambda one: one.__name__)
@pytest.mark.parametrize("kind", ("met: plain", "hold short", "column copied"))
def test_a_further_column_makes_nothing_better(
    tmp_path: Path, kind: str, add: Callable[[Situation], None]
) -> None:
    made = deepcopy(situation(kind, 1))
    add(made)
    assert rank(made, tmp_path) <= without_it(kind)
