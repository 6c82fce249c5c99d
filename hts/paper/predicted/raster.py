"""A temperature field as an even raster: filled by how far from the range, with isotherms."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
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
    for box, fill in _runs(raster, window):
        if fill != WHITE:
            canvas.rectangle(box, fill)
    for level in _levels(raster.values, window):
        ends = level in window
        segments = list(contour(raster.values, level))
        if not segments:
            continue
        placed = [(raster.point(*a), raster.point(*b)) for a, b in segments]
        canvas.strokes(placed, RANGE if ends else ISOTHERM, 2)
        if labels:
            at = placed[len(placed) // 2][0]
            text = f"{level:.0f}"
            half = metrics.width(text, _LETTERS) / 2
            if raster.box.left + half < at.x < raster.box.right - half:
                canvas.text(Point(at.x, at.y + _LETTERS / 2), text, _LETTERS, "middle", ground=True,
                            bold=ends)  # fmt: skip
    canvas.rectangle(raster.box, "none", NARROW, layer=3)


def _levels(values: Values, window: tuple[float, float]) -> list[float]:
    """Isotherms: the ends of the range, every 10 K close to it, every 100 K further off."""
    low, high = float(values.min()), float(values.max())
    near = [window[0] - 10.0 * k for k in range(1, 4)]
    far = [100.0 * k for k in range(1, 12) if 100.0 * k < window[0] - 40.0]
    return [level for level in (*far, *near, *window) if low < level < high]


def _runs(raster: Raster, window: tuple[float, float]) -> Iterator[tuple[Box, str]]:
    """Runs of one fill in each row of the raster, as boxes about its points."""
    rows, columns = raster.values.shape
    for row in range(rows):
        start, fill = 0, fill_of(float(raster.values[row, 0]), window)
        for column in range(1, columns + 1):
            now = fill_of(float(raster.values[row, column]), window) if column < columns else ""
            if now == fill:
                continue
            a = raster.point(max(row - 0.5, 0.0), max(start - 0.5, 0.0))
            b = raster.point(min(row + 0.5, rows - 1.0), min(column - 0.5, columns - 1.0))
            # A hair of overlap: else the paper shines through between the rows.
            yield Box(a.x, a.y, b.x, min(b.y + 0.06, raster.box.bottom)), fill
            start, fill = column, now


def contour(
    values: Values, level: float
) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    """The line of one level as segments between (down, across) places, square by square."""
    above = values >= level
    mixed = np.zeros((values.shape[0] - 1, values.shape[1] - 1), dtype=int)
    for corner in (above[:-1, :-1], above[:-1, 1:], above[1:, :-1], above[1:, 1:]):
        mixed += corner
    for i, j in np.argwhere((mixed > 0) & (mixed < 4)):
        found = []
        for (ai, aj), (bi, bj) in (
            ((i, j), (i, j + 1)), ((i, j + 1), (i + 1, j + 1)),
            ((i + 1, j + 1), (i + 1, j)), ((i + 1, j), (i, j)),
        ):  # fmt: skip
            a, b = float(values[ai, aj]), float(values[bi, bj])
            if (a >= level) != (b >= level):
                share = (level - a) / (b - a)
                found.append((float(ai + share * (bi - ai)), float(aj + share * (bj - aj))))
        for k in range(0, len(found) - 1, 2):
            yield found[k], found[k + 1]


def scale_bar(canvas: Canvas, at: Point, window: tuple[float, float], letters: float) -> None:
    """The fills beside each other with their words, from a point to the right."""
    x = at.x
    for fill, words in fills(window):
        box = Box(x, at.y - 2.6, x + 4.5, at.y)
        canvas.rectangle(box, fill, NARROW)
        canvas.text(Point(x + 5.3, at.y - 0.5), words, letters, colour=BLACK)
        x += 5.3 + metrics.width(words, letters) + 3.0
