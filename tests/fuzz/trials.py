"""Runs the trials of all areas: which number is of which area, what came of each."""

from __future__ import annotations

import os
import traceback
from random import Random
from typing import NamedTuple

from tests.fuzz.areas import AREAS, Area, Trial
from tests.fuzz.looks import look
from tests.fuzz.run import Broken, alarm, run
from tests.fuzz.workplace import Workplace


class Outcome(NamedTuple):
    """`failure` is empty where all held; `seconds` are of the processor."""

    area: str
    number: int
    code: int
    failure: str
    seconds: float


def trial_of(seed: int, number: int, place: Workplace) -> tuple[Area, Trial]:
    """The area and the trial of a number; the same numbers give the same trial."""
    random = Random(f"{seed}/{number}")
    (area,) = random.choices(AREAS, [area.share for area in AREAS])
    return area, area.make(random, place)


def try_one(area: Area, number: int, trial: Trial, place: Workplace) -> Outcome:
    """Runs a trial and looks at what came of it; the workplace is as before afterwards."""
    code, seconds, failure = -1, 0.0, ""
    try:
        place.write(trial.files)
        with alarm():
            ran = run(trial.arguments)
            code, seconds = ran.code, ran.seconds
            look(trial, ran, place)
            trial.look(trial, ran)
    except Exception as error:
        failure = _said(error)
    finally:
        place.put_back()
    return Outcome(area.name, number, code, failure, seconds)


def _said(error: Exception) -> str:
    if isinstance(error, Broken):
        return " ".join(f"Broken: {error}".split())[:400]
    frames = traceback.extract_tb(error.__traceback__)
    ours = [f for f in frames if f"{os.sep}hts{os.sep}" in f.filename] or frames
    at = f"{os.path.basename(ours[-1].filename)}:{ours[-1].lineno}"
    return f"{type(error).__name__} in {at} ({ours[-1].name}): {' '.join(str(error).split())}"[:400]


_places: list[Workplace] = []


def trials_of_part(part: tuple[int, int, int]) -> list[Outcome]:
    """The trials of some numbers, in the workplace of this process."""
    if not _places:
        _places.append(Workplace())
    seed, first, end = part
    return [
        try_one(area, number, trial, _places[0])
        for number in range(first, end)
        for area, trial in (trial_of(seed, number, _places[0]),)
    ]
