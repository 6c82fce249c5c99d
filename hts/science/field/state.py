"""One temperature field, read at any place."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from hts.science.field.mesh import Mesh

Values = NDArray[np.float64]
Waves = NDArray[np.complex128]


class Reading:
    """Weights of the nodes that give the temperature at one place.

    Straight lines along and through, cubic round the pipe. `depth` is 0 outside, 1 at the bore.
    """

    def __init__(self, grid: Mesh, degrees: float, z: float, depth: float) -> None:
        """Raises ValueError for a place that is not on the pipe."""
        z = abs(z) if grid.mirrored else z
        if not grid.z[0] - 1e-9 <= z <= grid.z[-1] + 1e-9:
            raise ValueError(f"{z!r} m is not on the pipe that is worked out")
        if not 0.0 <= depth <= 1.0:
            raise ValueError(f"a depth lies between 0 and 1, not at {depth!r}")
        self._round = _round_weights(grid.round, degrees)
        self._of_waves = _of_waves(self._round)
        j = int(np.clip(np.searchsorted(grid.z, z) - 1, 0, len(grid.z) - 2))
        share = float(np.clip((z - grid.z[j]) / (grid.z[j + 1] - grid.z[j]), 0.0, 1.0))
        nodes, shares = _through(grid, depth)
        self._nodes: list[tuple[int, int, float]] = []
        for column, weight in ((j, 1.0 - share), (j + 1, share)):
            if weight > 0.0:
                node, part = int(nodes[column]), float(shares[column])
                self._nodes += [(column, node, weight * (1.0 - part)),
                                (column, node + 1, weight * part)]  # fmt: skip

    def of(self, celsius: Values) -> float:
        """The temperature, degC."""
        return float(sum(w * (self._round @ celsius[:, j, i]) for j, i, w in self._nodes))

    def of_waves(self, waves: Waves) -> Values:
        """The values of several fields that are given as waves (fields, waves, along, through)."""
        line = sum(w * waves[:, :, j, i] for j, i, w in self._nodes)
        return np.asarray((line @ self._of_waves).real, dtype=float)


def _of_waves(weights: Values) -> Waves:
    """Weights of waves, of which the real part counts, for weights of the cells round: a series of
    real values has each wave twice but the mean and, of an even number, the last."""
    cells = len(weights)
    found = np.conj(np.fft.rfft(weights)) / cells
    found[1 : (cells + 1) // 2] *= 2.0
    return np.asarray(found, dtype=complex)


def _round_weights(cells: int, degrees: float) -> Values:
    """Weights of the cells round for a place: a cubic through the four nearest."""
    weights = np.zeros(cells)
    if cells < 4:
        weights[round(degrees / 360.0 * cells) % cells] = 1.0
        return weights
    place = (degrees % 360.0) / 360.0 * cells
    first = int(np.floor(place))
    x = place - first
    cubic = (
        -x * (x - 1.0) * (x - 2.0) / 6.0,
        (x + 1.0) * (x - 1.0) * (x - 2.0) / 2.0,
        -(x + 1.0) * x * (x - 2.0) / 2.0,
        (x + 1.0) * x * (x - 1.0) / 6.0,
    )
    for k, weight in enumerate(cubic):
        weights[(first - 1 + k) % cells] += weight
    return weights


def _through(grid: Mesh, depth: float) -> tuple[NDArray[np.intp], Values]:
    """At every station the node next inside a depth, and the share of the one outside it."""
    full = grid.volume > 0.0
    first = full.argmax(axis=1)
    last = full.shape[1] - 1 - full[:, ::-1].argmax(axis=1)
    radius = grid.outer - depth * (grid.outer - grid.inner)
    node = np.clip(np.searchsorted(grid.r, radius) - 1, first, last - 1)
    share = np.clip((radius - grid.r[node]) / (grid.r[node + 1] - grid.r[node]), 0.0, 1.0)
    return node, share


class Extreme(NamedTuple):
    """The lowest or highest temperature, degC, and where: degrees from 12:00, m, depth."""

    celsius: float
    degrees: float
    z: float
    depth: float


class Field(NamedTuple):
    """Temperatures, degC, of the shape (round, along, through) on a mesh."""

    mesh: Mesh
    celsius: Values

    def at(self, degrees: float, z: float, depth: float = 0.0) -> float:
        """The temperature, degC, at a clock angle, m along, and a depth: 0 outside, 1 bore."""
        return Reading(self.mesh, degrees, z, depth).of(self.celsius)

    def layer(self, depth: float) -> Values:
        """Temperatures (round, along) at a depth: 0 outside, 1 bore."""
        node, share = _through(self.mesh, depth)
        station = np.arange(len(node))
        near, far = self.celsius[:, station, node], self.celsius[:, station, node + 1]
        return np.asarray(near + share * (far - near), dtype=float)

    def extremes(self, start: float, end: float) -> tuple[Extreme, Extreme]:
        """The lowest and the highest, all round and through the wall, from `start` to `end` m.

        Both ends are places of their own, also where they lie between stations.
        """
        found: list[Extreme] = []
        for depth in (0.0, 0.25, 0.5, 0.75, 1.0):
            z, values = self.between(start, end, depth)
            for index in (int(values.argmin()), int(values.argmax())):
                k, j = divmod(index, len(z))
                place = float(self.mesh.angles[k]), float(z[j]), depth
                found.append(Extreme(float(values[k, j]), *place))
        return min(found, key=_celsius), max(found, key=_celsius)

    def between(self, start: float, end: float, depth: float) -> tuple[Values, Values]:
        """Places along, m, from `start` to `end`, and temperatures (round, along) there."""
        grid = self.mesh
        layer = self.layer(depth)
        z = np.concatenate(([start], grid.z[(grid.z > start) & (grid.z < end)], [end]))
        j = np.clip(np.searchsorted(grid.z, z) - 1, 0, len(grid.z) - 2)
        share = (z - grid.z[j]) / (grid.z[j + 1] - grid.z[j])
        values = layer[:, j] + share * (layer[:, j + 1] - layer[:, j])
        return z, values


def _celsius(extreme: Extreme) -> float:
    return extreme.celsius
