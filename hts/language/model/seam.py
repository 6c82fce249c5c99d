"""Welds that do not go round a pipe: a long seam, and the weld all round a pad.

Places on them are told by the distance along the weld. Both are laid flat as they are faced from
outside: x to the right and y up, mm. The outside of the shell is taken flat there, as a tape lies
on it.
"""

from __future__ import annotations

from math import cos, pi, sin
from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.language.model.joint import Joint, Thermocouple

SEAM, PAD = "long seam", "attachment"
#: Sides of each, the first drawn up, or outward.
SIDES = {SEAM: ("side A", "side B"), PAD: ("on run", "on pad")}
_CORNER = "upper left corner"


class Flat(NamedTuple):
    """A point as faced from outside, mm."""

    x: float
    y: float


class Seam(NamedTuple):
    """A straight weld. x counts from its left end, y from the weld toward side A."""

    length: float
    start: str
    #: `left` or `right`: where the end that distances count from lies; empty where nothing tells.
    hand: str

    def at(self, along: float, off: float = 0.0) -> Flat:
        """The place at a distance along the weld and beside it, toward side A."""
        return Flat(self.length - along if self.hand == "right" else along, off)


class Pad(NamedTuple):
    """A weld all round a pad of that width and height with rounded corners. x and y count from
    the middle of the pad; distances along the weld from the upper left corner, clockwise."""

    width: float
    height: float
    corner: float

    @property
    def start(self) -> str:
        return _CORNER

    @property
    def length(self) -> float:
        return 2 * (self.width + self.height) - (8 - 2 * pi) * self.corner

    def at(self, along: float, off: float = 0.0) -> Flat:
        """The place at a distance along the weld and square to it, outward."""
        x, y, turn = self._edge(along % self.length if self.length else 0.0)
        return Flat(x + off * sin(turn), y + off * cos(turn))

    def _edge(self, along: float) -> tuple[float, float, float]:
        """A point of the edge, and the direction outward, clockwise from up, radians."""
        radius, bend = self.corner, pi / 2 * self.corner
        half_x, half_y = self.width / 2 - radius, self.height / 2 - radius
        # The upper left corner is the middle of its bend.
        along = (along + bend / 2) % self.length
        turn = 0.0
        for straight, middle, forth in (
            (2 * half_x, Flat(-half_x, half_y), Flat(1, 0)),
            (2 * half_y, Flat(half_x, half_y), Flat(0, -1)),
            (2 * half_x, Flat(half_x, -half_y), Flat(-1, 0)),
            (2 * half_y, Flat(-half_x, -half_y), Flat(0, 1)),
        ):
            if along < bend:
                part = turn - pi / 2 + along / radius
                return middle.x + radius * sin(part), middle.y + radius * cos(part), part
            along -= bend
            if along <= straight:
                x, y = middle.x + forth.x * along, middle.y + forth.y * along
                return x + radius * sin(turn), y + radius * cos(turn), turn
            along -= straight
            turn += pi / 2
        return -half_x, half_y + radius, 0.0


def weld_along(joint: Joint) -> Seam | Pad | None:
    """The weld of a joint whose places are told along it; None for another kind, and where the
    text does not tell its size."""
    entry = joint.entry
    if entry.kind == SEAM and entry.seam is not None:
        return Seam(float(entry.seam.length.value), entry.seam.origin or "", entry.seam.hand or "")
    if entry.kind == PAD and entry.pad is not None and entry.pad.height is not None:
        width, height = float(entry.pad.width.value), float(entry.pad.height.value)
        corner = float(entry.pad.corners.value) if entry.pad.corners is not None else 0.0
        return Pad(width, height, min(corner, width / 2, height / 2))
    return None


def off_weld(kind: str, on_weld: bool, distance: Quantity | None, side: str) -> float | None:
    """Signed distance from the weld, mm: toward side A, or outward from a pad; None where the
    side is none of this kind of weld."""
    if distance is None:
        return 0.0 if on_weld else None
    sides: tuple[str, ...] = SIDES.get(kind, ())
    if side not in sides:
        return None
    return float(distance.value) * (1.0 if side == sides[0] else -1.0)


def place_of(tc: Thermocouple) -> Flat | None:
    """Where a thermocouple sits, laid flat; None where its place is not told along the weld."""
    weld, entry, offset = weld_along(tc.joint), tc.entry, tc.entry.offset
    if weld is None or entry.along is None:
        return None
    distance, side = (offset.distance, offset.side) if offset is not None else (None, "")
    off = off_weld(tc.joint.entry.kind or "", entry.on_weld, distance, side)
    return None if off is None else weld.at(float(entry.along.value), off)
