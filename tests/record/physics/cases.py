"""What a made record is: the run behind it, its file, and what is true of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np

from tests.record.physics.faults import Trouble
from tests.record.physics.judge import MET, NEAR, NOT_MET, Truth, longest, truth
from tests.record.physics.metal import Floats
from tests.record.physics.oven import Program, Run, run
from tests.record.physics.plants import MINUTE, Plant
from tests.record.physics.recorder import Settings, Table, record

#: What a judge of the record may say: truly met and shown; truly not met; met, but not shown by
#: what was recorded; shown, with a fault one may be strict about; undecidable.
MUST, NEVER, UNSHOWN, EITHER, OPEN = (
    "met and shown", "not met", "not shown", "met, fault beside", "undecided",
)  # fmt: skip

#: K and s: a required thermocouple wrong by this for that long in the hold leaves it not shown.
WRONG, FOR = 4.0, 5 * MINUTE
#: s without any heat that make a zone one that lacked heat.
OFF = 5 * MINUTE


@dataclass
class Situation:
    """A record in the making: `blame` the tags that are faulty, none for a fault of the whole
    record; `zone` the one whose heaters failed."""

    run: Run
    table: Table
    settings: Settings
    blame: tuple[str, ...] = ()
    shown: str = ""
    note: str = ""
    zone: str = ""


Edit = Callable[["Situation", np.random.Generator], None]


@dataclass(frozen=True)
class Kind:
    """A kind of record. `words` are patterns one of which a fault found must be named by, none
    where the record has no fault. `shown` overrides what the temperatures say about evidence.

    `program`, `troubles` and `edit` make it: how the run was driven; which circuits were wrong,
    given the finished run; what then became of the recorder's rows.
    """

    name: str
    words: tuple[str, ...] = ()
    shown: str = ""
    program: Callable[[Plant, np.random.Generator], Program] | None = None
    troubles: Callable[[Run, np.random.Generator], dict[str, Trouble]] | None = None
    edit: Edit | None = None
    settings: Callable[[Settings, np.random.Generator], Settings] | None = None
    plants: tuple[str, ...] = ()


@lru_cache(maxsize=16)
def plain(plant: Plant, number: int) -> Run:
    """One of a few ordinary runs, shared by the records whose faults do not reach the metal."""
    rng = np.random.default_rng(7000 + number)
    return run(plant, Program(rng.uniform(0.75, 0.9), rng.uniform(0.75, 0.9), 1.12), rng)


def make(kind: Kind, plant: Plant, rng: np.random.Generator) -> tuple[Situation, Truth, str]:
    """A record of a kind, the truth about its run, and what a judge may say of it."""
    if kind.program is None:
        driven = plain(plant, int(rng.integers(0, 2)))
    else:
        driven = run(plant, kind.program(plant, rng), rng)
    settings = Settings(plant.interval, noise=float(rng.uniform(0.05, 0.3)))
    form = str(rng.choice(["plain", "plain", "comma", "tab"]))
    settings = Settings(
        plant.interval, settings.noise, 1.0 if rng.random() < 0.3 else 0.1,
        "degF" if rng.random() < 0.2 else "degC", form,
    )  # fmt: skip
    if kind.settings is not None:
        settings = kind.settings(settings, rng)
    troubles = kind.troubles(driven, rng) if kind.troubles is not None else {}
    table = record(driven, settings, troubles, rng)
    made = Situation(driven, table, settings, tuple(troubles), kind.shown)
    if kind.edit is not None:
        kind.edit(made, rng)
    known = truth(driven)
    return made, known, may_say(made, known, bool(kind.words))


def may_say(made: Situation, known: Truth, faulty: bool) -> str:
    if made.shown == OPEN:
        return OPEN
    if known.verdict == NOT_MET:
        return NEVER
    if known.verdict == NEAR:
        return OPEN
    if made.shown:
        return made.shown
    if not evidence(made):
        return UNSHOWN
    return EITHER if faulty else MUST


def evidence(made: Situation) -> bool:
    """Whether every required thermocouple reads near the truth through the hold, but for moments. A
    thermocouple replaced by its spare is the spare from then on."""
    driven, table = made.run, made.table
    begin, end = driven.at[2], driven.at[3]
    during = (table.seconds >= begin) & (table.seconds <= end)
    if not during.any():
        return False
    for place in driven.places:
        if not place.required:
            continue
        true = np.interp(table.seconds, driven.seconds, driven.true[:, driven.column(place.tag)])
        read = table.values[:, table.column(place.tag)]
        for at, by in made_replacements(made, place.tag):
            spare = table.values[:, table.column(by)]
            read = np.where(table.seconds >= at, spare, read)
        wrong = ~(np.abs(read - true) <= WRONG) & during
        if wrong.sum() * made.settings.interval > FOR:
            return False
    rows = table.seconds[during]
    holes = np.diff(np.concatenate(([begin], rows, [end])))
    return bool(holes.max() <= FOR)


def made_replacements(made: Situation, tag: str) -> list[tuple[float, str]]:
    found = []
    for event in made.table.events:
        if event.get("tag") == tag and event["kind"] == "replaced":
            found.append((float(event["seconds"]), event["by"]))
    return found


def required(run_of: Run, rng: np.random.Generator, control: bool | None = None) -> str:
    """A required thermocouple: a controlling one, another one, or any."""
    tags = [
        place.tag
        for place in run_of.places
        if place.required and (control is None or bool(place.zone) == control)
    ]
    return str(rng.choice(tags))


def hold(run_of: Run, part: float) -> float:
    """s at a part of the hold."""
    return run_of.at[2] + part * (run_of.at[3] - run_of.at[2])


def without_heat(run_of: Run) -> tuple[str, ...]:
    """Zones whose heaters truly gave nothing for OFF s or more of heating and hold: whoever says
    that such a zone's heaters failed, says nothing that the metal belies."""
    during = (run_of.seconds >= run_of.at[1]) & (run_of.seconds < run_of.at[3])
    step = float(run_of.seconds[1] - run_of.seconds[0])
    found = []
    for n, place in enumerate(run_of.places):
        if place.zone and longest(during & (run_of.output[:, n] < 0.005)) * step >= OFF:
            found.append(place.zone)
    return tuple(sorted(set(found)))


def heating(run_of: Run, part: float) -> float:
    """s at a part of the heating above 300 degC."""
    return run_of.at[1] + part * (run_of.at[2] - run_of.at[1])


__all__ = [
    "EITHER",
    "MET",
    "MUST",
    "NEVER",
    "OPEN",
    "UNSHOWN",
    "Floats",
    "Kind",
    "Situation",
    "field",
    "make",
]
