"""Axes of charts: linear scales, readable steps, ticks with their numbers."""

from __future__ import annotations

from collections.abc import Callable
from math import ceil, floor, log10
from typing import NamedTuple

from hts.base.quantities import TEMPERATURE, Quantity
from hts.job.outputs.show import sign
from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.style import FINE, NARROW, TEXT, Line

#: Steps people read without reckoning.
_ROUND = (1, 2, 2.5, 5, 10)
_MINUTE, _HOUR = 60, 3600
_TIMES = tuple(m * _MINUTE for m in (1, 2, 5, 10, 15, 30)) + tuple(
    h * _HOUR for h in (1, 2, 3, 4, 6, 12, 24, 48, 96, 168, 336)
)
_TICK = 1.2
_ROOM_BELOW, _ROOM_ABOVE = 1.5, 9.0
GRID = Line(0.13, (), "#bfbfbf")


class Scale(NamedTuple):
    """A straight scale: `low` lies at `start` and `high` at `end`, mm on paper."""

    low: float
    high: float
    start: float
    end: float

    def at(self, value: float) -> float:
        """The place of a value, mm on paper."""
        return self.start + (self.end - self.start) * (value - self.low) / (self.high - self.low)


def steps(low: float, high: float, room: float, apart: float) -> list[float]:
    """Multiples of a readable step from `low` to `high`, at least `apart` mm of `room` apart."""
    span = high - low
    if span <= 0 or room <= 0:
        return []
    least = span * apart / room
    power = 10.0 ** floor(log10(least))
    step = next(power * part for part in _ROUND if power * part >= least * (1 - 1e-9))
    return [
        round(number * step, 6)
        for number in range(ceil(low / step - 1e-9), floor(high / step + 1e-9) + 1)
    ]


def time_steps(seconds: float, room: float, apart: float) -> list[float]:
    """Elapsed times from 0, in steps of a clock, at least `apart` mm of `room` apart; seconds."""
    if seconds <= 0 or room <= 0:
        return [0.0]
    least = seconds * apart / room
    step = next((t for t in _TIMES if t >= least), None) or ceil(least / _TIMES[-1]) * _TIMES[-1]
    return [float(number * step) for number in range(floor(seconds / step) + 1)]


def time_text(seconds: float) -> str:
    """Elapsed time as on a clock: `2:30`."""
    minutes = round(seconds / _MINUTE)
    return f"{minutes // 60}:{minutes % 60:02d}"


def temperatures(low: float, high: float, plot: Box) -> Scale:
    """The scale of temperatures between two in °C, with room above and below for words."""
    return Scale(low, high, plot.bottom - _ROOM_BELOW, plot.top + _ROOM_ABOVE)


def temperature_axis(
    canvas: Canvas, scale: Scale, plot: Box, symbol: str, left: bool, apart: float = 9.0
) -> None:
    """Ticks at round numbers of a unit (`degC`, `degF`), at least `apart` mm from each other, on
    the left with a grid; the unit above.

    `scale` counts in °C whatever the unit.
    """
    low, high = (_to(value, symbol) for value in (scale.low, scale.high))
    edge, out = (plot.left, -1) if left else (plot.right, 1)
    for value in steps(low, high, abs(scale.end - scale.start), apart):
        y = scale.at(_from(value, symbol))
        if left:
            canvas.line(Point(plot.left, y), Point(plot.right, y), GRID, 0)
        canvas.line(Point(edge, y), Point(edge + out * _TICK, y), NARROW)
        at = Point(edge + out * (_TICK + 0.8), y + TEXT / 2)
        canvas.text(at, f"{value:g}", TEXT, "end" if left else "start")
    at = Point(edge + out * (_TICK + 0.8), plot.top - 2.0)
    canvas.text(at, sign(symbol), TEXT, "end" if left else "start")


def temperature_axes(canvas: Canvas, scale: Scale, plot: Box, symbols: tuple[str, ...]) -> None:
    """The governing unit on the left, the other, if there is one, on the right."""
    for symbol, left in zip(symbols[:2], (True, False), strict=False):
        temperature_axis(canvas, scale, plot, symbol, left)


def time_axis(
    canvas: Canvas,
    place: Callable[[float], float],
    seconds: list[float],
    plot: Box,
    say: Callable[[float], str] = time_text,
) -> None:
    """Ticks at elapsed times, `place` says where and `say` what they are called; no number covers
    the one before."""
    taken = float("-inf")
    for value in seconds:
        x = place(value)
        canvas.line(Point(x, plot.top), Point(x, plot.bottom), GRID, 0)
        canvas.line(Point(x, plot.bottom), Point(x, plot.bottom + _TICK), NARROW)
        text = say(value)
        half = len(text) * TEXT * 0.45
        if x - half >= taken:
            canvas.text(Point(x, plot.bottom + _TICK + 0.8 + TEXT), text, TEXT, "middle")
            taken = x + half


def box(canvas: Canvas, plot: Box) -> None:
    """The outline of a chart."""
    canvas.rectangle(plot, "none", FINE, layer=1)


def caption(canvas: Canvas, plot: Box, text: str) -> None:
    """What the time axis counts, below its numbers."""
    canvas.text(Point((plot.left + plot.right) / 2, plot.bottom + 8.0), text, TEXT, "middle")


def _to(celsius: float, symbol: str) -> float:
    return celsius * 1.8 + 32 if symbol == "degF" else celsius


def _from(value: float, symbol: str) -> float:
    return (value - 32) / 1.8 if symbol == "degF" else value


def celsius(value: Quantity) -> float:
    """A temperature as a number on the scale."""
    assert value.dimension is TEMPERATURE
    return float(value.value)
