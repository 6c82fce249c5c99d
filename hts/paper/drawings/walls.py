"""The walls of both sides and the weld between them, cut along the pipe."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.job.compiler.job import JointSheet
from hts.language.model.heavy import Heavy, heavy_sections
from hts.language.model.side import Side
from hts.paper.drawings import hatching
from hts.paper.drawings.canvas import Canvas, Point
from hts.paper.drawings.sides import Sides
from hts.paper.drawings.style import HATCH, OUTLINE, PALE_GREY, WHITE

_THICKEST, _THINNEST, _UNKNOWN = 0.36, 0.1, 0.2  # parts of the radius
_ROOT = 0.3  # of the width of the weld
_SLIPPED = ("socket", "fillet")


class Wall(NamedTuple):
    """Radii on paper, mm."""

    outside: float
    inside: float


class Walls:
    """Those of the left (sign -1) and of the right (sign 1), on `radius` mm of paper."""

    def __init__(self, sheet: JointSheet, sides: Sides, turned: int, radius: float) -> None:
        self.kind = sheet.joint.entry.kind or ""
        found: dict[int, Side] = {}
        for side in sheet.joint.sides:
            sign = sides.sign(side.name)
            if sign is not None:
                found[sign * turned] = side
        rest = [side for side in sheet.joint.sides if side not in found.values()]
        for sign in (-1, 1):
            if sign not in found and rest:
                found[sign] = rest.pop(0)
        self._heavy = [
            (sign * turned, heavy)
            for heavy in heavy_sections(sheet.joint)
            if (sign := sides.sign(heavy.entry.where.side)) is not None
        ]
        outsides = [_mm(side.outside_diameter) for side in found.values()]
        largest = max((o for o in outsides if o), default=0.0)
        thickest = max((_mm(side.wall) or 0.0 for side in found.values()), default=0.0)
        heaviest = max((float(one.thick.value) for _, one in self._heavy), default=0.0)
        thickest = max(thickest, heaviest)
        #: mm of paper for a mm of wall; 0 where no wall is known.
        self._scale = radius * _THICKEST / thickest if thickest else 0.0
        self._walls = {
            sign: _drawn(found.get(sign) or found.get(-sign), radius, largest, thickest)
            for sign in (-1, 1)
        }

    def of(self, sign: int) -> Wall:
        return self._walls[sign]

    def at_weld(self, inside: bool) -> float:
        """The radius at which a thermocouple sits on the weld."""
        both = [wall.inside if inside else wall.outside for wall in self._walls.values()]
        return sum(both) / 2

    def heavy(self, sign: int, within: float) -> float:
        """How much farther out than the pipe a heavy section reaches that begins `within` mm."""
        grown = [
            self._grown(one)
            for at, one in self._heavy
            if at == sign and one.entry.bore != "same outside" and float(one.begins.value) < within
        ]
        return max(grown, default=0.0)

    def grown_at(self, sign: int, distance: float) -> float:
        """How much farther out than the pipe the outside is, `distance` mm off the weld."""
        for at, one in self._heavy:
            begins, full, ends = (float(p.value) for p in (one.begins, one.full, one.ends))
            if at == sign and one.entry.bore != "same outside" and begins <= distance <= ends:
                share = 1.0 if distance >= full else (distance - begins) / (full - begins)
                return self._grown(one) * share
        return 0.0

    def _grown(self, heavy: Heavy) -> float:
        rise = heavy.rise
        return self._scale * float(rise.value) if rise is not None and rise.value > 0 else 0.0

    @property
    def is_slipped(self) -> bool:
        """Whether one part stands in the other, with the weld in the corner."""
        return self.kind in _SLIPPED and self._walls[1].outside != self._walls[-1].outside

    def draw(
        self, canvas: Canvas, x: Callable[[float], float], middle: float, cap: float, far: float
    ) -> None:
        """Both halves, above and below the axis at `middle`; `cap` and `far` are mm at the pipe:
        the width of the weld and how far the walls are drawn."""
        for up in (-1, 1):

            def at(distance: float, radius: float, up: int = up) -> Point:
                return Point(x(distance), middle + up * radius)

            if self.is_slipped:
                self._slipped(canvas, at, cap, far)
                continue
            left, right = self._walls[-1], self._walls[1]
            half, root = cap / 2, cap / 2 * _ROOT
            for sign, wall in self._walls.items():
                outer = [at(sign * half, wall.outside)]
                inner = [at(sign * root, wall.inside)]
                for side, one in self._heavy:
                    if side == sign:
                        profile = outer if one.entry.bore != "same outside" else inner
                        grown = self._grown(one) * (1 if profile is outer else -1)
                        first = wall.outside if profile is outer else wall.inside
                        begins, full, ends = (
                            min(max(float(place.value), half), far)
                            for place in (one.begins, one.full, one.ends)
                        )
                        profile += [
                            at(sign * begins, first),
                            at(sign * full, first + grown),
                            at(sign * ends, first + grown),
                            at(sign * ends, first),
                        ]
                ring = [
                    *outer,
                    at(sign * far, wall.outside),
                    at(sign * far, wall.inside),
                    *reversed(inner),
                ]
                _cut(canvas, ring, sign < 0)
            weld = [
                at(-half, left.outside),
                at(half, right.outside),
                at(root, right.inside),
                at(-root, left.inside),
            ]
            _weld(canvas, weld)

    def _slipped(
        self, canvas: Canvas, at: Callable[[float, float], Point], cap: float, far: float
    ) -> None:
        outer = 1 if self._walls[1].outside > self._walls[-1].outside else -1
        pipe, socket = self._walls[-outer], self._walls[outer]
        leg = cap / 2 or far * 0.05
        deep = far * 0.25
        _cut(
            canvas,
            [
                at(-outer * far, pipe.outside),
                at(outer * deep, pipe.outside),
                at(outer * deep, pipe.inside),
                at(-outer * far, pipe.inside),
            ],
            outer > 0,
        )
        _cut(
            canvas,
            [
                at(0, socket.outside),
                at(outer * far, socket.outside),
                at(outer * far, pipe.inside),
                at(outer * deep * 1.12, pipe.inside),
                at(outer * deep * 1.12, pipe.outside),
                at(0, pipe.outside),
            ],
            outer < 0,
        )
        weld = [at(-outer * leg, pipe.outside), at(0, pipe.outside), at(0, socket.outside)]
        _weld(canvas, weld)


def _cut(canvas: Canvas, ring: list[Point], leftward: bool) -> None:
    canvas.polygon(ring, WHITE, OUTLINE, 1)
    hatching.hatch(canvas, [ring], 2.2, leftward=leftward, line=HATCH, layer=1)


def _weld(canvas: Canvas, ring: list[Point]) -> None:
    canvas.polygon(ring, PALE_GREY, OUTLINE, 2)
    for leftward in (False, True):
        hatching.hatch(canvas, [ring], 1.3, leftward=leftward, line=HATCH, layer=2)


def _drawn(side: Side | None, radius: float, largest: float, thickest: float) -> Wall:
    outside = _mm(side.outside_diameter) if side is not None else None
    wall = _mm(side.wall) if side is not None else None
    drawn = radius * (outside / largest if outside and largest else 1.0)
    share = _THICKEST * wall / thickest if wall and thickest else _UNKNOWN
    return Wall(drawn, drawn - radius * max(share, _THINNEST))


def _mm(figure: object) -> float | None:
    value = getattr(figure, "value", None)
    return float(value.value) if isinstance(value, Quantity) else None
