"""A cylinder standing on a larger one: the curve they meet in, and distances from it.

Both surfaces can be laid flat, and a tape that lies on them is straight there; so distances along
a surface are distances on the flat sheet. Lengths in any one unit, plain floats.

`turn` is an angle round the branch in degrees, 0 at the crotch (on the side the branch leans to),
clockwise for who looks along the branch at the run. A place on the branch is its turn and its
height along the branch above the point where the axis of the branch passes the axis of the run. A
place on the run is the length along the run and the length round it, from the foot of the branch's
axis for an offset of nought: `along` counts toward the crotch, `round` toward turn 90.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cached_property, lru_cache
from math import asin, atan2, cos, degrees, hypot, inf, pi, radians, sin, sqrt
from typing import NamedTuple

from hts.base.arguments import not_negative, positive, within

_SAMPLES = 240
_GOLDEN = (sqrt(5) - 1) / 2
#: How often the stretch between three samples is narrowed: what is left of it is some 1e-5 degrees,
#: and a length near its least changes with the square of that.
_NARROWED = 25
_FINE = 1e-9
#: Places found last.
_KEPT = 8192
#: The part of the way round the run that is looked at; at its end the place runs away to infinity.
_ROUND = 0.98
#: Sine of a turn below which a place lies in the plane of both axes: nearer to it the length round
#: the run is lost in the digits, and farther off the two ways agree.
_IN_PLANE = 1e-6


class OnRun(NamedTuple):
    """A place on the outside of the run, laid flat."""

    along: float
    round: float


class Crossing:
    """A branch of radius `branch` on a run of radius `run`.

    `angle` between the axes in degrees, 90 for a branch that stands square; `offset` of the
    branch's axis from the run's, toward turn 90. NotCovered where the branch is wider than the run
    beneath it or leans more than 75 degrees from square.
    """

    def __init__(self, run: float, branch: float, angle: float = 90.0, offset: float = 0.0) -> None:
        positive(radius_of_the_run=run, radius_of_the_branch=branch)
        within("angle between branch and run", angle, 15.0, 90.0, "deg")
        within(
            "branch and its offset over the radius of the run",
            (branch + abs(offset)) / run,
            0.0,
            1.0,
            "",
        )
        self.run, self.branch, self.angle, self.offset = run, branch, angle, offset
        self._sin, self._cos = sin(radians(angle)), cos(radians(angle))
        if angle == 90.0:
            self._sin, self._cos = 1.0, 0.0

    # The curve ----------------------------------------------------------------------------------

    def height(self, turn: float) -> float:
        """Height on the branch at which it meets the run."""
        side = self.offset + self.branch * sin(radians(turn))
        return self._height(side, sqrt(max(self.run**2 - side**2, 0.0)), self.branch, turn)

    def on_run(self, turn: float) -> OnRun:
        """The same place of the curve on the run."""
        side = self.offset + self.branch * sin(radians(turn))
        theta = asin(max(-1.0, min(1.0, side / self.run)))
        return OnRun(self._along(theta, self.branch, turn), self.run * theta)

    # Distances from it --------------------------------------------------------------------------

    def from_weld_on_branch(self, turn: float, height: float) -> float:
        """Shortest length along the branch from the curve to a place."""
        return _nearest(
            height, self.branch * radians(turn), self._branch, self._on_branch, self.branch
        )

    def from_weld_on_run(self, place: OnRun) -> float:
        """Shortest length along the run from the curve to a place outside it."""
        return _nearest(*place, self._run, self.on_run, self.run)

    def place_on_branch(self, turn: float, distance: float) -> float:
        """Height of the place above the curve at a turn whose shortest length from it is given."""
        not_negative(distance=distance)
        return _on_branch(self, turn, distance)

    def place_on_run(self, turn: float, distance: float) -> OnRun:
        """The place on the run that is seen along the branch at a turn and whose shortest length
        from the curve is given. NotCovered where that lies beyond half round the run."""
        not_negative(distance=distance)
        return self.on_run(turn) if distance == 0 else _on_run(self, turn, distance)

    def reach(self, turn: float) -> float:
        """The greatest length from the curve of a place on the run that is seen along the branch
        at a turn: without end in the plane of both axes."""
        return inf if _in_plane(turn) else _reach(self, turn)

    def turn_of(self, place: OnRun) -> float:
        """The turn at which a place on the run is seen along the branch, 0 to 360."""
        theta = place.round / self.run
        # Across the branch: away from its axis toward the crotch, and toward turn 90.
        across = place.along * self._sin - self.run * cos(theta) * self._cos
        return degrees(atan2(self.run * sin(theta) - self.offset, across)) % 360

    # Edges of bands -----------------------------------------------------------------------------

    def edge_on_branch(self, distance: float) -> list[tuple[float, float]]:
        """Turns and heights of the line on the branch at a length from the curve all round."""
        flat = [(x, height) for height, x in self._branch]
        edge = _offset(flat, distance, 2 * pi * self.branch, up=True)
        return [
            (degrees(x / self.branch), y)
            for x, y in edge
            if self.from_weld_on_branch(degrees(x / self.branch), y) > distance * 0.995
        ]

    def edge_on_run(self, distance: float) -> list[OnRun]:
        """The line on the run at a length from the curve all round."""
        return [
            OnRun(x, y)
            for x, y in _offset(self._run, distance, 0.0, up=False)
            if self.from_weld_on_run(OnRun(x, y)) > distance * 0.995
        ]

    # Parts --------------------------------------------------------------------------------------

    def _height(self, side: float, up: float, radius: float, turn: float) -> float:
        return (up + radius * self._cos * cos(radians(turn))) / self._sin

    def _along(self, theta: float, radius: float, turn: float) -> float:
        """Length along the run of what lies on it at `theta`, `radius` from the branch's axis."""
        up = self.run * cos(theta)
        height = self._height(0.0, up, radius, turn)
        return radius * self._sin * cos(radians(turn)) + height * self._cos

    def _seen(self, turn: float, part: float) -> OnRun:
        """The place seen at a turn out of the plane, a part of the way from the curve to where the
        run is seen no more beyond the axis of the branch."""
        sine = sin(radians(turn))
        way = 1.0 if sine > 0 else -1.0
        start = self.on_run(turn).round / self.run
        theta = start + way * part * (pi - asin(self.offset / self.run) * way - way * start)
        radius = (self.run * sin(theta) - self.offset) / sine
        return OnRun(self._along(theta, radius, turn), self.run * theta)

    def _straight(self, turn: float, more: float) -> OnRun:
        theta = asin(self.offset / self.run)
        return OnRun(self._along(theta, self.branch + more, turn), self.run * theta)

    def _on_branch(self, turn: float) -> tuple[float, float]:
        """Of the curve laid flat with the branch: height, and length round it."""
        return self.height(turn), self.branch * radians(turn)

    @cached_property
    def _branch(self) -> list[tuple[float, float]]:
        return [self._on_branch(360.0 * n / _SAMPLES) for n in range(_SAMPLES)]

    @cached_property
    def _run(self) -> list[OnRun]:
        return [self.on_run(360.0 * n / _SAMPLES) for n in range(_SAMPLES)]


# A drawing asks for the same places again and again, and so does that of the next joint alike.


@lru_cache(maxsize=_KEPT)
def _reach(crossing: Crossing, turn: float) -> float:
    return crossing.from_weld_on_run(crossing._seen(turn, _ROUND))


@lru_cache(maxsize=_KEPT)
def _on_branch(crossing: Crossing, turn: float, distance: float) -> float:
    start = crossing.height(turn)

    def length(up: float) -> float:
        return crossing.from_weld_on_branch(turn, start + up)

    most = 4 * distance + crossing.branch
    return start + _solved(length, distance, most, length(most))


@lru_cache(maxsize=_KEPT)
def _on_run(crossing: Crossing, turn: float, distance: float) -> OnRun:
    if _in_plane(turn):

        def length(more: float) -> float:
            return crossing.from_weld_on_run(crossing._straight(turn, more))

        most = 4 * distance + crossing.branch
        return crossing._straight(turn, _solved(length, distance, most, length(most)))
    reach = crossing.reach(turn)
    within("length round the run", distance, 0.0, reach, "")
    out = _solved(
        lambda part: crossing.from_weld_on_run(crossing._seen(turn, part)), distance, _ROUND, reach
    )
    return crossing._seen(turn, out)


def _in_plane(turn: float) -> bool:
    return abs(sin(radians(turn))) < _IN_PLANE


def _nearest(
    along: float,
    about: float,
    samples: Sequence[tuple[float, float]],
    curve: Callable[[float], tuple[float, float]],
    radius: float,
) -> float:
    """The least length to a curve that goes once round, near the nearest of its samples, which are
    evenly spread; round a cylinder the shorter way."""
    half = pi * radius
    around = 2 * half
    rough = [hypot(along - x, (about - y + half) % around - half) for x, y in samples]

    def length(turn: float) -> float:
        x, y = curve(turn)
        return hypot(along - x, (about - y + half) % around - half)

    best = min(range(len(rough)), key=rough.__getitem__)
    step = 360.0 / len(rough)
    low, high = step * (best - 1), step * (best + 1)
    a, b = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
    fa, fb = length(a), length(b)
    for _ in range(_NARROWED):
        if fa <= fb:
            high, b, fb = b, a, fa
            a = high - _GOLDEN * (high - low)
            fa = length(a)
        else:
            low, a, fa = a, b, fb
            b = low + _GOLDEN * (high - low)
            fb = length(b)
    return min(fa, fb)


def _solved(length: Callable[[float], float], wanted: float, most: float, at_most: float) -> float:
    """Where a rising function that starts at nought and has a value at most has the wanted one."""
    if wanted == 0:
        return 0.0
    low, high = 0.0, most
    f_low, f_high = -wanted, at_most - wanted
    side = 0
    for _ in range(60):
        at = (low * f_high - high * f_low) / (f_high - f_low)
        value = length(at) - wanted
        # Near the plane of both axes the whole way is a tiny part of the most.
        if abs(value) <= _FINE * wanted or high - low < _FINE**2 * most:
            return at
        if value > 0:
            high, f_high = at, value
            f_low = f_low / 2 if side == 1 else f_low
            side = 1
        else:
            low, f_low = at, value
            f_high = f_high / 2 if side == -1 else f_high
            side = -1
    return (low + high) / 2


def _offset(
    flat: Sequence[tuple[float, float]], distance: float, period: float, up: bool
) -> list[tuple[float, float]]:
    """The points of a closed curve moved square to it; upward where it goes round once in x."""
    found = []
    count = len(flat)
    for index, (x, y) in enumerate(flat):
        before, after = flat[index - 1], flat[(index + 1) % count]
        dx, dy = after[0] - before[0], after[1] - before[1]
        if period:
            dx = (dx + period / 2) % period - period / 2
        size = hypot(dx, dy)
        if size == 0:
            continue
        nx, ny = (-dy / size, dx / size) if up else (dy / size, -dx / size)
        found.append((x + distance * nx, y + distance * ny))
    return found
