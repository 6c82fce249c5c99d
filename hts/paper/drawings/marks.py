"""Thermocouples on a drawing: a cross where each sits, and a line to its tag beside a shape and a
letter for its duty."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import NamedTuple

from hts.job.compiler.tags import Tag
from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.place import Rooms, Spot, Wanted, place_all
from hts.paper.drawings.style import (
    BLACK,
    BLUE,
    CROSS,
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

#: Half the width of the cross where one sits, and radius of the shape beside its tag, mm.
SPOT, SIGN = 0.8, 2.0
#: Crosses nearer than this are drawn so far apart: a spare never lies across its partner.
_APART = 2.0
#: Height of a row, radius of the shape and size of its letter for tags 1 mm high.
_ROW, _SIGN, _LETTER = 1.72, SIGN / TEXT, 0.72
_GAP = 0.7
_LONGEST = 70.0
#: Tags in one stack.
_MOST = 4
#: More thermocouples than this, or a tag wider than this in mm, are numbered, with a key beside.
_MOST_TAGS, _WIDEST_TAG = 16, 19.0


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
    direction the tag should lie (degrees clockwise from the top). `name`: its tag or, where there
    is a key, its number. `within`: the part of the drawing that the tag has to stand in."""

    tag: Tag
    at: Point
    hang: Point
    preferred: float
    name: str
    within: Box | None = None


def names(tags: Sequence[Tag], has_room: bool) -> dict[str, str]:
    """What each thermocouple is called on a drawing: its tag, or a number where tags are many or
    long and the drawing has room for a key."""
    if has_room and is_numbered(tags):
        return {tag.tag: str(number) for number, tag in enumerate(tags, 1)}
    return {tag.tag: metrics.drawable(tag.tag) for tag in tags}


def is_numbered(tags: Sequence[Tag]) -> bool:
    """Whether drawings with room for a key number them, from 1 in the order of the text."""
    wide = any(metrics.width(metrics.drawable(tag.tag[:40]), TEXT) > _WIDEST_TAG for tag in tags)
    return wide or len(tags) > _MOST_TAGS


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
    for at, inside in dict.fromkeys((one.at, _is_inside(one.tag)) for one in sited):
        place(canvas, at, inside)
    stacks = _stacks(sited)
    spots = place_all(rooms, [_wanted(stack, height) for stack in stacks])
    left_out = []
    for stack, spot in zip(stacks, spots, strict=True):
        if spot is None:
            left_out += [one.tag for one in stack]
        else:
            _label(canvas, stack, spot, height)
    return left_out


def place(canvas: Canvas, at: Point, inside: bool = False) -> None:
    """The cross where a thermocouple sits; in a circle for one inside the pipe."""
    if inside:
        canvas.circle(at, SPOT * 1.3, WHITE, Line(0.25), 4)
    for way in (1, -1):
        start, end = Point(at.x - SPOT, at.y - way * SPOT), Point(at.x + SPOT, at.y + way * SPOT)
        canvas.line(start, end, CROSS, 4)


def spread(sited: Sequence[Sited]) -> list[Sited]:
    """Crosses that would touch are moved apart across the page, each pair about its middle; what
    sits in one place stays so."""
    points = sorted({one.at for one in sited}, key=lambda at: (round(at.y, 3), at.x))
    moved = {at: at for at in points}
    for one, other in pairwise(points):
        gap = other.x - one.x
        if abs(other.y - one.y) < _APART and 0 < gap < _APART:
            half = (_APART - gap) / 2
            moved[one] = Point(moved[one].x - half, one.y)
            moved[other] = Point(other.x + half, other.y)
    return [
        one._replace(at=moved[one.at], hang=moved[one.at] if one.hang == one.at else one.hang)
        for one in sited
    ]


def _wanted(stack: list[Sited], height: float) -> Wanted:
    widest = max(metrics.width(_name(one, height), height) for one in stack)
    first = stack[0]
    wide = 2 * _SIGN * height + _GAP + widest + 0.3
    return Wanted(first.hang, wide, _ROW * height * len(stack), first.preferred, first.within)


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


def _name(one: Sited, height: float) -> str:
    return metrics.shortened(one.name, height, _LONGEST)


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
        canvas.text(foot, _name(one, height), height)


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
