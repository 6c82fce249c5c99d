"""A thermocouple circuit as two wires: what reaches the terminals, and what the instrument makes of
it.

Each wire is a chain of pieces, each of one material between two temperatures; its emf is the sum
over the pieces, and the circuit gives the difference of its two wires. Reversing, exchanging or
replacing a piece is then done as it is done on site, and the reading follows. Reference functions:
the package thermocouple-its90 (ITS-90, as IEC 60584-1).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
import thermocouple_its90

from tests.record.physics.metal import AIR, Floats

#: Part of a pair's emf that its positive wire gives against platinum, about 60 % for K, from
#: memory. Only their difference reaches the terminals unless a single wire is replaced.
_POSITIVE = 0.6
_LOW, _HIGH = -200.0, {"K": 1372.0, "N": 1300.0, "J": 1200.0, "S": 1768.0, "E": 1000.0, "T": 400.0}
COPPER = "Cu"


@cache
def _table(letter: str) -> tuple[Floats, Floats]:
    couple = thermocouple_its90.get(letter)
    low = -50.0 if letter in "SR" else _LOW
    celsius = np.arange(low, _HIGH[letter] + 0.5, 1.0)
    return celsius, np.array([emf_of(couple, t) for t in celsius])


def emf_of(couple: thermocouple_its90.Thermocouple, celsius: float) -> float:
    return float(couple.emf(float(celsius)))


def emf(letter: str, celsius: Floats) -> Floats:
    """mV against a reference junction at 0 degC."""
    at, millivolt = _table(letter)
    return np.interp(celsius, at, millivolt)


def temperature(letter: str, millivolt: Floats) -> Floats:
    """degC; plus or minus infinity beyond the ends of the function."""
    at, known = _table(letter)
    return np.interp(millivolt, known, at, left=-np.inf, right=np.inf)


def wire(material: str, celsius: Floats) -> Floats:
    """mV of one wire between 0 degC and `celsius`: "K+", "K-", ... or copper, taken as none."""
    if material == COPPER:
        return np.zeros_like(celsius)
    letter, sign = material
    return emf(letter, celsius) * (_POSITIVE if sign == "+" else _POSITIVE - 1)


@dataclass(frozen=True)
class Loop:
    """How one thermocouple is wired. Each end of a pair is (first terminal, second terminal).

    `couple` the wires at the pipe, `cable` those from the head on, `crossed` whether the whole loop
    lies the wrong way round at the instrument.
    """

    couple: str = "K"
    cable: tuple[str, str] = ("K+", "K-")
    crossed: bool = False


def right(letter: str) -> Loop:
    """A pair wired as it should be."""
    return Loop(letter, (f"{letter}+", f"{letter}-"))


def at_terminals(loop: Loop, junction: Floats, head: Floats, terminals: Floats) -> Floats:
    """mV at the terminals, from temperatures in degC of the junction, the head, where couple meets
    cable, and of the terminals."""
    total = np.zeros_like(junction)
    for sign, piece, cable in zip((1, -1), "+-", loop.cable, strict=True):
        along = wire(loop.couple + piece, junction) - wire(loop.couple + piece, head)
        total = total + sign * (along + wire(cable, head) - wire(cable, terminals))
    return -total if loop.crossed else total


def indicated(letter: str, millivolt: Floats, sensed: Floats) -> Floats:
    """degC an instrument set to `letter` shows, its cold junction measured as `sensed`."""
    return temperature(letter, millivolt + emf(letter, sensed))


def shunted(
    loop: Loop,
    junction: Floats,
    leak_at: Floats,
    head: Floats,
    terminals: Floats,
    ohm: Floats,
    wire_ohm: float = 2.0,
) -> Floats:
    """mV where insulation leaks at a place `leak_at` degC hot: two sources in parallel, one through
    the wire beyond the leak, one through the leak."""
    whole = at_terminals(loop, junction, head, terminals)
    cut = at_terminals(loop, leak_at, head, terminals)
    part = ohm / (ohm + wire_ohm)
    return cut + (whole - cut) * part


def head_temperature(wall: Floats, air: float = AIR) -> Floats:
    """degC where couple meets cable: a metre off the pipe, warmed by it: up to about 60 degC."""
    return air + 0.055 * (wall - air)
