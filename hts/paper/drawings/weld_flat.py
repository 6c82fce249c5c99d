"""A long seam, or the weld all round a pad, as it is faced from outside and laid flat."""

from __future__ import annotations

from fractions import Fraction
from math import cos, pi, sin

from hts.base.quantities import LENGTH, Interval, Quantity
from hts.job.compiler.bands import EDGE, Band
from hts.job.compiler.job import Job, JointSheet
from hts.job.compiler.tags import Tag
from hts.job.demands.watched import flat_place
from hts.job.outputs import along_weld
from hts.job.outputs.show import UP, Shown
from hts.language.model.seam import Flat, Pad, Seam, weld_along
from hts.paper.drawings import dimensions, hatching, key, legend, marks, scales, words
from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.legend import Item
from hts.paper.drawings.place import Rooms
from hts.paper.drawings.style import (
    BLACK,
    CENTRE,
    FINE,
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
from hts.paper.sheet import metrics

#: Fill and edge of each band, from the widest in.
_LOOKS: dict[str, tuple[str, Line]] = {
    "gradient band": (WHITE, HIDDEN),
    "heated band": (PALER_ORANGE, OUTLINE),
    "soak band": (PALE_ORANGE, NARROW),
    "preheat width": ("none", Line(0.3, (0.3, 0.9))),
    "bake width": ("none", Line(0.3, (3.0, 0.7, 0.3, 0.7))),
}
_STRIP, _AXIS = 5.6, 5.2
#: A thermocouple this much beyond the widest band is still drawn.
_NEAR = 1.25
_WIDEST = 0.3  # the weld of a pad without a cap width, mm on paper
_BEND = 12  # points of a corner
_THIN = 2.5  # a weld that is not hatched, mm on paper


def laid_flat(job: Job, sheet: JointSheet, size: tuple[float, float]) -> str:
    """SVG of the weld as faced from outside; `size` is width and height of the picture, mm. The
    joint has a weld whose places are told along it."""
    return marks.fitted(lambda way: _View(job, sheet, size, way).draw())


def half_of(band: Band, cap: float) -> float:
    """From the weld centreline to the edge of a band, mm at the pipe."""
    return float(band.each.value) + (cap / 2 if band.datum == EDGE else 0.0)


class _View:
    def __init__(
        self, job: Job, sheet: JointSheet, size: tuple[float, float], way: marks.Way
    ) -> None:
        weld = weld_along(sheet.joint)
        assert weld is not None
        self.weld: Seam | Pad = weld
        self.job, self.sheet, self.way, self.shown = job, sheet, way, Shown(job.units)
        self.title = f"Joint {sheet.joint.name}: the weld laid flat, as faced from outside"
        self.canvas = Canvas(*size, self.title)
        cap = sheet.joint.entry.cap_width
        self.cap = float(cap.value) if cap is not None else 0.0
        # Round a pad the insulation reaches so far that little else could be made out.
        left = ("gradient band",) if isinstance(weld, Pad) and len(sheet.bands) > 1 else ()
        found = {b.name: b for b in sheet.bands if b.name in _LOOKS and b.name not in left}
        self.left_out = [band for band in sheet.bands if band.name in left]
        self.bands = sorted(found.values(), key=lambda band: -half_of(band, self.cap))
        self.reach = max((half_of(band, self.cap) for band in self.bands), default=self.cap or 50.0)
        self.names = marks.names(sheet.tags, key.has_room(self.canvas))
        self.key = key.width(self.names, sheet.tags, self.shown, size[0] * 0.34)
        self.key += 4.0 if self.key else 0.0

    def draw(self) -> tuple[str, list[Tag]]:
        """The SVG, and the thermocouples whose tags found no room."""
        canvas = self.canvas
        is_seam = isinstance(self.weld, Seam)
        frame = legend.frame(
            canvas, self.title, self._heads(), self.job.document, self._items(), self._notes(),
            self._scale_text(),
        )  # fmt: skip
        left = max(dimensions.room_left(len(self._totals)), 7.0) if is_seam else 2.0
        right = max(dimensions.room_right(len(self._each)), 7.0) if is_seam else 2.0
        room = Box(
            left,
            frame.top + (_STRIP if is_seam and self._zones else 1.0),
            canvas.width - self.key - right,
            frame.bottom - (_AXIS if is_seam else 1.0),
        )
        self._fit(room)
        self.rooms = Rooms(Box(room.left, room.top, room.right, room.bottom))
        self._bands()
        self._weld()
        self._draw_zones(frame.top)
        if isinstance(self.weld, Seam):
            self._seam_words(self.weld, frame.bottom)
        else:
            self._pad_words(self.weld)
        sited = marks.spread([one for tag in self.sheet.tags if (one := self._sited(tag))])
        marks.keep_clear(self.rooms, sited)
        left_out = marks.draw(canvas, self.rooms, sited, self.way.height)
        if self.key:
            box = Box(canvas.width - self.key + 3, frame.top, canvas.width - 0.5, frame.bottom)
            left_out += key.draw(canvas, box, self.names, self.sheet.tags, self.shown)
        return canvas.svg(), left_out

    # Scale --------------------------------------------------------------------------------------

    def _fit(self, room: Box) -> None:
        """A pad to one scale both ways; a seam to a scale along, and across as high as fits."""
        weld = self.weld
        wide, high = room.right - room.left, room.bottom - room.top
        if isinstance(weld, Seam):
            self.scale = scales.largest(weld.length / wide)
            self.up = high / 2 / (self.reach * 1.04)
            left = room.left
            self.origin = Point(left, (room.top + room.bottom) / 2)
        else:
            whole = Point(weld.width + 2.08 * self.reach, weld.height + 2.08 * self.reach)
            self.scale = scales.largest(max(whole.x / wide, whole.y / high))
            self.up = 1 / self.scale
            self.origin = Point((room.left + room.right) / 2, (room.top + room.bottom) / 2)

    def _scale_text(self) -> str:
        if isinstance(self.weld, Seam):
            left = max(dimensions.room_left(len(self._totals)), 7.0)
            right = max(dimensions.room_right(len(self._each)), 7.0)
            room = self.canvas.width - self.key - right - left
            return f"1:{scales.largest(self.weld.length / room):g} along, not to scale across"
        return "as told on the pad"

    def _at(self, flat: Flat) -> Point:
        return Point(self.origin.x + flat.x / self.scale, self.origin.y - flat.y * self.up)

    def _on(self, along: float, off: float = 0.0) -> Point:
        return self._at(self.weld.at(along, off))

    # What is drawn ------------------------------------------------------------------------------

    @property
    def _totals(self) -> list[Band]:
        return [band for band in reversed(self.bands) if band.total is not None]

    @property
    def _each(self) -> list[Band]:
        return [band for band in reversed(self.bands) if band.total is None]

    @property
    def _zones(self) -> list[tuple[str, float, float]]:
        """Zones that tell which part of the weld they heat: name, from, to, mm."""
        found = []
        for zone in self.sheet.joint.zones:
            part: Interval | None = zone.entry.along
            if part is not None and part.low is not None and part.high is not None:
                found.append((zone.name, float(part.low.value), float(part.high.value)))
        return found

    def _rings(self, half: float) -> list[list[Point]]:
        """The outline of what lies within a distance of the weld; of a pad with a hole in it."""
        weld = self.weld
        if isinstance(weld, Seam):
            left, right = self._at(Flat(0, half)), self._at(Flat(weld.length, -half))
            return [hatching.corners(Box(left.x, left.y, right.x, right.y))]
        found = [self._rounded(weld.width / 2 + half, weld.height / 2 + half, weld.corner + half)]
        if half < min(weld.width, weld.height) / 2:
            inner = max(weld.corner - half, 0.0)
            found.append(self._rounded(weld.width / 2 - half, weld.height / 2 - half, inner))
        return found

    def _rounded(self, half_x: float, half_y: float, radius: float) -> list[Point]:
        points = []
        for turn, x, y in ((0, 1, 1), (1, 1, -1), (2, -1, -1), (3, -1, 1)):
            for part in range(_BEND + 1):
                angle = (turn + part / _BEND) * pi / 2
                points.append(
                    self._at(
                        Flat(
                            x * (half_x - radius) + radius * sin(angle),
                            y * (half_y - radius) + radius * cos(angle),
                        )
                    )
                )
        return points

    def _bands(self) -> None:
        """All of them, the widest first, so that each lies on the wider one."""
        for band in self.bands:
            fill, line = _LOOKS[band.name]
            self.canvas.polygon(self._rings(half_of(band, self.cap))[0], fill, line, 0)

    def _weld(self) -> None:
        canvas = self.canvas
        wide = self.cap * self.up
        line = OUTLINE if wide > _THIN else NARROW
        rings = self._rings(max(self.cap / 2, _WIDEST * self.scale))
        canvas.polygon(rings[0], PALE_GREY, line, 1)
        # Inward from the weld of a pad the bands follow each other anew, the narrowest first.
        fills = [_LOOKS[band.name][0] for band in reversed(self.bands)]
        for ring in rings[1:]:
            canvas.polygon(ring, next((f for f in fills if f != "none"), WHITE), line, 1)
        for number, band in enumerate(reversed(self.bands), 1):
            for ring in self._rings(half_of(band, self.cap))[1:]:
                fill, edge = _LOOKS[band.name]
                beyond = next((f for f in fills[number:] if f != "none"), WHITE)
                canvas.polygon(ring, beyond if fill != "none" else fill, edge, 1)
        if wide > _THIN:
            hatching.hatch(canvas, rings, layer=1)
        count = 200
        path = [self._on(self.weld.length * n / count) for n in range(count)]
        path.append(path[0] if isinstance(self.weld, Pad) else self._on(self.weld.length))
        canvas.lines(path, CENTRE, 2)

    def _draw_zones(self, top: float) -> None:
        canvas = self.canvas
        heated = next((b for b in self.bands if b.name == "heated band"), None)
        half = half_of(heated, self.cap) if heated is not None else self.reach
        for name, first, last in self._zones:
            for end in (first, last):
                if isinstance(self.weld, Seam) and end in (0.0, self.weld.length):
                    continue
                inward = -half if isinstance(self.weld, Seam) else -min(half, self._depth * 0.5)
                canvas.line(self._on(end, half), self._on(end, inward), OUTLINE, 2)
            middle = (first + last) / 2
            if isinstance(self.weld, Seam):
                left, right = sorted((self._on(first).x, self._on(last).x))
                box = Box(left + 0.45, top + 0.4, right - 0.45, top + _STRIP - 0.6)
                canvas.rectangle(box, WHITE, NARROW, 2)
                text = metrics.shortened(metrics.drawable(name), TEXT, right - left - 2)
                canvas.text(Point((left + right) / 2, box.bottom - 1.2), text, TEXT, "middle")
                continue
            at = self._on(middle, half * 0.72)
            text = metrics.drawable(f"zone {name}")
            wide = metrics.width(text, TEXT) / 2
            if self.rooms.claim(Box(at.x - wide, at.y - TEXT, at.x + wide, at.y + 1)):
                canvas.text(Point(at.x, at.y + TEXT / 2), text, TEXT, "middle", ground=True)

    @property
    def _depth(self) -> float:
        weld = self.weld
        assert isinstance(weld, Pad)
        return min(weld.width, weld.height) / 2

    def _seam_words(self, weld: Seam, bottom: float) -> None:
        """Sides, lengths along from the end they count from, and the widths."""
        canvas = self.canvas
        upper, lower = self._at(Flat(0, self.reach)), self._at(Flat(0, -self.reach))
        for name, foot in (("side A", upper.y + 4.6), ("side B", lower.y - 2.4)):
            at = Point(self.origin.x + 2, foot)
            self.rooms.take(canvas.text(at, name, TEXT, bold=True, ground=True).grown(0.3))
        ends = sorted({0.0, weld.length, *(e for _, a, b in self._zones for e in (a, b))})
        taken: list[Box] = []
        for end in ends:
            at = self._on(end, -self.reach)
            canvas.line(at, Point(at.x, at.y + 1.2), FINE)
            text = self.shown.tape(_mm(end))
            wide = metrics.width(text, TEXT) / 2
            x = min(max(at.x, wide + 0.5), canvas.width - self.key - wide - 0.5)
            box = Box(x - wide - 1, bottom - _AXIS, x + wide + 1, bottom)
            if any(box.meets(other) for other in taken):
                continue
            taken.append(box)
            canvas.text(Point(x, bottom - 0.9), text, TEXT, "middle")
        start, onward = self._on(0.0, -self.reach * 0.86), self._on(weld.length * 0.08, 0)
        tip = Point(onward.x, start.y)
        canvas.line(start, tip, OUTLINE, 3)
        canvas.arrow(tip, start, 3, 3.0)
        said = metrics.shortened(metrics.drawable(f"from {weld.start}"), TEXT, 60)
        side = "start" if tip.x > start.x else "end"
        at = Point(tip.x + (1.5 if tip.x > start.x else -1.5), tip.y + TEXT / 2)
        self.rooms.take(canvas.text(at, said, TEXT, side, ground=True).grown(0.3))
        self._dimensions(weld)

    def _dimensions(self, weld: Seam) -> None:
        plot = Box(*self._at(Flat(0, self.reach)), *self._at(Flat(weld.length, -self.reach)))
        room = Box(0, plot.top, self.canvas.width, plot.bottom)
        for number, band in enumerate(self._totals, 1):
            assert band.total is not None
            half, width = half_of(band, self.cap), self.shown.text(band.total, UP)
            ends = self._at(Flat(0, half)).y, self._at(Flat(0, -half)).y
            span = dimensions.Span(*ends, (f"{band.name} {width}", width))
            x = dimensions.left(plot.left, number)
            dimensions.column(self.canvas, x, plot.left, span, room)
        for number, band in enumerate(self._each, 1):
            half, width = half_of(band, self.cap), self.shown.text(band.each, UP)
            begins = self.cap / 2 if band.datum == EDGE else 0.0
            ends = self._at(Flat(0, half)).y, self._at(Flat(0, begins)).y
            span = dimensions.Span(*ends, (f"{band.name}, each {width}", width))
            x = dimensions.right(plot.right, number)
            dimensions.column(self.canvas, x, plot.right, span, room)

    def _pad_words(self, weld: Pad) -> None:
        """The pad, where distances along its weld begin and which way they go."""
        canvas = self.canvas
        middle = self._at(Flat(0, 0))
        datum = self.sheet.joint.entry.datum or "top, assumed"
        for number, text in enumerate((f"pad, 1:{self.scale:g}", f"up: {datum}")):
            at = Point(middle.x, middle.y + number * 4.2)
            self.rooms.take(canvas.text(at, text, TEXT, "middle", ground=True).grown(0.3))
        start = self._on(0.0)
        canvas.circle(start, 1.1, BLACK, None, 4)
        edge = self._on(0.0, self.cap / 2 + 6.0 * self.scale)
        self.rooms.take(
            canvas.text(Point(edge.x, edge.y), "0", TEXT, "middle", bold=True, ground=True).grown(1)
        )
        begin, tip = self._on(weld.length * 0.02, self.cap), self._on(weld.length * 0.08, self.cap)
        canvas.line(begin, tip, OUTLINE, 3)
        canvas.arrow(tip, begin, 3, 3.0)

    def _sited(self, tag: Tag) -> marks.Sited | None:
        flat = flat_place(self.sheet.joint, tag)
        if flat is None or self._is_far(tag):
            return None
        at = self._at(flat)
        return marks.Sited(tag, at, at, 130 if tag.spare_of else 50, self.names[tag.tag])

    def _is_far(self, tag: Tag) -> bool:
        return tag.offset is not None and float(tag.offset.distance.value) > _NEAR * self.reach

    # Words --------------------------------------------------------------------------------------

    def _heads(self) -> list[str]:
        facts = along_weld.how_to_find(self.shown, self.sheet)
        # The last one is told by the drawing itself.
        found = [fact.rstrip(".") for fact in facts[:-1]]
        if isinstance(self.weld, Pad):
            size = (self.weld.width, self.weld.height)
            found.append(f"pad {' × '.join(self.shown.text(_mm(length)) for length in size)}")
        return [*found, *words.sizes(self.sheet, self.shown)]

    def _items(self) -> list[Item]:
        items = legend.duty_items(self.sheet.tags)
        items.append(legend.area_item(PALE_GREY, OUTLINE, "weld", hatched=True))
        for band in reversed(self.bands):
            fill, line = _LOOKS[band.name]
            text = band.name
            if isinstance(self.weld, Pad):
                far = Quantity.of(round(half_of(band, self.cap)), "mm", LENGTH)
                text = f"{band.name}, to {self.shown.text(far)} from the weld centreline"
            plain = fill in ("none", WHITE)
            items.append(
                legend.line_item(line, text) if plain else legend.area_item(fill, line, text)
            )
        items.append(legend.line_item(CENTRE, "weld centreline"))
        return items

    def _notes(self) -> list[str]:
        not_told = [t for t in self.sheet.tags if flat_place(self.sheet.joint, t) is None]
        far = [t.tag for t in self.sheet.tags if t not in not_told and self._is_far(t)]
        notes = [words.not_placed(not_told)]
        if far:
            notes.append(f"Farther off than is drawn: {', '.join(far)}.")
        if isinstance(self.weld, Seam):
            head = self.shown.head("along the weld", LENGTH)
            notes.append(f"Numbers below: {head}. Across the weld dimensions govern.")
        else:
            notes.append("Both ways to one scale; the outside of the shell is taken flat.")
            for band in self.left_out:
                end = self.shown.text(_mm(half_of(band, self.cap)), UP)
                notes.append(f"Not drawn: {band.name}, to {end} from the weld centreline.")
        return [" ".join(note for note in (*notes, self.way.note) if note)]


def _mm(length: float) -> Quantity:
    return Quantity.of(Fraction(round(length * 1000), 1000), "mm", LENGTH)
