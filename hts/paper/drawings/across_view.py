"""The section across a long seam: walls, weld, bands, heaters, insulation, thermocouples."""

from __future__ import annotations

from hts.base.quantities import Quantity
from hts.job.compiler.bands import EDGE
from hts.job.compiler.job import Job, JointSheet
from hts.job.compiler.tags import Tag
from hts.job.outputs.show import UP, Shown
from hts.language.model.seam import SEAM, Seam, off_weld, weld_along
from hts.paper.drawings import dimensions, hatching, legend, marks, words
from hts.paper.drawings.along import Along
from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.legend import Item
from hts.paper.drawings.place import Rooms
from hts.paper.drawings.style import NARROW, OUTLINE, PALE_GREY, PALE_ORANGE, TEXT, WHITE
from hts.paper.drawings.weld_flat import half_of
from hts.paper.sheet import metrics

_HEATER, _BLANKET, _GAP, _PITCH = 3.2, 5.0, 0.6, 5.4
_THICKEST, _THINNEST = 16.0, 5.0  # of the walls on paper, mm
_ROOT = 0.3  # of the weld, as a part of its width


def across(job: Job, sheet: JointSheet, size: tuple[float, float]) -> str:
    """SVG of the section across the seam; `size` is width and height of the picture, mm."""
    return marks.fitted(lambda way: _View(job, sheet, size, way).draw())


class _View:
    def __init__(
        self, job: Job, sheet: JointSheet, size: tuple[float, float], way: marks.Way
    ) -> None:
        weld = weld_along(sheet.joint)
        assert isinstance(weld, Seam)
        self.weld, self.job, self.sheet, self.way = weld, job, sheet, way
        self.shown = Shown(job.units)
        self.title = f"Joint {sheet.joint.name}: section across the weld"
        self.canvas = Canvas(*size, self.title)
        cap = sheet.joint.entry.cap_width
        self.cap = float(cap.value) if cap is not None else 0.0
        self.bands = sorted(sheet.bands, key=lambda band: half_of(band, self.cap))
        self.names = {tag.tag: metrics.drawable(tag.tag) for tag in sheet.tags}
        #: Seen from the end distances count from: with that end on the left, side A lies left.
        self.turn = -1 if weld.hand == "left" else 1

    def draw(self) -> tuple[str, list[Tag]]:
        """The SVG, and the thermocouples whose tags found no room."""
        canvas = self.canvas
        frame = legend.frame(
            canvas, self.title, words.sizes(self.sheet, self.shown), self.job.document,
            self._items(), self._notes(), "not to scale",
        )  # fmt: skip
        foot = frame.bottom - _PITCH * len(self.bands) - 1
        self.plot = Box(3.5, frame.top, canvas.width - 3.5, foot)
        halves = [half_of(band, self.cap) for band in self.bands] or [self.cap or 50.0]
        self.along = Along(sorted({*halves, self.cap / 2 or 1.0}), [], [], 3.5, canvas.width - 3.5)
        self.reach = max(halves)
        self.top = frame.top + (foot - frame.top) * 0.62
        self.rooms = Rooms(Box(0.5, frame.top, canvas.width - 0.5, foot))
        self._walls()
        self._cover()
        self._dimensions(foot)
        sited = marks.spread([one for tag in self.sheet.tags if (one := self._sited(tag))])
        marks.keep_clear(self.rooms, sited)
        left_out = marks.draw(canvas, self.rooms, sited, self.way.height)
        return canvas.svg(), left_out

    def _x(self, off: float) -> float:
        """Across the page, of a distance toward side A."""
        place = self.along.y(off * self.turn)
        return self.plot.left + self.plot.right - place

    def _off(self, tag: Tag) -> float | None:
        distance, side = (tag.offset.distance, tag.offset.side) if tag.offset else (None, "")
        return off_weld(SEAM, tag.on_weld, distance, side)

    def _sited(self, tag: Tag) -> marks.Sited | None:
        off = self._off(tag)
        if off is None or abs(off) > self.reach:
            return None
        inside = tag.surface == "inside"
        wall = self._wall("A" if off >= 0 else "B")
        at = Point(self._x(off), self.top + (wall if inside else 0.0))
        hang = Point(at.x, at.y + 3 if inside else self.top - self._covered - 2.0)
        name = self.names[tag.tag]
        if name == metrics.drawable(tag.tag) and tag.along is not None:
            name = f"{name}, {self.shown.tape(tag.along)}"
        return marks.Sited(tag, at, hang, 180 if inside else 0, name)

    # What is drawn ------------------------------------------------------------------------------

    def _wall(self, name: str) -> float:
        """The wall of a side on paper."""
        found: dict[str, float] = {}
        for side in self.sheet.joint.sides:
            if side.wall is not None and isinstance(side.wall.value, Quantity):
                found[side.name] = float(side.wall.value.value)
        if not found:
            return _THINNEST
        own = found.get(name, max(found.values()))
        return max(_THICKEST * own / max(found.values()), _THINNEST)

    def _walls(self) -> None:
        canvas, half = self.canvas, self.cap / 2
        for name, sign in (("A", 1), ("B", -1)):
            wall = self._wall(name)
            out, toe, root = (
                self._x(sign * distance) for distance in (self.reach, half, half * _ROOT)
            )
            ring = [
                Point(out, self.top),
                Point(toe, self.top),
                Point(root, self.top + wall),
                Point(out, self.top + wall),
            ]
            canvas.polygon(ring, WHITE, OUTLINE, 1)
            hatching.hatch(canvas, [ring], leftward=sign > 0, layer=1)
            at = Point(out, self.top + wall + TEXT + 1.2)
            anchor = "start" if out < self._x(0) else "end"
            canvas.text(at, f"side {name}", TEXT, anchor, bold=True)
        low = min(self._wall("A"), self._wall("B"))
        weld = [
            Point(self._x(half), self.top),
            Point(self._x(-half), self.top),
            Point(self._x(-half * _ROOT), self.top + low),
            Point(self._x(half * _ROOT), self.top + low),
        ]
        canvas.polygon(weld, PALE_GREY, OUTLINE, 2)
        hatching.hatch(canvas, [weld], 1.2, layer=2)
        hatching.hatch(canvas, [weld], 1.2, leftward=True, layer=2)
        deep = max(self._wall("A"), self._wall("B"))
        self.rooms.take(Box(0.5, self.top - self._covered, self.canvas.width, self.top + deep))

    @property
    def _covered(self) -> float:
        heated = any(band.name == "heated band" for band in self.bands)
        return (_GAP + _HEATER) * heated + (_GAP + _BLANKET) * self._is_insulated

    @property
    def _is_insulated(self) -> bool:
        heating = self.sheet.joint.entry.heating
        return heating is not None and heating.insulation is not None

    def _cover(self) -> None:
        """Heaters over the heated band, the blanket over the widest."""
        low = 0.0
        for name, thick, fill in (
            ("heated band", _HEATER, PALE_ORANGE),
            ("gradient band", _BLANKET, WHITE),
        ):
            band = next((one for one in self.bands if one.name == name), None)
            if band is None or (fill == WHITE and not self._is_insulated):
                continue
            half = half_of(band, self.cap)
            left, right = sorted((self._x(-half), self._x(half)))
            bottom = self.top - low - _GAP
            self.canvas.rectangle(Box(left, bottom - thick, right, bottom), fill, NARROW, 1)
            low += _GAP + thick

    def _dimensions(self, foot: float) -> None:
        for number, band in enumerate(self.bands, 1):
            half, begins = half_of(band, self.cap), self.cap / 2 if band.datum == EDGE else 0.0
            whole = band.total is not None
            width = self.shown.text(band.total if band.total is not None else band.each, UP)
            said = f"{band.name} {width}" if whole else f"{band.name}, each side {width}"
            left, right = sorted((self._x(-half if whole else begins), self._x(half)))
            y, edge = foot + _PITCH * number, self.top + self._wall("A")
            texts = (said, width) if whole else (said, f"{band.name}, each {width}")
            dimensions.row(self.canvas, y, edge, (left, right), texts, self.plot)

    # Words --------------------------------------------------------------------------------------

    def _items(self) -> list[Item]:
        items = legend.duty_items(self.sheet.tags)
        items.append(legend.area_item(WHITE, OUTLINE, "wall", hatched=True))
        items.append(legend.area_item(PALE_GREY, OUTLINE, "weld", hatched=True))
        if any(band.name == "heated band" for band in self.bands):
            items.append(legend.area_item(PALE_ORANGE, NARROW, "heaters"))
        if self._is_insulated:
            items.append(legend.area_item(WHITE, NARROW, "insulation"))
        return items

    def _notes(self) -> list[str]:
        not_told = [tag for tag in self.sheet.tags if self._off(tag) is None]
        notes = [
            f"Seen along the weld from {self.weld.start}. All thermocouples are shown on one "
            "section, each with its distance along the weld.",
            words.not_placed(not_told),
            self.way.note,
        ]
        return [" ".join(note for note in notes if note)]
