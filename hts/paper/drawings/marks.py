"""Thermocouples on a drawing: a shape and a letter for each duty, a tag, a line from it to where
the thermocouple sits."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from hts.job.compiler.tags import Tag
from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.place import Rooms, Spot, Wanted, place_all
from hts.paper.drawings.style import (
    BLACK,
    BLUE,
    GREEN,
    HIDDEN,
    LEADER,
    SMALL,
    TEXT,
    VERMILLION,
    WHITE,
    Line,
)
from hts.paper.sheet import metrics


class Duty(NamedTuple):
    """How a duty is shown: letter, shape, colour, words of the legend."""

    letter: str
    corners: int
    colour: str
    filled: bool
    words: str


_DUTIES = {
    "controls": Duty("C", 0, VERMILLION, True, "controls a zone"),
    "monitors": Duty("M", 4, BLUE, False, "monitors"),
    "spare": Duty("S", 3, GREEN, False, "spare"),
}
_NONE = Duty("–", 5, BLACK, False, "no duty stated")

#: Radius of the shape where the thermocouple sits, and beside its tag, mm.
SPOT, SIGN = 0.95, 2.0
#: Height of a row, radius of the shape and size of its letter for tags 1 mm high.
_ROW, _SIGN, _LETTER = 1.72, SIGN / TEXT, SMALL / TEXT
_GAP = 0.7
_LONGEST = 70.0
#: Tags in one stack.
_MOST = 4


class Way(NamedTuple):
    """How the tags are drawn: their height, and what the drawing says of those left out."""

    height: float
    note: str = ""


#: Tried one after the other, until all tags have room.
_WAYS = (
    Way(TEXT),
    Way(SMALL),
    Way(SMALL, "Not all thermocouples have room here: the tag sheet has them all."),
)


def fitted(make: Callable[[Way], tuple[str, list[Tag]]]) -> str:
    """The SVG in the first way that leaves no tag out; `make` gives it with those left out."""
    svg = ""
    for way in _WAYS:
        svg, left_out = make(way)
        if not left_out:
            break
    return svg


class Sited(NamedTuple):
    """A thermocouple, where it is drawn, from where its leader goes on to its tag, and in which
    direction the tag should lie (degrees clockwise from the top)."""

    tag: Tag
    at: Point
    hang: Point
    preferred: float


def duty_of(tag: Tag) -> Duty:
    return _DUTIES.get(tag.duty, _NONE)


def duties(tags: tuple[Tag, ...]) -> list[Duty]:
    """The duties that occur, in one order."""
    found = [duty_of(tag) for tag in tags]
    return [duty for duty in (*_DUTIES.values(), _NONE) if duty in found]


def keep_clear(rooms: Rooms, sited: list[Sited]) -> None:
    """Nothing is written over a thermocouple."""
    for at in dict.fromkeys(one.at for one in sited):
        rooms.take_mark(Box(*at, *at).grown(SPOT + 0.2))


def draw(canvas: Canvas, rooms: Rooms, sited: list[Sited], height: float = TEXT) -> list[Tag]:
    """Draws all with tags of this height; returns those whose tags found no room."""
    # Spares first, so that the shape of the controlling one beside it stays whole.
    for one in sorted(sited, key=lambda one: duty_of(one.tag).filled):
        shape(canvas, one.at, SPOT, duty_of(one.tag), _is_inside(one.tag), layer=4)
    stacks = _stacks(sited)
    spots = place_all(rooms, [_wanted(stack, height) for stack in stacks])
    left_out = []
    for stack, spot in zip(stacks, spots, strict=True):
        if spot is None:
            left_out += [one.tag for one in stack]
        else:
            _label(canvas, stack, spot, height)
    return left_out


def _wanted(stack: list[Sited], height: float) -> Wanted:
    widest = max(metrics.width(_tag_text(one.tag, height), height) for one in stack)
    first = stack[0]
    wide = 2 * _SIGN * height + _GAP + widest + 0.3
    return Wanted(first.hang, wide, _ROW * height * len(stack), first.preferred)


def _stacks(sited: list[Sited]) -> list[list[Sited]]:
    """Those in one place have their tags one below the other on one leader."""
    found: dict[object, list[Sited]] = {}
    for one in sited:
        place = (one.at, one.hang, one.tag.connected)
        found.setdefault(place, []).append(one)
    order = list(_DUTIES)
    stacks = []
    for group in found.values():
        group.sort(key=lambda one: order.index(one.tag.duty) if one.tag.duty in order else -1)
        # Even stacks: seven are four and three, not five and two.
        count = -(-len(group) // _MOST)
        size = -(-len(group) // count)
        stacks += [group[start : start + size] for start in range(0, len(group), size)]
    return stacks


def _tag_text(tag: Tag, height: float) -> str:
    return metrics.shortened(metrics.drawable(tag.tag), height, _LONGEST)


def _label(canvas: Canvas, stack: list[Sited], spot: Spot, height: float) -> None:
    first, box = stack[0], spot.box
    line = LEADER if first.tag.connected else HIDDEN
    canvas.lines((first.at, first.hang, spot.end), line, layer=3)
    canvas.rectangle(box, WHITE, layer=4)
    for number, one in enumerate(stack):
        middle = box.top + _ROW * height * (number + 0.5)
        radius = _SIGN * height
        at = Point(box.left + radius, middle)
        sign(canvas, at, duty_of(one.tag), _is_inside(one.tag), radius)
        foot = Point(box.left + 2 * radius + _GAP, middle + height / 2)
        canvas.text(foot, _tag_text(one.tag, height), height)


def sign(canvas: Canvas, at: Point, duty: Duty, inside: bool = False, radius: float = SIGN) -> None:
    """The shape with its letter, as beside a tag and in the legend."""
    shape(canvas, at, radius, duty, inside, layer=4)
    # A triangle has less room for its letter, and that lower down.
    is_triangle = duty.corners == 3
    height = _LETTER / _SIGN * radius * (0.85 if is_triangle else 1)
    low = height / 2 + (0.175 * radius if is_triangle else 0)
    canvas.text(
        Point(at.x, at.y + low),
        duty.letter,
        height,
        "middle",
        bold=True,
        colour=WHITE if duty.filled else BLACK,
    )


def shape(canvas: Canvas, at: Point, radius: float, duty: Duty, inside: bool, layer: int) -> None:
    """Circle, square, triangle or other; its outline dashed for one inside the pipe."""
    line = Line(0.3, (0.7, 0.45) if inside else (), duty.colour)
    fill = duty.colour if duty.filled else WHITE
    if duty.corners == 0:
        # The rim of a filled one is white where it is dashed, or it would not show.
        rim = Line(0.3, line.dashes, WHITE) if inside else line
        canvas.circle(at, radius * 0.92, fill, rim, layer)
        return
    if duty.corners == 4:
        half = radius * 0.86
        corners = [(-half, -half), (half, -half), (half, half), (-half, half)]
    elif duty.corners == 3:
        corners = [
            (0.0, -radius * 1.05),
            (radius * 1.05, radius * 0.9),
            (-radius * 1.05, radius * 0.9),
        ]
    else:
        corners = [(0.0, -radius), (radius, 0.0), (0.0, radius), (-radius, 0.0)]
    canvas.polygon([Point(at.x + x, at.y + y) for x, y in corners], fill, line, layer)


def _is_inside(tag: Tag) -> bool:
    return tag.surface == "inside"
