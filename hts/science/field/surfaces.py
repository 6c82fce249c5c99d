"""What touches the pipe: states of the bore, cover of the outside, zones of heaters."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Values = NDArray[np.float64]

_ALL = float("inf")
_ZERO = 273.15


class Bore(NamedTuple):
    """The bore from `start` to `end`, m along the pipe, and the air in it at `air` degC.

    `coefficient`, W/(m2 K), is the mean round the bore; at the bottom it is 1 + `lean` times as
    great and at the top 1 - `lean` times. `emissivity` 0: no radiation, as behind a lining.
    """

    coefficient: float
    lean: float = 0.0
    emissivity: float = 0.0
    start: float = -_ALL
    end: float = _ALL
    air: float = 20.0


class Cover(NamedTuple):
    """The outside from `start` to `end`, m: loss W/m2 of metal, as a coefficient to `air` degC.

    `coefficient` is W/(m2 K), or gives it for an array of temperatures of the metal in degC.
    """

    coefficient: float | Callable[[Values], Values]
    start: float = -_ALL
    end: float = _ALL
    air: float = 20.0


class Place(NamedTuple):
    """A place on the outside: degrees clockwise from 12:00, and m along the pipe."""

    degrees: float
    z: float


class Zone(NamedTuple):
    """Heaters that give an even flux to the outside, and the thermocouple they follow.

    They cover the arc from `first` clockwise to `last` degrees, all round where both are alike,
    and the length from `start` to `end`, m. `most` is the greatest power of all of it, W.
    """

    name: str
    start: float
    end: float
    first: float = 0.0
    last: float = 0.0
    follows: Place | None = None
    most: float = _ALL

    @property
    def width(self) -> float:
        """Degrees round the pipe."""
        return (self.last - self.first) % 360.0 or 360.0


def share_along(edges: Values, start: float, end: float) -> Values:
    """Share of each stretch between `edges` that lies from `start` to `end`."""
    covered = np.minimum(edges[1:], end) - np.maximum(edges[:-1], start)
    return np.asarray(np.maximum(covered, 0.0) / np.diff(edges), dtype=float)


def share_round(cells: int, first: float, width: float) -> Values:
    """Share of each cell round that an arc of `width` degrees clockwise from `first` covers."""
    if width >= 360.0:
        return np.ones(cells)
    size = 360.0 / cells
    starts = np.arange(cells) * size - size / 2.0
    total = np.zeros(cells)
    for turn in (-360.0, 0.0, 360.0):
        begin = first % 360.0 + turn
        covered = np.minimum(starts + size, begin + width) - np.maximum(starts, begin)
        total += np.maximum(covered, 0.0)
    return total / size


class Loss:
    """The loss of a row of patches, W, to what covers them, over their temperature."""

    #: Temperatures of the tables, degC: far enough apart, as coefficients change slowly.
    GRID = np.arange(-100.0, 1401.0, 5.0)

    def __init__(self, covers: Sequence[Cover], edges: Values, along: NDArray[np.intp]) -> None:
        """`edges` m bound the stations, and `along` is the station of each patch."""
        self._linear = np.zeros(len(along))
        self._air = np.zeros(len(along))
        self._tables: list[tuple[Values, Values]] = []
        for cover in covers:
            share = share_along(edges, cover.start, cover.end)[along]
            if callable(cover.coefficient):
                function = cover.coefficient
                flux = np.asarray(function(self.GRID)) * (self.GRID - cover.air)
                self._tables.append((share, flux))
            else:
                self._linear += share * cover.coefficient
                self._air += share * cover.coefficient * cover.air

    def at(self, celsius: Values) -> tuple[Values, Values]:
        """Flux out, W/m2, and its slope, W/(m2 K), at temperatures of shape (round, patch)."""
        flux = self._linear * celsius - self._air
        slope = np.broadcast_to(self._linear, celsius.shape)
        for share, table in self._tables:
            place = (celsius - self.GRID[0]) / (self.GRID[1] - self.GRID[0])
            index = np.clip(place.astype(np.intp), 0, len(table) - 2)
            rise = table[index + 1] - table[index]
            flux = flux + share * (table[index] + rise * (place - index))
            slope = slope + share * (rise / (self.GRID[1] - self.GRID[0]))
        return flux, slope


class BoreLoss:
    """Loss of the bore to the air in it, and the emissivity of each station's ring."""

    def __init__(
        self, states: Sequence[Bore], edges: Values, along: NDArray[np.intp], angles: Values
    ) -> None:
        stretch = np.zeros((len(angles), len(along)))
        air = np.zeros_like(stretch)
        emissivity = np.zeros(len(edges) - 1)
        for state in states:
            share = share_along(edges, state.start, state.end)
            emissivity += share * state.emissivity
            around = 1.0 - state.lean * np.cos(np.radians(angles))
            if len(angles) == 1:  # the mean stands for all
                around = np.ones(1)
            part = state.coefficient * around[:, None] * share[along][None, :]
            stretch += part
            air += part * state.air
        self.coefficient, self.to_air, self.emissivity = stretch, air, emissivity

    def at(self, celsius: Values) -> Values:
        """Flux out, W/m2, by convection at temperatures of shape (round, patch)."""
        return self.coefficient * celsius - self.to_air


def emissive(celsius: Values) -> Values:
    """Emissive power of a black surface, W/m2."""
    return np.asarray(5.670374419e-8 * (celsius + _ZERO) ** 4, dtype=float)


def emissive_slope(celsius: Values) -> Values:
    """Its change with temperature, W/(m2 K)."""
    return np.asarray(4.0 * 5.670374419e-8 * (celsius + _ZERO) ** 3, dtype=float)
