"""A pipe as a body of revolution: straight, with unequal walls, or with a heavy section."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from typing import NamedTuple

from hts.science.field.metal import Metal


class Station(NamedTuple):
    """Radii, m, at `z`, m along the pipe from the weld; straight lines join the stations."""

    z: float
    inner_radius: float
    outer_radius: float


class Pipe(NamedTuple):
    """Stations in order of `z`, from end to end; two at one `z` make a step.

    No heat crosses the two ends. With `mirrored` the first station stands on the weld at z = 0
    and the other half is its mirror image. `other` is the metal from `joined_at`, m, onwards.
    """

    stations: tuple[Station, ...]
    metal: Metal
    mirrored: bool = False
    other: Metal | None = None
    joined_at: float = 0.0

    @property
    def start(self) -> float:
        """Where the pipe begins, m from the weld."""
        return self.stations[0].z

    @property
    def end(self) -> float:
        """Where it ends, m from the weld."""
        return self.stations[-1].z


def straight(
    outer_diameter: float, wall: float, metal: Metal, *, half_length: float, mirrored: bool = True
) -> Pipe:
    """A pipe of even wall, `half_length` on either side of the weld; half of it if `mirrored`."""
    outer = outer_diameter / 2.0
    return body(
        [
            Station(0.0 if mirrored else -half_length, outer - wall, outer),
            Station(half_length, outer - wall, outer),
        ],
        metal,
        mirrored=mirrored,
    )


def body(
    stations: Sequence[Station],
    metal: Metal,
    *,
    mirrored: bool = False,
    other: Metal | None = None,
    joined_at: float = 0.0,
) -> Pipe:
    """A pipe through `stations`. Raises ValueError where they make no pipe."""
    if len(stations) < 2 or not stations[-1].z > stations[0].z:
        raise ValueError("a pipe needs two stations at different places along it")
    for near, far in itertools.pairwise(stations):
        if far.z < near.z:
            raise ValueError("the stations of a pipe must stand in order along it")
    for station in stations:
        if not 0.0 < station.inner_radius < station.outer_radius:
            raise ValueError("a pipe needs a bore, and an outer radius greater than it")
    if mirrored and stations[0].z != 0.0:
        raise ValueError("a mirrored pipe begins on the weld, at z = 0")
    return Pipe(tuple(stations), metal, mirrored, other, joined_at)
