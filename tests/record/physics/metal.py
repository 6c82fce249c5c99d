"""The pipe under its heaters: heat capacities joined by conduction, losing heat to the air.

Around the pipe stand as many columns of metal as there are heating zones; along it rings of metal
at each distance where a thermocouple sits, and one ring farther out on each side. Each zone has
heaters of their own heat capacity, so that the metal answers late. All linear but the heat capacity
of the steel: common textbook lumping (e.g. Incropera, ch. 5: lumped capacitance), no source for the
coefficients.

A resistance heater makes the same heat all along its length, and all of it goes into the metal that
lies beneath each piece of it. So each ring has its own piece of heater, and what flows from it is
conductance times (piece - metal beneath it): a piece that gives heat is hotter than its own metal,
wherever along the pipe that is, by output times ABOVE_METAL once it is steady; with the power off
it comes down to its metal within minutes. (One temperature for a whole heater would be wrong: the
metal beneath its ends is colder by 200 K and more, and the heater would lie below the hot middle.)
"""

from __future__ import annotations

import itertools
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from tests.record.physics.plants import Place, Plant

Floats = NDArray[np.float64]

AIR = 18.0
#: W/(m K), kg/m3: low-alloy steel at a few hundred degC, from memory.
CONDUCTIVITY, DENSITY = 34.0, 7850.0
#: W/(m2 K): blanket of 50 mm, bare metal (with radiation, at 100-300 degC), inside air of a closed
#: bore.
INSULATED, BARE, INSIDE = 2.3, 14.0, 4.0
#: K: how much hotter a heater is than its metal at full power; kg of heater for each kW.
ABOVE_METAL, HEATER_MASS, HEATER_HEAT = 170.0, 0.45, 900.0


class Metal(NamedTuple):
    """`axial` m of the rings; `heated` the part of a heater over each; `before` and `after` the
    zones beside each; the state is degC of the metal and of the heaters over it: [2, rings,
    zones]."""

    axial: Floats
    heated: Floats
    capacity: Floats
    around: Floats
    along: Floats
    area: Floats
    loss: Floats
    to_metal: float
    heater_capacity: float
    zones: int
    before: list[int]
    after: list[int]


def metal(plant: Plant, places: tuple[Place, ...]) -> Metal:
    """The lumps of a joint."""
    zones = len(plant.zones)
    at = sorted({place.mm / 1000 for place in places})
    axial = np.array([min(at) - 0.35, *at, max(at) + 0.35])
    edges = np.concatenate(([axial[0] - 0.2], (axial[1:] + axial[:-1]) / 2, [axial[-1] + 0.2]))
    length = np.diff(edges)
    diameter, wall = plant.diameter / 1000, plant.wall / 1000
    arc = np.pi * (diameter - wall) / zones
    section = arc * wall
    band = max(abs(place.mm) for place in places if abs(place.mm) < 480) / 1000
    heated = np.array(
        [max(0.0, min(b, band) - max(a, -band)) for a, b in itertools.pairwise(edges)]
    )
    covered = np.array([abs(x) < band * 1.6 for x in axial])
    loss = np.where(covered, INSULATED, BARE)[:, None] * np.ones(zones)
    # Warm air gathers under the top, so that the bottom of the pipe loses more.
    down = (1 - np.cos(2 * np.pi * np.arange(zones) / zones)) / 2
    loss = loss * (1 + 0.25 * down)
    return Metal(
        axial,
        heated / heated.sum(),
        DENSITY * section * length,
        CONDUCTIVITY * wall * length / arc,
        CONDUCTIVITY * section / np.diff(axial),
        arc * length,
        loss,
        plant.power / ABOVE_METAL,
        HEATER_MASS * plant.power / 1000 * HEATER_HEAT,
        zones,
        [(zone - 1) % zones for zone in range(zones)],
        [(zone + 1) % zones for zone in range(zones)],
    )


def specific_heat(celsius: Floats) -> Floats:
    """J/(kg K), EN 1993-1-2:2005 3.4.1.2 below 600 degC, held there: no peak, for these alloys keep
    below their lower critical temperature."""
    t = np.minimum(np.maximum(celsius, 20), 600)
    return 425 + 0.773 * t - 1.69e-3 * t**2 + 2.22e-6 * t**3


def step(lumps: Metal, state: Floats, power: Floats, loss: Floats, seconds: float) -> Floats:
    """The state `seconds` later, with `power` in W and `loss` in W/(m2 K) as of now."""
    wall, heaters = state
    flow = -loss * lumps.area[:, None] * (wall - AIR)
    flow += INSIDE * lumps.area[:, None] * (wall.mean(axis=1, keepdims=True) - wall)
    over = lumps.along[:, None] * (wall[1:] - wall[:-1])
    flow[:-1] += over
    flow[1:] -= over
    if lumps.zones > 1:
        # With two zones each neighbour is met on both sides.
        flow += lumps.around[:, None] * (wall[:, lumps.before] + wall[:, lumps.after] - 2 * wall)
    # Of a whole heater of each zone; a piece has its part of the power, conductance and capacity.
    into = lumps.to_metal * (heaters - wall)
    flow += lumps.heated[:, None] * into
    new = np.empty_like(state)
    new[0] = wall + seconds * flow / (lumps.capacity[:, None] * specific_heat(wall))
    pieces = heaters + seconds * (power - into) / lumps.heater_capacity
    new[1] = np.where(lumps.heated[:, None] > 0, pieces, new[0])
    return new


def weights(lumps: Metal, place: Place) -> Floats:
    """How much of each lump a junction feels: [rings, zones]."""
    found = np.zeros((len(lumps.axial), lumps.zones))
    ring = int(np.argmin(np.abs(lumps.axial - place.mm / 1000)))
    turn = place.angle / 360 * lumps.zones
    first = int(turn) % lumps.zones
    part = turn - int(turn)
    found[ring, first] += 1 - part
    found[ring, (first + 1) % lumps.zones] += part
    return found
