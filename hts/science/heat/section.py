"""Steady temperatures along and through a pipe that is heated over a band.

Axisymmetric, constant conductivity, symmetric about the weld line at z = 0, no heat through the
far end. Finite volumes solved by banded elimination: errors fall with the squares of the cell
sizes (0.06 K in 550 with 10 cells through the wall and 5 mm along it).
SI units, temperatures degC.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import log, pi
from typing import NamedTuple

from hts.base.arguments import not_negative, positive

# A sum of stretches need not end on the last digit of the length it was cut from.
_ROUNDING = 1.0 + 1e-12


class Pipe(NamedTuple):
    """The pipe: radii m, conductivity W/(m K), bore coefficient W/(m2 K), surroundings degC."""

    inner_radius: float
    outer_radius: float
    conductivity: float
    inside_h: float
    ambient: float = 20.0


class Stretch(NamedTuple):
    """A length, m, of one side of the pipe, cut in `cells`: flux W/m2 into the outside, and the
    coefficient of loss from it, W/(m2 K) of bare area."""

    length: float
    cells: int
    flux: float
    outside_h: float


class Section(NamedTuple):
    """Temperatures of the outside and the bore, degC, at the places `along`, m from the weld."""

    along: tuple[float, ...]
    outside: tuple[float, ...]
    inside: tuple[float, ...]
    length: float
    ambient: float
    watts: float  # put in on both sides of the weld together

    def outside_at(self, z: float) -> float:
        """Temperature of the outside at `z` m from the weld. Raises ValueError off the pipe."""
        return self._at(self.outside, z)

    def inside_at(self, z: float) -> float:
        """Temperature of the bore at `z` m from the weld. Raises ValueError off the pipe."""
        return self._at(self.inside, z)

    def held_at(self, celsius: float) -> Section:
        """The same heating, made stronger or weaker until the outside at the weld is `celsius`.

        Every excess over the surroundings grows in proportion, as conduction is linear here.
        """
        excess = self.outside_at(0.0) - self.ambient
        if not (excess > 0.0 and celsius > self.ambient):
            raise ValueError("the weld must be hotter than its surroundings")
        factor = (celsius - self.ambient) / excess

        def scaled(values: tuple[float, ...]) -> tuple[float, ...]:
            return tuple(self.ambient + factor * (value - self.ambient) for value in values)

        return self._replace(
            outside=scaled(self.outside), inside=scaled(self.inside), watts=factor * self.watts
        )

    def _at(self, values: tuple[float, ...], z: float) -> float:
        if not 0.0 <= z <= self.length * _ROUNDING:
            raise ValueError(f"{z!r} m is not on the {self.length:g} m that were worked out")
        if z < self.along[0]:
            return _even(z, self.along[0], self.along[1], values[0], values[1])
        if z > self.along[-1]:
            ends = (self.length - self.along[-1], self.length - self.along[-2])
            return _even(self.length - z, *ends, values[-1], values[-2])
        k = next(k for k in range(1, len(self.along)) if self.along[k] >= z)
        share = (z - self.along[k - 1]) / (self.along[k] - self.along[k - 1])
        return values[k - 1] + share * (values[k] - values[k - 1])


def steady(pipe: Pipe, stretches: Sequence[Stretch], *, radial_cells: int = 10) -> Section:
    """Steady temperatures with `stretches` in order from the weld outwards.

    At least two cells along the pipe. Raises ValueError for input without meaning, and when no
    heat can leave, as no steady state exists then.
    """
    positive(inner_radius=pipe.inner_radius, conductivity=pipe.conductivity,
             wall=pipe.outer_radius - pipe.inner_radius, radial_cells=radial_cells)  # fmt: skip
    not_negative(inside_h=pipe.inside_h)
    for stretch in stretches:
        positive(length=stretch.length, cells=stretch.cells)
        not_negative(outside_h=stretch.outside_h)
    if pipe.inside_h == 0.0 and all(stretch.outside_h == 0.0 for stretch in stretches):
        raise ValueError("no heat can leave the pipe: there is no steady state")

    columns = [
        (stretch.length / stretch.cells, stretch)
        for stretch in stretches
        for _ in range(stretch.cells)
    ]
    if len(columns) < 2:
        raise ValueError("at least two cells along the pipe are needed")
    excess = _solve(pipe, columns, radial_cells)

    width = (pipe.outer_radius - pipe.inner_radius) / radial_cells
    inner_half = pipe.inner_radius * log(1.0 + width / (2.0 * pipe.inner_radius))
    outer_half = pipe.outer_radius * log(pipe.outer_radius / (pipe.outer_radius - width / 2.0))
    along, outside, inside, edge, watts = [], [], [], 0.0, 0.0
    for j, (length, stretch) in enumerate(columns):
        along.append(edge + length / 2.0)
        edge += length
        inner, outer = excess[j * radial_cells], excess[(j + 1) * radial_cells - 1]
        inside.append(pipe.ambient + inner / (1.0 + pipe.inside_h * inner_half / pipe.conductivity))
        drop = outer_half / pipe.conductivity
        surface = (outer + stretch.flux * drop) / (1.0 + stretch.outside_h * drop)
        outside.append(pipe.ambient + surface)
        watts += 2.0 * (2.0 * pi * pipe.outer_radius * length * stretch.flux)
    return Section(tuple(along), tuple(outside), tuple(inside), edge, pipe.ambient, watts)


def _solve(pipe: Pipe, columns: list[tuple[float, Stretch]], n: int) -> list[float]:
    """Excess temperatures of the cells, column by column from the weld, each from inside out.

    Heat balances per radian. Each row holds the diagonal and the `n` entries right of it.
    """
    k = pipe.conductivity
    width = (pipe.outer_radius - pipe.inner_radius) / n
    middles = [pipe.inner_radius + (i + 0.5) * width for i in range(n)]
    radial = [k / log(b / a) for a, b in pairwise(middles)]
    bore = _in_series(k / log(middles[0] / pipe.inner_radius), pipe.inside_h * pipe.inner_radius)
    skin = k / log(pipe.outer_radius / middles[-1])

    rows = [[0.0] * (n + 1) for _ in range(n * len(columns))]
    right = [0.0] * len(rows)
    for j, (length, stretch) in enumerate(columns):
        first, last = j * n, j * n + n - 1
        for i, link in enumerate(radial):
            _join(rows, first + i, 1, link * length)
        rows[first][0] += bore * length
        film = stretch.outside_h * pipe.outer_radius
        rows[last][0] += _in_series(skin, film) * length
        # Of the flux into the surface, what the film does not take back enters the wall.
        right[last] = stretch.flux * pipe.outer_radius * length * skin / (skin + film)
        if j + 1 < len(columns):
            distance = (length + columns[j + 1][0]) / 2.0
            for i, middle in enumerate(middles):
                _join(rows, first + i, n, k * middle * width / distance)
    return _eliminate(rows, right)


def _join(rows: list[list[float]], cell: int, offset: int, link: float) -> None:
    """A conductance between a cell and the one `offset` further on."""
    rows[cell][0] += link
    rows[cell + offset][0] += link
    rows[cell][offset] -= link


def _eliminate(rows: list[list[float]], right: list[float]) -> list[float]:
    """Solve a symmetric positive definite banded system in place, without pivoting."""
    for i, row in enumerate(rows):
        pivot = row[0]
        for offset in range(1, min(len(row), len(rows) - i)):
            if row[offset] != 0.0:
                factor = row[offset] / pivot
                target = rows[i + offset]
                target[: len(row) - offset] = [
                    a - factor * b for a, b in zip(target, row[offset:], strict=False)
                ]
                right[i + offset] -= factor * right[i]
    solution = [0.0] * (len(rows) + len(rows[0]))
    for i in range(len(rows) - 1, -1, -1):
        row = rows[i]
        known = sum(a * b for a, b in zip(row[1:], solution[i + 1 : i + len(row)], strict=True))
        solution[i] = (right[i] - known) / row[0]
    return solution[: len(rows)]


def _in_series(first: float, second: float) -> float:
    return first * second / (first + second)


def _even(z: float, near: float, far: float, at_near: float, at_far: float) -> float:
    """On the parabola through two points that is even about z = 0."""
    return at_near + (at_far - at_near) * (z**2 - near**2) / (far**2 - near**2)
