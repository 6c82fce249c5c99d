"""How a run was driven: as it should be, and with what goes wrong on site."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from tests.record.physics.circuit import Loop, at_terminals, head_temperature, indicated
from tests.record.physics.oven import COOL, HEAT, HOLD, HOUR, MINUTE, Program, Upset
from tests.record.physics.plants import Plant

RNG = np.random.Generator
Driving = Callable[[Plant, RNG], Program]


def normal(plant: Plant, rng: RNG) -> Program:
    return Program(rng.uniform(0.7, 0.88), rng.uniform(0.7, 0.88), rng.uniform(1.06, 1.25))


def hunting(plant: Plant, rng: RNG) -> Program:
    return replace(normal(plant, rng), hunting=0.5, heating=0.75)


def narrow(plant: Plant, rng: RNG) -> Program:
    """Everything as near to the limits as the truth can still be told."""
    return Program(0.87, 0.87, 1.0 + 360 / plant.limits.hold, by_clock=False)


def short_dip(plant: Plant, rng: RNG) -> Program:
    """A draught for a few minutes: some minutes out of range, within the excursion, made up for."""
    allowed = plant.limits.excursion or 10 * MINUTE
    dip = Upset(HOLD, 0.3 * plant.limits.hold, HOUR, power=0.0, loss=4.0, outside=0.15 * allowed)
    return replace(normal(plant, rng), hold=1.1, by_clock=False, upsets=(dip,))


def dip_in_the_middle(plant: Plant, rng: RNG) -> Program:
    """Out of range for some minutes with the hold half done, within the excursion."""
    some = Upset(
        HOLD,
        0.5 * plant.limits.hold,
        HOUR,
        power=0.0,
        loss=4.0,
        outside=0.15 * plant.limits.excursion,
    )
    return replace(normal(plant, rng), hold=1.12, by_clock=False, upsets=(some,))


def dip(plant: Plant, rng: RNG) -> Program:
    low = plant.limits.target - plant.limits.low + 8
    where = (int(rng.integers(0, len(plant.zones))),)
    cold = Upset(
        HOLD, 0.3 * plant.limits.hold, 3.0 * plant.limits.excursion + 600, shift=-low, zones=where
    )
    return replace(normal(plant, rng), hold=1.6, upsets=(cold,))


def cold_zone(plant: Plant, rng: RNG) -> Program:
    low = plant.limits.target - plant.limits.low + rng.uniform(6, 15)
    where = (int(rng.integers(0, len(plant.zones))),)
    return replace(normal(plant, rng), upsets=(Upset(HOLD, 0, 9 * HOUR, shift=-low, zones=where),))


def hot_zone(plant: Plant, rng: RNG) -> Program:
    high = plant.limits.high - plant.limits.target + rng.uniform(5, 12)
    where = (int(rng.integers(0, len(plant.zones))),)
    over = Upset(
        HOLD, 0.4 * plant.limits.hold, rng.uniform(20, 40) * MINUTE, shift=high, zones=where
    )
    return replace(normal(plant, rng), upsets=(over,))


def short(plant: Plant, rng: RNG) -> Program:
    return replace(normal(plant, rng), hold=rng.uniform(0.6, 0.9), by_clock=False)


def barely_short(plant: Plant, rng: RNG) -> Program:
    return replace(normal(plant, rng), hold=1 - 240 / plant.limits.hold, by_clock=False)


def hot_spot(plant: Plant, rng: RNG) -> Program:
    """A place beneath the heater that only the spare sees: hotter than the range ends."""
    over = plant.limits.high - plant.limits.target + rng.uniform(6, 12)
    return replace(normal(plant, rng), hot_spots=(("T2S", over),))


def too_long(plant: Plant, rng: RNG) -> Program:
    return replace(normal(plant, rng), hold=plant.limits.longest / plant.limits.hold * 1.08)


def fast_heating(plant: Plant, rng: RNG) -> Program:
    quick = Upset(
        HEAT,
        rng.uniform(10, 30) * MINUTE,
        rng.uniform(35, 70) * MINUTE,
        rate=rng.uniform(1.45, 1.8),
    )
    return replace(normal(plant, rng), upsets=(quick,))


def barely_fast(plant: Plant, rng: RNG) -> Program:
    quick = Upset(HEAT, 30 * MINUTE, 30 * MINUTE, rate=1.1 / 0.8)
    return replace(normal(plant, rng), heating=0.8, upsets=(quick,))


def briefly_fast(plant: Plant, rng: RNG) -> Program:
    """Some minutes too fast, which the mean over the window of 15 min evens out."""
    quick = Upset(HEAT, 40 * MINUTE, 5 * MINUTE, rate=1.3 / 0.7)
    return replace(normal(plant, rng), heating=0.7, upsets=(quick,))


def a_third_of_an_hour_fast(plant: Plant, rng: RNG) -> Program:
    quick = Upset(HEAT, 40 * MINUTE, 20 * MINUTE, rate=1.25 / 0.7)
    return replace(normal(plant, rng), heating=0.7, upsets=(quick,))


def fast_for(minutes: float) -> Driving:
    """A fifth too fast for so long, well below the limit before and after."""

    def program(plant: Plant, rng: RNG) -> Program:
        quick = Upset(HEAT, rng.uniform(30, 50) * MINUTE, minutes * MINUTE, rate=1.3 / 0.65)
        return replace(normal(plant, rng), heating=0.65, upsets=(quick,))

    return program


def fast_cooling(plant: Plant, rng: RNG) -> Program:
    """Insulation taken off in the cooling."""
    open_at = Upset(
        COOL,
        rng.uniform(5, 30) * MINUTE,
        rng.uniform(40, 80) * MINUTE,
        loss=14.0,
        power=0.0,
        rate=3,
    )
    return replace(normal(plant, rng), upsets=(open_at,))


def spread_in_hold(plant: Plant, rng: RNG) -> Program:
    limits = plant.limits
    apart = (limits.holding_spread + 4) / 2
    ups = [
        Upset(HOLD, 0, 9 * HOUR, shift=apart * (1 if zone % 2 else -1), zones=(zone,))
        for zone in range(len(plant.zones))
    ]
    return replace(normal(plant, rng), target=0, upsets=tuple(ups))


def spread_heating(plant: Plant, rng: RNG) -> Program:
    """One zone's heaters fail in the heating; the others are not held back."""
    fails = Upset(
        HEAT, 20 * MINUTE, 60 * MINUTE, shift=-1.25 * plant.limits.heating_spread, zones=(0,)
    )
    return replace(normal(plant, rng), upsets=(fails,))


def late_record(plant: Plant, rng: RNG) -> Program:
    return normal(plant, rng)


def power_cut(plant: Plant, rng: RNG) -> Program:
    """All power off in the hold; the metal cools, comes back, and the hold is made up for."""
    cut = Upset(HOLD, 0.4 * plant.limits.hold, rng.uniform(25, 45) * MINUTE, power=0.0, loss=2.5)
    return replace(normal(plant, rng), hold=1.15, by_clock=False, upsets=(cut,))


def power_cut_heating(plant: Plant, rng: RNG) -> Program:
    cut = Upset(HEAT, 40 * MINUTE, rng.uniform(12, 25) * MINUTE, power=0.0)
    return replace(normal(plant, rng), heating=0.65, upsets=(cut,))


def misread_control(loop: Loop, letter_set: str = "") -> Driving:
    """A program whose first zone's controller reads through a circuit wired as `loop`."""

    def program(plant: Plant, rng: RNG) -> Program:
        def seen(true: float, clock: float, since: float) -> float:
            wall = np.array([true])
            volts = at_terminals(loop, wall, head_temperature(wall), np.array([24.0]))
            return float(
                np.clip(indicated(letter_set or plant.type, volts, np.array([24.0]))[0], -100, 1300)
            )

        return replace(normal(plant, rng), misread={0: seen})

    return program


def offset_control(kelvin: float) -> Driving:
    def program(plant: Plant, rng: RNG) -> Program:
        return replace(normal(plant, rng), misread={0: lambda true, clock, since: true + kelvin})

    return program


def touching_control(plant: Plant, rng: RNG) -> Program:
    """The first zone's controlling junction lies against a heater: the zone is held by the mixture
    of metal and heater, and its metal stays below the set point."""
    return replace(normal(plant, rng), touch={0: rng.uniform(0.4, 0.8)})


def _lost(plant: Plant, rng: RNG, stage: int, after: float, lasts: float) -> Program:
    """One zone without power from a time in a stage on, through the stages that follow."""
    zone = int(rng.integers(0, len(plant.zones)))
    upsets = tuple(
        Upset(later, after if later == stage else 0.0, lasts, power=0.0, zones=(zone,))
        for later in (HEAT, HOLD, COOL)
        if later == stage or (later > stage and lasts > 9 * HOUR)
    )
    return replace(normal(plant, rng), upsets=upsets)


def heater_lost_heating(plant: Plant, rng: RNG) -> Program:
    """For good; the technician lets the program go on without the zone, which stays behind."""
    rise = (plant.limits.target - 300) / (0.8 * plant.limits.heating) * HOUR
    driven = _lost(plant, rng, HEAT, rng.uniform(0.1, 0.8) * rise, 99 * HOUR)
    return replace(driven, left_behind=driven.upsets[0].zones)


def heater_lost_hold(plant: Plant, rng: RNG) -> Program:
    return _lost(plant, rng, HOLD, rng.uniform(0.02, 0.5) * plant.limits.hold, 99 * HOUR)


def heater_lost_and_mended(plant: Plant, rng: RNG) -> Program:
    """While heating; the program waits for the zone, which then catches up at full power: faster
    than allowed."""
    rise = (plant.limits.target - 300) / (0.8 * plant.limits.heating) * HOUR
    return _lost(plant, rng, HEAT, rng.uniform(0.2, 0.6) * rise, rng.uniform(30, 75) * MINUTE)
