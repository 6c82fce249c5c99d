"""A temperature field as an even raster: filled by how far from the range, with isotherms."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import hypot
from typing import NamedTuple

import numpy as np
from contourpy import FillType, LineType, contour_generator
from numpy.typing import NDArray

from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.style import BLACK, NARROW, WHITE, Line
from hts.paper.sheet import metrics

Values = NDArray[np.float64]

#: K from the end of the range -> fill; the lowest first. White is in range.
_BELOW = ((60.0, "#c4c4c4"), (30.0, "#9db8d2"), (10.0, "#bcd6ea"), (0.0, "#dcebf5"))
_ABOVE = ((10.0, "#e08a4f"), (0.0, "#f3c9a8"))
RANGE = Line(0.6)
ISOTHERM = Line(0.13, colour="#404040")
_LETTERS = 1.8
#: degC, further off than any temperature.
_FAR = 9999.0
#: mm. A point no further beside a line is on it.
_STRAIGHT = 0.02


class Raster(NamedTuple):
    """Temperatures (down, across), degC, from corner to corner of a box on paper."""

    values: Values
    box: Box

    def point(self, down: float, across: float) -> Point:
        """Where a place of the raster lies on paper; both count in steps from the corner."""
        rows, columns = self.values.shape
        wide, high = self.box.right - self.box.left, self.box.bottom - self.box.top
        return Point(
            self.box.left + wide * across / (columns - 1), self.box.top + high * down / (rows - 1)
        )


def fill_of(celsius: float, window: tuple[float, float]) -> str:
    """The fill of a temperature, by how far it lies outside the range."""
    for beyond, fill in _BELOW:
        if celsius < window[0] - beyond:
            return fill
    for beyond, fill in _ABOVE:
        if celsius > window[1] + beyond:
            return fill
    return WHITE


def fills(window: tuple[float, float]) -> list[tuple[str, str]]:
    """Fill and words of each, for the legend."""
    low, high = window
    return [
        ("#c4c4c4", f"below {low - 60:.0f} °C"),
        ("#9db8d2", f"to {low - 30:.0f}"),
        ("#bcd6ea", f"to {low - 10:.0f}"),
        ("#dcebf5", f"to {low:.0f}"),
        (WHITE, "in the range"),
        ("#f3c9a8", f"above {high:.0f}"),
        ("#e08a4f", f"above {high + 10:.0f}"),
    ]


def draw(canvas: Canvas, raster: Raster, window: tuple[float, float], *, labels: bool) -> None:
    """Fills, isotherms and the ends of the range as wide lines, numbers on the isotherms."""
    drawn = contour_generator(
        z=raster.values, line_type=LineType.Separate, fill_type=FillType.OuterOffset
    )
    edges = [-_FAR, *(window[0] - beyond for beyond, _ in _BELOW),
             *(window[1] + beyond for beyond, _ in reversed(_ABOVE)), _FAR]  # fmt: skip
    for low, high in pairwise(edges):
        fill = fill_of((low + high) / 2.0, window)
        if fill != WHITE:
            canvas.areas(_rings(raster, *drawn.filled(low, high)), fill)
    for level in _levels(raster.values, window):
        ends = level in window
        for line in drawn.lines(level):
            points = _placed(raster, np.asarray(line))
            canvas.lines(points, RANGE if ends else ISOTHERM, 2)
            if labels:
                _number(canvas, raster, points, level, ends)
    canvas.rectangle(raster.box, "none", NARROW, layer=3)


def _number(canvas: Canvas, raster: Raster, points: list[Point], level: float, ends: bool) -> None:
    """The temperature of an isotherm in its middle, where it lies well within the box."""
    first = points[(len(points) - 1) // 2]
    second = points[len(points) // 2] if len(points) > 2 else points[-1]
    at = Point((first.x + second.x) / 2.0, (first.y + second.y) / 2.0)
    text = f"{level:.0f}"
    half = metrics.width(text, _LETTERS) / 2
    if raster.box.left + half < at.x < raster.box.right - half:
        canvas.text(Point(at.x, at.y + _LETTERS / 2), text, _LETTERS, "middle", ground=True,
                    bold=ends)  # fmt: skip


def _levels(values: Values, window: tuple[float, float]) -> list[float]:
    """Isotherms: the ends of the range, every 10 K close to it, every 100 K further off."""
    low, high = float(values.min()), float(values.max())
    near = [window[0] - 10.0 * k for k in range(1, 4)]
    far = [100.0 * k for k in range(1, 12) if 100.0 * k < window[0] - 40.0]
    return [level for level in (*far, *near, *window) if low < level < high]


def _rings(
    raster: Raster, areas: list[Values], offsets: list[NDArray[np.uint32]]
) -> Iterator[list[Point]]:
    """The closed lines round areas, those round holes in them the other way about."""
    for points, cuts in zip(areas, offsets, strict=True):
        for start, end in pairwise(cuts):
            yield _placed(raster, points[start:end])


def _placed(raster: Raster, line: Values) -> list[Point]:
    """A line of (across, down) on paper, without the points that lie straight between others."""
    points = [raster.point(down, across) for across, down in line]
    kept = points[:1]
    for here, after in pairwise(points[1:]):
        last = kept[-1]
        dx, dy = after.x - last.x, after.y - last.y
        off = abs(dx * (here.y - last.y) - dy * (here.x - last.x)) / (hypot(dx, dy) or 1.0)
        if off > _STRAIGHT:
            kept.append(here)
    return [*kept, *points[-1:]] if len(points) > 1 else kept


def scale_bar(canvas: Canvas, at: Point, window: tuple[float, float], letters: float) -> None:
    """The fills beside each other with their words, from a point to the right."""
    x = at.x
    for fill, words in fills(window):
        box = Box(x, at.y - 2.6, x + 4.5, at.y)
        canvas.rectangle(box, fill, NARROW)
        canvas.text(Point(x + 5.3, at.y - 0.5), words, letters, colour=BLACK)
        x += 5.3 + metrics.width(words, letters) + 3.0
