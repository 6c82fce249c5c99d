"""A comparison as a picture, and as pages of the report."""

from __future__ import annotations

import numpy as np

from hts.job.compiler.document import Document
from hts.paper.drawings import axes, legend
from hts.paper.drawings.axes import Scale
from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.style import BLACK, BLUE, GREEN, ORANGE, SKY, SMALL, TEXT, VERMILLION, Line
from hts.paper.packet import tables
from hts.paper.packet.pages import Pages
from hts.predict.told import LIMITS, MODEL, NOT_FOR, PREDICTION
from hts.record.expected.comparison import Comparison, Trace
from hts.record.expected.words import HEADS, bore_words, residuals
from hts.record.record import Floats

_COLOURS = (BLUE, VERMILLION, GREEN, BLACK, ORANGE, SKY)
_RECORDED, _PREDICTED = 0.35, 0.35
_DASH = (2.0, 1.0)
_SHARE = 0.34


def picture(
    comparison: Comparison, document: Document, name: str, size: tuple[float, float]
) -> str:
    """SVG: recorded as lines and predicted as dashes above, what they differ by below."""
    canvas = Canvas(*size, f"{name}: predicted against recorded")
    told = [trace for trace in comparison.traces if not trace.controls]
    items = [
        legend.line_item(Line(_RECORDED), "recorded"),
        legend.line_item(Line(_PREDICTED, _DASH), "predicted"),
        *(
            legend.line_item(Line(_RECORDED, colour=_COLOURS[k % len(_COLOURS)]), trace.tag)
            for k, trace in enumerate(told)
        ),
    ]
    frame = legend.frame(
        canvas, f"{name}: predicted against recorded", [*comparison.notes[:2]], document, items,
        [PREDICTION],
    )  # fmt: skip
    split = frame.bottom - 9.5 - (frame.bottom - frame.top) * _SHARE
    upper = Box(14.0, frame.top + 5.5, canvas.width - 12.0, split - 4.0)
    lower = Box(14.0, split + 2.0, canvas.width - 12.0, frame.bottom - 9.5)
    along = Scale(0.0, float(comparison.seconds[-1]), upper.left, upper.right)
    known = [np.concatenate((t.recorded, t.predicted)) for t in told] or [np.array([0.0, 100.0])]
    top = float(np.nanmax(np.concatenate(known)))
    heat = axes.temperatures(0.0, max(top, 100.0), upper)
    off = [trace.recorded - trace.predicted for trace in told]
    most = max((float(np.nanmax(np.abs(o))) for o in off if np.isfinite(o).any()), default=5.0)
    most = max(5.0, most) * 1.05
    difference = Scale(-most, most, lower.bottom, lower.top)
    for box in (upper, lower):
        axes.box(canvas, box)
    axes.temperature_axis(canvas, heat, upper, "degC", left=True)
    for value in axes.steps(-most, most, lower.bottom - lower.top, 7.0):
        y = difference.at(value)
        canvas.line(Point(lower.left, y), Point(lower.right, y), axes.GRID, 0)
        canvas.text(Point(lower.left - 2.0, y + TEXT / 2), f"{value:+g}", TEXT, "end")
    canvas.text(Point(lower.left - 2.0, lower.top - 1.0), "K", TEXT, "end")
    ticks = axes.time_steps(float(comparison.seconds[-1]), lower.right - lower.left, 14.0)
    axes.time_axis(canvas, along.at, ticks, lower)
    axes.caption(canvas, lower, "elapsed time, hours:minutes; below, recorded less predicted")
    for k, trace in enumerate(told):
        colour = _COLOURS[k % len(_COLOURS)]
        _curve(
            canvas, comparison.seconds, trace.recorded, along, heat, Line(_RECORDED, colour=colour)
        )
        _curve(canvas, comparison.seconds, trace.predicted, along, heat,
               Line(_PREDICTED, _DASH, colour))  # fmt: skip
        _curve(
            canvas, comparison.seconds, off[k], along, difference, Line(_RECORDED, colour=colour)
        )
        _tag(canvas, trace, off[k], difference, lower.right)
    return canvas.svg()


def _curve(
    canvas: Canvas, seconds: Floats, values: Floats, along: Scale, up: Scale, line: Line
) -> None:
    """A line through the readings, broken where there is none."""
    points: list[Point] = []
    for at, value in zip(seconds, values, strict=True):
        if np.isfinite(value):
            points.append(Point(along.at(float(at)), up.at(float(value))))
            continue
        if len(points) > 1:
            canvas.lines(points, line, 3)
        points = []
    if len(points) > 1:
        canvas.lines(points, line, 3)


def _tag(canvas: Canvas, trace: Trace, off: Floats, scale: Scale, right: float) -> None:
    known = off[np.isfinite(off)]
    if len(known):
        y = scale.at(float(known[-1])) + SMALL / 2
        canvas.text(Point(right + 0.8, y), trace.tag[:6], SMALL, ground=True)


def pages(page: Pages, comparison: Comparison | str, document: Document, name: str) -> None:
    """A section of the report: it bears on no verdict."""
    page.section("Predicted against recorded", across=True, fresh=True)
    page.warning(f"{PREDICTION} Nothing in this section bears on a verdict of this report.")
    if isinstance(comparison, str):
        page.line(f"There is none: {comparison}.")
        return
    size = (page.room, page.depth - 26.0)
    page.drawing(picture(comparison, document, name, size), size, "")
    page.table(HEADS, [(t.tag, *residuals(t)) for t in comparison.traces], tables.SMALL)
    if comparison.bore is not None:
        page.line(bore_words(comparison.bore))
    page.bullets(f"Taken: {note}." for note in comparison.notes)
    page.line(f"Model: {MODEL}. Its limits:")
    page.bullets(LIMITS)
    page.line("It must not be used:")
    page.bullets(NOT_FOR)
