"""The chart of a recorded run: traces over what was allowed, with failures and events marked."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from hts.base.quantities import TEMPERATURE
from hts.paper.drawings import axes, legend
from hts.paper.drawings.axes import Scale
from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.legend import Item
from hts.paper.drawings.style import (
    BLACK,
    BLUE,
    GREEN,
    GREY,
    HIDDEN,
    NARROW,
    ORANGE,
    PALE_ORANGE,
    PALER_ORANGE,
    SKY,
    SMALL,
    VERMILLION,
    Line,
)
from hts.paper.sheet import metrics
from hts.record.handover.words import event_words, failures, grouped, series_shown
from hts.record.judging import Judgement
from hts.record.judging.limits import least_hours, pieces
from hts.record.plan import COOL, HEAT
from hts.record.record import Floats, Series

_LEFT, _RIGHT = 14.0, 27.0
#: mm. Lanes for failures and events above the plot, and the pitch of the tags beside it.
_LANE, _LANES, _PITCH = 3.6, 4, 2.5
#: Traces are told apart by colour and dashes together, so that they are in black and white too.
_COLOURS = (BLUE, VERMILLION, GREEN, BLACK, ORANGE, SKY)
_DASHES: tuple[tuple[float, ...], ...] = (
    (),
    (2.0, 0.8),
    (0.6, 0.6),
    (3.0, 0.7, 0.6, 0.7),
)
_TRACE = 0.3
_FAILED = Line(1.1, (), VERMILLION)
_EVENT = Line(0.25, (0.5, 0.9), BLACK)
_COUNTED = "#e8f3ee"
#: mm of paper with one highest and one lowest reading of a trace.
_GRAIN = 0.25


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
        top = frame.top + 6.5 + _LANE * _LANES
        self.plot = Box(_LEFT, top, canvas.width - _RIGHT, frame.bottom - 8.5)
        self.scale = axes.temperatures(*self._reach(), self.plot)
        self.time = Scale(0.0, record.end, self.plot.left, self.plot.right)
        self._counted()
        axes.box(canvas, self.plot)
        axes.temperature_axis(canvas, self.scale, self.plot, self.symbols[0], True)
        times = axes.time_steps(record.end, self.plot.right - self.plot.left, 13.0)
        say, caption = axes.time_text, "hours:minutes since the record began"
        if record.start is not None:
            # An inspector compares the chart with the log and the shift book: by the clock.
            times, say = self._by_clock(times), lambda seconds: record.clock(seconds)[11:16]
            caption = f"hours:minutes by the clock of the record, from {record.clock(0.0)[:10]}"
        axes.time_axis(canvas, self.time.at, times, self.plot, say)
        axes.caption(canvas, self.plot, caption)
        self._allowed()
        self._traces()
        self._marked()
        return canvas.svg()

    def _by_clock(self, times: list[float]) -> list[float]:
        """Ticks as far apart as these, at full steps of the clock."""
        start = self.record.start
        if start is None or len(times) < 2:
            return times
        step = times[1] - times[0]
        of_day = start.hour * 3600 + start.minute * 60 + start.second
        first = -of_day % step
        count = int((self.record.end - first) / step) + 1 if first <= self.record.end else 0
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
                left, right = self.time.at(interval.start), self.time.at(interval.end)
                self.canvas.rectangle(Box(left, self.plot.top, right, self.plot.bottom), _COUNTED)

    def _allowed(self) -> None:
        """The ranges of the holds, and beside them the fastest way there and back."""
        record = self.record
        for clock in self.judgement.holds:
            start = clock.arrived if clock.arrived is not None else 0.0
            end = clock.left if clock.left is not None else record.end
            a, b = self._place(start, clock.high), self._place(end, clock.low)
            self.canvas.rectangle(Box(a.x, a.y, b.x, b.y), PALE_ORANGE)
            for y in (a.y, b.y):
                self.canvas.line(Point(a.x, y), Point(b.x, y), NARROW)
        hold = self.judgement.hold
        if hold is None or hold.arrived is None or hold.left is None:
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
            line = _line(index)
            for points in self._points(column):
                self.canvas.lines(points, line, 3)
            known = np.flatnonzero(~np.isnan(column.values))
            last = float(column.values[known[-1]]) if known.size else self.scale.low
            ends.append((self.scale.at(last), index))
        self._tags(ends)

    def _points(self, column: Series) -> list[list[Point]]:
        """The trace in stretches without a gap; where many readings share a fleck of paper, the
        highest and the lowest of them, so that no peak is lost."""
        times, values = self.record.elapsed, column.values
        width = (self.plot.right - self.plot.left) / _GRAIN
        if times.size > 2 * width:
            times, values = _thinned(times, values, self.record.end / width)
        broken = np.isnan(values)
        broken[1:] |= np.diff(times) > max(
            (gap.end - gap.start for gap in self.record.gaps), default=np.inf
        )
        found: list[list[Point]] = [[]]
        for seconds, celsius, stop in zip(
            times.tolist(), values.tolist(), np.isnan(values).tolist(), strict=True
        ):
            if stop:
                if found[-1]:
                    found.append([])
                continue
            found[-1].append(self._place(seconds, celsius))
        return [points for points in found if len(points) > 1]

    def _tags(self, ends: Sequence[tuple[float, int]]) -> None:
        """The tag of each trace beside its end, none over another."""
        wanted = sorted(ends)
        room = self.plot.bottom - self.plot.top + _LANE * _LANES
        pitch = min(_PITCH, room / max(1, len(wanted)))
        places = _spread([y for y, _ in wanted], pitch, self.plot.bottom)
        height = min(SMALL, pitch * 0.72)
        for (y, index), place in zip(wanted, places, strict=True):
            line = _line(index)
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


def _line(index: int) -> Line:
    colour = _COLOURS[index % len(_COLOURS)]
    return Line(_TRACE, _DASHES[(index // len(_COLOURS)) % len(_DASHES)], colour)


def _letter(number: int) -> str:
    """a, b … z, aa, ab …"""
    letter = chr(ord("a") + number % 26)
    return letter if number < 26 else _letter(number // 26 - 1) + letter


def _thinned(times: Floats, values: Floats, seconds: float) -> tuple[Floats, Floats]:
    """The highest and the lowest reading of every `seconds`, in their order; a stretch without a
    reading keeps one blank."""
    bins = (times / seconds).astype(np.int64)
    first = np.flatnonzero(np.r_[True, np.diff(bins) > 0])
    low = np.where(np.isnan(values), np.inf, values)
    high = np.where(np.isnan(values), -np.inf, values)
    least, most = np.minimum.reduceat(low, first), np.maximum.reduceat(high, first)
    blank = ~np.isfinite(least)
    pairs = np.stack([least, most], axis=1)
    rising = values[first] <= values[np.r_[first[1:], values.size] - 1]
    pairs[~rising] = pairs[~rising][:, ::-1]
    pairs[blank] = np.nan
    return np.repeat(times[first], 2), pairs.ravel()


def _spread(wanted: Sequence[float], pitch: float, bottom: float) -> list[float]:
    """Places at least `pitch` apart, as near to the rising `wanted` as a single pass down and one
    up make them, none below `bottom`."""
    places: list[float] = []
    for y in wanted:
        places.append(max(y, places[-1] + pitch) if places else y)
    limit = bottom
    for index in range(len(places) - 1, -1, -1):
        places[index] = min(places[index], limit)
        limit = places[index] - pitch
    return places
