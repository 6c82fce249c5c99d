"""What can be wrong with one measuring circuit, as it is wrong on site."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from tests.record.physics.circuit import Loop
from tests.record.physics.metal import Floats


@dataclass(frozen=True)
class Trouble:
    """From `start` s until `end` s. Fields that are not given do no harm.

    `loop` is another wiring; `lift` the part of the way to the surroundings that a detached
    junction falls, `touch` the part of the way to the heater that one near it rises (high by
    touch x output x the heater's resistance to its metal: most while heating, least in a steady
    hold, right with the power off; high only against the metal, so that where it controls, it
    reads the set point and the metal is colder), `short_at` the
    part of the wall's temperature where wires touch; `leak` ohm of the insulation for a temperature
    of the wall; `drifts` part of the emf lost in an hour; `cold` K the cold junction is taken wrong
    by; `mains` K of pick-up; `open` says when the circuit is open, and `break_reads` what the input
    then shows.
    """

    start: float = 0.0
    end: float = 1e12
    loop: Loop | None = None
    lift: float = 0.0
    touch: float = 0.0
    short_at: float = 0.0
    leak: Callable[[Floats], Floats] | None = None
    leak_at: float = 0.35
    drifts: float = 0.0
    cold: float = 0.0
    mains: float = 0.0
    open: tuple[tuple[float, float], ...] = ()
    break_reads: float = 9999.0
    set_to: str = ""

    def when(self, seconds: Floats) -> Floats:
        return (seconds >= self.start) & (seconds < self.end)

    def junction(self, seconds: Floats, wall: Floats, heater: Floats) -> Floats:
        """degC of what the wires truly measure."""
        on = self.when(seconds)
        found = wall
        if self.touch:
            found = np.where(on, wall + self.touch * (heater - wall), found)
        if self.short_at:
            found = np.where(on, 20 + self.short_at * (wall - 20), found)
        if self.lift:
            # In still air beneath the blanket a junction follows within minutes, not at once.
            goal = np.where(on, wall - self.lift * (wall - 20), wall)
            out = goal.copy()
            part = 1 - np.exp(-float(seconds[1] - seconds[0]) / 420.0)
            for n in range(1, len(out)):
                out[n] = out[n - 1] + part * (goal[n] - out[n - 1]) if on[n] else wall[n]
            found = np.where(on, out, found)
        return found

    def gain(self, seconds: Floats) -> Floats:
        since = np.maximum(0.0, np.minimum(seconds, self.end) - self.start) / 3600
        return 1 - self.drifts * since

    def cold_junction(self, seconds: Floats) -> Floats:
        return np.where(self.when(seconds), self.cold, 0.0)

    def pick_up(self, seconds: Floats, rng: np.random.Generator) -> Floats:
        """Mains induced in the cable, seen through samples that are not locked to it."""
        if not self.mains:
            return np.zeros_like(seconds)
        phase = rng.uniform(0, 2 * np.pi, len(seconds))
        return np.where(self.when(seconds), self.mains * np.sin(phase), 0.0)

    def broken(self, seconds: Floats) -> Floats:
        return np.any(
            [(seconds >= a) & (seconds < b) for a, b in self.open] or [seconds < -1], axis=0
        )
