"""The chart of a recorded run: traces over what was allowed, with failures and events marked."""

from __future__ import annotations

from collections.abc import Sequence
from math import isnan

import numpy as np

from hts.base.quantities import TEMPERATURE
from hts.job.outputs.show import sign
from hts.paper.drawings import axes, legend
from hts.paper.drawings.axes import Scale
from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.legend import Item
from hts.paper.drawings.style import (
    BLACK,
    GREY,
    HIDDEN,
    NARROW,
    PALE_ORANGE,
    PALER_ORANGE,
    SMALL,
    TEXT,
    VERMILLION,
    Line,
)
from hts.paper.sheet import metrics
from hts.record.handover import traces
from hts.record.handover.words import event_words, failures, grouped, series_shown
from hts.record.judging import Judgement
from hts.record.judging.limits import least_hours, pieces
from hts.record.judging.words import Words
from hts.record.plan import COOL, HEAT
from hts.record.record import LEFT_OUT, Floats, Series

_LEFT, _RIGHT = 14.0, 27.0
#: mm. Lanes for failures and events above the plot, and the pitch of the tags beside it.
_LANE, _LANES, _PITCH = 3.6, 4, 2.5
_FAILED = Line(1.1, (), VERMILLION)
_EVENT = Line(0.25, (0.5, 0.9), BLACK)
_COUNTED = "#e8f3ee"
#: mm of paper with one highest and one lowest reading of a trace.
_GRAIN = 0.25
#: Part of the height for the whole run where the hold has a panel of its own, and the room, mm,
#: between the two.
_WHOLE, _BETWEEN = 0.48, 12.0
#: mm below the coldest trace for the letters of events, and between ticks, as near as they can be.
_LETTERS, _TICKS = 3.5, 4.4
#: Part of the hold that is shown before and after it.
_BESIDE = 0.06
#: K between two lines of the grid of the hold.
_GRID_STEP = 10.0
#: Part of a panel that a trace must end before its edge to be named where it ends.
_LOST = 0.03
_ASIDE = Line(0.18, (0.5, 0.5), GREY)


def chart(judgement: Judgement, size: tuple[float, float]) -> str:
    """SVG; `size` is width and height of the picture, mm."""
    return _View(judgement, size).draw()


class _View:
    def __init__(self, judgement: Judgement, size: tuple[float, float]) -> None:
        self.judgement, self.plan, self.record = judgement, judgement.plan, judgement.record
        simulated = "SIMULATED: " if self.record.simulated else ""
        self.title = f"{simulated}Joint {self.plan.joint}: {self.plan.name}, recorded run"
        self.canvas = Canvas(*size, self.title)
        self.symbols = self.plan.job.units.symbols(TEMPERATURE)
        self.series = series_shown(judgement)
        self.failures = failures(judgement)

    def draw(self) -> str:
        canvas, record = self.canvas, self.record
        frame = legend.frame(
            canvas,
            self.title,
            (f"{record.clock(0.0)} to {record.clock(record.end)}, clock of the record",),
            self.plan.job.document,
            self._items(),
            self._notes(),
        )
        top, bottom = frame.top + 6.5 + _LANE * _LANES, frame.bottom - 8.5
        held = self._held()
        split = top + (bottom - top) * (_WHOLE if held is not None else 1.0)
        self.whole = Box(_LEFT, top, canvas.width - _RIGHT, split)
        self._panel(self.whole, (0.0, record.end), self._reach(), False)
        self._marked()
        if held is not None:
            box = Box(_LEFT, split + _BETWEEN, canvas.width - _RIGHT, bottom)
            self._panel(box, held, self._reach_held(held), True)
        return canvas.svg()

    def _panel(
        self, box: Box, during: tuple[float, float], reach: tuple[float, float], hold: bool
    ) -> None:
        """One chart: the stretch of time `during`, s, and of temperature `reach`, degC."""
        canvas, record = self.canvas, self.record
        self.plot, self.during = box, during
        self.scale = Scale(*reach, box.bottom - (0.0 if hold else _LETTERS), box.top)
        self.time = Scale(*during, box.left, box.right)
        self._counted()
        axes.box(canvas, box)
        if hold:
            self._close_grid()
        else:
            axes.temperature_axis(canvas, self.scale, box, self.symbols[0], True, _TICKS)
        first = during[0]
        times = [first + t for t in axes.time_steps(during[1] - first, box.right - box.left, 13.0)]
        say, caption = axes.time_text, "hours:minutes since the record began"
        if record.start is not None:
            # An inspector compares the chart with the log and the shift book: by the clock.
            times, say = self._by_clock(times), lambda seconds: record.clock(seconds)[11:16]
            caption = f"hours:minutes by the clock of the record, from {record.clock(first)[:10]}"
        axes.time_axis(canvas, self.time.at, times, box, say)
        axes.caption(canvas, box, f"{caption}: the hold" if hold else caption)
        self._allowed(hold)
        self._set_aside()
        self._traces()

    def _held(self) -> tuple[float, float] | None:
        """s, the hottest hold with a little before and after; None where no one was in range."""
        hold = self.judgement.hold
        if hold is None:
            return None
        # From when any of those that must be in range was, until the last of them was: also where
        # one was lost, and where they never were all.
        inside = np.zeros(self.record.elapsed.size, dtype=bool)
        for column in self._required():
            inside |= (column.values >= hold.low) & (column.values <= hold.high)
        rows = np.flatnonzero(inside)
        if len(rows) < 2:
            return None
        first, last = (float(self.record.elapsed[row]) for row in (rows[0], rows[-1]))
        beside = (last - first) * _BESIDE
        return max(0.0, first - beside), min(self.record.end, last + beside)

    def _required(self) -> list[Series]:
        tags = {one.tag for one in self.plan.required}
        return [column for column in self.series if column.tag in tags]

    def _reach_held(self, held: tuple[float, float]) -> tuple[float, float]:
        """degC, the range of the hold and what was read beside it, as far as it can be told
        apart on paper."""
        hold = self.judgement.hold
        assert hold is not None
        room = max(hold.high - hold.low, _GRID_STEP)
        rows = self.record.between(hold.arrived or held[0], hold.left or held[1])
        ends = [hold.low, hold.high]
        for column in self._required():
            values = column.values[rows][~np.isnan(column.values[rows])]
            ends += [float(values.min()), float(values.max())] if values.size else []
        low = max(min(ends), hold.low - room) - _GRID_STEP
        return low, min(max(ends), hold.high + room) + _GRID_STEP

    def _close_grid(self) -> None:
        """A line every 10 K, as on the paper charts a hold is read from; a number where there is
        room for one."""
        symbol = self.symbols[0]
        factor, shift, step = (1.8, 32.0, 20.0) if symbol == "degF" else (1.0, 0.0, _GRID_STEP)
        first = np.ceil((self.scale.low * factor + shift) / step) * step
        values = np.arange(first, self.scale.high * factor + shift + 1e-6, step)
        taken = float("inf")
        for value in values.tolist():
            y = self.scale.at((value - shift) / factor)
            left, right = Point(self.plot.left, y), Point(self.plot.right, y)
            self.canvas.line(left, right, axes.GRID, 1)
            if taken - y >= TEXT * 1.3:
                at = Point(self.plot.left - 2.0, y + TEXT / 2)
                self.canvas.text(at, f"{value:g}", TEXT, "end")
                taken = y

    def _by_clock(self, times: list[float]) -> list[float]:
        """Ticks as far apart as these, at full steps of the clock."""
        start = self.record.start
        if start is None or len(times) < 2:
            return times
        step = times[1] - times[0]
        of_day = start.hour * 3600 + start.minute * 60 + start.second
        first = self.during[0] + -(of_day + self.during[0]) % step
        count = int((self.during[1] - first) / step) + 1 if first <= self.during[1] else 0
        return [first + number * step for number in range(count)]

    # Scales -------------------------------------------------------------------------------------

    def _reach(self) -> tuple[float, float]:
        """degC: from the coldest trace or zero to above the hottest trace and the hold range."""
        values = [column.values[~np.isnan(column.values)] for column in self.series]
        ends = [float(end) for some in values if some.size for end in (some.min(), some.max())]
        ends += [clock.high for clock in self.judgement.holds]
        return min([0.0, *ends]), max([100.0, *ends]) + 10.0

    def _place(self, seconds: float, celsius: float) -> Point:
        return Point(self.time.at(seconds), self.scale.at(celsius))

    # What was allowed ---------------------------------------------------------------------------

    def _counted(self) -> None:
        """When the hold counted, over the whole height."""
        for clock in self.judgement.holds:
            for interval in clock.intervals:
                start, end = self._cut(interval.start, interval.end)
                if start >= end:
                    continue
                left, right = self.time.at(start), self.time.at(end)
                self.canvas.rectangle(Box(left, self.plot.top, right, self.plot.bottom), _COUNTED)

    def _cut(self, start: float, end: float) -> tuple[float, float]:
        """A stretch of time as far as the panel shows it."""
        return max(start, self.during[0]), min(end, self.during[1])

    def _allowed(self, named: bool) -> None:
        """The ranges of the holds, and beside them the fastest way there and back; in the panel
        of the hold its range alone, with its ends `named`."""
        record = self.record
        holds = self.judgement.holds
        hottest = self.judgement.hold
        for clock in holds if not named or hottest is None else (hottest,):
            start = clock.arrived if clock.arrived is not None else 0.0
            end = clock.left if clock.left is not None else record.end
            start, end = self._cut(start, end)
            a, b = self._place(start, clock.high), self._place(end, clock.low)
            self.canvas.rectangle(Box(a.x, a.y, b.x, b.y), PALE_ORANGE)
            if named:
                words = Words(self.plan.job.units)
                for y, word, edge in ((a.y - 0.7, "highest", clock.high),
                                      (b.y + SMALL + 0.7, "lowest", clock.low)):  # fmt: skip
                    text = f"{word} in the hold {' '.join(map(sign, words.edge(edge).split()))}"
                    self.canvas.text(Point(a.x + 1.0, y), text, SMALL, ground=True)
            for y in (a.y, b.y):
                # In the panel of the hold its ends go right across: also for what came too late.
                left, right = (self.plot.left, self.plot.right) if named else (a.x, b.x)
                self.canvas.line(Point(left, y), Point(right, y), NARROW)
        hold = self.judgement.hold
        if named or hold is None or hold.arrived is None or hold.left is None:
            return
        self._fastest(HEAT, hold.arrived, hold.low, -1)
        self._fastest(COOL, hold.left, hold.low, +1)

    def _fastest(self, action: str, at: float, edge: float, way: int) -> None:
        """The line of the fastest rate through the edge of the hold, back to where heating began
        or on to where the limit ends; a trace beside the shaded side went faster."""
        limits = pieces(self.plan, action)
        if not limits:
            return
        low = limits[0].low
        if low >= edge:
            return
        grid = np.linspace(low, edge, 24)
        hours = least_hours(grid, limits)
        seconds = at + way * (hours[-1] - hours) * 3600
        inside = (seconds >= 0) & (seconds <= self.record.end)
        points = [
            self._place(float(s), float(t))
            for s, t in zip(seconds[inside], grid[inside], strict=True)
        ]
        if len(points) < 2:
            return
        foot = Point(self.plot.left if way < 0 else self.plot.right, points[0].y)
        corner = Point(foot.x, points[-1].y)
        self.canvas.polygon((*points, corner, foot), PALER_ORANGE, layer=-1)
        self.canvas.lines(points, HIDDEN, 2)

    # What was recorded --------------------------------------------------------------------------

    def _traces(self) -> None:
        ends: list[tuple[float, int]] = []
        for index, column in enumerate(self.series):
            line = traces.line(index)
            for points in self._points(column.values):
                self.canvas.lines(points, line, 3)
            rows = self.record.between(*self.during)
            known = np.flatnonzero(~np.isnan(column.values[rows])) + rows.start
            if not known.size:
                continue  # named where it ended, or in the report
            last = float(self.record.elapsed[known[-1]])
            at = self._place(last, float(column.values[known[-1]]))
            if self.during[1] - last > _LOST * (self.during[1] - self.during[0]):
                self._lost(at, index)
            elif self.plot.top <= at.y <= self.plot.bottom:
                ends.append((at.y, index))
        self._tags(ends)

    def _lost(self, at: Point, index: int) -> None:
        """A trace that ends before the rest is named there, not at the edge."""
        y = min(max(at.y, self.plot.top + SMALL), self.plot.bottom - 1.0)
        colour = traces.line(index).colour
        self.canvas.circle(Point(at.x, y), 0.6, colour)
        tag = metrics.shortened(metrics.drawable(self.series[index].tag), SMALL, 20.0)
        at = Point(at.x + 1.2, y - 0.8)
        self.canvas.text(at, f"{tag} ends", SMALL, colour=colour, bold=True, ground=True)

    def _set_aside(self) -> None:
        """What faults set aside, thin and grey; beyond the scale it is drawn at its edge."""
        low, high = self.scale.low, self.scale.high
        for column in self.series:
            if column.raw is None:
                continue
            aside = (column.status == LEFT_OUT) & ~np.isnan(column.raw)
            values = np.where(aside, np.clip(column.raw, low, high), np.nan)
            for points in self._points(values):
                self.canvas.lines(points, _ASIDE, 2)

    def _points(self, values: Floats) -> list[list[Point]]:
        """The trace in stretches without a gap; where many readings share a fleck of paper, the
        highest and the lowest of them, so that no peak is lost."""
        rows = self.record.between(*self.during)
        times, values = self.record.elapsed[rows], values[rows]
        # What lies beyond the panel of the hold is in the other.
        seen = (values >= self.scale.low) & (values <= self.scale.high)
        values = np.where(seen, values, np.nan)
        if times.size < 2:
            return []
        width = (self.plot.right - self.plot.left) / _GRAIN
        if times.size > 2 * width:
            times, values = traces.thinned(times, values, (self.during[1] - self.during[0]) / width)
        # No line where no rows are: nobody read what it would show.
        ends = {int(row) for row in np.searchsorted(times, [gap.end for gap in self.record.gaps])}
        found: list[list[Point]] = [[]]
        read = zip(times.tolist(), values.tolist(), strict=True)
        for row, (seconds, celsius) in enumerate(read):
            if row in ends or isnan(celsius):
                found.append([])
            if not isnan(celsius):
                found[-1].append(self._place(seconds, celsius))
        return [points for points in found if len(points) > 1]

    def _tags(self, ends: Sequence[tuple[float, int]]) -> None:
        """The tag of each trace beside its end, none over another."""
        wanted = sorted(ends)
        room = self.plot.bottom - self.plot.top
        pitch = min(_PITCH, room / max(1, len(wanted)))
        places = traces.spread([y for y, _ in wanted], pitch, self.plot.bottom)
        height = min(SMALL, pitch * 0.72)
        for (y, index), place in zip(wanted, places, strict=True):
            line = traces.line(index)
            x = self.plot.right
            self.canvas.lines((Point(x, y), Point(x + 3.5, place), Point(x + 9.5, place)), line, 3)
            room_left = self.canvas.width - x - 10.5
            tag = metrics.shortened(metrics.drawable(self.series[index].tag), height, room_left)
            self.canvas.text(Point(x + 10.2, place + height / 2), tag, height)

    def _marked(self) -> None:
        """Failures in lanes above the plot, numbered as in the report; events as lines."""
        taken = [float("-inf")] * _LANES
        for first, last, start, end in grouped(self.failures):
            left, right = self.time.at(start), self.time.at(end)
            text = str(first) if first == last else f"{first}–{last}"
            wide = max(right - left, metrics.width(text, SMALL) + 1.0)
            lane = next((i for i, end in enumerate(taken) if end <= left), None)
            if lane is None:
                continue  # told in the report all the same
            taken[lane] = left + wide + 0.8
            y = self.plot.top - 1.4 - _LANE * lane
            self.canvas.line(Point(left, y), Point(max(right, left + 0.5), y), _FAILED, 4)
            at = Point(left, y - 0.8)
            self.canvas.text(at, text, SMALL, colour=VERMILLION, bold=True)
        for number, event in enumerate(self.record.events):
            x = self.time.at(min(max(event.at, 0.0), self.record.end))
            self.canvas.line(Point(x, self.plot.top), Point(x, self.plot.bottom), _EVENT, 2)
            letter = _letter(number)
            self.canvas.text(
                Point(x + 0.6, self.plot.bottom - 1.0), letter, SMALL, bold=True, ground=True
            )

    # Words --------------------------------------------------------------------------------------

    def _items(self) -> list[Item]:
        items = []
        if self.judgement.holds:
            items += [
                legend.area_item(PALE_ORANGE, NARROW, "range of the hold"),
                legend.area_item(_COUNTED, Line(0.13, (), GREY), "the hold counted"),
            ]
        if pieces(self.plan, HEAT) or pieces(self.plan, COOL):
            items.append(legend.area_item(PALER_ORANGE, HIDDEN, "allowed, to the fastest rate"))
        if any((column.status == LEFT_OUT).any() for column in self.series):
            items.append(legend.line_item(_ASIDE, "set aside as faulty"))
        if self.failures:
            items.append(legend.line_item(_FAILED, "not met or not shown, numbered"))
        if self.record.events:
            items.append(legend.line_item(_EVENT, "event"))
        return items

    def _notes(self) -> list[str]:
        events = "; ".join(
            f"{_letter(number)} {event_words(event)}"
            for number, event in enumerate(self.record.events)
        )
        return [f"Events: {events}." if events else "Every trace is named beside its end."]


def _letter(number: int) -> str:
    """a, b … z, aa, ab …"""
    letter = chr(ord("a") + number % 26)
    return letter if number < 26 else _letter(number // 26 - 1) + letter
