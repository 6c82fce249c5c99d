"""Which circuits of a run were wrong, and how."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from tests.record.physics.cases import heating, hold, required
from tests.record.physics.circuit import Loop
from tests.record.physics.faults import Trouble
from tests.record.physics.oven import Run

RNG = np.random.Generator
#: What is wrong with a circuit, and with which circuits of a run.
Wrong = Callable[[Run, RNG], Trouble]
Circuits = Callable[[Run, RNG], dict[str, Trouble]]


def crossed_cable(letter: str) -> Loop:
    return Loop(letter, (f"{letter}-", f"{letter}+"))


def one(trouble: Wrong, control: bool | None = False) -> Circuits:
    """Troubles of one required thermocouple, made by `trouble(run, rng)`."""

    def made(run: Run, rng: RNG) -> dict[str, Trouble]:
        return {required(run, rng, control): trouble(run, rng)}

    return made


def first_control(trouble: Wrong) -> Circuits:
    def made(run: Run, rng: RNG) -> dict[str, Trouble]:
        return {"T1": trouble(run, rng)}

    return made


def spare(trouble: Wrong) -> Circuits:
    def made(run: Run, rng: RNG) -> dict[str, Trouble]:
        tags = [place.tag for place in run.places if place.partner]
        return {str(rng.choice(tags)): trouble(run, rng)}

    return made


def everyone(trouble: Wrong) -> Circuits:
    def made(run: Run, rng: RNG) -> dict[str, Trouble]:
        same = trouble(run, rng)
        return {place.tag: same for place in run.places}

    return made


def other_type(letter: str) -> str:
    return {"K": "N", "N": "K"}[letter]


def offset_of(kelvin_low: float, kelvin_high: float) -> Wrong:
    """A bias that grows with temperature: a junction not in touch, or a bad weld: `kelvin` at
    700."""

    def trouble(run: Run, rng: RNG) -> Trouble:
        kelvin = rng.uniform(kelvin_low, kelvin_high)
        return Trouble(lift=kelvin / 690) if kelvin > 0 else Trouble(touch=0, lift=kelvin / 690)

    return trouble


def intermittent(run: Run, rng: RNG) -> Trouble:
    begin = rng.uniform(heating(run, 0.2), hold(run, 0.7))
    spells = tuple(
        (begin + k * rng.uniform(500, 800), begin + k * 650 + rng.uniform(60, 200))
        for k in range(12)
    )
    return Trouble(open=tuple((a, b) for a, b in spells if b > a))


def opened(reads: float) -> Wrong:
    def trouble(run: Run, rng: RNG) -> Trouble:
        return Trouble(
            open=((rng.uniform(heating(run, 0.5), hold(run, 0.6)), 1e12),), break_reads=reads
        )

    return trouble
