"""The branch on its run, seen square to both, with crotch, flank and angle."""

from __future__ import annotations

from math import cos, radians, sin

from hts.language.model.branching import Branching
from hts.paper.drawings import scales
from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.place import Rooms
from hts.paper.drawings.style import CENTRE, NARROW, OUTLINE, TEXT
from hts.science.saddle.crossing import Crossing

#: Of the branch that is drawn above the run, in diameters.
_STUB = 0.6
#: Of the run that is drawn below the weld, in radii of the branch.
_BENEATH = 1.5
_HEAD, _LEAST = 6.5, 14.0
#: Room the view needs across, mm.
ROOM = 2 * 24.0 + 18.0
_WORDS = 24.0  # room for words on either side


def draw(canvas: Canvas, rooms: Rooms, stands: Branching, box: Box) -> None:
    """In a box, as large as a scale of ISO 5455 lets it be; the crotch to the right."""
    crossing = stands.crossing
    lean = radians(crossing.angle)
    ux, uy = cos(lean), sin(lean)  # up the branch: along the run, out of it
    weld = [_elevation(crossing, float(turn)) for turn in range(0, 181, 5)]
    tip = crossing.height(0.0) + _STUB * 2 * crossing.branch
    ends = [
        Point(side * crossing.branch * uy + tip * ux, -side * crossing.branch * ux + tip * uy)
        for side in (1, -1)
    ]
    left = min(p.x for p in (*weld, *ends)) - crossing.branch
    right = max(p.x for p in (*weld, *ends)) + crossing.branch
    # Of a large run only what lies near the branch is drawn.
    top, lowest = max(p.y for p in (*weld, *ends)), min(p.y for p in weld)
    bottom = max(-0.1 * crossing.run, lowest - _BENEATH * crossing.branch)
    wide, tall = box.right - box.left - 2 * _WORDS, box.bottom - box.top - _HEAD - 1
    if tall < _LEAST:
        return
    wide = max(wide, _LEAST)
    scale = scales.largest(max((right - left) / wide, (top - bottom) / tall))
    x0 = (box.left + box.right) / 2 - (left + right) / 2 / scale
    y0 = box.top + _HEAD + top / scale
    said = f"Seen from the flank at {stands.clock(90)}, 1:{scale:g}"
    middle = Point((box.left + box.right) / 2, box.top + 4.0)
    canvas.text(middle, said, TEXT, "middle", bold=True)

    def at(point: Point) -> Point:
        return Point(x0 + point.x / scale, y0 - point.y / scale)

    canvas.line(at(Point(left, crossing.run)), at(Point(weld[-1].x, crossing.run)), OUTLINE, 2)
    canvas.line(at(Point(weld[0].x, crossing.run)), at(Point(right, crossing.run)), OUTLINE, 2)
    for end, start in zip(ends, (weld[0], weld[-1]), strict=True):
        canvas.line(at(start), at(end), OUTLINE, 2)
    canvas.line(at(ends[0]), at(ends[1]), NARROW, 2)
    canvas.lines([at(p) for p in weld], OUTLINE, 2)
    if bottom < 0:
        canvas.line(at(Point(left, 0)), at(Point(right, 0)), CENTRE, 1)
    foot = max(bottom, 0.0) / uy
    here = Point(foot * ux, foot * uy)
    canvas.line(at(here), at(Point(tip * ux, tip * uy)), CENTRE, 1)
    flank = _elevation(crossing, 90.0)
    heel = "heel" if crossing.angle != 90 else "crotch"
    for point, name, anchor, dx, dy in (
        (weld[0], f"crotch, {stands.clock(0)}", "start", 1.5, -1.5),
        (weld[-1], f"{heel}, {stands.clock(180)}", "end", -1.5, -1.5),
        (flank, f"flank, {stands.clock(90)}", "middle", 0.0, TEXT + 1.4),
    ):
        p = at(point)
        rooms.take(canvas.text(Point(p.x + dx, p.y + dy), name, TEXT, anchor, ground=True))
    rooms.take(Box(box.left, box.top, box.right, box.bottom))


def _elevation(crossing: Crossing, turn: float) -> Point:
    """A point of the weld seen from the flank: along the run, and out of it."""
    place = crossing.on_run(turn)
    return Point(place.along, crossing.run * cos(place.round / crossing.run))
