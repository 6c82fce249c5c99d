"""Supports and items near the joint, drawn at their distance from the weld."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from hts.job.outputs.show import DOWN, Shown
from hts.language.model.joint import Joint
from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.place import Rooms
from hts.paper.drawings.style import ADJACENT, LEADER, SMALL, TEXT
from hts.paper.sheet import metrics

_HEIGHT = 3.9
_MOST = 6  # on each side of the weld; more belong on the joint's sheet
_WIDEST, _WIDEST_LARGE = 0.9, 0.75  # parts of the width of the drawing


class Neighbour(NamedTuple):
    """A support, a heavy section or a nearby item: distance in mm, side, what it is, what else is
    to be known."""

    distance: float
    side: str
    what: str
    more: str


def things_of(joint: Joint, shown: Shown) -> list[Neighbour]:
    """The nearest ones of each side, the nearest first."""
    found = []
    for heavy in joint.entry.heavy_sections:
        wall = f", wall {shown.wall(heavy.wall)}" if heavy.wall is not None else ""
        found.append((heavy.where, heavy.what, f"{wall}, {shown.text(heavy.where.distance)}"))
    for support in joint.entry.supports:
        state = f", {support.state}" if support.state else ""
        more = f"{state}, {shown.text(support.where.distance)}"
        found.append((support.where, support.what, more))
    for near in joint.entry.nearby:
        limit = f", at most {shown.text(near.at_most, DOWN)}" if near.at_most is not None else ""
        state = ", removed" if near.removed else ", protected" if near.protected else ""
        found.append((near.where, near.what, f"{state}{limit}, {shown.text(near.where.distance)}"))
    things = sorted(
        Neighbour(float(where.distance.value), where.side, metrics.drawable(what), more)
        for where, what, more in found
    )
    sides = {thing.side for thing in things}
    kept = {id(t) for side in sides for t in [t for t in things if t.side == side][:_MOST]}
    return [thing for thing in things if id(thing) in kept]


def draw_things(
    canvas: Canvas,
    rooms: Rooms,
    things: Sequence[Neighbour],
    y_of: Callable[[Neighbour], float],
    plot: Box,
) -> None:
    """A line across for each, with its words on it or, where that is taken, beside it."""
    for thing in things:
        y = y_of(thing)
        canvas.line(Point(plot.left, y), Point(plot.right, y), ADJACENT, 2)
        text, height = _worded(thing, plot.right - plot.left)
        wide = metrics.width(text, height)
        right = plot.right - 1.5
        on_line = Box(right - wide, y - 0.5 - _HEIGHT, right, y - 0.5)
        if rooms.claim(on_line):
            box = on_line
        else:
            anchor = Point(right - wide / 2, y)
            spot = rooms.place(anchor, wide, _HEIGHT, 0)
            if spot is None:
                continue
            box = spot.box
            canvas.line(anchor, spot.end, LEADER, 3)
        canvas.text(Point(box.left, box.bottom - 0.95), text, height, ground=True)


def _worded(thing: Neighbour, room: float) -> tuple[str, float]:
    """The words and their height; only the name is ever cut, it stands in full on other sheets."""
    text = thing.what + thing.more
    if len(text) < 200 and metrics.width(text, TEXT) <= room * _WIDEST_LARGE:
        return text, TEXT
    most = room * _WIDEST - metrics.width(thing.more, SMALL)
    return metrics.shortened(thing.what, SMALL, most) + thing.more, SMALL
