"""A run: program, controllers, heaters and metal, second by second, with what disturbs them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from tests.record.physics.metal import AIR, Floats, metal, step, weights
from tests.record.physics.plants import HOUR, MINUTE, Place, Plant, places

SECONDS = 10.0
LONGEST = 40 * HOUR

#: Stages of a program.
START, HEAT, HOLD, COOL = range(4)


@dataclass(frozen=True)
class Upset:
    """From `after` s into `stage`, for `lasts` s. `power` multiplies the zones' output, `loss`
    their loss of heat until something required was `outside` the range for that many s, where
    given; `rate` the program's rate; `shift` moves the zones' set point by K. `zones` are numbers,
    none means all."""

    stage: int
    after: float
    lasts: float
    power: float = 1.0
    loss: float = 1.0
    rate: float = 1.0
    shift: float = 0.0
    outside: float = 0.0
    zones: tuple[int, ...] = ()


@dataclass(frozen=True)
class Program:
    """What the technician set. `heating` and `cooling` as parts of the limits, `hold` as part of
    the time required, `target` in K from the specification's. The hold ends by the clock, or when
    all were truly in range for that long. `hot_spots` are places hotter than their zone by K.
    `touch` maps a zone to the part of the way from metal to heater that its controlling junction
    sits; `left_behind` are zones the program does not wait for."""

    heating: float = 0.86
    cooling: float = 0.86
    hold: float = 1.1
    target: float = 0.0
    starts: float = 25.0
    ends: float = 12.0
    hunting: float = 0.0
    by_clock: bool = True
    upsets: tuple[Upset, ...] = ()
    hot_spots: tuple[tuple[str, float], ...] = ()
    misread: dict[int, Callable[[float, float, float], float]] = field(default_factory=dict)
    touch: dict[int, float] = field(default_factory=dict)
    left_behind: tuple[int, ...] = ()


@dataclass(frozen=True)
class Run:
    """What truly happened. `true` degC of the metal [steps, places], `heater` degC of what heater
    lies over each place, or of the metal where none does, `output` 0..1 of its zone; `at` when the
    stages began, s."""

    plant: Plant
    program: Program
    places: tuple[Place, ...]
    seconds: Floats
    true: Floats
    heater: Floats
    output: Floats
    at: tuple[float, ...]

    def column(self, tag: str) -> int:
        return next(n for n, place in enumerate(self.places) if place.tag == tag)


def run(plant: Plant, program: Program, rng: np.random.Generator) -> Run:
    """One treatment. `program.misread` maps a zone to what its controller reads instead of the true
    temperature of its thermocouple, from (true, s, s since the hold began or -1)."""
    where = places(plant)
    lumps = metal(plant, where)
    feel = np.array([weights(lumps, place) for place in where])
    feel = feel.reshape(len(where), -1)
    controls = [
        next(n for n, p in enumerate(where) if p.zone == zone and p.required and not p.partner)
        for zone in plant.zones
    ]
    zone_of = [round(place.angle / 360 * lumps.zones) % lumps.zones for place in where]
    # A junction is not quite where its neighbour is: up to 0.25 % of the rise, the same all along.
    local = 1 + np.clip(rng.normal(0, 0.0012, len(where)), -0.0025, 0.0025)
    for tag, kelvin in program.hot_spots:
        n = next(n for n, place in enumerate(where) if place.tag == tag)
        local[n] += kelvin / (plant.limits.target - AIR)
    begin = min(program.starts, plant.limits.starts_at - 20)
    state = np.full((2, len(lumps.axial), lumps.zones), begin)
    awaited = [zone for zone in range(lumps.zones) if zone not in program.left_behind]
    gain = 0.03 * (1 + 5 * program.hunting)
    reset = 900.0 / (1 + 9 * program.hunting)
    setpoint, integral = begin, np.zeros(lumps.zones)
    kept: list[tuple[Floats, Floats, Floats]] = []
    stage, began, clock = START, [0.0], 0.0
    read = np.full(lumps.zones, begin)
    held = outside = 0.0
    # Wind and open doors: the loss of each zone wanders by about a tenth within some ten minutes.
    draught, calm = np.zeros(lumps.zones), np.sqrt(2 * 600 / SECONDS)
    limits = plant.limits
    must = np.array([place.required for place in where])
    followed = [n for n, place in enumerate(where) if place.required or place.partner]
    last_minutes = (
        (limits.target + program.target - limits.low) / (limits.cooling * program.cooling) * HOUR
    )
    target = limits.target + program.target
    first = min(300.0, target)
    while clock < LONGEST:
        wall, elements = state.reshape(2, -1)
        true = AIR + (feel @ wall - AIR) * local
        heater = true + feel @ (elements - wall)
        since = clock - began[-1]
        for zone, n in enumerate(controls):
            seen = true[n] + program.touch.get(zone, 0.0) * (heater[n] - true[n])
            if zone in program.misread:
                seen = program.misread[zone](
                    seen, clock, clock - began[HOLD] if len(began) > HOLD else -1.0
                )
            read[zone] += (seen - read[zone]) * min(1.0, SECONDS / 8)
        power = np.ones(lumps.zones)
        draught += (rng.normal(0, 0.15, lumps.zones) * calm - draught) * SECONDS / 600
        loss = lumps.loss * (1 + draught)
        shift = np.zeros(lumps.zones)
        faster = 1.0
        for upset in program.upsets:
            if upset.outside and outside >= upset.outside:
                continue
            if upset.stage == stage and upset.after <= since < upset.after + upset.lasts:
                which = list(upset.zones) or list(range(lumps.zones))
                power[which] *= upset.power
                shift[which] += upset.shift
                faster *= upset.rate
                if upset.loss != 1:
                    loss = loss.copy()
                    loss[:, which] *= upset.loss
        slowest, hottest = (read - shift)[awaited].min(), (read - shift).max()
        if not power.any():  # resumed at the present temperature
            setpoint, integral = min(setpoint, slowest), integral * 0
        inside = bool(((true >= limits.low) & (true <= limits.high))[must].all())
        outside += SECONDS * (stage == HOLD and not inside)
        held += SECONDS * (stage == HOLD if program.by_clock else inside)
        if stage == START:
            if slowest > setpoint - 2 * limits.lag:
                setpoint += limits.first_rate * program.heating / HOUR * SECONDS
            if setpoint >= first:
                stage, setpoint = HEAT, first
                began.append(clock)
        elif stage == HEAT:
            if slowest > setpoint - limits.lag:
                setpoint += limits.heating * program.heating * faster / HOUR * SECONDS
            if setpoint >= target:
                setpoint = target
                if slowest > target - 3:
                    stage = HOLD
                    began.append(clock)
        elif stage == HOLD:
            if setpoint < target and slowest > setpoint - limits.lag:
                setpoint += limits.heating * program.heating / HOUR * SECONDS
                setpoint = min(setpoint, target)
            if held >= limits.hold * program.hold - (0 if program.by_clock else last_minutes):
                stage = COOL
                began.append(clock)
        else:
            if hottest < setpoint + 2 * limits.lag:
                setpoint -= limits.cooling * program.cooling * faster / HOUR * SECONDS
            if true[followed].max() < limits.ends_at - program.ends:
                break
        error = setpoint + shift - read
        output = gain * error + integral
        ready = (output > 0) & (output < 1) | (error * integral < 0)
        integral = np.where(ready, integral + gain * error * SECONDS / reset, integral)
        integral = np.minimum(np.maximum(integral, 0), 1)
        output = np.minimum(np.maximum(output, 0), 0.85) * power
        kept.append((true, heater, output[zone_of]))
        state = step(lumps, state, output * plant.power, loss, SECONDS)
        clock += SECONDS
    while len(began) < 4:
        began.append(clock)
    return Run(
        plant,
        program,
        where,
        np.arange(len(kept)) * SECONDS,
        np.array([k[0] for k in kept]),
        np.array([k[1] for k in kept]),
        np.array([k[2] for k in kept]),
        tuple(began),
    )


__all__ = ["COOL", "HEAT", "HOLD", "HOUR", "MINUTE", "START", "Program", "Run", "Upset", "run"]
