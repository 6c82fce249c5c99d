"""Dimension lines beside a drawing, read from the right as ISO 129-1 has it."""

from __future__ import annotations

from typing import NamedTuple

from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.style import FINE, TEXT
from hts.paper.sheet import metrics

#: Distance between two dimension lines, mm; a text stands on the left of its line.
PITCH = 5.6
_TEXT_ROOM = 4.2
_OUTSIDE = 6.5  # arrows stand outside a shorter span
_TAIL = 3.5
_HEAD = 1.0  # of an arrow, kept free of the text
_BEYOND = 4.2


class Span(NamedTuple):
    """A dimension between two heights; `texts` from the fullest to the shortest."""

    top: float
    bottom: float
    texts: tuple[str, ...]


def room_left(count: int) -> float:
    """Room for so many dimension lines on the left of a part, mm."""
    return 2.4 + PITCH * (count - 1) + _TEXT_ROOM if count else 1.5


def room_right(count: int) -> float:
    """Room for so many on the right."""
    return 1.2 + PITCH * count if count else 1.5


def left(edge: float, number: int) -> float:
    """Where the dimension line `number` (from 1) on the left of `edge` stands."""
    return edge - 2.4 - PITCH * (number - 1)


def right(edge: float, number: int) -> float:
    """Where the dimension line `number` (from 1) on the right of `edge` stands."""
    return edge + PITCH * number


def column(canvas: Canvas, x: float, edge: float, span: Span, room: Box) -> Box:
    """A vertical dimension line at `x` for a part whose edge is at `edge`; returns the text's box.

    The text stays between the top and bottom of `room`.
    """
    out = -1 if x < edge else 1
    for y in (span.top, span.bottom):
        canvas.line(Point(edge + out * 0.8, y), Point(x + out * 1.2, y), FINE, layer=1)
    top, bottom = Point(x, span.top), Point(x, span.bottom)
    if span.bottom - span.top >= _OUTSIDE:
        canvas.line(top, bottom, FINE)
        canvas.arrow(top, bottom)
        canvas.arrow(bottom, top)
    else:
        canvas.line(Point(x, span.top - _TAIL), Point(x, span.bottom + _TAIL), FINE)
        canvas.arrow(top, Point(x, span.top - _TAIL))
        canvas.arrow(bottom, Point(x, span.bottom + _TAIL))
    inside = span.bottom - span.top - 2 * _HEAD
    text, height = _fitting(span.texts, inside)
    half = metrics.width(text, height) / 2
    middle = (span.top + span.bottom) / 2
    if 2 * half > inside:
        # Beyond the arrow, on the line drawn on (ISO 129-1).
        text, height = _fitting(span.texts[-1:], room.bottom - room.top)
        half = metrics.width(text, height) / 2
        middle = span.top - _BEYOND - half
        if middle - half < room.top:
            middle = span.bottom + _BEYOND + half
        if middle + half > room.bottom:
            middle = min(max((span.top + span.bottom) / 2, room.top + half), room.bottom - half)
        canvas.line(Point(x, span.top), Point(x, min(middle - half, span.top)), FINE)
        canvas.line(Point(x, span.bottom), Point(x, max(middle + half, span.bottom)), FINE)
    at = Point(x - 0.8, middle)
    # The lines of other dimensions are broken where the text stands.
    return canvas.text(at, text, height, "middle", upright=True, ground=True)


def row(
    canvas: Canvas,
    y: float,
    edge: float,
    ends: tuple[float, float],
    texts: tuple[str, ...],
    room: Box,
) -> None:
    """A level dimension line at `y` below a part whose edge is at `edge`, between two places
    across; the text stands on the line."""
    left, right = ends
    for x in ends:
        canvas.line(Point(x, edge + 0.8), Point(x, y + 1.2), FINE, layer=0)
    one, other = Point(left, y), Point(right, y)
    if right - left >= _OUTSIDE:
        canvas.line(one, other, FINE)
        canvas.arrow(one, other)
        canvas.arrow(other, one)
    else:
        canvas.line(Point(left - _TAIL, y), Point(right + _TAIL, y), FINE)
        canvas.arrow(one, Point(left - _TAIL, y))
        canvas.arrow(other, Point(right + _TAIL, y))
    text, height = _fitting(texts, right - left - 2 * _HEAD)
    half = metrics.width(text, height) / 2
    middle = (left + right) / 2
    if 2 * half > right - left - 2 * _HEAD:
        text, height = _fitting(texts, room.right - right - _BEYOND)
        half = metrics.width(text, height) / 2
        middle = right + _BEYOND + half
        if middle + half > room.right:
            middle = left - _BEYOND - half
        canvas.line(Point(min(left, middle - half), y), Point(max(right, middle + half), y), FINE)
    canvas.text(Point(middle, y - 0.7), text, height, "middle", ground=True)


def _fitting(texts: tuple[str, ...], room: float) -> tuple[str, float]:
    """The fullest text that fits, else the shortest."""
    for text in texts:
        if metrics.width(text, TEXT) <= room:
            return text, TEXT
    return texts[-1], TEXT
