"""How far along the pipe the bands, thermocouples and surroundings of a joint lie."""

from __future__ import annotations

from collections.abc import Sequence

from hts.checking.govern.facts import total_width
from hts.job.compiler.bands import CENTRELINE, EDGE, Band
from hts.job.compiler.job import JointSheet
from hts.job.compiler.tags import Tag
from hts.job.compiler.why import stated
from hts.paper.drawings.along import Along
from hts.paper.drawings.sides import Sides
from hts.paper.drawings.surroundings import Neighbour

GRADIENT, INSULATION = "gradient band", "insulation"

#: Thermocouples this much beyond the widest band are still drawn with it, before the break.
_NEAR = 1.25


class Lengths:
    """Distances from the weld centreline, mm at the pipe, positive drawn up."""

    def __init__(self, sheet: JointSheet, sides: Sides, things: Sequence[Neighbour]) -> None:
        cap = sheet.joint.entry.cap_width
        self.sides = sides
        #: Width of the weld, 0 where none is told.
        self.cap = float(cap.value) if cap is not None else 0.0
        #: Each width once (two bakes may share one), the narrowest first; with the insulation,
        #: where that does not end with the gradient band.
        self.bands = sorted(_once(sheet), key=self.half)
        self._tags, self._things = sheet.tags, things

    def half(self, band: Band) -> float:
        """Distance of a band's edge."""
        return float(band.each.value) + self.start(band)

    def start(self, band: Band) -> float:
        """Distance of where the width of one side counts from."""
        return self.cap / 2 if band.datum == EDGE else 0.0

    def of_tag(self, tag: Tag) -> float | None:
        """Distance of a thermocouple; None where none is told, or not on which side."""
        if tag.on_weld:
            return 0.0
        if tag.offset is None:
            return None
        sign = self.sides.sign(tag.offset.side)
        return None if sign is None else float(tag.offset.distance.value) * sign

    def of_thing(self, thing: Neighbour) -> float | None:
        sign = self.sides.sign(thing.side)
        return None if sign is None else thing.distance * sign

    def scale(self, top: float, bottom: float) -> Along:
        """The scale on which all of it is drawn from `top` to `bottom`, mm on paper."""
        edges = [self.half(band) for band in self.bands]
        if self.cap:
            edges.append(self.cap / 2)
        reach = max(edges, default=0.0)
        offsets = [o for tag in self._tags if (o := self.of_tag(tag)) is not None]
        near = max((abs(o) for o in offsets if abs(o) <= _NEAR * reach), default=0.0)
        if near > reach:
            edges.append(near)
            reach = near
        far = [o for o in offsets if abs(o) > reach]
        placed = [o for thing in self._things if (o := self.of_thing(thing)) is not None]
        far += [o for o in placed if abs(o) > reach]
        if not edges:
            edges, far = [max((abs(o) for o in far), default=0.0) or 1.0], []
        up, down = [o for o in far if o > 0], [-o for o in far if o < 0]
        return Along(edges, up, down, top, bottom)


def _once(sheet: JointSheet) -> list[Band]:
    found: dict[tuple[str, object], Band] = {}
    for band in (*sheet.bands, *_insulation(sheet)):
        found.setdefault((band.name, band.each.value), band)
    return list(found.values())


def _insulation(sheet: JointSheet) -> list[Band]:
    """The insulated width as the text states it, unless it is that of the gradient band."""
    heating = sheet.joint.entry.heating
    entry = heating.insulation if heating is not None else None
    total = total_width(entry.width, sheet.limits.thickness) if entry is not None else None
    if entry is None or total is None:
        return []
    if any(band.name == GRADIENT and band.total == total for band in sheet.bands):
        return []
    return [Band(INSULATION, total, total / 2, CENTRELINE, stated(entry, "width"))]
