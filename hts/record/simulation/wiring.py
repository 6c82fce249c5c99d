"""Faults of measuring chains, put into the readings of one thermocouple.

What a fault of the wiring does to the reading follows from the reference functions
(`hts.science.thermocouples.faults`); the rest is common practice, without a source.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from hts.record.simulation.thermal import AMBIENT
from hts.science.thermocouples.errors import ThermocoupleError
from hts.science.thermocouples.faults import extension_reversed, reversed_once

Floats = NDArray[np.float64]

#: degC. Terminals of the instrument, the head beside the hot pipe, and the ends of scale.
_TERMINALS, _HEAD, _TOP, _BOTTOM = 25.0, 60.0, 1372.0, -200.0


class Trace(NamedTuple):
    """A column of the record: `values` float64 [n] degC, and the cells that hold text instead."""

    values: Floats
    texts: dict[int, str]


class Setting(NamedTuple):
    """Where a fault is put: the type of the couple, the rows from `first` on, and those of the
    hold."""

    type: str
    first: int
    hold: tuple[int, int]


Put = Callable[[Floats, Setting, np.random.RandomState], Trace]


class Wiring(NamedTuple):
    """A fault: what it is, in a few words, and how it is put in."""

    summary: str
    put: Put


def _open_up(values: Floats, at: Setting, random: np.random.RandomState) -> Trace:
    return _from(values, at.first, _TOP)


def _open_down(values: Floats, at: Setting, random: np.random.RandomState) -> Trace:
    return _from(values, at.first, _BOTTOM)


def _flat(values: Floats, at: Setting, random: np.random.RandomState) -> Trace:
    return _from(values, 0, AMBIENT + 4 + random.normal(0.0, 0.2, values.size))


def _stuck(values: Floats, at: Setting, random: np.random.RandomState) -> Trace:
    return _from(values, at.first, values[at.first])


def _ambient(values: Floats, at: Setting, random: np.random.RandomState) -> Trace:
    rows = values.size - at.first
    drift = AMBIENT + 3 * np.sin(np.linspace(0.0, 3.0, rows)) + random.normal(0.0, 0.3, rows)
    # It fell off: the junction cools to the air within minutes.
    fall = np.exp(-np.arange(rows) / 6.0)
    return _from(values, at.first, drift + (values[at.first] - AMBIENT) * fall)


def _spikes(values: Floats, at: Setting, random: np.random.RandomState) -> Trace:
    out = values.copy()
    where = random.choice(np.arange(at.first, values.size), size=8, replace=False)
    out[where] += random.choice([-1.0, 1.0], size=8) * random.uniform(80.0, 400.0, size=8)
    return Trace(out, {})


def _intermittent(values: Floats, at: Setting, random: np.random.RandomState) -> Trace:
    """A contact that opens for minutes at a time; a wild reading now and then while it does."""
    out, texts = values.copy(), {}
    for _ in range(8):
        first = random.randint(at.first, max(at.first + 1, values.size - 6))
        for row in range(first, min(values.size, first + random.randint(2, 6))):
            if random.uniform() < 0.7:
                texts[row] = "OPEN"
            else:
                out[row] = random.uniform(20.0, _TOP)
    return Trace(out, texts)


def _reversed(values: Floats, at: Setting, random: np.random.RandomState) -> Trace:
    return Trace(_mapped(values, lambda t: reversed_once(at.type, t, _TERMINALS)), {})


def _extension_reversed(values: Floats, at: Setting, random: np.random.RandomState) -> Trace:
    # The head warms as the pipe does.
    hottest = float(np.nanmax(values))

    def reading(celsius: float) -> float:
        share = max(0.0, (celsius - AMBIENT) / max(hottest - AMBIENT, 1.0))
        return extension_reversed(
            at.type, celsius, _TERMINALS + (_HEAD - _TERMINALS) * share, _TERMINALS
        )

    return Trace(_mapped(values, reading), {})


def _shorted(values: Floats, at: Setting, random: np.random.RandomState) -> Trace:
    """The lead is short where it leaves the insulation: it follows that place instead."""
    place = AMBIENT + (values - AMBIENT) * 0.35
    out = values.copy()
    out[at.first :] = place[at.first :]
    return Trace(out, {})


def _error_text(values: Floats, at: Setting, random: np.random.RandomState) -> Trace:
    return Trace(values.copy(), dict.fromkeys(range(at.first, values.size), "OPEN"))


def _blank(values: Floats, at: Setting, random: np.random.RandomState) -> Trace:
    until = min(values.size, at.first + max(8, (at.hold[1] - at.hold[0]) // 2))
    return Trace(values.copy(), dict.fromkeys(range(at.first, until), ""))


EXCHANGED, CLOCK_JUMP = "exchanged", "clock-jump"
#: Faults that are not of one chain alone.
OF_THE_RECORD = {
    EXCHANGED: "channels exchanged with a thermocouple of another zone",
    CLOCK_JUMP: "the clock jumps ahead by an hour",
}

WIRING: dict[str, Wiring] = {
    "open-upscale": Wiring("open circuit, driven to the top of the scale", _open_up),
    "open-downscale": Wiring("open circuit, driven to the bottom of the scale", _open_down),
    "intermittent": Wiring("a contact that opens and closes", _intermittent),
    "flat": Wiring("stays at one low temperature throughout", _flat),
    "stuck": Wiring("keeps its last value", _stuck),
    "spikes": Wiring("single wild readings", _spikes),
    "reversed": Wiring("legs swapped once: falls as the part is heated", _reversed),
    "extension-reversed": Wiring("extension swapped at both ends: reads low", _extension_reversed),
    "shorted": Wiring("lead short-circuited at a cooler place", _shorted),
    "ambient": Wiring("fell off and reads the air", _ambient),
    "error-text": Wiring("the recorder writes OPEN instead of a number", _error_text),
    "blank": Wiring("cells without anything in them", _blank),
}


def _from(values: Floats, first: int, with_what: Floats | float) -> Trace:
    out = values.copy()
    out[first:] = with_what
    return Trace(out, {})


def _mapped(values: Floats, reading: Callable[[float], float]) -> Floats:
    """Each reading through a function of one temperature, by way of a table of 1 K steps."""
    grid = np.arange(np.floor(values.min()) - 1, np.ceil(values.max()) + 2)
    table = np.array([_safe(reading, float(celsius)) for celsius in grid])
    found: Floats = np.interp(values, grid, table)
    return found


def _safe(reading: Callable[[float], float], celsius: float) -> float:
    try:
        return reading(celsius)
    except ThermocoupleError:
        return _BOTTOM  # off scale
