"""A heavy section beside a thin one: which side of a joint lags when it is heated."""

from __future__ import annotations

from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.places import half, limits_of
from hts.language.model.heavy import heavy_sections
from hts.language.model.joint import Joint

#: Heavy side to thin side. Common practice, no source.
_RATIO = 2


class Beside(NamedTuple):
    """The thickest and the thinnest wall of a joint. ``side`` is the side with the thickest one as
    the text calls it, "" where it is a heavy section that stands on a pipe."""

    thick: Quantity
    thin: Quantity
    at: Span | None
    what: str
    side: str


def heavy_beside_thin(case: Case, joint: Joint) -> Beside | None:
    """What is at least twice as thick as the thinnest part inside the heated band, or None."""
    width = limits_of(case, joint).band("heated band")
    walls = [
        (side.wall.value, side.wall.at, f"{side.name} side", side.name)
        for side in joint.sides
        if side.wall is not None and isinstance(side.wall.value, Quantity)
    ]
    for heavy in heavy_sections(joint):
        if width is not None and heavy.full <= half(width):
            walls.append((heavy.thick, heavy.entry.place("wall"), heavy.entry.what, ""))
    if len(walls) < 2:
        return None
    thin = min(wall for wall, *_ in walls)
    thick, at, what, side = max(walls, key=lambda wall: wall[0])
    return Beside(thick, thin, at, what, side) if thick >= thin * _RATIO else None
