"""Where labels go, so that none covers another: the nearest free place, with a line leading to it.

What is taken is kept as a raster, so that a place is tried in a few steps however much is drawn.
The same labels in the same order are always put in the same places.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Iterable, Iterator, Sequence
from hashlib import blake2b
from itertools import islice
from math import ceil, cos, floor, hypot, radians, sin
from typing import NamedTuple

from hts.paper.drawings.canvas import Box, Point

_CELL = 0.5  # mm
#: Room between two labels, mm.
_APART = 0.4
_NEAREST, _STEP, _WIDENS = 2.4, 1.2, 1.13
#: Directions tried on each ring, in degrees away from the preferred one.
_TURNS = (0, 20, -20, 40, -40, 65, -65, 90, -90, 120, -120, 150, -150, 180)
_GRID = 2.0
_LOOKED_AT = 60
#: A leader may run over what its own mark touches, mm.
_OWN = 1.2
_TRIES = 3
#: Labels whose spot is remembered.
_REMEMBERED = 8192


class Wanted(NamedTuple):
    """A label to be placed: what it belongs to, its size in mm, the direction first tried, degrees
    clockwise from the top, and the part of the area it has to stand in, if not anywhere."""

    anchor: Point
    width: float
    height: float
    preferred: float
    within: Box | None = None


class Spot(NamedTuple):
    """The room for a label, and the end of the line that leads to it."""

    box: Box
    end: Point


#: Digest of all that was taken before and of the label -> its spot. A place is found by trying
#: many, and whoever writes has the same drawings made again after every save.
_known: OrderedDict[bytes, tuple[Spot | None]] = OrderedDict()


class _Raster:
    """Cells of an area, one bit each, a row of them as one number."""

    def __init__(self, area: Box, rows: list[int] | None = None) -> None:
        self.area = area
        count = ceil((area.bottom - area.top) / _CELL) + 1
        self.rows = rows or [0] * count

    def copy(self) -> _Raster:
        return _Raster(self.area, list(self.rows))

    def fill(self, box: Box) -> None:
        """Takes every cell the box touches."""
        top, bottom, mask = self._cells(box)
        for row in range(top, bottom):
            self.rows[row] |= mask

    def meets(self, box: Box) -> bool:
        top, bottom, mask = self._cells(box)
        return any(row & mask for row in self.rows[top:bottom])

    def has(self, points: Iterable[Point]) -> bool:
        """Whether one of the points lies in a cell that is taken."""
        left, top, count = self.area.left, self.area.top, len(self.rows)
        for x, y in points:
            row, column = int((y - top) / _CELL), int((x - left) / _CELL)
            if 0 <= row < count and column >= 0 and self.rows[row] >> column & 1:
                return True
        return False

    def _cells(self, box: Box) -> tuple[int, int, int]:
        area = self.area
        first = max(floor((box.left - area.left) / _CELL), 0)
        last = max(ceil((min(box.right, area.right) - area.left) / _CELL), first)
        top = min(max(floor((box.top - area.top) / _CELL), 0), len(self.rows))
        bottom = min(max(ceil((box.bottom - area.top) / _CELL), top), len(self.rows))
        return top, bottom, ((1 << (last - first)) - 1) << first


class Rooms:
    """What is taken inside an area, and what is still free."""

    def __init__(self, area: Box) -> None:
        self.area = area
        self._words, self._marks, self._leaders = (_Raster(area) for _ in range(3))
        #: Tells what was taken, and in which order, from the empty area on.
        self._history = _digest(b"", *area)

    def copy(self) -> Rooms:
        made = Rooms(self.area)
        made.become(self)
        return made

    def become(self, other: Rooms) -> None:
        """Takes what the other has taken."""
        self._words, self._marks = other._words.copy(), other._marks.copy()
        self._leaders = other._leaders.copy()
        self._history = other._history

    def take(self, box: Box) -> None:
        """No label and no leader goes here."""
        self._words.fill(box)
        self._history = _digest(self._history, "word", *box)

    def take_mark(self, box: Box) -> None:
        """No label goes here; leaders may."""
        self._marks.fill(box)
        self._history = _digest(self._history, "mark", *box)

    def claim(self, box: Box) -> bool:
        """Takes the box if it is free, and says whether it was."""
        free = self._is_free(box)
        if free:
            self.take(box)
        return free

    def place(
        self,
        anchor: Point,
        width: float,
        height: float,
        preferred: float,
        within: Box | None = None,
    ) -> Spot | None:
        """Room for a label, which is taken from then on; None where the area, or the part of it
        `within` which the label has to stand, is full.

        Best is one near by whose leader crosses nothing; next, one whose leader crosses others;
        at last any, with the leader passing behind other labels.
        """
        asked = _digest(self._history, "asked", *anchor, width, height, preferred, within)
        found = _known.get(asked)
        if found is None:
            found = _known[asked] = (self._found(anchor, width, height, preferred, within),)
            if len(_known) > _REMEMBERED:
                _known.popitem(last=False)
        spot = found[0]
        return self._keep(anchor, spot) if spot is not None else None

    def _found(
        self, anchor: Point, width: float, height: float, preferred: float, within: Box | None
    ) -> Spot | None:
        near = []
        for spot in _around(anchor, width, height, preferred, self._reach()):
            if self._is_free(spot.box) and (within is None or within.holds(spot.box)):
                if self._is_clear(anchor, spot.end, False):
                    return spot
                near.append(spot)
        for spot in near:
            if self._is_clear(anchor, spot.end, True):
                return spot
        # Where there is no other room, over the leaders of others, which pass behind it.
        for over_leaders in (False, True):
            places = _everywhere(within or self.area, anchor, width, height)
            free = (spot for spot in places if self._is_free(spot.box, over_leaders))
            far = list(islice(free, _LOOKED_AT))
            if far:
                clear = (spot for spot in far if self._is_clear(anchor, spot.end, True))
                return next(clear, far[0])
        return None

    def _keep(self, anchor: Point, spot: Spot) -> Spot:
        self._words.fill(spot.box)
        for x, y in _along(anchor, spot.end):
            self._leaders.fill(Box(x - 0.3, y - 0.3, x + 0.3, y + 0.3))
        self._history = _digest(self._history, "label", *anchor, *spot.box, *spot.end)
        return spot

    def _is_free(self, box: Box, over_leaders: bool = False) -> bool:
        return (
            self.area.holds(box)
            and not self._words.meets(box.grown(_APART))
            and not self._marks.meets(box)
            and (over_leaders or not self._leaders.meets(box))
        )

    def _is_clear(self, anchor: Point, end: Point, may_cross: bool) -> bool:
        points = [p for p in _along(anchor, end) if hypot(p.x - anchor.x, p.y - anchor.y) > _OWN]
        return not self._words.has(points) and (may_cross or not self._leaders.has(points))

    def _reach(self) -> float:
        return max(self.area.right - self.area.left, self.area.bottom - self.area.top) / 2


def _digest(before: bytes, *more: object) -> bytes:
    """Stands for what was before and what came to it."""
    return blake2b(before + repr(more).encode(), digest_size=16).digest()


def place_all(rooms: Rooms, wanted: Sequence[Wanted]) -> list[Spot | None]:
    """Room for all labels, in the order given as far as that goes.

    Labels round a crowded place can shut in those that come later; such a one is then placed
    first and all is begun again. None for those that still find no room.
    """
    order = list(range(len(wanted)))
    best: dict[int, Spot] = {}
    taken = rooms
    for _ in range(_TRIES):
        trial = rooms.copy()
        spots = {index: trial.place(*wanted[index]) for index in order}
        found = {index: spot for index, spot in spots.items() if spot is not None}
        if not best or len(found) > len(best):
            best, taken = found, trial
        missing = [index for index in order if index not in found]
        if not missing:
            break
        order = missing + [index for index in order if index in found]
    rooms.become(taken)
    return [best.get(index) for index in range(len(wanted))]


def _around(
    anchor: Point, width: float, height: float, preferred: float, reach: float
) -> Iterator[Spot]:
    """Places on rings about the anchor."""
    ring, step = _NEAREST, _STEP
    while ring < reach:
        for turn in _TURNS:
            angle = radians(preferred + turn)
            across, up = sin(angle), cos(angle)
            end = Point(anchor.x + ring * across, anchor.y - ring * up)
            if abs(across) > 0.5:
                left = end.x if across > 0 else end.x - width
                top = end.y - height / 2
            else:
                left = end.x - width / 2
                top = end.y - height if up > 0 else end.y
            yield Spot(Box(left, top, left + width, top + height), end)
        ring += step
        step *= _WIDENS


def _everywhere(area: Box, anchor: Point, width: float, height: float) -> Iterator[Spot]:
    """Every place of a grid, the nearest first."""
    places = []
    for row in range(int((area.bottom - area.top - height) / _GRID) + 1):
        top = area.top + row * _GRID
        dy = max(top - anchor.y, anchor.y - top - height, 0.0)
        for column in range(int((area.right - area.left - width) / _GRID) + 1):
            left = area.left + column * _GRID
            dx = max(left - anchor.x, anchor.x - left - width, 0.0)
            places.append((round(dx * dx + dy * dy, 3), top, left))
    for _, top, left in sorted(places):
        box = Box(left, top, left + width, top + height)
        end = Point(min(max(anchor.x, left), box.right), min(max(anchor.y, top), box.bottom))
        yield Spot(box, end)


def _along(start: Point, end: Point) -> list[Point]:
    """Points of a line, no farther apart than a cell."""
    count = max(ceil(hypot(end.x - start.x, end.y - start.y) / _CELL), 1)
    dx, dy = (end.x - start.x) / count, (end.y - start.y) / count
    # The end itself touches the label.
    return [Point(start.x + dx * n, start.y + dy * n) for n in range(count)]
