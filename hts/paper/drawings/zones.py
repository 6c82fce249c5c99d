"""Heater zones on the unrolled joint: a strip with their names, and the gaps between them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import NamedTuple

from hts.job.outputs.show import DOWN, Shown
from hts.language.model.joint import Joint, Zone
from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.sides import Sides
from hts.paper.drawings.style import FINE, NARROW, SMALL, TEXT, WHITE
from hts.paper.sheet import metrics

_ROW = 5.4
_GAP = 0.45  # half the gap between two zones, mm
_TURN = 360
_MOST_ROWS = 3


class Strip(NamedTuple):
    """Rows of zones that do not overlap; `left_out` found no row."""

    rows: tuple[tuple[Zone, ...], ...]
    left_out: int


def strips(joint: Joint, sides: Sides) -> tuple[Strip, Strip]:
    """The zones of the upper side or of both, and those of the lower side alone."""
    lower = [zone for zone in joint.zones if _is_lower(zone, sides)]
    upper = [zone for zone in joint.zones if zone not in lower]
    return packed(upper), packed(lower)


def height(strip: Strip) -> float:
    return _ROW * len(strip.rows) + (0.8 if strip.rows else 0)


def draw_strip(canvas: Canvas, strip: Strip, x: Callable[[float], float], top: float) -> None:
    """The names of the zones over the arcs they heat."""
    for number, row in enumerate(strip.rows):
        y = top + 0.4 + _ROW * number
        for zone in row:
            for start, end in pieces(zone):
                left, right = sorted((x(start), x(end)))
                left, right = left + _GAP, right - _GAP
                canvas.rectangle(Box(left, y, right, y + _ROW - 0.6), WHITE, NARROW, 2)
                text = metrics.drawable(zone.name)
                room = right - left - 1
                height = TEXT if metrics.width(text, TEXT) <= room else SMALL
                text = metrics.shortened(text, height, room)
                if metrics.width(text, height) <= room:
                    foot = y + (_ROW - 0.6 + height) / 2
                    canvas.text(Point((left + right) / 2, foot), text, height, "middle")


def pieces(zone: Zone) -> list[tuple[float, float]]:
    """The arc of a zone in degrees, in two pieces where it goes over 12:00."""
    arc = zone.arc
    if arc is None or arc.span == _TURN:
        return [(0.0, float(_TURN))]
    start = arc.start.degrees
    end: Fraction = start + arc.span
    if end <= _TURN:
        return [(float(start), float(end))]
    return [(0.0, float(end - _TURN)), (float(start), float(_TURN))]


def draw_gaps(
    canvas: Canvas,
    joint: Joint,
    sides: Sides,
    x: Callable[[float], float],
    heights: tuple[float, float, float],
) -> None:
    """The gaps between the zones, through the heated band; `heights`: its top, middle, bottom."""
    top, middle, bottom = heights
    for zone in joint.zones:
        arc = zone.arc
        if arc is None or arc.span == _TURN:
            continue
        lower, upper = _is_lower(zone, sides), _is_upper(zone, sides)
        high, low = middle if lower else top, middle if upper else bottom
        for position in (arc.start, arc.end):
            for at in [0.0, 360.0] if position.degrees == 0 else [float(position.degrees)]:
                left, right = sorted((x(0), x(_TURN)))
                _gap(canvas, x(at), left, right, high, low)


def _gap(canvas: Canvas, at: float, left: float, right: float, high: float, low: float) -> None:
    inside = max(at - _GAP, left), min(at + _GAP, right)
    canvas.rectangle(Box(inside[0], high, inside[1], low), WHITE, layer=1)
    for edge in inside:
        if left < edge < right:
            canvas.line(Point(edge, high), Point(edge, low), FINE, 1)


def gap_note(joint: Joint, shown: Shown) -> str:
    """What the text says of gaps between heaters and of zones that are not drawn."""
    heating = joint.entry.heating
    if heating is None:
        return ""
    parts = []
    if heating.gap is not None:
        parts.append(f"at most {shown.text(heating.gap, DOWN)}")
    if heating.gap_at is not None:
        parts.append(f"at {heating.gap_at}")
    note = f"Gap between heaters: {', '.join(parts)}." if parts else ""
    left_out = len(joint.zones) - sum(len(row) for row in packed(joint.zones).rows)
    if left_out:
        note += f" {left_out} more zones are not drawn: see the specification."
    return note.strip()


def packed(zones: Sequence[Zone]) -> Strip:
    """The zones in rows in which no two overlap."""
    rows: list[list[Zone]] = []
    left_out = 0
    for zone in zones:
        row = next((row for row in rows if not any(_overlap(zone, z) for z in row)), None)
        if row is not None:
            row.append(zone)
        elif len(rows) < _MOST_ROWS:
            rows.append([zone])
        else:
            left_out += 1
    return Strip(tuple(tuple(row) for row in rows), left_out)


def _overlap(zone: Zone, other: Zone) -> bool:
    if zone.arc is None or other.arc is None:
        return True
    return zone.arc.overlaps(other.arc)


def _is_lower(zone: Zone, sides: Sides) -> bool:
    return sides.sign(zone.entry.side or "") == -1


def _is_upper(zone: Zone, sides: Sides) -> bool:
    return sides.sign(zone.entry.side or "") == 1
