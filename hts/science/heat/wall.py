"""Temperatures through a wall while its outside is heated, properties varying with temperature.

One dimension, plate or pipe, finite volumes in the heat content of each cell, so that no heat is
lost at a peak of the specific heat. In time a two-stage diagonally implicit Runge-Kutta method
(Alexander 1977): second order, and stable at any step.
SI units, temperatures degC. Cells and step set the accuracy: errors fall with their squares.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise
from math import log, sqrt
from typing import NamedTuple

from hts.base.arguments import not_negative, positive
from hts.science.heat.properties import Material

_GAMMA = 1.0 - sqrt(0.5)
_CONVERGED = 1e-8  # K
_MOST_PASSES = 100


class SurfaceTemperature(NamedTuple):
    """The outside follows a temperature, degC, given as a function of time, s."""

    at: Callable[[float], float]


class SurfaceFlux(NamedTuple):
    """The outside takes in a flux, W/m2, given as a function of time, s."""

    at: Callable[[float], float]


class Wall(NamedTuple):
    """A plate (`inner_radius` None) or a pipe wall; `inside_h` W/(m2 K) to `ambient` degC."""

    material: Material
    thickness: float
    inner_radius: float | None = None
    inside_h: float = 0.0
    ambient: float = 20.0


class State(NamedTuple):
    """At one time: both surfaces, degC, and the mean heat taken up since the start, J/kg.

    `cells` are the temperatures of the cells, degC, from the inside out.
    """

    seconds: float
    outside: float
    inside: float
    heat: float
    cells: tuple[float, ...]


def heat_wall(
    wall: Wall,
    drive: SurfaceTemperature | SurfaceFlux,
    times: Sequence[float],
    *,
    start: float = 20.0,
    step: float = 10.0,
    cells: int = 40,
) -> list[State]:
    """States at `times`, s, in rising order, from a wall at `start` degC throughout.

    `step`, s, is the longest used. Raises ValueError for input without meaning, NotCovered when
    a temperature leaves the range of the material, ArithmeticError when a step does not settle.
    """
    positive(step=step, thickness=wall.thickness, cells=cells)
    not_negative(inside_h=wall.inside_h)
    grid = _Grid(wall, drive, cells, start)
    states, now = [], 0.0
    for time in times:
        if time < now:
            raise ValueError("times must rise and must not be negative")
        count = max(1, -int(-(time - now) // step)) if time > now else 0
        for k in range(count):
            length = (time - now) / count
            grid.advance(now + k * length, length)
        now = time
        states.append(grid.state(now))
    return states


class _Grid:
    """Cells from the inside out; areas and volumes per metre of pipe and radian, or per m2."""

    def __init__(
        self, wall: Wall, drive: SurfaceTemperature | SurfaceFlux, cells: int, start: float
    ) -> None:
        self.wall, self.drive, self.start = wall, drive, start
        width = wall.thickness / cells
        if wall.inner_radius is None:
            self.volumes = [width] * cells
            self.shapes = [1.0 / width] * (cells - 1)
            self.inner_shape = self.outer_shape = 2.0 / width
            self.inner_area = self.outer_area = 1.0
        else:
            positive(inner_radius=wall.inner_radius)
            faces = [wall.inner_radius + width * k for k in range(cells + 1)]
            middles = [(a + b) / 2.0 for a, b in pairwise(faces)]
            self.volumes = [middle * width for middle in middles]
            self.shapes = [1.0 / log(b / a) for a, b in pairwise(middles)]
            self.inner_shape = 1.0 / log(middles[0] / faces[0])
            self.outer_shape = 1.0 / log(faces[-1] / middles[-1])
            self.inner_area, self.outer_area = faces[0], faces[-1]
        self.masses = [wall.material.density * volume for volume in self.volumes]
        self.temperatures = [start] * cells
        self.heats = [0.0] * cells

    def advance(self, now: float, step: float) -> None:
        """One step: two implicit stages, the second from the first's rate of heating."""
        before, heats = self.temperatures, self.heats
        rates = self._stage(before, heats, heats, now + _GAMMA * step, _GAMMA * step)
        share = (1.0 - _GAMMA) * step
        known = [h + share * rate for h, rate in zip(heats, rates, strict=True)]
        first = self.temperatures
        first_heats = [h + _GAMMA * step * rate for h, rate in zip(heats, rates, strict=True)]
        rates = self._stage(first, first_heats, known, now + step, _GAMMA * step)
        self.heats = [h + _GAMMA * step * rate for h, rate in zip(known, rates, strict=True)]

    def _stage(
        self,
        reference: list[float],
        reference_heats: list[float],
        known: list[float],
        time: float,
        span: float,
    ) -> list[float]:
        """Solve heat(T) = known + span x rate(T); set the temperatures, return rates, W/kg.

        Specific heat is the secant from the reference, where the heat content is known: that
        keeps the heat balance exact and settles even over a sharp peak.
        """
        material = self.wall.material
        temperatures = list(reference)
        for _ in range(_MOST_PASSES):
            secants = [
                material.heat(a, b) / (b - a) if abs(b - a) > 1e-6
                else material.specific_heat.at(b)
                for a, b in zip(reference, temperatures, strict=True)
            ]  # fmt: skip
            following = self._solve(
                secants, reference, reference_heats, known, temperatures, time, span
            )
            change = max(abs(a - b) for a, b in zip(following, temperatures, strict=True))
            temperatures = following
            if change < _CONVERGED:
                break
        else:
            raise ArithmeticError("the temperatures do not settle: take a shorter step")
        self.temperatures = temperatures
        return [
            (h + c * (t - r) - k) / span
            for h, c, t, r, k in zip(
                reference_heats, secants, temperatures, reference, known, strict=True
            )
        ]

    def _solve(
        self,
        secants: list[float],
        reference: list[float],
        reference_heats: list[float],
        known: list[float],
        guess: list[float],
        time: float,
        span: float,
    ) -> list[float]:
        """One linear solve with conductivities at the guess: three diagonals, by elimination."""
        conductivity = self.wall.material.conductivity.at
        storage = [m * c / span for m, c in zip(self.masses, secants, strict=True)]
        diagonal = list(storage)
        right = [
            s * r + m * (k - h) / span
            for s, r, m, k, h in zip(
                storage, reference, self.masses, known, reference_heats, strict=True
            )
        ]
        links = [
            shape * conductivity((a + b) / 2.0)
            for shape, a, b in zip(self.shapes, guess, guess[1:], strict=False)
        ]
        for i, link in enumerate(links):
            diagonal[i] += link
            diagonal[i + 1] += link
        inside = self._inside_link(guess[0])
        diagonal[0] += inside
        right[0] += inside * self.wall.ambient
        if isinstance(self.drive, SurfaceFlux):
            right[-1] += self.drive.at(time) * self.outer_area
        else:
            outside = self.outer_shape * conductivity(guess[-1])
            diagonal[-1] += outside
            right[-1] += outside * self.drive.at(time)
        for i, link in enumerate(links):
            factor = link / diagonal[i]
            diagonal[i + 1] -= factor * link
            right[i + 1] += factor * right[i]
        solution = [right[-1] / diagonal[-1]]
        for i in range(len(links) - 1, -1, -1):
            solution.append((right[i] + links[i] * solution[-1]) / diagonal[i])
        solution.reverse()
        return solution

    def _inside_link(self, celsius: float) -> float:
        """Conductance from the innermost cell to the bore: half a cell and the surface."""
        if self.wall.inside_h == 0.0:
            return 0.0
        half = self.inner_shape * self.wall.material.conductivity.at(celsius)
        surface = self.wall.inside_h * self.inner_area
        return half * surface / (half + surface)

    def state(self, time: float) -> State:
        """Surfaces from the outermost cells: by the flux, or by the even parabola if insulated."""
        conductivity = self.wall.material.conductivity.at
        inner, outer = self.temperatures[0], self.temperatures[-1]
        if isinstance(self.drive, SurfaceTemperature):
            outside = self.drive.at(time)
        else:
            entering = self.drive.at(time) * self.outer_area
            outside = outer + entering / (self.outer_shape * conductivity(outer))
        if self.wall.inside_h > 0.0:
            leaving = self._inside_link(inner) * (inner - self.wall.ambient)
            inside = inner - leaving / (self.inner_shape * conductivity(inner))
        else:
            inside = inner - (self.temperatures[1] - inner) / 8.0
        total = sum(m * h for m, h in zip(self.masses, self.heats, strict=True))
        return State(time, outside, inside, total / sum(self.masses), tuple(self.temperatures))
