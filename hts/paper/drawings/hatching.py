"""Hatching at 45 degrees, so that an area shows in black and white (ISO 128-3: what is cut)."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, cos, floor, pi, sin

from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.style import HATCH, Line

Ring = Sequence[Point]


def hatch(
    canvas: Canvas,
    rings: Sequence[Ring],
    pitch: float = 2.0,
    *,
    leftward: bool = False,
    line: Line = HATCH,
    layer: int = 0,
) -> None:
    """Lines `pitch` mm apart inside closed rings of points; a ring within another is left free.

    Adjacent parts slope to opposite sides: `leftward`.
    """
    turn = pi / 4 if not leftward else -pi / 4
    ux, uy = cos(turn), -sin(turn)  # along the lines, y down
    nx, ny = uy, -ux
    turned = [[(p.x * ux + p.y * uy, p.x * nx + p.y * ny) for p in ring] for ring in rings]
    across = [v for ring in turned for _, v in ring]
    if not across:
        return
    segments = []
    # Counted from the corner of the picture: hatchings of one part are one.
    for number in range(ceil(min(across) / pitch), floor(max(across) / pitch) + 1):
        v = number * pitch + 1e-7
        cuts = sorted(
            a + (b - a) * (v - va) / (vb - va)
            for ring in turned
            for (a, va), (b, vb) in zip(ring, [*ring[1:], ring[0]], strict=True)
            if (va > v) != (vb > v)
        )
        segments += [
            (Point(a * ux + v * nx, a * uy + v * ny), Point(b * ux + v * nx, b * uy + v * ny))
            for a, b in zip(cuts[::2], cuts[1::2], strict=False)
            if b - a > 0.05
        ]
    canvas.strokes(segments, line, layer)


def corners(box: Box) -> list[Point]:
    """A box as a ring."""
    return [
        Point(box.left, box.top),
        Point(box.right, box.top),
        Point(box.right, box.bottom),
        Point(box.left, box.bottom),
    ]


def ring(centre: Point, radius: float) -> list[Point]:
    """A circle as a ring of points."""
    count = 180
    return [
        Point(
            centre.x + radius * sin(2 * pi * n / count), centre.y - radius * cos(2 * pi * n / count)
        )
        for n in range(count)
    ]
