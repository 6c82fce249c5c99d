"""The chart of a program: setpoint over elapsed time, and what the part may do."""

from __future__ import annotations

from itertools import groupby
from typing import NamedTuple

from hts.base.quantities import TEMPERATURE, Quantity
from hts.job.compiler.job import Job, JointSheet, Run
from hts.job.compiler.steps import HOLD
from hts.job.outputs.show import DOWN, UP, Shown, duration
from hts.paper.drawings import axes, legend
from hts.paper.drawings.axes import celsius
from hts.paper.drawings.canvas import LEAST, LEAST_BARE, Box, Canvas, Point
from hts.paper.drawings.cycle_words import key_lines, window_text
from hts.paper.drawings.legend import Item
from hts.paper.drawings.place import Rooms
from hts.paper.drawings.style import (
    BLACK,
    HIDDEN,
    LEADER,
    NARROW,
    PALE_ORANGE,
    PALER_ORANGE,
    TEXT,
    VERMILLION,
    WHITE,
    Line,
)
from hts.paper.drawings.track import Stretch, Track
from hts.paper.sheet import metrics

SETPOINT = Line(0.7)
STANDING = Line(0.7, (0.7, 1.2))
ALARM = Line(0.35, (4.0, 0.8, 0.35, 0.8), VERMILLION)
COUNTS = Line(0.25, (0.25, 0.9))
_LINE, _HANG = 1.6, 7.0  # of the key: pitch of its lines in letters, where its words begin
_OFF_LINE = 0.9  # of words on a level line
_KEY = 0.34  # most of the height given to the key
_LEFT, _RIGHT = 14.0, 15.0


def cycle_chart(
    job: Job,
    sheet: JointSheet,
    run: Run,
    size: tuple[float, float],
    of: str = "",
    *,
    bare: bool = False,
) -> str:
    """SVG of the chart of one run; `size` is width and height of the picture, mm.

    `of` names the joints, where it is the chart of several; one that is `bare` stands beside its
    table, under its heading, and has neither title block nor the steps in words.
    """
    return _View(job, sheet, run, size, of or sheet.joint.name, bare).draw()


class Alarm(NamedTuple):
    """An alarm above or below a temperature, and where it is on, mm on paper."""

    at: Quantity
    below: bool
    left: float
    right: float


class _View:
    def __init__(
        self,
        job: Job,
        sheet: JointSheet,
        run: Run,
        size: tuple[float, float],
        of: str,
        bare: bool,
    ) -> None:
        self.job, self.sheet, self.program, self.bare = job, sheet, run.program, bare
        shown = Shown(job.units)
        # Where room is short, in the unit that is set; the table beside it has the other one.
        self.shown = shown.led_by(run.program.unit).single() if bare else shown
        self.title = f"Joint{'s' if ', ' in of else ''} {of}: {run.program.name}, cycle chart"
        self.canvas = Canvas(*size, self.title, LEAST_BARE if bare else LEAST)
        self.symbols = job.units.symbols(TEMPERATURE)

    def draw(self) -> str:
        canvas, steps = self.canvas, self.program.steps
        frame = legend.frame(
            canvas,
            "" if self.bare else self.title,
            self._subtitle(),
            self.job.document,
            self._items(),
            self._notes(),
        )
        bottom = frame.bottom if self.bare else self._key(frame.bottom)
        right = canvas.width - (_RIGHT if len(self.symbols) > 1 else 4.0)
        self.plot = Box(_LEFT, frame.top + 5.5, right, bottom - 9.5)
        self.scale = axes.temperatures(*self._reach(), self.plot)
        self.track = Track(steps, self.plot.left + 2, self.plot.right - 2)
        self.rooms = Rooms(self.plot.grown(-0.6))
        axes.box(canvas, self.plot)
        axes.temperature_axes(canvas, self.scale, self.plot, self.symbols)
        self._time_axis()
        for stretch in self.track.stretches:
            self._envelope(stretch)
        for stretch in self.track.stretches:
            self._setpoint(stretch)
        # What belongs to a line first, then what can be led to its place from anywhere.
        self._alarm_words(self._alarm_lines())
        self._holds()
        self._control()
        self._numbers()
        if not self.bare:
            self._counting()
        return canvas.svg()

    # Scales -------------------------------------------------------------------------------------

    def _reach(self) -> tuple[float, float]:
        """The lowest and highest temperature on the chart, °C."""
        found = []
        for step in self.program.steps:
            found += [step.start, step.end, step.alarm_high]
            if step.window is not None:
                found += [step.window.low, step.window.high]
        values = [celsius(value) for value in found if value is not None]
        return min(*values, 0.0), max(values)

    def _y(self, temperature: float) -> float:
        return self.scale.at(temperature)

    def _low_end(self, stretch: Stretch) -> float:
        """The end of a stretch; one that cools to nowhere stated goes most of the way down."""
        if stretch.end is not None:
            return stretch.end
        return self.scale.low + 0.35 * (stretch.start - self.scale.low)

    def _time_axis(self) -> None:
        track = self.track
        if not track.total:
            axes.caption(self.canvas, self.plot, "no time is programmed")
            return
        times = axes.time_steps(track.total, track.total * track.per_second, 11.0)
        axes.time_axis(self.canvas, track.x, times, self.plot)
        axes.caption(self.canvas, self.plot, "elapsed time, hours:minutes")

    # What is drawn ------------------------------------------------------------------------------

    def _envelope(self, stretch: Stretch) -> None:
        """The hold range; of a ramp, what lies between the setpoint and the fastest allowed."""
        canvas, step = self.canvas, stretch.step
        if step.window is not None:
            assert step.window.low is not None and step.window.high is not None
            top, bottom = (self._y(celsius(t)) for t in (step.window.high, step.window.low))
            box = Box(stretch.left, top, stretch.right, bottom)
            canvas.rectangle(box, PALE_ORANGE)
            self.rooms.take_mark(box)
            for y in (top, bottom):
                canvas.line(Point(stretch.left, y), Point(stretch.right, y), NARROW)
        if step.limit is None or stretch.end is None or stretch.seconds is None:
            return
        fastest = abs(stretch.end - stretch.start) / float(step.limit.value) * 3600
        begin = Point(stretch.left, self._y(stretch.start))
        end = Point(stretch.left + fastest * self.track.per_second, self._y(stretch.end))
        canvas.polygon((begin, end, Point(stretch.right, end.y)), PALER_ORANGE)
        canvas.line(begin, end, HIDDEN, 2)

    def _setpoint(self, stretch: Stretch) -> None:
        start = Point(stretch.left, self._y(stretch.start))
        end = Point(stretch.right, self._y(self._low_end(stretch)))
        line = SETPOINT if stretch.seconds is not None else STANDING
        self.canvas.line(start, end, line, 3)
        # A band of boxes along the line, so that no words cover it.
        pieces = max(int(max(abs(end.x - start.x), abs(end.y - start.y)) / 2), 1)
        for number in range(pieces):
            a, b = (
                Point(
                    start.x + (end.x - start.x) * part / pieces,
                    start.y + (end.y - start.y) * part / pieces,
                )
                for part in (number, number + 1)
            )
            self.rooms.take_mark(Box(a.x, min(a.y, b.y), b.x, max(a.y, b.y)).grown(0.5))

    def _numbers(self) -> None:
        """The number of each step, in a circle beside it."""
        for stretch in self.track.stretches:
            at = self._middle(stretch)
            text = str(stretch.step.number)
            wide = max(metrics.width(text, TEXT) + 1.6, 4.4)
            rising = stretch.end is not None and stretch.end > stretch.start
            spot = self.rooms.place(at, wide, 4.4, 300 if rising else 60)
            if spot is None:
                continue
            self.canvas.line(at, spot.end, LEADER, 3)
            centre = Point(
                (spot.box.left + spot.box.right) / 2, (spot.box.top + spot.box.bottom) / 2
            )
            self.canvas.circle(centre, wide / 2, WHITE, NARROW, 4)
            self.canvas.text(Point(centre.x, centre.y + TEXT / 2), text, TEXT, "middle")

    def _middle(self, stretch: Stretch) -> Point:
        return Point(
            (stretch.left + stretch.right) / 2,
            (self._y(stretch.start) + self._y(self._low_end(stretch))) / 2,
        )

    def _holds(self) -> None:
        last_text = ""
        for stretch in self.track.stretches:
            window = stretch.step.window
            if window is None:
                continue
            assert window.low is not None and window.high is not None
            text = f"hold {window_text(window, self.shown)}"
            if text != last_text:
                low, high = self._y(celsius(window.low)), self._y(celsius(window.high))
                side = Point(stretch.left, (low + high) / 2)
                self._on_line(stretch.left, stretch.right, low, text, True, side)
            last_text = text

    def _alarm_lines(self) -> list[Alarm]:
        """Draws the lines of the alarms, and returns them for their words."""
        found = []
        for below in (False, True):
            limits = [
                s.step.alarm_low if below else s.step.alarm_high for s in self.track.stretches
            ]
            pairs = zip(limits, self.track.stretches, strict=True)
            for at, group in groupby(pairs, key=lambda pair: pair[0]):
                if at is not None:
                    part = [stretch for _, stretch in group]
                    found.append(Alarm(at, below, part[0].left, part[-1].right))
        for alarm in found:
            y = self._y(celsius(alarm.at))
            self.canvas.line(Point(alarm.left, y), Point(alarm.right, y), ALARM, 2)
            self.rooms.take_mark(Box(alarm.left, y - 0.3, alarm.right, y + 0.3))
        return found

    def _alarm_words(self, alarms: list[Alarm]) -> None:
        for alarm in alarms:
            name, toward = ("below", UP) if alarm.below else ("above", DOWN)
            text = f"alarm {name} {self.shown.text(alarm.at, toward)}"
            self._on_line(alarm.left, alarm.right, self._y(celsius(alarm.at)), text, alarm.below)

    def _counting(self) -> None:
        """From which temperature the rate limits count."""
        found = {s.counts_from.value: s.counts_from for s in self.program.steps if s.counts_from}
        for value in sorted(found):
            y = self._y(float(value))
            self.canvas.line(Point(self.plot.left, y), Point(self.plot.right, y), COUNTS, 2)
            text = f"rates limited above {self.shown.text(found[value])}"
            self._on_line(self.plot.left, self.plot.right, y, text, False)

    def _control(self) -> None:
        for field, cooling in (("start_control", False), ("end_control", True)):
            at = getattr(self.program.entry, field, None)
            if at is None:
                continue
            found = self.track.first(celsius(at), cooling)
            if found is None:
                found = (self.track.stretches[0].left, celsius(at)) if not cooling else None
            if found is None:
                continue
            point = Point(found[0], self._y(found[1]))
            self.canvas.circle(point, 1.0, BLACK, layer=4)
            text = f"{'end' if cooling else 'start'} of control {self.shown.text(at)}"
            self._word(point, text, 225 if cooling else 120)

    def _on_line(
        self,
        left: float,
        right: float,
        y: float,
        text: str,
        below: bool,
        other: Point | None = None,
    ) -> None:
        """Words on a level line from `left` to `right` where there is room, else led to its
        middle or to another point, if it can be on the same side of the line: beyond another line
        they would seem to be that line's."""
        wide, high = metrics.width(text, TEXT), TEXT * 1.65
        top = y + _OFF_LINE if below else y - _OFF_LINE - high
        x = left + 1.0
        while x + wide <= right:
            box = Box(x, top, x + wide, top + high)
            if self.rooms.claim(box):
                self.canvas.text(Point(box.left, box.bottom - 0.95), text, ground=True)
                return
            x += 2.0
        side = self.plot._replace(top=y) if below else self.plot._replace(bottom=y)
        self._word(other or Point((left + right) / 2, y), text, 180 if below else 0, side)

    def _word(self, at: Point, text: str, preferred: float, side: Box | None = None) -> None:
        wide, high = metrics.width(text, TEXT), TEXT * 1.65
        spot = self.rooms.place(at, wide, high, preferred, side)
        if spot is None and side is not None:
            spot = self.rooms.place(at, wide, high, preferred)
        if spot is not None:
            self.canvas.line(at, spot.end, LEADER, 3)
            self.canvas.text(Point(spot.box.left, spot.box.bottom - 0.95), text, ground=True)

    def _key(self, bottom: float) -> float:
        """The steps in words, below the chart; returns where they begin."""
        words = key_lines(self.program.steps, self.shown)
        lines = [
            (str(step.number), line) for step, line in zip(self.program.steps, words, strict=True)
        ]
        note = self.canvas.note
        pitch = note * _LINE
        most = max(int(self.canvas.height * _KEY / pitch), 3)
        if len(lines) > most:
            rest = ("", f"steps {most} to {len(lines)}: see the setpoint table")
            lines = [*lines[: most - 1], rest]
        top = bottom - pitch * len(lines)
        for row, (number, line) in enumerate(lines, 1):
            y = top + pitch * row - 0.9
            text = metrics.shortened(line, note, self.canvas.width - _HANG - 0.5)
            self.canvas.text(Point(_HANG - 1.5, y), number, note, "end", bold=True)
            self.canvas.text(Point(_HANG, y), text, note)
        return top

    # Legend and notes ---------------------------------------------------------------------------

    def _subtitle(self) -> list[str]:
        program = self.program
        purpose = getattr(program.entry, "purpose", None)
        zones = ", ".join(row.name for row in program.zones)
        return [purpose or program.kind, f"{'zones' if len(program.zones) > 1 else 'zone'} {zones}"]

    def _items(self) -> list[Item]:
        steps = self.program.steps
        # Where room is short, holds and alarms are named where they are drawn.
        items = [legend.line_item(SETPOINT, "setpoint")]
        if any(step.times.duration is None for step in steps):
            items.append(legend.line_item(STANDING, "no time programmed"))
        if any(step.limit is not None for step in steps):
            items.append(legend.area_item(PALER_ORANGE, HIDDEN, "allowed, to the fastest rate"))
        if self.bare:
            return items
        if any(step.action == HOLD for step in steps):
            items.append(legend.area_item(PALE_ORANGE, NARROW, "hold range"))
        if any(step.alarm_high is not None or step.alarm_low is not None for step in steps):
            items.append(legend.line_item(ALARM, "alarm"))
        return items

    def _notes(self) -> list[str]:
        total = sum(step.times.duration or 0 for step in self.program.steps)
        notes = [f"Programmed time {duration(total)}." if total else ""]
        if total and any(step.times.duration is None for step in self.program.steps):
            notes.append("Where the line is dotted the clock of this chart stands.")
        return [" ".join(note for note in notes if note)]
