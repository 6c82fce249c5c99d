"""Nodes, volumes, links and surfaces of a body of revolution.

Nodes stand on a straight grid, on both surfaces of every straight part. What of a cell lies
outside the metal is cut off: volumes and faces are those of the metal in it, and the sloping
surface keeps its true area. Bending the grid to the wall instead is wrong by 9 K at a taper 1:4.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from math import ceil, pi
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from hts.science.field.pipe import Pipe

Values = NDArray[np.float64]
Indices = NDArray[np.intp]

#: Pieces a cell is cut into where a surface slopes.
_PIECES = 40
_GROWTH = 1.15
_EMPTY = 1e-15  # m3


class Surface(NamedTuple):
    """Patches of one surface: station and node each belongs to, area m2 of the whole ring."""

    along: Indices
    through: Indices
    area: Values


class Mesh(NamedTuple):
    """A grid of (round, along, through) nodes; all amounts are of one cell round.

    `z`, `r`: places of the nodes, m; `edges`: the faces between stations, with both ends.
    `volume` m3 and `angular` (link to the next cell round, m per unit of conductivity) have the
    shape (along, through); `radial` (along, through - 1) and `axial` (along - 1, through) are
    links likewise. `inner`, `outer`: radii of the surfaces at the stations, m. With `mirrored` the
    other half of the pipe is the mirror image of this one.
    """

    round: int
    z: Values
    r: Values
    edges: Values
    volume: Values
    radial: Values
    axial: Values
    angular: Values
    bore: Surface
    outside: Surface
    inner: Values
    outer: Values
    mirrored: bool = False

    @property
    def angles(self) -> Values:
        """Middles of the cells round, degrees clockwise from 12:00."""
        return np.asarray(np.arange(self.round) * (360.0 / self.round), dtype=float)


def mesh(
    pipe: Pipe,
    *,
    places: Sequence[float] = (),
    fine_to: float = 0.3,
    fine: float = 0.0115,
    coarse: float = 0.03,
    through: int = 7,
    cells_round: int = 1,
) -> Mesh:
    """The mesh of `pipe`: stations stand on each of `places`, m, and on those of the pipe.

    They are at most `fine` m apart where |z| < `fine_to`, and beyond it the distance grows up to
    `coarse`. `through` nodes stand in the thinnest wall. Raises ValueError for fewer than 3.
    """
    if through < 3 or cells_round < 1:
        raise ValueError("a mesh needs three nodes through the wall and one cell round")
    z = _stations(pipe, places, fine_to, fine, coarse)
    r = _nodes(pipe, through)
    edges = np.concatenate(([z[0]], (z[1:] + z[:-1]) / 2.0, [z[-1]]))
    faces = np.concatenate(([r[0]], (r[1:] + r[:-1]) / 2.0, [r[-1]]))
    straight = len({s[1:] for s in pipe.stations}) == 1

    pieces = 1 if straight else _PIECES
    widths = np.diff(edges)
    middles = edges[:-1, None] + widths[:, None] * (np.arange(pieces) + 0.5) / pieces
    low, high = _cut(pipe, middles, faces)
    inside = np.maximum(high**2 - low**2, 0.0)
    share = widths[:, None] / pieces
    volume = (pi * inside * share[..., None]).sum(axis=1)
    angular = (np.log(np.maximum(high, low) / low) * share[..., None]).sum(axis=1)
    inner, outer = _radii(pipe, middles)
    crossed = (inner[..., None] < faces[1:-1]) & (faces[1:-1] < outer[..., None])
    length = (crossed * share[..., None]).sum(axis=1)
    radial = 2.0 * pi * length / np.log(r[1:] / r[:-1])
    low, high = _cut(pipe, edges[1:-1, None], faces)
    axial = pi * np.maximum(high**2 - low**2, 0.0)[:, 0, :] / np.diff(z)[:, None]

    n = cells_round
    at_inner, at_outer = _radii(pipe, z)
    return Mesh(
        n, z, r, edges, volume / n, radial / n, axial / n, angular * n / (2.0 * pi),
        _surface(pipe, 1, edges, faces, volume, straight),
        _surface(pipe, 2, edges, faces, volume, straight),
        at_inner, at_outer, pipe.mirrored,
    )  # fmt: skip


def _stations(
    pipe: Pipe, places: Sequence[float], fine_to: float, fine: float, coarse: float
) -> Values:
    """Stations on every place asked for, close together near the weld."""
    # Rounded like the rest, or the last of them would fall just outside.
    near = [round(max(pipe.start, -fine_to), 9), round(min(pipe.end, fine_to), 9)]
    asked = {round(p, 9) for p in (*near, 0.0, *places, *(s.z for s in pipe.stations))}
    inside = sorted(p for p in asked if near[0] <= p <= near[1])
    points = [inside[0]]
    for a, b in itertools.pairwise(inside):
        count = ceil((b - a) / fine - 1e-9)
        points += [a + (b - a) * (k + 1) / count for k in range(count)]
    beyond = [p for p in asked if p > near[1]]
    before = [-p for p in asked if p < near[0]]
    right = _growing(near[1], sorted({*beyond, pipe.end}), fine, coarse)
    left = _growing(-near[0], sorted({*before, -pipe.start}), fine, coarse)
    return np.array([*(-p for p in reversed(left)), *points, *right])


def _growing(start: float, knots: list[float], fine: float, coarse: float) -> list[float]:
    """Stations from `start` through the knots, each step longer than the one before."""
    points, at, step = [], start, fine
    for knot in knots:
        if knot <= at + 1e-9:
            continue
        steps: list[float] = []
        while sum(steps) < knot - at:
            step = min(step * _GROWTH, coarse)
            steps.append(step)
        factor = (knot - at) / sum(steps)
        for length in steps:
            at += length * factor
            points.append(at)
        at = points[-1] = knot
    return points


def _nodes(pipe: Pipe, through: int) -> Values:
    """Radii of the nodes: on each radius of the stations, and evenly between."""
    thinnest = min(s.outer_radius - s.inner_radius for s in pipe.stations) / (through - 1)
    knots = sorted({round(radius, 9) for s in pipe.stations for radius in s[1:]})
    points = [knots[0]]
    for a, b in itertools.pairwise(knots):
        count = ceil((b - a) / thinnest - 1e-6)
        points += [a + (b - a) * (k + 1) / count for k in range(count)]
    return np.array(points)


def _radii(pipe: Pipe, z: Values) -> tuple[Values, Values]:
    at, inner, outer = (np.array(column) for column in zip(*pipe.stations, strict=True))
    return np.interp(z, at, inner), np.interp(z, at, outer)


def _cut(pipe: Pipe, z: Values, faces: Values) -> tuple[Values, Values]:
    """Lowest and highest radius of the metal in each cell at `z`: highest below lowest, none."""
    inner, outer = _radii(pipe, z)
    low = np.maximum(faces[:-1], inner[..., None])
    return low, np.minimum(faces[1:], outer[..., None])


def _surface(
    pipe: Pipe, column: int, edges: Values, faces: Values, volume: Values, straight: bool
) -> Surface:
    """The patches of the bore (`column` 1) or the outside (2)."""
    if straight:
        count = len(volume)
        radius = pipe.stations[0][column]
        node = 0 if column == 1 else volume.shape[1] - 1
        return Surface(np.arange(count), np.full(count, node), 2.0 * pi * radius * np.diff(edges))
    area = np.zeros_like(volume)
    finest = min(float(np.diff(edges).min()), float(np.diff(faces).min())) / _PIECES
    for near, far in zip(pipe.stations, pipe.stations[1:], strict=False):
        rise, run = far[column] - near[column], far.z - near.z
        length = float(np.hypot(rise, run))
        if length == 0.0:
            continue
        count = ceil(length / finest)
        share = (np.arange(count) + 0.5) / count
        z, r = near.z + share * run, near[column] + share * rise
        j = np.clip(np.searchsorted(edges, z) - 1, 0, len(volume) - 1)
        i = np.clip(np.searchsorted(faces, r) - 1, 0, volume.shape[1] - 1)
        np.add.at(area, (j, i), 2.0 * pi * r * length / count)
    # A patch whose cell holds no metal belongs to the nearest that does.
    for j, i in np.argwhere((area > 0.0) & (volume <= _EMPTY)):
        full = np.flatnonzero(volume[j] > _EMPTY)
        area[j, full[np.argmin(np.abs(full - i))]] += area[j, i]
        area[j, i] = 0.0
    along, node_index = np.nonzero(area)
    return Surface(along, node_index, area[along, node_index])
