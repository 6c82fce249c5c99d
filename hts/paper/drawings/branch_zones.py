"""Where the heaters of each zone lie about a branch: on the branch, on the run, or on both."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from math import hypot
from typing import NamedTuple

from hts.base.quantities.clock import Arc, ClockPosition
from hts.job.compiler.job import JointSheet
from hts.language.vocabulary.heating import Heater
from hts.paper.drawings import legend
from hts.paper.drawings.canvas import Point
from hts.paper.drawings.legend import Item
from hts.paper.drawings.style import NARROW, PALER_ORANGE
from hts.science.saddle.crossing import Crossing, OnRun

LOOK = (PALER_ORANGE, NARROW)
#: Degrees between the points of an edge; just beside the line along which the outside is cut.
_STEP, _BESIDE = 3.0, 1e-3
_TURN = 360.0
#: Points of an edge farther apart on paper, mm, have others between them, but so many at most.
_FAR, _MOST = 3.0, 40
#: Where its name may stand: a part of the way from the nearer edge to the farther one.
NAMED = (0.62, 0.48, 0.76, 0.34, 0.9)


class Region(NamedTuple):
    """The heaters of a zone on one part: `begin` and `span` in degrees of the clock, clockwise;
    `near` and `far` from the weld in mm."""

    zone: str
    on_branch: bool
    begin: float
    span: float
    near: float
    far: float

    @property
    def middle(self) -> float:
        """The clock position half way, degrees."""
        return (self.begin + self.span / 2) % _TURN

    def clocks(self) -> list[float]:
        """Positions along its edges, clockwise, and beside the cut at 12:00 on both sides of it."""
        count = max(int(self.span / _STEP), 1)
        found = [self.begin + self.span * number / count for number in range(count + 1)]
        for cut in (0.0, _TURN, 2 * _TURN):
            if self.begin < cut < self.begin + self.span:
                found += [cut - _BESIDE, cut + _BESIDE]
        return [min(clock, self.begin + self.span) % _TURN for clock in sorted(found)]


def regions(sheet: JointSheet, toe: float, heated: float | None) -> list[Region]:
    """Those of all zones that say where they lie. Heaters that tell where they begin and end lie
    there; else they reach from the toe of the weld to the edge of the heated band, `heated` mm
    from the weld; without one, a zone is left out."""
    heating = sheet.joint.entry.heating
    found = []
    for zone in heating.zones if heating is not None else ():
        arc = zone.arc or (Arc(ClockPosition(0), ClockPosition(0)) if zone.all_round else None)
        if arc is None:
            continue
        heaters = [
            one
            for one in (heating.heaters if heating is not None else ())
            if one.zone is not None and one.zone.name == zone.name
        ]
        for side in ("branch", "run"):
            if zone.side not in (None, "both", side):
                continue
            stated = list(_ends(heaters, side))
            if not stated and (heated is None or any(_ends(heaters, _other(side)))):
                continue
            near = min(stated)[0] if stated else toe
            far = max(end for _, end in stated) if stated else heated or toe
            begin, span = float(arc.start.degrees), float(arc.span)
            found.append(Region(zone.name, side == "branch", begin, span, near, far))
    return [one for one in found if one.far > one.near]


def _other(side: str) -> str:
    return "run" if side == "branch" else "branch"


def _ends(heaters: Sequence[Heater], side: str) -> Iterator[tuple[float, float]]:
    """From where to where heaters lie that tell it for this side, mm from the weld."""
    for heater in heaters:
        if heater.starts is None or heater.ends is None:
            continue
        sides = {heater.starts.side, heater.ends.side}
        if sides == {f"on {side}"}:
            lengths = sorted(float(one.distance.value) for one in (heater.starts, heater.ends))
            yield lengths[0], lengths[1]


def outlines(
    region: Region, at: Callable[[float, float], Point], *, cut: bool
) -> Iterator[list[Point]]:
    """The closed outlines of a region on paper; `at` places a clock position and a distance from
    the weld. A part that is `cut` along 12:00 may have two."""
    pieces: list[list[float]] = [[]]
    for clock in region.clocks():
        if cut and pieces[-1] and abs(clock - pieces[-1][-1]) > _TURN / 2:
            pieces.append([])
        pieces[-1].append(clock)
    for clocks in pieces:
        if len(clocks) > 1:
            near = _edge(clocks, lambda clock: at(clock, region.near))
            yield [*near, *reversed(_edge(clocks, lambda clock: at(clock, region.far)))]


def _edge(clocks: Sequence[float], at: Callable[[float], Point]) -> list[Point]:
    """The points of an edge, closer where it turns fast: under a branch that leans, a small turn
    of the clock is a long way on the run."""
    points = [at(clock) for clock in clocks]
    found = [points[0]]
    for (start, here), (end, there) in pairwise(zip(clocks, points, strict=True)):
        more = min(int(hypot(there.x - here.x, there.y - here.y) / _FAR), _MOST)
        # Not across the cut, where the clock begins anew.
        if abs(end - start) < _TURN / 2:
            found += [at(start + (end - start) * part / (more + 1)) for part in range(1, more + 1)]
        found.append(there)
    return found


def within_reach(crossing: Crossing, turn: float, far: float) -> OnRun:
    """The place on the run that far from the weld, or as far as there is one: not beyond half
    round the run."""
    return crossing.place_on_run(turn, min(far, crossing.reach(turn)))


def cut(found: Sequence[Region], crossing: Crossing, turned: Callable[[float], float]) -> list[str]:
    """Names of the zones whose heaters on the run are not drawn whole; `turned` gives the
    direction of a clock position."""
    return [
        region.zone
        for region in found
        if not region.on_branch
        and any(region.far > crossing.reach(turned(clock)) for clock in region.clocks())
    ]


def item(found: Sequence[Region]) -> list[Item]:
    """Its line of the legend."""
    return [legend.area_item(*LOOK, "heaters of a zone")] if found else []
