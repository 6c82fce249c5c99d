"""The course in time: predicted traces with the power of each zone, and a strip of stages."""

from __future__ import annotations

import numpy as np

from hts.job.compiler.document import Document
from hts.paper.drawings import axes, legend
from hts.paper.drawings.axes import Scale
from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.style import (
    BLACK,
    BLUE,
    GREEN,
    GREY,
    NARROW,
    ORANGE,
    PALE_ORANGE,
    SKY,
    SMALL,
    TEXT,
    VERMILLION,
    Line,
)
from hts.paper.predicted import raster
from hts.paper.predicted.field_views import wall_raster
from hts.paper.predicted.raster import Raster
from hts.predict.outlook import Outlook
from hts.predict.told import PREDICTION
from hts.science.field.state import Extreme

_SETPOINT = Line(0.25, (1.5, 1.0))
_COUPLE = Line(0.25, colour=GREY)
_COLDEST, _HOTTEST = Line(0.6, colour=BLUE), Line(0.6, (3.0, 0.8), VERMILLION)
_ZONES = (
    Line(0.4), Line(0.4, (2.0, 0.8), BLUE), Line(0.4, (0.6, 0.6), VERMILLION),
    Line(0.4, (4.0, 0.8), GREEN), Line(0.4, (3.0, 0.6, 0.6, 0.6), ORANGE),
    Line(0.4, (1.0, 0.5), SKY),
)  # fmt: skip
_CAP = Line(0.2, (0.6, 1.2))
_LEFT, _POWER = 14.0, 0.28
#: Stages of the strip.
STAGES = 5


def traces(outlook: Outlook, document: Document, size: tuple[float, float]) -> str:
    """SVG of setpoint, thermocouples, coldest and hottest of the soak band, and power."""
    setting, course = outlook.setting, outlook.course
    title = f"Joint {setting.joint}, {setting.treatment}: predicted course"
    canvas = Canvas(*size, title)
    items = [
        legend.line_item(_SETPOINT, "setpoint"),
        legend.line_item(_COUPLE, "each thermocouple"),
        legend.line_item(_COLDEST, "coldest of the soak band"),
        legend.line_item(_HOTTEST, "hottest of it"),
        legend.area_item(PALE_ORANGE, NARROW, "range"),
        *(
            legend.line_item(_ZONES[k % len(_ZONES)], f"power, zone {zone.name}"[:40])
            for k, zone in enumerate(setting.zones)
        ),
        legend.line_item(_CAP, "what a zone has"),
    ]
    lag = "not before the hold ends"
    if outlook.lag is not None:
        lag = f"{outlook.lag / 60:.0f} min after the setpoint"
    subtitle = [
        "every input as stated",
        f"whole soak band in range {outlook.held / 60:.0f} of {outlook.hold / 60:.0f} min",
        f"it comes into the range {lag}",
    ]
    frame = legend.frame(canvas, title, subtitle, document, items, [PREDICTION])
    split = frame.bottom - 9.5 - (frame.bottom - frame.top) * _POWER
    plot = Box(_LEFT, frame.top + 5.5, canvas.width - 16.0, split - 4.0)
    power = Box(_LEFT, split + 2.0, canvas.width - 16.0, frame.bottom - 9.5)
    along = Scale(0.0, float(course.seconds[-1]), plot.left, plot.right)
    heat = axes.temperatures(0.0, float(max(course.hottest.max(), outlook.window[1])), plot)
    for box in (plot, power):
        axes.box(canvas, box)
    low, high = (heat.at(value) for value in outlook.window)
    start, end = (along.at(float(course.seconds[k])) for k in (course.ramp_end, course.hold_end))
    canvas.rectangle(Box(start, high, end, low), PALE_ORANGE, NARROW)
    axes.temperature_axis(canvas, heat, plot, "degC", left=True)
    ticks = axes.time_steps(float(course.seconds[-1]), plot.right - plot.left, 14.0)
    axes.time_axis(canvas, along.at, ticks, power)
    axes.caption(canvas, power, "elapsed time, hours:minutes")
    rows = [(course.couples[:, k], _COUPLE) for k in range(course.couples.shape[1])]
    rows += [(course.setpoint, _SETPOINT), (course.coldest, _COLDEST), (course.hottest, _HOTTEST)]
    for values, line in rows:
        _curve(canvas, course.seconds, values, along, heat, line)
    _tags(canvas, outlook, heat, plot.right)
    _powers(canvas, outlook, along, power)
    return canvas.svg()


def _curve(
    canvas: Canvas, seconds: np.ndarray, values: np.ndarray, along: Scale, up: Scale, line: Line
) -> None:
    points = [
        Point(along.at(float(s)), up.at(float(v))) for s, v in zip(seconds, values, strict=True)
    ]
    canvas.lines(points, line, 3)


def _tags(canvas: Canvas, outlook: Outlook, heat: Scale, right: float) -> None:
    """The thermocouples at the right edge, those close together under one name."""
    ends = sorted(
        (heat.at(float(outlook.course.couples[-1, k])), couple.tag)
        for k, couple in enumerate(outlook.setting.couples)
    )
    groups: list[tuple[float, list[str]]] = []
    for y, tag in ends:
        if groups and y - groups[-1][0] < SMALL * 1.3:
            groups[-1][1].append(tag)
        else:
            groups.append((y, [tag]))
    for y, tags in groups:
        words = tags[0] if len(tags) == 1 else f"{tags[0]}, {len(tags) - 1} more"
        canvas.text(Point(right + 0.8, y + SMALL / 2), words[:14], SMALL)


def _powers(canvas: Canvas, outlook: Outlook, along: Scale, plot: Box) -> None:
    course = outlook.course
    caps = [zone.power or 0.0 for zone in outlook.setting.zones]
    top = max(float(course.power.max()), *caps, 1.0) / 1000.0
    scale = Scale(0.0, top, plot.bottom, plot.top + 2.0)
    for value in axes.steps(0.0, top, plot.bottom - plot.top, 7.0):
        y = scale.at(value)
        canvas.line(Point(plot.left, y), Point(plot.right, y), axes.GRID, 0)
        canvas.text(Point(plot.left - 2.0, y + TEXT / 2), f"{value:g}", TEXT, "end")
    canvas.text(Point(plot.left - 2.0, plot.top - 1.0), "kW", TEXT, "end")
    for k, zone in enumerate(outlook.setting.zones):
        _curve(canvas, course.seconds, course.power[:, k] / 1000.0, along, scale,
               _ZONES[k % len(_ZONES)])  # fmt: skip
        if zone.power is not None:
            y = scale.at(zone.power / 1000.0)
            canvas.line(Point(plot.left, y), Point(plot.right, y), _CAP, 2)


def stages(outlook: Outlook, document: Document, size: tuple[float, float]) -> str:
    """SVG of the wall at 6:00 and 12:00 at a few times, above each other: no script is needed."""
    setting, course = outlook.setting, outlook.course
    title = f"Joint {setting.joint}, {setting.treatment}: predicted, in stages"
    canvas = Canvas(*size, title)
    items = [legend.line_item(raster.RANGE, "end of the range")]
    frame = legend.frame(
        canvas, title, ["the wall along the pipe, 12:00 above 6:00, drawn thicker than it is"],
        document, items, [PREDICTION],
    )  # fmt: skip
    high = (frame.bottom - frame.top - 6.0) / STAGES
    for number, index in enumerate(course.stages):
        top = frame.top + 3.0 + number * high
        low = course.lowest[index]
        canvas.text(Point(1.0, top + TEXT + 1.0), axes.time_text(float(course.seconds[index])),
                    TEXT, bold=True)  # fmt: skip
        canvas.text(Point(1.0, top + 2 * TEXT + 2.5), f"lowest {low.celsius:.0f} °C", canvas.note)
        for row, degrees in enumerate((0.0, 180.0)):
            begin = top + row * (high - 3.0) / 2.0
            box = Box(26.0, begin, canvas.width - 2.0, begin + (high - 5.0) / 2.0)
            values = wall_raster(outlook, course.fields[index], degrees)
            raster.draw(canvas, Raster(values if row == 0 else values[::-1], box),
                        outlook.window, labels=False)  # fmt: skip
            _mark(canvas, low, degrees, box, setting.insulated)
    raster.scale_bar(canvas, Point(1.0, frame.bottom - 0.5), outlook.window, canvas.note)
    return canvas.svg()


def _mark(canvas: Canvas, low: Extreme, degrees: float, box: Box, reach: float) -> None:
    """A dot at the coldest place of the soak band, where it lies in this wall."""
    if abs((low.degrees - degrees + 180.0) % 360.0 - 180.0) > 45.0 or abs(low.z) > reach:
        return
    share = low.depth if degrees == 0.0 else 1.0 - low.depth
    x = box.left + (box.right - box.left) * (low.z + reach) / (2.0 * reach)
    canvas.circle(Point(x, box.top + share * (box.bottom - box.top)), 0.8, BLACK, layer=4)
