"""A branch on its run: both outsides laid flat to scale, and the two seen from the side."""

from __future__ import annotations

from fractions import Fraction
from math import cos, pi, radians, sin

from hts.base.quantities import LENGTH, Quantity
from hts.job.compiler.bands import EDGE
from hts.job.compiler.job import Job, JointSheet
from hts.job.compiler.tags import Tag
from hts.job.compiler.taped import ON_RUN, middle
from hts.job.outputs.show import Shown
from hts.language.model.branching import Branching, branching
from hts.paper.drawings import branch_side, branch_zones, key, legend, marks, scales, words
from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.legend import Item
from hts.paper.drawings.place import Rooms
from hts.paper.drawings.sides import Sides
from hts.paper.drawings.style import (
    CENTRE,
    NARROW,
    OUTLINE,
    PALE_GREY,
    TEXT,
    Line,
)
from hts.paper.sheet import metrics
from hts.science.saddle.crossing import OnRun

#: Lines at a distance from the weld, by the band they bound.
_EDGES = {
    "soak band": NARROW,
    "heated band": OUTLINE,
    "preheat width": Line(0.3, (0.3, 0.9)),
    "bake width": Line(0.3, (3.0, 0.7, 0.3, 0.7)),
}
#: Bands wider than this many diameters of the branch are left to the tables.
_WIDEST = 4.0
#: Thermocouples this much beyond the widest band are still drawn.
_NEAR = 1.3
_HEAD = 6.0
_MARGIN = 12.0
#: Parts of the picture: across for the branch; down for the two seen from the side, or none
#: where the page is too low for that: they then stand between branch and run.
_SHARE, _SIDES = 0.54, (0.33, 0.0)
#: Radius of the branch on paper from which its hours are written in it, all of them, and names, mm.
_HOURS, _ALL_HOURS, _ALL_NAMES = 8.0, 17.0, 24.0
#: Apart, so that the words of neighbouring quarters do not meet, mm.
_QUARTER = 14.5
#: A picture lower than this is low; room for tags beside branch and run, mm.
_LOW, _LABELS = 100.0, 17.0
#: From the cut to the middle of a name beside it, mm.
_BESIDE = 9.0
_SQUARE = 90.0


def on_run(job: Job, sheet: JointSheet, size: tuple[float, float]) -> str:
    """SVG of the branch on its run; `size` is width and height of the picture, mm."""
    return marks.fitted(lambda way: _View(job, sheet, size, way).draw())


class _View:
    def __init__(
        self, job: Job, sheet: JointSheet, size: tuple[float, float], way: marks.Way
    ) -> None:
        stands = branching(sheet.joint)
        assert isinstance(stands, Branching)
        self.stands, self.crossing = stands, stands.crossing
        self.job, self.sheet, self.way = job, sheet, way
        self.shown, self.sides = Shown(job.units), Sides(sheet.joint)
        self.title = f"Joint {sheet.joint.name}: the branch on its run"
        self.canvas = Canvas(*size, self.title)
        cap = sheet.joint.entry.cap_width
        self.toe = float(cap.value) / 2 if cap is not None else 0.0
        self.edges = self._edges()
        self.names = marks.names(sheet.tags, key.has_room(self.canvas))
        self.key = key.width(self.names, sheet.tags, self.shown, size[0] * 0.34)
        self.key += 4.0 if self.key else 0.0
        reach = max((far for _, far in self.edges), default=self.crossing.branch)
        near = [float(tag.offset.distance.value) for tag in sheet.tags if tag.offset is not None]
        reach = max([reach, *(far for far in near if far < _NEAR * reach)])
        heated = next((far for name, far in self.edges if name == "heated band"), None)
        self.regions = branch_zones.regions(sheet, self.toe, heated)
        reach = max([reach, *(region.far for region in self.regions)])
        #: How far from the weld is drawn, mm at the pipe.
        self.reach = max(reach, self.toe) * 1.08

    def draw(self) -> tuple[str, list[Tag]]:
        """The SVG, and the thermocouples whose tags found no room."""
        canvas, crossing = self.canvas, self.crossing
        frame = legend.frame(
            canvas,
            self.title,
            self._heads(),
            self.job.document,
            self._items(),
            self._notes(),
            "as told at each view",
        )
        area = Box(0.5, frame.top, canvas.width - self.key - 0.5, frame.bottom)
        self.rooms = Rooms(area)
        # Left the branch with the side view below it, right the run; each as large as it can be.
        run = self._run_box()
        cut = area.left + (area.right - area.left) * _SHARE
        right = Box(cut + 8, area.top + 2 * _HEAD, area.right - 8, area.bottom - 2)
        self.run_scale = scales.largest(scales.over(run, right))
        heights = [crossing.height(float(turn)) for turn in range(0, 360, 5)]
        self.low, high = min(heights) - 1.5 * self.toe, max(heights) + self.reach
        around = 2 * pi * crossing.branch
        boxes = [
            Box(
                area.left + _MARGIN,
                area.top + 2 * _HEAD,
                cut - _MARGIN,
                area.top + (area.bottom - area.top) * (1 - side) - (0 if side else 5),
            )
            for side in _SIDES
        ]
        found = [
            scales.largest(scales.over(Box(0, 0, around, high - self.low), box)) for box in boxes
        ]
        is_between = area.bottom - area.top < _LOW and area.right - area.left > 2 * _LOW
        left, self.branch_scale = boxes[is_between], found[is_between]
        drawn = (run.right - run.left) / self.run_scale
        most = right.right - drawn - left.left - 2 * _LABELS - branch_side.ROOM
        if is_between and around / self.branch_scale > most > 0:
            self.branch_scale = scales.largest(around / most)
        spare = right.right - right.left - drawn
        self.run_at = Point(
            right.left - run.left / self.run_scale + (spare if is_between else spare / 2),
            (right.top + right.bottom - (run.top + run.bottom) / self.run_scale) / 2,
        )
        wide = around / self.branch_scale
        start = left.left if is_between else (left.left + left.right - wide) / 2
        self.branch_at = Point(start, left.top + (high - self.low) / self.branch_scale)
        self._zones()
        self._branch_sheet(around, high)
        self._run_sheet(run)
        self._zone_names()
        room = Box(area.left, self.branch_at.y + _HEAD, cut, area.bottom)
        if is_between:
            edge = self.run_at.x + run.left / self.run_scale
            room = Box(start + wide + _LABELS, area.top, edge - _LABELS, area.bottom)
        branch_side.draw(canvas, self.rooms, self.stands, room)
        sited = marks.spread([one for tag in self.sheet.tags if (one := self._sited(tag))])
        marks.keep_clear(self.rooms, sited)
        left_out = marks.draw(canvas, self.rooms, sited, self.way.height)
        if self.key:
            box = Box(canvas.width - self.key + 3, frame.top, canvas.width - 0.5, frame.bottom)
            left_out += key.draw(canvas, box, self.names, self.sheet.tags, self.shown)
        return canvas.svg(), left_out

    # Where things lie ---------------------------------------------------------------------------

    def _on_branch(self, turn: float, height: float) -> Point:
        """On the branch laid flat: the clock across, up the branch is up."""
        clock = (self.stands.sense * turn + float(self.stands.crotch.degrees)) % 360
        return self._at_clock(clock, height)

    def _at_clock(self, degrees: float, height: float) -> Point:
        across = self.sides.across(degrees) * 2 * pi * self.crossing.branch / self.branch_scale
        up = (height - self.low) / self.branch_scale
        return Point(self.branch_at.x + across, self.branch_at.y - up)

    def _direction(self, turn: float) -> tuple[float, float]:
        """On the run laid flat, seen along the branch with 12:00 up: right and up."""
        page = radians(turn - self.stands.turn(0.0))
        return sin(page), cos(page)

    def _flat(self, place: OnRun) -> Point:
        """A place on the run about the middle of the branch, mm at the pipe, y down."""
        start = middle(self.stands)
        along, round_ = place.along - start.along, place.round - start.round
        (ax, ay), (rx, ry) = self._direction(0.0), self._direction(90.0)
        return Point(along * ax + round_ * rx, -(along * ay + round_ * ry))

    def _on_run(self, place: OnRun) -> Point:
        return self._put(self._flat(place))

    def _put(self, flat: Point) -> Point:
        return Point(
            self.run_at.x + flat.x / self.run_scale, self.run_at.y + flat.y / self.run_scale
        )

    def _run_box(self) -> Box:
        points = [self._flat(p) for p in self.crossing.edge_on_run(self.reach)]
        return Box(
            min(p.x for p in points),
            min(p.y for p in points),
            max(p.x for p in points),
            max(p.y for p in points),
        )

    def _place(self, tag: Tag) -> Point | None:
        if tag.degrees is None:
            return None
        turn = self.stands.turn(float(tag.degrees))
        if tag.on_weld:
            return self._on_branch(turn, self.crossing.height(turn))
        if tag.offset is None or tag.taped is None or not tag.taped.measures:
            return None
        far = float(tag.offset.distance.value)
        if far > self.reach:
            return None
        if tag.offset.side == ON_RUN:
            return self._on_run(self.crossing.place_on_run(turn, far))
        return self._on_branch(turn, self.crossing.place_on_branch(turn, far))

    def _sited(self, tag: Tag) -> marks.Sited | None:
        at = self._place(tag)
        if at is None:
            return None
        return marks.Sited(tag, at, at, 120 if tag.spare_of else 60, self.names[tag.tag])

    # What is drawn ------------------------------------------------------------------------------

    def _edges(self) -> list[tuple[str, float]]:
        found: dict[float, str] = {}
        for band in self.sheet.bands:
            if band.name in _EDGES:
                far = float(band.each.value) + (self.toe if band.datum == EDGE else 0.0)
                if far <= _WIDEST * 2 * self.crossing.branch:
                    found.setdefault(far, band.name)
        return sorted(((name, far) for far, name in found.items()), key=lambda one: one[1])

    def _zones(self) -> None:
        """Where the heaters of each zone lie, below everything else."""
        for region in self.regions:
            at = self._on_branch_at if region.on_branch else self._on_run_at
            for outline in branch_zones.outlines(region, at, cut=region.on_branch):
                self.canvas.polygon(outline, *branch_zones.LOOK, -1)

    def _zone_names(self) -> None:
        """In each zone where there is room; the section names them, too."""
        for region in self.regions:
            at = self._on_branch_at if region.on_branch else self._on_run_at
            beside = 0.0
            if region.on_branch and region.middle == 0.0:
                # On the cut itself: beside it, where the outside begins.
                beside = -_BESIDE if self.sides.leftward else _BESIDE
            half = metrics.width(region.zone, TEXT) / 2
            for part in branch_zones.NAMED:
                place = at(region.middle, region.near + (region.far - region.near) * part)
                x, y = place.x + beside, place.y + TEXT / 2
                box = Box(x - half, y - TEXT * 1.2, x + half, y + TEXT * 0.45)
                if self.rooms.claim(box):
                    self.canvas.text(Point(x, y), region.zone, TEXT, "middle", ground=True)
                    break

    def _on_branch_at(self, clock: float, far: float) -> Point:
        return self._at_clock(clock, self._up(clock, far))

    def _on_run_at(self, clock: float, far: float) -> Point:
        turn = self.stands.turn(clock)
        return self._on_run(branch_zones.within_reach(self.crossing, turn, far))

    def _branch_sheet(self, around: float, high: float) -> None:
        canvas = self.canvas
        turns = range(0, 361, 3)
        weld = [self._at_clock(float(c), self._height(float(c))) for c in turns]
        if self.toe:
            rise = [self._at_clock(float(c), self._up(float(c), self.toe)) for c in turns]
            canvas.polygon([*weld, *reversed(rise)], PALE_GREY)
            canvas.lines(rise, OUTLINE, 2)
        canvas.lines(weld, CENTRE, 3)
        for name, far in self.edges:
            line = [self._at_clock(float(c), self._up(float(c), far)) for c in range(0, 361, 6)]
            canvas.lines(line, _EDGES[name], 2)
        every = 3 if around / self.branch_scale / 4 > _QUARTER else 6
        top, foot = self._at_clock(0, high).y, self._at_clock(0, self.low).y
        for hour in range(13):
            x = self._at_clock(hour * 30 if hour < 12 else 360, high).x
            canvas.line(Point(x, top - 1.2), Point(x, foot), Line(0.13, (1, 1)), 1)
            if hour % every == 0:
                text = f"{hour or 12}:00"
                self.rooms.take(canvas.text(Point(x, top - 1.8), text, TEXT, "middle"))
        x = self.branch_at.x + around / self.branch_scale / 2
        said = f"Branch, laid flat, 1:{self.branch_scale:g}"
        at = Point(x, top - 1.8 - _HEAD + 0.6)
        self.rooms.take(canvas.text(at, said, TEXT, "middle", bold=True))
        for turn, name in self._names_round()[:: every // 3]:
            x = self._on_branch(turn, self.low).x
            self._say(Point(x, foot + 1.0 + TEXT), name)

    def _names_round(self) -> list[tuple[float, str]]:
        heel = "crotch" if self.crossing.angle == _SQUARE else "heel"
        return [(0.0, "crotch"), (90.0, "flank"), (180.0, heel), (270.0, "flank")]

    def _run_sheet(self, run: Box) -> None:
        canvas = self.canvas
        for name, far in reversed(self.edges):
            line = [self._on_run(place) for place in self.crossing.edge_on_run(far)]
            canvas.lines([*line, line[0]], _EDGES[name], 2)
        weld = [self._on_run(self.crossing.on_run(float(turn))) for turn in range(0, 361, 3)]
        if self.toe:
            toe = [self._on_run(place) for place in self.crossing.edge_on_run(self.toe)]
            canvas.polygon(toe, PALE_GREY, OUTLINE, 0)
        canvas.polygon(weld, "#ffffff", None, 1)
        canvas.lines(weld, CENTRE, 3)
        # The line along the run through the crotch, and that round it through the middle.
        start, far = middle(self.stands), self.reach + self.crossing.branch
        for one, other in (
            (OnRun(start.along - far, start.round), OnRun(start.along + far, start.round)),
            (OnRun(start.along, start.round - far), OnRun(start.along, start.round + far)),
        ):
            here, there = (self._put(_within(self._flat(end), run)) for end in (one, other))
            canvas.line(here, there, Line(0.13, (3, 0.6, 0.3, 0.6)), 1)
        x = self.run_at.x + (run.left + run.right) / 2 / self.run_scale
        y = self.run_at.y + run.top / self.run_scale - 1.8
        said = f"Run, laid flat, seen along the branch, 1:{self.run_scale:g}"
        half = metrics.width(said, TEXT, bold=True) / 2
        x = min(x, canvas.width - self.key - half - 1)
        self.rooms.take(canvas.text(Point(x, y - 3), said, TEXT, "middle", bold=True))
        radius = self.crossing.branch / self.run_scale
        for hour in range(1, 13) if radius > _ALL_HOURS else (3, 6, 9, 12):
            at = self._on_run(self.crossing.on_run(self.stands.turn(hour * 30.0 % 360)))
            inward = self._toward_middle(at, 3.0)
            if radius > _HOURS:
                self._say(Point(inward.x, inward.y + TEXT / 2), str(hour))
        for turn, name in self._names_round() if radius > _ALL_NAMES else ():
            at = self._toward_middle(self._on_run(self.crossing.on_run(turn)), 8.4)
            self._say(Point(at.x, at.y + TEXT / 2), name)

    def _toward_middle(self, at: Point, by: float) -> Point:
        dx, dy = self.run_at.x - at.x, self.run_at.y - at.y
        size = (dx * dx + dy * dy) ** 0.5 or 1.0
        return Point(at.x + dx / size * by, at.y + dy / size * by)

    def _say(self, at: Point, text: str) -> None:
        self.rooms.take(self.canvas.text(at, text, TEXT, "middle", ground=True))

    def _height(self, clock: float) -> float:
        return self.crossing.height(self.stands.turn(clock))

    def _up(self, clock: float, far: float) -> float:
        return self.crossing.place_on_branch(self.stands.turn(clock), far)

    # Words --------------------------------------------------------------------------------------

    def _heads(self) -> list[str]:
        crossing = self.crossing
        parts = [f"Clock positions {words.view(self.sheet)}", *words.sizes(self.sheet, self.shown)]
        parts.append(f"angle {crossing.angle:g}°")
        if crossing.offset:
            offset = Quantity.of(round(abs(crossing.offset)), "mm", LENGTH)
            toward = self.stands.clock(90 if crossing.offset > 0 else 270)
            parts.append(f"offset {self.shown.text(offset)} toward {toward}")
        return parts

    def _items(self) -> list[Item]:
        items = legend.duty_items(self.sheet.tags)
        if self.toe:
            items.append(legend.area_item(PALE_GREY, OUTLINE, "weld"))
        items += branch_zones.item(self.regions)
        for name, far in self.edges:
            there = self.shown.text(Quantity.of(Fraction(round(far * 10), 10), "mm", LENGTH))
            items.append(legend.line_item(_EDGES[name], f"{name}, {there} from the weld"))
        items.append(legend.line_item(CENTRE, "weld centreline, axis"))
        return items

    def _notes(self) -> list[str]:
        far = [
            f"{tag.tag} ({self.shown.text(tag.offset.distance)} {tag.offset.side} at {tag.clock})"
            for tag in self.sheet.tags
            if tag.offset is not None and float(tag.offset.distance.value) > self.reach
        ]
        bad = [
            f"{tag.tag} ({tag.taped.why})"
            for tag in self.sheet.tags
            if tag.taped is not None and tag.taped.why
        ]
        bad += [
            tag.tag
            for tag in self.sheet.tags
            if tag.degrees is None or (tag.offset is None and not tag.on_weld)
        ]
        notes = [
            "Both outsides as a tape lies on them; the taped lengths are on the tag sheet. Edges "
            "of bands are equally far from the weld all round."
        ]
        cut = branch_zones.cut(self.regions, self.crossing, self.stands.turn)
        if cut:
            notes.append(
                f"Drawn no farther than half round the run, though the heaters reach on: "
                f"{', '.join(cut)}."
            )
        if self.stands.assumed:
            notes.append(f"Assumed: {', '.join(self.stands.assumed)}.")
        if far:
            notes.append(f"Farther off than is drawn: {', '.join(far)}.")
        if bad:
            notes.append(f"Not drawn: {', '.join(bad)}.")
        if self.way.note:
            notes.append(self.way.note)
        return [" ".join(notes)]


def _within(point: Point, box: Box) -> Point:
    return Point(min(max(point.x, box.left), box.right), min(max(point.y, box.top), box.bottom))
