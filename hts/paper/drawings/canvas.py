"""A picture in millimetres, drawn on with lines, shapes and text that is measured."""

from __future__ import annotations

from collections.abc import Iterable
from math import atan2, cos, radians, sin
from typing import Any, NamedTuple

from hts.paper.drawings.style import BLACK, FONTS, SMALL, TEXT, WHITE, Line
from hts.paper.sheet import metrics
from hts.paper.sheet.needed import needed

_ROOMY = 220.0  # a sheet lying on its side, mm
_PLACES = 3  # a micrometre: the same digits on every machine


class Point(NamedTuple):
    """A place in the picture, mm from its upper left corner."""

    x: float
    y: float


#: Width and height of the smallest picture, and of one without title block and key.
LEAST, LEAST_BARE = Point(130.0, 100.0), Point(120.0, 50.0)


class Box(NamedTuple):
    """An upright rectangle, mm."""

    left: float
    top: float
    right: float
    bottom: float

    def grown(self, by: float) -> Box:
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def meets(self, other: Box) -> bool:
        """Whether the two share more than an edge."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def holds(self, other: Box) -> bool:
        return (
            self.left <= other.left
            and self.top <= other.top
            and self.right >= other.right
            and self.bottom >= other.bottom
        )


class Canvas:
    """`svg()` gives the picture. Layers are drawn from the lowest number up.

    Raises ValueError for a picture too small to be read, MissingPackage without drawsvg.
    """

    def __init__(self, width: float, height: float, title: str, least: Point = LEAST) -> None:
        if width < least.x or height < least.y:
            raise ValueError(f"a picture is at least {least.x:g} mm by {least.y:g} mm")
        self.width, self.height = width, height
        self._draw: Any = needed("drawsvg", "paper")
        self._drawing = self._draw.Drawing(
            _short(width), _short(height), font_family=FONTS, fill=BLACK
        )
        self._drawing.svg_args["width"] = f"{_short(width)}mm"
        self._drawing.svg_args["height"] = f"{_short(height)}mm"
        self._drawing.append_title(metrics.drawable(title))
        self.rectangle(Box(0, 0, width, height), fill=WHITE, layer=-1)

    def svg(self) -> str:
        text: str = self._drawing.as_svg()
        return text + "\n"

    # Lines and shapes ---------------------------------------------------------------------------

    def line(self, start: Point, end: Point, line: Line, layer: int = 1) -> None:
        a, b, c, d = (_short(value) for value in (*start, *end))
        self._add(self._draw.Line(a, b, c, d, **_stroke(line)), layer)

    def lines(self, points: Iterable[Point], line: Line, layer: int = 1) -> None:
        """Straight lines from point to point."""
        self._path(points, _stroke(line) | {"fill": "none", "stroke_linejoin": "round"}, layer)

    def strokes(self, segments: Iterable[tuple[Point, Point]], line: Line, layer: int = 1) -> None:
        """Many straight lines of one kind as one element."""
        path = self._draw.Path(**_stroke(line))
        drawn = False
        for start, end in segments:
            path.M(_short(start.x), _short(start.y)).L(_short(end.x), _short(end.y))
            drawn = True
        if drawn:
            self._add(path, layer)

    @property
    def note(self) -> float:
        """Height of the letters of legend and notes: those of the drawing, where there is room."""
        return TEXT if self.width >= _ROOMY else SMALL

    def polygon(
        self, points: Iterable[Point], fill: str, line: Line | None = None, layer: int = 0
    ) -> None:
        self._path(points, (_stroke(line) if line else {}) | {"fill": fill}, layer, closed=True)

    def areas(self, rings: Iterable[Iterable[Point]], fill: str, layer: int = 0) -> None:
        """What closed lines go round, as one element; lines the other way about cut holes."""
        path = self._draw.Path(fill=fill)
        drawn = False
        for ring in rings:
            for index, point in enumerate(ring):
                (path.L if index else path.M)(_short(point.x), _short(point.y))
            path.Z()
            drawn = True
        if drawn:
            self._add(path, layer)

    def rectangle(self, box: Box, fill: str, line: Line | None = None, layer: int = 0) -> None:
        left, top, wide, high = (
            _short(value)
            for value in (box.left, box.top, box.right - box.left, box.bottom - box.top)
        )
        stroke = _stroke(line) if line else {}
        self._add(self._draw.Rectangle(left, top, wide, high, fill=fill, **stroke), layer)

    def circle(
        self, centre: Point, radius: float, fill: str, line: Line | None = None, layer: int = 0
    ) -> None:
        x, y, r = (_short(value) for value in (*centre, radius))
        self._add(self._draw.Circle(x, y, r, fill=fill, **(_stroke(line) if line else {})), layer)

    def arc(
        self, centre: Point, radius: float, start: float, span: float, line: Line, layer: int = 1
    ) -> None:
        """Part of a circle, `span` degrees (< 360) clockwise from `start` (0 is up)."""
        a, b = on_circle(centre, radius, start), on_circle(centre, radius, start + span)
        path = self._draw.Path(fill="none", **_stroke(line))
        r, large = _short(radius), int(span > 180)
        path.M(_short(a.x), _short(a.y)).A(r, r, 0, large, 1, _short(b.x), _short(b.y))
        self._add(path, layer)

    def arrow(self, tip: Point, tail: Point, layer: int = 1, length: float = 2.0) -> None:
        """A filled arrowhead at `tip`, on the line from `tail`."""
        along = atan2(tip.y - tail.y, tip.x - tail.x)
        half = 0.18 * length
        back = Point(tip.x - length * cos(along), tip.y - length * sin(along))
        across = Point(-half * sin(along), half * cos(along))
        self.polygon(
            (
                tip,
                Point(back.x + across.x, back.y + across.y),
                Point(back.x - across.x, back.y - across.y),
            ),
            BLACK,
            layer=layer,
        )

    # Text ---------------------------------------------------------------------------------------

    def text(
        self,
        at: Point,
        text: str,
        height: float = TEXT,
        anchor: str = "start",
        *,
        upright: bool = False,
        bold: bool = False,
        colour: str = BLACK,
        ground: bool = False,
    ) -> Box:
        """A line of text with its foot at `at`; `upright`: turned to be read from the right.

        `anchor` is start, middle or end; `ground` breaks the lines behind the text. What is given
        is drawable and fits: see `hts.paper.sheet.metrics`. Returns the room it takes.
        """
        x, y, size = (_short(value) for value in (*at, metrics.font_size(height)))
        more: dict[str, Any] = {"text_anchor": anchor} if anchor != "start" else {}
        if bold:
            more["font_weight"] = "bold"
        if upright:
            more["transform"] = f"rotate(-90 {x} {y})"
        if colour != BLACK:
            more["fill"] = colour
        self._add(self._draw.Text(text, size, x, y, **more), 5)
        wide = metrics.width(text, height, bold)
        if ground:
            capitals = text_box(at, wide, height, anchor, upright).grown(-height * 0.1)
            self.rectangle(capitals, WHITE, layer=4)
        return text_box(at, wide, height, anchor, upright)

    def _path(
        self, points: Iterable[Point], style: dict[str, Any], layer: int, closed: bool = False
    ) -> None:
        path = self._draw.Path(**style)
        for index, point in enumerate(points):
            (path.L if index else path.M)(_short(point.x), _short(point.y))
        if closed:
            path.Z()
        self._add(path, layer)

    def _add(self, element: Any, layer: int) -> None:
        self._drawing.append(element, z=layer)


def text_box(at: Point, wide: float, height: float, anchor: str, upright: bool = False) -> Box:
    """The room a text takes: letters with accents above, tails below."""
    size = metrics.font_size(height)
    before = {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
    up, down = metrics.ABOVE * size, metrics.BELOW * size
    if upright:
        return Box(at.x - up, at.y + before - wide, at.x + down, at.y + before)
    return Box(at.x - before, at.y - up, at.x - before + wide, at.y + down)


def on_circle(centre: Point, radius: float, degrees: float) -> Point:
    """The point `degrees` clockwise from the top."""
    angle = radians(degrees)
    return Point(centre.x + radius * sin(angle), centre.y - radius * cos(angle))


def _stroke(line: Line) -> dict[str, Any]:
    style: dict[str, Any] = {"stroke": line.colour, "stroke_width": line.width}
    if line.dashes:
        style["stroke_dasharray"] = " ".join(str(_short(dash)) for dash in line.dashes)
    return style


def _short(value: float) -> float | int:
    rounded = round(value, _PLACES)
    return int(rounded) if rounded == int(rounded) else rounded
