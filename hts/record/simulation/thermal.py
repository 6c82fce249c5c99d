"""A lumped model of a heated joint: each zone is one mass with a heater, losses and neighbours.

All is per unit of heat capacity, so that powers are rates in K/s. It is made to look right on a
chart and to respond as metal does, not to predict a temperature: figures are common practice,
without a source.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import pi, sin
from typing import NamedTuple

import numpy as np

AMBIENT = 20.0

#: s. Time constants of the loss through insulation, of a joint laid bare, and between neighbours.
LOSS = 7.0 * 3600
_BARE = 0.6 * 3600
_NEIGHBOUR = 2.5 * 3600
#: Gain of the controllers, 1/s, and their reset time, s.
_GAIN = 1 / 240
_RESET = 1500.0
#: K and s. How far and how slowly a zone swings round its setpoint.
_SWING, _PERIOD = (0.6, 1.2), (2400.0, 4200.0)
#: K/s. What the heaters give beyond the losses: 400 K/h.
_SPARE_POWER = 400 / 3600


class Zone:
    """Temperature degC of one zone and the memory of its controller."""

    __slots__ = ("at", "clock", "loss", "most", "period", "phase", "reset", "swing")

    def __init__(
        self, at: float, loss: float, most: float, swing: float, period: float, phase: float
    ) -> None:
        self.at = at
        self.loss = loss
        self.most = most
        self.swing = swing
        self.period = period
        self.phase = phase
        self.reset = 0.0
        self.clock = 0.0

    def wander(self, seconds: float) -> float:
        """K. Draughts and mains let each zone swing a little round its setpoint, in its own time;
        `seconds` pass."""
        self.clock += seconds
        return self.swing * sin(2 * pi * self.clock / self.period + self.phase)


class Hand(NamedTuple):
    """What is done to the joint at one moment. `dead` are zones whose heaters give nothing and
    `weak` those that give less; `offset` is added to the setpoint."""

    power: bool = True
    bare: bool = False
    dead: frozenset[int] = frozenset()
    weak: frozenset[int] = frozenset()
    offset: float = 0.0


def zones(count: int, random: np.random.RandomState, at: float) -> list[Zone]:
    """The zones of a joint, each a little unlike the others."""
    made = []
    for _ in range(count):
        loss = LOSS * random.uniform(0.85, 1.15)
        most = _SPARE_POWER * random.uniform(0.95, 1.1)
        swing, period = random.uniform(*_SWING), random.uniform(*_PERIOD)
        made.append(Zone(at, loss, most, swing, period, random.uniform(0.0, 2 * pi)))
    return made


def advance(
    joint: Sequence[Zone], setpoint: float | None, slope: float, seconds: float, hand: Hand
) -> None:
    """One step of `seconds`; `slope` K/s is that of the setpoint, None for it: heaters off."""
    before = [zone.at for zone in joint]
    last = len(joint) - 1
    for index, zone in enumerate(joint):
        loss = (zone.at - AMBIENT) / (_BARE if hand.bare else zone.loss)
        exchange = 0.0
        if last > 0:
            left, right = before[index - 1], before[index + 1 if index < last else 0]
            exchange = (left + right - 2 * zone.at) / _NEIGHBOUR
        heat = 0.0
        if setpoint is not None and hand.power and index not in hand.dead:
            error = setpoint + hand.offset + zone.wander(seconds) - zone.at
            most = zone.most + (zone.at - AMBIENT) / zone.loss
            if index in hand.weak:
                most *= 0.05
            wanted = error * _GAIN + zone.reset + slope + (zone.at - AMBIENT) / zone.loss
            heat = min(max(wanted, 0.0), most)
            if heat == wanted:  # at its end stop a controller must not wind up
                zone.reset += error * _GAIN / _RESET * seconds
        zone.at += (heat - loss + exchange) * seconds
