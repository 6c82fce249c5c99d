"""The joint cut along the pipe: walls, weld, bands, heaters, thermocouples, surroundings."""

from __future__ import annotations

from hts.job.compiler.bands import Band
from hts.job.compiler.job import Job, JointSheet
from hts.job.compiler.tags import Tag
from hts.job.outputs.show import UP, Shown
from hts.language.model.seam import SIDES
from hts.paper.drawings import dimensions, key, legend, marks, words
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
    LEADER,
    NARROW,
    OUTLINE,
    PALE_GREY,
    PALE_ORANGE,
    TEXT,
    WHITE,
)
from hts.paper.drawings.surroundings import Neighbour, things_of
from hts.paper.drawings.walls import Walls
from hts.paper.sheet import metrics

_HEATER, _BLANKET, _GAP = 3.2, 5.0, 0.6  # thickness on paper, mm
_PITCH = 5.4  # of dimension lines
_BESIDE = 3.0
_FAR = 1e9  # mm: farther than anything
_RADIUS = 0.24  # of the pipe, as a part of the height


def section_along(job: Job, sheet: JointSheet, size: tuple[float, float]) -> str:
    """SVG of the joint cut along the pipe; `size` is width and height of the picture, mm."""
    title = f"Joint {sheet.joint.name}: section along the pipe"
    why = not_drawn(sheet.joint)
    if sheet.joint.entry.kind == "branch":
        why = (
            why or "branch and run have axes of their own: see the drawing of the branch on its run"
        )
    if sheet.joint.entry.kind in SIDES:
        round_ = "the weld does not go round the pipe: see the weld laid flat and its section"
        return notice(job, sheet, size, title, why or round_, not why)
    if why:
        return notice(job, sheet, size, title, why)
    return marks.fitted(lambda way: _View(job, sheet, size, way).draw())


class _View:
    def __init__(
        self, job: Job, sheet: JointSheet, size: tuple[float, float], way: marks.Way
    ) -> None:
        self.job, self.sheet, self.way = job, sheet, way
        self.joint, self.shown, self.sides = sheet.joint, Shown(job.units), Sides(sheet.joint)
        self.title = f"Joint {sheet.joint.name}: section along the pipe"
        self.canvas = Canvas(*size, self.title)
        things = things_of(sheet.joint, self.shown)
        self.lengths = Lengths(sheet, self.sides, things)
        self.things = [thing for thing in things if self.lengths.of_thing(thing) is not None]
        self.bands, self.cap = self.lengths.bands, self.lengths.cap
        axis = sheet.joint.entry.axis
        self.stands = axis is not None and axis.lies == "vertical"
        #: 1 where what is up on the unrolled joint lies on the right here: what the flow runs to.
        self.turned = 1 if self.stands else self.sides.flow or 1
        self.names = marks.names(sheet.tags, key.has_room(self.canvas))
        self.key = key.width(self.names, sheet.tags, self.shown, size[0] * 0.34)
        self.key += 4.0 if self.key else 0.0

    def draw(self) -> tuple[str, list[Tag]]:
        """The SVG, and the thermocouples whose tags found no room."""
        canvas = self.canvas
        frame = legend.frame(
            canvas,
            self.title,
            words.sizes(self.sheet, self.shown),
            self.job.document,
            self._items(),
            self._notes(),
            "not to scale",
        )
        area = Box(0.5, frame.top, canvas.width - 0.5 - self.key, frame.bottom)
        rows = len(self.bands)
        self.foot = area.bottom - _PITCH * rows - 1
        self.plot = Box(area.left + _BESIDE, area.top, area.right - _BESIDE, self.foot)
        self.along = self.lengths.scale(self.plot.left, self.plot.right)
        self.middle = (self.plot.top + self.plot.bottom) / 2
        radius = (self.plot.bottom - self.plot.top) * _RADIUS
        self.walls = Walls(self.sheet, self.sides, self.turned, radius)
        self.rooms = Rooms(Box(area.left, self.plot.top, area.right, self.plot.bottom))
        self._walls()
        self._cover()
        self._dimensions()
        self._bore()
        sited = marks.spread([one for tag in self.sheet.tags if (one := self._sited(tag))])
        marks.keep_clear(self.rooms, sited)
        # Tags first, so that each hangs right above its place.
        left_out = marks.draw(canvas, self.rooms, sited, self.way.height)
        self._things()
        if self.key:
            box = Box(canvas.width - self.key + 3, frame.top, canvas.width - 0.5, frame.bottom)
            left_out += key.draw(canvas, box, self.names, self.sheet.tags, self.shown)
        return canvas.svg(), left_out

    # Where things lie ---------------------------------------------------------------------------

    def _x(self, distance: float) -> float:
        """Across the page, of a distance that counts to the right."""
        place = self.along.y(distance * self.turned)
        # The scale counts up the unrolled joint from its top: mirrored where up is to the right.
        return self.plot.left + self.plot.right - place if self.turned > 0 else place

    def _right(self, distance: float) -> float:
        """A distance counted up on the unrolled joint, to the right here."""
        return distance * self.turned

    def _sited(self, tag: Tag) -> marks.Sited | None:
        along = self.lengths.of_tag(tag)
        if along is None:
            return None
        right = self._right(along)
        sign = 1 if right >= 0 else -1
        wall = self.walls.of(sign)
        outside = wall.outside + self.walls.grown_at(sign, abs(right))
        radius = wall.inside if tag.surface == "inside" else outside
        if tag.on_weld:
            radius = self.walls.at_weld(tag.surface == "inside")
        degrees = float(tag.degrees) if tag.degrees is not None else 0.0
        is_below = 90 < degrees < 270
        out = self._reach + 2.0
        at = Point(self._x(right), self.middle + (radius if is_below else -radius))
        hang = Point(at.x, self.middle + (out if is_below else -out))
        name = self.names[tag.tag]
        if name == metrics.drawable(tag.tag) and tag.clock is not None:
            name = f"{name}, {tag.clock}"
        # Of the half it lies in, so that no leader runs across the pipe.
        area, middle = self.rooms.area, self.middle
        half = area._replace(top=middle) if is_below else area._replace(bottom=middle)
        return marks.Sited(tag, at, hang, 180 if is_below else 0, name, half)

    @property
    def _reach(self) -> float:
        """From the axis to the outside of everything, mm on paper."""
        covers = (_GAP + _HEATER) * self._is_heated + (_GAP + _BLANKET) * self._is_insulated
        return max(self.walls.of(s).outside + self.walls.heavy(s, _FAR) for s in (-1, 1)) + covers

    @property
    def _is_heated(self) -> bool:
        return any(band.name == "heated band" for band in self.bands)

    @property
    def _is_insulated(self) -> bool:
        heating = self.joint.entry.heating
        return heating is not None and heating.insulation is not None

    # What is drawn ------------------------------------------------------------------------------

    def _walls(self) -> None:
        canvas, plot = self.canvas, self.plot
        far = self.along.last
        self.walls.draw(canvas, self._x, self.middle, self.cap or far * 0.05, far)
        canvas.line(Point(plot.left, self.middle), Point(plot.right, self.middle), CENTRE, 3)
        for sign in (-1, 1):
            edge, wall = self._x(sign * far), self.walls.of(sign)
            # The pipe goes on: a break where it is cut off.
            for radius in (wall.outside, wall.inside):
                for up in (-1, 1):
                    y = self.middle + up * radius
                    end = plot.right if sign > 0 else plot.left
                    canvas.line(Point(edge, y), Point(end, y), NARROW, 1)
        top = self.middle - self._reach - 0.5
        self.rooms.take(Box(plot.left, top, plot.right, 2 * self.middle - top))

    def _cover(self) -> None:
        """Heaters over the heated band, the blanket over all that is insulated."""
        canvas = self.canvas
        for band in self.bands:
            half = self.lengths.half(band)
            heated = band.name == "heated band"
            blanket = band.name in (INSULATION, GRADIENT) and band is self._blanket
            if not (heated or (blanket and self._is_insulated)):
                continue
            outside = max(
                self.walls.of(s).outside + self.walls.heavy(s, self._widest) for s in (-1, 1)
            )
            low = outside + _GAP + (0 if heated else (_GAP + _HEATER) * self._is_heated)
            high = low + (_HEATER if heated else _BLANKET)
            left, right = sorted((self._x(-half), self._x(half)))
            for up in (-1, 1):
                top, bottom = sorted((self.middle + up * low, self.middle + up * high))
                box = Box(left, top, right, bottom)
                canvas.rectangle(box, PALE_ORANGE if heated else WHITE, NARROW, 1)
                if not heated:
                    self._quilt(box)

    @property
    def _widest(self) -> float:
        return max((self.lengths.half(band) for band in self.bands), default=0.0)

    @property
    def _blanket(self) -> Band | None:
        found = {band.name: band for band in self.bands}
        return found.get(INSULATION) or found.get(GRADIENT)

    def _quilt(self, box: Box) -> None:
        """A zigzag, as insulation is shown."""
        points, x, up = [], box.left, True
        while x <= box.right:
            points.append(Point(x, box.top + 0.7 if up else box.bottom - 0.7))
            x, up = x + 2.2, not up
        self.canvas.lines(points, FINE, 1)

    def _dimensions(self) -> None:
        for number, band in enumerate(self.bands, 1):
            half, start = self.lengths.half(band), self.lengths.start(band)
            whole = band.total is not None
            width = self.shown.text(band.total if band.total is not None else band.each, UP)
            texts = (
                (f"{band.name} {width}", width)
                if whole
                else (
                    f"{band.name}, each side {width}",
                    f"{band.name}, each {width}",
                )
            )
            ends = sorted((self._x(-half if whole else start), self._x(half)))
            y = self.foot + _PITCH * number
            edge = self.middle + self._reach
            dimensions.row(self.canvas, y, edge, (ends[0], ends[1]), texts, self.plot)

    def _bore(self) -> None:
        """What the ends are called, one arrow for the flow, state of bore and ends."""
        canvas, plot = self.canvas, self.plot
        ends = (self.sides.lower, self.sides.upper)
        left, right = ends if self.turned > 0 else (ends[1], ends[0])
        inside = min(self.walls.of(s).inside for s in (-1, 1))
        y = self.middle - min(3.0, inside / 3)
        canvas.text(Point(plot.left + 1, y), " / ".join(left), TEXT, bold=True, ground=True)
        canvas.text(
            Point(plot.right - 1, y), " / ".join(right), TEXT, "end", bold=True, ground=True
        )
        flow = self.sides.flow * self.turned
        if flow:
            x = plot.left + (plot.right - plot.left) * 0.3
            tail, tip = Point(x - 8 * flow, y - 1), Point(x + 8 * flow, y - 1)
            canvas.line(tail, tip, OUTLINE, 3)
            canvas.arrow(tip, tail, 3, 3.5)
            canvas.text(Point(x, y - 2.4), "flow", TEXT, "middle")
        heating = self.joint.entry.heating
        if heating is None:
            return
        said = [f"bore {heating.bore}" if heating.bore else ""]
        said.append(f"ends {heating.ends}" if heating.ends else "")
        plug = heating.inside_insulation
        said.append("insulation in the bore" if plug is not None else "")
        said.append("lined" if heating.liner is not None else "")
        foot = self.middle + min(3.0 + TEXT, inside * 0.6)
        text = "; ".join(part for part in said if part)
        canvas.text(Point((plot.left + plot.right) / 2, foot), text, TEXT, "middle", ground=True)

    def _things(self) -> None:
        """Supports and nearby items: a line across the pipe, with its words."""
        for thing in self.things:
            self._thing(thing)

    def _thing(self, thing: Neighbour) -> None:
        distance = self.lengths.of_thing(thing)
        assert distance is not None
        x = self._x(self._right(distance))
        top, bottom = self.middle - self._reach - 1.5, self.middle + self._reach + 1.5
        self.canvas.line(Point(x, top), Point(x, bottom), ADJACENT, 3)
        most = (self.plot.right - self.plot.left) * 0.45
        text = metrics.shortened(thing.what, TEXT, most) + thing.more
        wide = metrics.width(text, TEXT)
        spot = self.rooms.place(Point(x, top), wide, TEXT * 1.5, 0)
        if spot is not None:
            self.canvas.line(Point(x, top), spot.end, LEADER, 3)
            foot = (spot.box.top + spot.box.bottom + TEXT) / 2
            self.canvas.text(Point(spot.box.left, foot), text, TEXT, ground=True)

    # Legend and notes ---------------------------------------------------------------------------

    def _items(self) -> list[Item]:
        items = legend.duty_items(self.sheet.tags)
        items.append(legend.area_item(WHITE, OUTLINE, "wall", hatched=True))
        items.append(legend.area_item(PALE_GREY, OUTLINE, "weld", hatched=True))
        if self._is_heated:
            items.append(legend.area_item(PALE_ORANGE, NARROW, "heaters"))
        if self._is_insulated:
            items.append(legend.area_item(WHITE, NARROW, "insulation"))
        if self.things:
            items.append(legend.line_item(ADJACENT, "support or item beside the weld"))
        return items

    def _notes(self) -> list[str]:
        first = [
            self.sides.note,
            words.not_placed(t for t in self.sheet.tags if self.lengths.of_tag(t) is None),
        ]
        notes = [
            "Thermocouples of the upper half are shown above, those of the lower half below, with "
            "their clock positions."
        ]
        if self.stands:
            notes.append(
                "The pipe stands vertical and is drawn lying: what is above is on the right."
            )
        if self.joint.entry.kind in ("socket", "fillet") and len(self.joint.sides) < 2:
            notes.append("The other part is drawn alike, for the text does not tell its size.")
        notes.append(self.way.note)
        return [" ".join(n for n in part if n) for part in (first, notes) if any(part)]
