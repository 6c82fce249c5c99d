"""The section of the joint with its clock positions, seen from where the text says."""

from __future__ import annotations

from math import ceil, pi, sqrt

from hts.base.quantities import Quantity
from hts.job.compiler.job import Job, JointSheet
from hts.job.compiler.tags import Tag
from hts.job.outputs.show import Shown
from hts.language.model.joint import Zone
from hts.language.model.orientation import Orientation
from hts.language.model.seam import SEAM, SIDES
from hts.paper.drawings import hatching, key, legend, marks, words, zones
from hts.paper.drawings.across_view import across
from hts.paper.drawings.canvas import Box, Canvas, Point, on_circle
from hts.paper.drawings.legend import Item
from hts.paper.drawings.not_drawn import not_drawn, notice
from hts.paper.drawings.place import Rooms, Spot
from hts.paper.drawings.style import (
    BLACK,
    CENTRE,
    FINE,
    HIDDEN,
    LEADER,
    NARROW,
    OUTLINE,
    PALE_GREY,
    PALE_ORANGE,
    TEXT,
    WHITE,
    Line,
)
from hts.paper.sheet import metrics

_TURN = 360
_OFF, _INSULATION = 1.0, 2.0  # mm on paper
_GAP = 0.9  # between two zones, mm on paper
_THINNEST, _UNKNOWN = 1.4, 3.0  # of the wall, mm on paper
_ABOVE, _BESIDE = 11.0, 34.0  # room for tags round the section
_LINE = 4.2
_LONGEST = 46.0  # of the name of a zone
_PAD = "the weld of a pad goes all round it: the weld laid flat shows every place"
_TURN_AT = 1.2  # of leaders, outside the section
_NUMBERED = "The numbers are those of the table of thermocouples and of the joint unrolled."


def section(job: Job, sheet: JointSheet, size: tuple[float, float], numbered: bool = False) -> str:
    """SVG of the section, across a long seam; `size` is width and height of the picture, mm.

    `numbered`: many or long tags have the numbers of the key of the joint unrolled, where this
    picture has no room for a key of its own.
    """
    kind = sheet.joint.entry.kind
    if kind in SIDES:
        why = not_drawn(sheet.joint)
        if kind == SEAM and not why:
            return across(job, sheet, size)
        title = f"Joint {sheet.joint.name}: section"
        return notice(job, sheet, size, title, why or _PAD, not why)
    return marks.fitted(lambda way: _View(job, sheet, size, way, numbered).draw())


class _View:
    def __init__(
        self,
        job: Job,
        sheet: JointSheet,
        size: tuple[float, float],
        way: marks.Way,
        numbered: bool,
    ) -> None:
        self.way = way
        self.job, self.sheet = job, sheet
        self.joint, self.shown = sheet.joint, Shown(job.units)
        self.title = f"Joint {sheet.joint.name}: section"
        self.canvas = Canvas(*size, self.title)
        self.orientation = Orientation(sheet.joint.entry)
        #: Too narrow for a key: numbers are then explained by that of the joint unrolled.
        self.keyless = numbered and not key.has_room(self.canvas)
        self.names = marks.names(sheet.tags, numbered or key.has_room(self.canvas))
        #: Width of the key, 0 where tags are written where they sit.
        self.key = 0.0
        if key.has_room(self.canvas):
            self.key = key.width(self.names, sheet.tags, self.shown, self.canvas.width * 0.34)
        self.key += 4.0 if self.key else 0.0
        self.rings = zones.packed(sheet.joint.zones)
        #: Thickness of the heaters, mm on paper.
        self.heater = 3.0 if len(self.rings.rows) < 2 else 2.2

    def draw(self) -> tuple[str, list[Tag]]:
        """The SVG, and the thermocouples whose tags found no room."""
        frame = legend.frame(
            self.canvas,
            self.title,
            [f"Clock positions {words.view(self.sheet)}", *words.sizes(self.sheet, self.shown)],
            self.job.document,
            self._items(),
            self._notes(),
        )
        area = Box(0.5, frame.top, self.canvas.width - 0.5 - self.key, frame.bottom)
        self.centre = Point((area.left + area.right) / 2, (area.top + area.bottom) / 2)
        #: Radii on paper: of everything round the pipe, of the pipe outside and inside.
        self.reach = min(
            (area.bottom - area.top) / 2 - _ABOVE, (area.right - area.left) / 2 - _BESIDE
        )
        self.outside = self.reach - (_OFF + self.heater) * len(self.rings.rows)
        if self._is_insulated:
            self.outside -= _INSULATION
        self.bore = self.outside - self._wall()
        self.rooms = Rooms(area)
        self._keep_clear()
        self._pipe()
        self._clock()
        self._words(area)
        self._heaters()
        self._datum()
        sited = [self._sited(tag) for tag in self.sheet.tags if tag.degrees is not None]
        sited.sort(key=lambda one: one.preferred)
        left_out = marks.draw(self.canvas, self.rooms, marks.spread(sited), self.way.height)
        if self.key:
            box = Box(area.right + 3, area.top, self.canvas.width - 0.5, area.bottom)
            left_out += key.draw(self.canvas, box, self.names, self.sheet.tags, self.shown)
        return self.canvas.svg(), left_out

    @property
    def _is_insulated(self) -> bool:
        heating = self.joint.entry.heating
        return heating is not None and heating.insulation is not None

    def _wall(self) -> float:
        """The wall on paper: to scale, where that can be seen."""
        outside = self.joint.outside_diameter
        for side in self.joint.sides:
            own, wall = side.outside_diameter, side.wall
            if own is None or wall is None or outside is None or own.value != outside:
                continue
            assert isinstance(wall.value, Quantity)
            share = float(wall.value.value / (outside.value / 2))
            return min(max(share * self.outside, _THINNEST), self.outside / 2)
        return _UNKNOWN

    def _sited(self, tag: Tag) -> marks.Sited:
        """The leader goes straight out of the section before it turns."""
        assert tag.degrees is not None
        degrees = float(tag.degrees)
        radius = self.bore if tag.surface == "inside" else self.outside
        at, hang = (on_circle(self.centre, r, degrees) for r in (radius, self.reach + _TURN_AT))
        return marks.Sited(tag, at, hang, degrees, self.names[tag.tag])

    def _keep_clear(self) -> None:
        """No tag lies on the section: its disc is taken in slices."""
        slices = ceil(2 * self.reach)  # so thin that none reaches where the leaders turn
        high = 2 * self.reach / slices
        for number in range(slices):
            top = -self.reach + number * high
            nearest = min(abs(top), abs(top + high))
            half = sqrt(max(self.reach**2 - nearest**2, 0.0))
            x, y = self.centre
            self.rooms.take(Box(x - half, y + top, x + half, y + top + high))

    # What is drawn ------------------------------------------------------------------------------

    def _pipe(self) -> None:
        canvas, centre = self.canvas, self.centre
        canvas.circle(centre, self.outside, PALE_GREY, OUTLINE, 0)
        canvas.circle(centre, self.bore, WHITE, OUTLINE, 0)
        cut = [hatching.ring(centre, radius) for radius in (self.outside, self.bore)]
        hatching.hatch(canvas, cut)
        for start in (0, 90):
            one, other = (on_circle(centre, self.reach + 1.5, start + turn) for turn in (0, 180))
            canvas.line(one, other, CENTRE, 1)
        if self._is_insulated:
            canvas.circle(centre, self.reach, "none", HIDDEN, 1)

    def _clock(self) -> None:
        for hour in range(1, 13):
            degrees = hour * 30
            self.canvas.line(
                on_circle(self.centre, self.bore, degrees),
                on_circle(self.centre, self.outside, degrees),
                NARROW,
                1,
            )
            # Below the mark of the datum at 12.
            at = on_circle(self.centre, self.bore - (5.0 if hour == 12 else 3.2), degrees)
            self.canvas.text(
                Point(at.x, at.y + TEXT / 2), str(hour), TEXT, "middle", bold=True, ground=True
            )

    def _words(self, area: Box) -> None:
        """Datum, direction of the flow, position of the axis, state of bore and ends: in the bore
        where they fit, else beside the section."""
        lines = self._bore_lines()
        gaze = self.orientation.sign("downstream")
        feet = self._feet(lines, gaze is not None)
        if feet:
            sign = Point(self.centre.x, feet[0].y - TEXT - 3.4)
            for foot, line in zip(feet, lines, strict=True):
                self.canvas.text(foot, line, TEXT, "middle", ground=True)
        else:
            sign = self.centre
            for number, line in enumerate(lines, 1):
                foot = Point(area.left, area.top + _LINE * number)
                self.rooms.take(self.canvas.text(foot, line))
        if gaze is not None:
            self._flow_sign(sign, toward=gaze < 0)

    def _feet(self, lines: list[str], sign: bool) -> list[Point]:
        """Where the lines stand in the bore; none where they are too long for it."""
        top = -(len(lines) * _LINE) / 2 + (2.0 if sign else 0.0)
        radius = self.bore - 5.0
        feet = []
        for number, line in enumerate(lines, 1):
            low = top + number * _LINE
            farthest = max(abs(low), abs(low - _LINE))
            if farthest > radius:
                return []
            if metrics.width(line, TEXT) / 2 > sqrt(radius**2 - farthest**2):
                return []
            feet.append(Point(self.centre.x, self.centre.y + low - _LINE / 2 + TEXT / 2))
        return feet if not sign or abs(top - 5.5) < radius - 3.0 else []

    def _bore_lines(self) -> list[str]:
        entry = self.joint.entry
        lines = [f"datum (12:00): {entry.datum or 'top, assumed'}"]
        for end, away, toward in (
            ("downstream", "flow away from you", "flow toward you"),
            ("side B", "side B is the far one", "side A is the far one"),
            ("on run", "run is the far side", "branch is the far side"),
            ("above", "seen from below", "seen from above"),
        ):
            gaze = self.orientation.sign(end)
            if gaze is not None:
                lines.append(away if gaze > 0 else toward)
        if entry.axis is not None:
            slope = f" at {self.shown.text(entry.axis.slope)}" if entry.axis.slope else ""
            lines.append(f"axis {entry.axis.lies}{slope}")
        heating = entry.heating
        if heating is not None:
            lines.append(f"bore {heating.bore}" if heating.bore else "")
            lines.append(f"ends {heating.ends}" if heating.ends else "")
        return [line for line in lines if line]

    def _flow_sign(self, at: Point, toward: bool) -> None:
        """The tip of an arrow coming out of the paper, or its feathers going in."""
        self.canvas.circle(at, 1.8, WHITE, NARROW, 4)
        if toward:
            self.canvas.circle(at, 0.6, BLACK, layer=4)
            return
        for turn in (45, 135):
            self.canvas.line(on_circle(at, 1.8, turn), on_circle(at, 1.8, turn + 180), NARROW, 4)

    def _heaters(self) -> None:
        radius = self.outside + _OFF + self.heater / 2
        for row in self.rings.rows:
            for zone in row:
                self._heater(zone, radius)
            radius += _OFF + self.heater

    def _heater(self, zone: Zone, radius: float) -> None:
        arc = zone.arc
        span = float(arc.span) if arc is not None else float(_TURN)
        start = float(arc.start.degrees) if arc is not None else 0.0
        if span == _TURN:
            for edge in (radius - self.heater / 2, radius + self.heater / 2):
                self.canvas.circle(self.centre, edge, "none", FINE, 2)
            self.canvas.circle(
                self.centre, radius, "none", Line(self.heater - 0.2, (), PALE_ORANGE), 1
            )
        else:
            for thick, gap, colour in (
                (self.heater, _GAP, BLACK),
                (self.heater - 0.5, _GAP + 0.5, PALE_ORANGE),
            ):
                turn = gap / 2 / radius * 180 / pi
                line = Line(thick, (), colour)
                self.canvas.arc(self.centre, radius, start + turn, span - 2 * turn, line)
        self._zone_name(zone, radius, start + span * 0.8)

    def _zone_name(self, zone: Zone, radius: float, degrees: float) -> None:
        side = f", {zone.entry.side}" if zone.entry.side not in (None, "both") else ""
        name = metrics.drawable(f"zone {zone.name}")
        text = metrics.shortened(name, TEXT, _LONGEST - metrics.width(side, TEXT)) + side
        wide = metrics.width(text, TEXT)
        at, hang = (on_circle(self.centre, r, degrees) for r in (radius, self.reach + _TURN_AT))
        spot = self.rooms.place(hang, wide + 1, TEXT * 1.7, degrees)
        if spot is not None:
            self.canvas.lines((at, hang, spot.end), LEADER, 3)
            self._put(spot, text)

    def _put(self, spot: Spot, text: str) -> None:
        middle = (spot.box.top + spot.box.bottom) / 2
        self.canvas.text(Point(spot.box.left + 0.5, middle + TEXT / 2), text)

    def _datum(self) -> None:
        """A filled triangle inside the wall at 12:00."""
        tip = on_circle(self.centre, self.bore - 0.3, 0)
        corners = (tip, Point(tip.x - 1.5, tip.y + 2.6), Point(tip.x + 1.5, tip.y + 2.6))
        self.canvas.polygon(corners, BLACK, layer=3)

    # Legend and notes ---------------------------------------------------------------------------

    def _items(self) -> list[Item]:
        items = legend.duty_items(self.sheet.tags)
        items.append(legend.area_item(PALE_GREY, OUTLINE, "wall", hatched=True))
        if self.joint.zones:
            items.append(legend.area_item(PALE_ORANGE, NARROW, "heaters of a zone"))
        if self._is_insulated:
            items.append(legend.line_item(HIDDEN, "insulation"))
        items.append(legend.line_item(CENTRE, "axis"))
        return items

    def _notes(self) -> list[str]:
        notes = (
            "All thermocouples are shown on one section, wherever along the pipe they sit.",
            _NUMBERED if self.keyless and marks.is_numbered(self.sheet.tags) else "",
            zones.gap_note(self.joint, self.shown),
            words.not_placed(tag for tag in self.sheet.tags if tag.degrees is None),
            self.way.note,
        )
        return [" ".join(note for note in notes if note)]
