"""The joint unrolled: clock position across, distance along the pipe up and down."""

from __future__ import annotations

from hts.base.quantities import LENGTH, Quantity
from hts.base.quantities.clock import PI
from hts.job.compiler.bands import Band
from hts.job.compiler.job import Job, JointSheet
from hts.job.compiler.tags import Tag
from hts.job.outputs.show import UP, Shown
from hts.language.model.joint import SPARE
from hts.language.model.seam import weld_along
from hts.paper.drawings import dimensions, hatching, key, legend, marks, scales, words, zones
from hts.paper.drawings.branch_view import on_run
from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.legend import Item
from hts.paper.drawings.lengths import GRADIENT, INSULATION, Lengths
from hts.paper.drawings.not_drawn import not_drawn, notice
from hts.paper.drawings.place import Rooms
from hts.paper.drawings.sides import Sides
from hts.paper.drawings.style import (
    ADJACENT,
    CENTRE,
    FINE,
    GREY,
    HIDDEN,
    NARROW,
    OUTLINE,
    PALE_GREY,
    PALE_ORANGE,
    PALER_ORANGE,
    TEXT,
    WHITE,
    Line,
)
from hts.paper.drawings.surroundings import Neighbour, draw_things, things_of
from hts.paper.drawings.weld_flat import laid_flat
from hts.paper.sheet import metrics

_TURN = 360
_HOUR = 30
_LEAST = 170.0  # wide, so that all hours can be read, mm
_AXIS = 5.2  # height of a row of numbers
_ZIGZAG = ((-2, 0), (-1, -1.3), (1, 1.3), (2, 0))

#: Fill and edge of each band, from the widest in.
_LOOKS: dict[str, tuple[str, Line, str]] = {
    INSULATION: (WHITE, HIDDEN, "edge of the insulation"),
    GRADIENT: (WHITE, HIDDEN, "gradient band: edge of the insulation"),
    "heated band": (PALER_ORANGE, OUTLINE, "heated band"),
    "soak band": (PALE_ORANGE, NARROW, "soak band"),
    "preheat width": ("none", Line(0.3, (0.3, 0.9)), "preheat width"),
    "bake width": ("none", Line(0.3, (3.0, 0.7, 0.3, 0.7)), "bake width"),
}


def unrolled(job: Job, sheet: JointSheet, size: tuple[float, float]) -> str:
    """SVG of the outside of the joint laid flat; `size` is width and height of the picture, mm.

    A branch is drawn on its run. What has no outside that a clock and a distance from the weld
    tell the places of is not drawn, and the picture says why.
    """
    why = not_drawn(sheet.joint)
    if why:
        return notice(job, sheet, size, f"Joint {sheet.joint.name}: the outside unrolled", why)
    if weld_along(sheet.joint) is not None:
        return laid_flat(job, sheet, size)
    if sheet.joint.entry.kind == "branch":
        return on_run(job, sheet, size)
    return marks.fitted(lambda way: _View(job, sheet, size, way).draw())


class _View:
    def __init__(
        self, job: Job, sheet: JointSheet, size: tuple[float, float], way: marks.Way
    ) -> None:
        self.way = way
        self.job, self.sheet = job, sheet
        self.joint, self.shown = sheet.joint, Shown(job.units)
        self.sides = Sides(sheet.joint)
        title = f"Joint {sheet.joint.name}: the outside unrolled"
        self.canvas = Canvas(*size, title)
        self.title = title
        things = things_of(sheet.joint, self.shown)
        self.lengths = Lengths(sheet, self.sides, things)
        self.things = [thing for thing in things if self.lengths.of_thing(thing) is not None]
        self.bands, self.cap = self.lengths.bands, self.lengths.cap
        self.names = marks.names(sheet.tags, key.has_room(self.canvas))
        #: Width of the key, 0 where tags are written where they sit.
        self.key = key.width(self.names, sheet.tags, self.shown, self.canvas.width * 0.34)
        self.key += 4.0 if self.key else 0.0

    def draw(self) -> tuple[str, list[Tag]]:
        """The SVG, and the thermocouples whose tags found no room."""
        canvas, sheet = self.canvas, self.sheet
        frame = legend.frame(
            canvas,
            self.title,
            [f"Clock positions {words.view(sheet)}", *words.sizes(sheet, self.shown)],
            self.job.document,
            self._items(),
            self._notes(),
            self._scale_text(),
        )
        totals, each = self._widths
        left, right = self._sides_of_plot
        upper, lower = zones.strips(self.joint, self.sides)
        top = frame.top + _AXIS + zones.height(upper)
        bottom = frame.bottom - zones.height(lower) - (_AXIS if self._has_arcs else 1.5)
        self.plot = Box(left, top, right, bottom)
        self.along = self.lengths.scale(top, bottom)
        self.rooms = Rooms(self.plot)
        self._clock(frame.top + _AXIS, frame.bottom)
        zones.draw_strip(canvas, upper, self.x, top - zones.height(upper))
        zones.draw_strip(canvas, lower, self.x, bottom)
        self._bands()
        self._weld()
        self._dimensions(totals, each)
        self._side_names()
        self._breaks()
        sited = marks.spread(
            [
                marks.Sited(tag, at, at, _preferred(tag, self._is_left(at)), self.names[tag.tag])
                for tag in sheet.tags
                if (at := self._site(tag)) is not None
            ]
        )
        marks.keep_clear(self.rooms, sited)
        draw_things(canvas, self.rooms, self.things, self._thing_y, self.plot)
        left_out = marks.draw(canvas, self.rooms, sited, self.way.height)
        if self.key:
            box = Box(canvas.width - self.key + 3, frame.top, canvas.width - 0.5, frame.bottom)
            left_out += key.draw(canvas, box, self.names, sheet.tags, self.shown)
        return canvas.svg(), left_out

    @property
    def _widths(self) -> tuple[list[Band], list[Band]]:
        """Bands whose whole width is told, and those told for each side: each width once."""
        totals = [band for band in self.bands if band.total is not None]
        return totals, [band for band in self.bands if band.total is None]

    @property
    def _sides_of_plot(self) -> tuple[float, float]:
        """The edges of the picture of the surface: to a scale of ISO 5455 where one suits."""
        totals, each = self._widths
        left = max(dimensions.room_left(len(totals)), 7.0)
        right = self.canvas.width - self.key - max(dimensions.room_right(len(each)), 7.0)
        return left, left + (scales.fitted(self._around, right - left, _LEAST)[0] or right - left)

    @property
    def _around(self) -> float:
        """Once round in mm; 0 where the sides differ in size."""
        found = words.diameters(self.sheet)
        return float(PI * found[0].value) if len(found) == 1 else 0.0

    def _scale_text(self) -> str:
        left, right = self._sides_of_plot
        scale = scales.fitted(self._around, right - left + 1e-6, _LEAST)[1]
        return f"{scale} round, not to scale along" if scale else "not to scale"

    def _is_left(self, at: Point) -> bool:
        return at.x < self.plot.left + (self.plot.right - self.plot.left) * 0.85

    @property
    def _has_arcs(self) -> bool:
        """Whether lengths round the pipe can stand below: not where the sides differ in size."""
        return len(words.diameters(self.sheet)) == 1

    # Scales -------------------------------------------------------------------------------------

    def x(self, degrees: float) -> float:
        """Across: to scale, 12:00 at both ends."""
        return self.plot.left + (self.plot.right - self.plot.left) * self.sides.across(degrees)

    def _thing_y(self, thing: Neighbour) -> float:
        distance = self.lengths.of_thing(thing)
        assert distance is not None
        return self.along.y(distance)

    def _is_placed(self, tag: Tag) -> bool:
        if tag.degrees is None or self.lengths.of_tag(tag) is None:
            return False
        return self.sides.is_certain(float(tag.degrees))

    def _site(self, tag: Tag) -> Point | None:
        along = self.lengths.of_tag(tag)
        if tag.degrees is None or along is None or not self._is_placed(tag):
            return None
        return Point(self.x(float(tag.degrees)), self.along.y(along))

    # What is drawn ------------------------------------------------------------------------------

    def _clock(self, above: float, below: float) -> None:
        canvas, plot = self.canvas, self.plot
        for hour in range(13):
            x = self.x(hour * _HOUR)
            canvas.line(Point(x, above - 1.2), Point(x, above), FINE)
            canvas.text(Point(x, above - 1.9), f"{hour or 12}:00", TEXT, "middle")
        outside = words.diameters(self.sheet)
        for hour in range(0, 13, 3):
            x = self.x(hour * _HOUR)
            canvas.line(Point(x, plot.top), Point(x, plot.bottom), Line(0.18, (1, 1), GREY), 1)
            if self._has_arcs:
                around = PI * outside[0].value * hour / 12
                text = self.shown.tape(Quantity.of(around, "mm", LENGTH))
                half = metrics.width(text, canvas.note) / 2
                x = min(max(x, half + 0.5), canvas.width - self.key - half - 0.5)
                canvas.text(Point(x, below - 1.2), text, canvas.note, "middle")
        canvas.rectangle(plot, "none", FINE, layer=2)

    def _bands(self) -> None:
        canvas, plot = self.canvas, self.plot
        for name, (fill, line, _) in _LOOKS.items():
            for band in self.bands:
                if band.name != name:
                    continue
                half = self.lengths.half(band)
                top, bottom = self.along.y(half), self.along.y(-half)
                line = self._edge(name, line)
                if fill != "none":
                    canvas.rectangle(Box(plot.left, top, plot.right, bottom), fill)
                for y in (top, bottom):
                    canvas.line(Point(plot.left, y), Point(plot.right, y), line, 2)
                if name == "heated band":
                    zones.draw_gaps(
                        canvas, self.joint, self.sides, self.x, (top, self.along.centre, bottom)
                    )

    def _edge(self, name: str, line: Line) -> Line:
        """The gradient band has an edge of its own where the insulation ends elsewhere."""
        apart = any(band.name == INSULATION for band in self.bands)
        return NARROW if name == GRADIENT and apart else line

    def _weld(self) -> None:
        canvas, plot, y = self.canvas, self.plot, self.along.centre
        if self.cap:
            box = Box(
                plot.left, self.along.y(self.cap / 2), plot.right, self.along.y(-self.cap / 2)
            )
            canvas.rectangle(box, PALE_GREY, OUTLINE, 2)
            hatching.hatch(canvas, [hatching.corners(box)], layer=2)
        canvas.line(Point(plot.left - 1, y), Point(plot.right + 1, y), CENTRE, 3)

    def _dimensions(self, totals: list[Band], each: list[Band]) -> None:
        plot, shown, along = self.plot, self.shown, self.along
        room = Box(0, plot.top, self.canvas.width, plot.bottom)
        for number, band in enumerate(totals, 1):
            assert band.total is not None
            half, width = self.lengths.half(band), shown.text(band.total, UP)
            texts = (f"{band.name} {width}", width)
            span = dimensions.Span(along.y(half), along.y(-half), texts)
            x = dimensions.left(plot.left, number)
            dimensions.column(self.canvas, x, plot.left, span, room)
        for number, band in enumerate(each, 1):
            half, width = self.lengths.half(band), shown.text(band.each, UP)
            texts = (f"{band.name}, each side {width}", f"{band.name}, each {width}")
            span = dimensions.Span(along.y(half), along.y(self.lengths.start(band)), texts)
            x = dimensions.right(plot.right, number)
            dimensions.column(self.canvas, x, plot.right, span, room)

    def _side_names(self) -> None:
        """What lies up and down on the page, and one arrow where the flow leaves."""
        plot = self.plot
        for names, foot, sign in (
            (self.sides.upper, plot.top + 3.6, 1),
            (self.sides.lower, plot.bottom - 1.4, -1),
        ):
            text = " / ".join(names)
            if self.sides.flow == sign:
                text += ", flow"
            at = Point(plot.left + 8.5, foot)
            box = self.canvas.text(at, text, TEXT, bold=True, ground=True)
            if self.sides.flow == sign:
                tip, tail = (
                    Point(plot.left + 6.5, foot - TEXT / 2 - way * sign) for way in (2.0, -2.0)
                )
                self.canvas.line(tail, tip, OUTLINE, 3)
                self.canvas.arrow(tip, tail, 3, 3.0)
                box = box._replace(left=plot.left + 5.5)
            self.rooms.take(box.grown(0.3))

    def _breaks(self) -> None:
        """A zigzag where the scale is broken."""
        plot = self.plot
        for edge, is_broken, out in (
            (self.along.core[0], self.along.core[0] > plot.top, -1),
            (self.along.core[1], self.along.core[1] < plot.bottom, 1),
        ):
            if is_broken:
                y, middle = edge + out * 1.2, (plot.left + plot.right) / 2
                zigzag = [Point(middle + dx, y + dy) for dx, dy in _ZIGZAG]
                ends = Point(plot.left - 1.5, y), Point(plot.right + 1.5, y)
                self.canvas.lines((ends[0], *zigzag, ends[1]), NARROW, 2)
                self.rooms.take(Box(middle - 2, y - 1.3, middle + 2, y + 1.3))

    # Legend and notes ---------------------------------------------------------------------------

    def _items(self) -> list[Item]:
        items = legend.duty_items(self.sheet.tags)
        if self.cap:
            items.append(legend.area_item(PALE_GREY, OUTLINE, "weld", hatched=True))
        found = {band.name for band in self.bands}
        for name, (fill, line, text) in reversed(_LOOKS.items()):
            if name == GRADIENT and self._edge(name, line) is not line:
                line, text = NARROW, GRADIENT
            if name in found:
                items.append(
                    legend.line_item(line, text)
                    if fill in ("none", WHITE)
                    else legend.area_item(fill, line, text)
                )
        items.append(legend.line_item(CENTRE, "weld centreline"))
        if self.things:
            items.append(legend.line_item(ADJACENT, "support or nearby item"))
        return items

    def _arc_note(self) -> str:
        """What the numbers below the drawing are."""
        if not self._has_arcs:
            return ""
        return f" Numbers below: {self.shown.head('arc from 12:00', LENGTH)}."

    def _notes(self) -> list[str]:
        # What nobody may overlook comes first: of long notes the end is cut.
        first = [
            self.sides.note,
            words.not_placed(tag for tag in self.sheet.tags if not self._is_placed(tag)),
        ]
        notes = ["Along the pipe not to scale: dimensions govern. Both ends across are 12:00."]
        if self.sides.leftward:
            notes.append("The clock runs from right to left here, as on the pipe.")
        notes.append(words.once_round(self.sheet, self.shown) + self._arc_note())
        notes.append(zones.gap_note(self.joint, self.shown))
        return [
            " ".join(note for note in part if note)
            for part in (first, (*notes, self.way.note))
            if any(part)
        ]


def _preferred(tag: Tag, on_the_left: bool) -> float:
    """Tags of spares lie below, those of others above, all toward the middle."""
    angle = 120 if tag.duty == SPARE else 60
    return angle if on_the_left else 360 - angle
