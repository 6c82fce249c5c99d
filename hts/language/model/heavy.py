"""What stands thicker than the pipe beside a weld: where it begins, and how its wall grows."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from hts.base.quantities import LENGTH, Quantity
from hts.base.quantities.number import read_number
from hts.language.model.joint import Joint
from hts.language.model.orientation import Orientation
from hts.language.model.side import Side
from hts.language.vocabulary.sides import HeavySection
from hts.language.vocabulary.sides import Side as Said


class Heavy(NamedTuple):
    """One heavy section. ``side`` is the pipe it stands on, None where the text does not tell;
    ``wall`` that of this pipe, ``thick`` its own. ``begins`` is where the taper leaves it, ``full``
    where the whole wall stands, ``ends`` where it stops: from the weld centreline, along the
    pipe."""

    entry: HeavySection
    side: Side | None
    wall: Quantity | None
    thick: Quantity
    begins: Quantity
    full: Quantity
    ends: Quantity

    @property
    def rise(self) -> Quantity | None:
        """By how much it is thicker than the pipe."""
        return self.thick - self.wall if self.wall is not None else None


def taper_of(entry: HeavySection | Said, rise: Quantity | None) -> Quantity:
    """Length of its taper: stated, or by the slope; nothing for a step."""
    if entry.taper is not None:
        return entry.taper
    if entry.slope is not None and rise is not None:
        return rise * Fraction(read_number(entry.slope))
    return Quantity.of(0, "mm", LENGTH)


def heavy_sections(joint: Joint) -> list[Heavy]:
    """Those of the joint that can be read, the nearest first."""
    found = []
    for entry in joint.entry.heavy_sections:
        where, over = getattr(entry, "where", None), entry.over
        if where is None or over is None or entry.wall is None or not entry.sound:
            continue
        side = side_at(joint, where.side)
        wall = side.wall.value if side is not None and side.wall is not None else None
        wall = wall if isinstance(wall, Quantity) else None
        rise = entry.wall - wall if wall is not None and entry.wall > wall else None
        full = where.distance
        begins = full - taper_of(entry, rise)
        found.append(Heavy(entry, side, wall, entry.wall, begins, full, full + over))
    return sorted(found, key=lambda one: one.full.value)


def side_at(joint: Joint, word: str) -> Side | None:
    """The side of the joint at an end of the pipe; the one there is where both are alike."""
    sides = [side for side in joint.sides if side.name not in ("pad", "attachment")]
    if len(sides) == 1:
        return sides[0]
    orientation = Orientation(joint.entry)
    matched = [side for side in sides if orientation.compared(side.name, word) == 1]
    if matched:
        return matched[0]
    other = [side for side in sides if orientation.compared(side.name, word) != -1]
    return other[0] if len(other) == 1 else None
