"""The field at the end of the hold: outside and bore unrolled, and the section 12:00 to 6:00."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from hts.job.compiler.document import Document
from hts.paper.drawings import axes, legend
from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.style import CENTRE, HIDDEN, NARROW, TEXT, Line
from hts.paper.predicted import raster
from hts.paper.predicted.raster import Raster
from hts.predict.outlook import Outlook
from hts.predict.report import spread_words
from hts.predict.told import PREDICTION
from hts.science.field.state import Field

Values = NDArray[np.float64]

_HEATED = Line(0.35, (2.0, 1.0))
_CLOCKS = ("12:00", "3:00", "6:00", "9:00", "12:00")
_LEFT, _APART = 16.0, 8.0
_BAR = 5.0
_ROUND, _ALONG, _THROUGH = 73, 161, 25


def unrolled(outlook: Outlook, document: Document, size: tuple[float, float]) -> str:
    """SVG of outside and bore laid flat, both as seen from outside; `size` is width and height,
    mm."""
    canvas, frame = _begin(outlook, document, size, "outside and bore unrolled")
    field = outlook.course.fields[outlook.course.hold_end]
    wide = (canvas.width - _LEFT - _APART - 2.0) / 2.0
    for number, (name, depth) in enumerate((("outside", 0.0), ("bore", 1.0))):
        left = _LEFT + number * (wide + _APART)
        box = Box(left, frame.top + 6.0, left + wide, frame.bottom - 6.0 - _BAR)
        z, layer = _along(outlook, field, depth)
        angles = np.linspace(0.0, 360.0, _ROUND)
        own = np.append(field.mesh.angles, 360.0)
        closed = np.concatenate((layer, layer[:1]))
        values = np.stack([np.interp(angles, own, column) for column in closed.T])[::-1]
        leftward = outlook.setting.leftward
        values = values[:, ::-1] if leftward else values
        raster.draw(canvas, Raster(values, box), outlook.window, labels=True)
        canvas.text(Point(left + wide / 2.0, box.top - 1.5), name, TEXT, "middle", bold=True)
        for k, clock in enumerate(reversed(_CLOCKS) if leftward else _CLOCKS):
            x = box.left + wide * k / 4.0
            canvas.text(Point(x, box.bottom + 3.5), clock, TEXT, ("start" if k == 0 else
                        "end" if k == 4 else "middle"))  # fmt: skip
        scale = axes.Scale(float(z[0]), float(z[-1]), box.bottom, box.top)
        _bands(canvas, outlook, lambda at, s=scale, b=box: (  # type: ignore[misc]
            Point(b.left, s.at(at)), Point(b.right, s.at(at))))  # fmt: skip
        if outlook.setting.up:
            up = f"{outlook.setting.up} is up"
            canvas.text(Point(box.left + 1.0, box.top - 1.5), up, TEXT)
        if number == 0:
            _millimetres(canvas, scale, box)
        _couples(canvas, outlook, scale, box, depth)
    return _end(canvas, outlook, frame.bottom)


def section(outlook: Outlook, document: Document, size: tuple[float, float]) -> str:
    """SVG of the wall at 12:00 and at 6:00 along the pipe, drawn thicker than it is."""
    return section_at(outlook, document, size, outlook.course.hold_end)


def section_at(outlook: Outlook, document: Document, size: tuple[float, float], index: int) -> str:
    """The same at another instant of the course."""
    canvas, frame = _begin(outlook, document, size, "section 12:00 to 6:00", index)
    field = outlook.course.fields[index]
    space = frame.bottom - frame.top - 16.0 - _BAR
    for number, (clock, degrees) in enumerate((("12:00", 0.0), ("6:00", 180.0))):
        top = frame.top + 5.0 + number * (space / 2.0 + 6.0)
        box = Box(_LEFT + 8.0, top, canvas.width - 4.0, top + space / 2.0 - 3.0)
        values, z = _wall(outlook, field, degrees)
        raster.draw(canvas, Raster(values if number == 0 else values[::-1], box),
                    outlook.window, labels=True)  # fmt: skip
        faces = ("outside", "bore") if number == 0 else ("bore", "outside")
        canvas.text(Point(_LEFT + 6.5, box.top + TEXT), faces[0], TEXT, "end")
        canvas.text(Point(_LEFT + 6.5, box.bottom), faces[1], TEXT, "end")
        canvas.text(Point(1.0, (box.top + box.bottom + TEXT) / 2.0), clock, TEXT, bold=True)
        scale = axes.Scale(float(z[0]), float(z[-1]), box.left, box.right)
        _bands(canvas, outlook, lambda at, s=scale, b=box: (  # type: ignore[misc]
            Point(s.at(at), b.top), Point(s.at(at), b.bottom)))  # fmt: skip
        if number == 1:
            for value in axes.steps(
                1000 * scale.low, 1000 * scale.high, box.right - box.left, 14.0
            ):
                x = scale.at(value / 1000)
                canvas.line(Point(x, box.bottom), Point(x, box.bottom + 1.2), NARROW)
                canvas.text(Point(x, box.bottom + 4.2), f"{value:g}", TEXT, "middle")
            canvas.text(Point(_LEFT + 6.5, box.bottom + 4.2), "mm", TEXT, "end")
    return _end(canvas, outlook, frame.bottom)


def wall_raster(outlook: Outlook, field: Field, degrees: float) -> Values:
    """Temperatures (through from outside, along) of the wall at a clock angle."""
    return _wall(outlook, field, degrees)[0]


def _wall(outlook: Outlook, field: Field, degrees: float) -> tuple[Values, Values]:
    row = round(degrees / 360.0 * field.mesh.round) % field.mesh.round
    layers = [_along(outlook, field, depth) for depth in np.linspace(0.0, 1.0, _THROUGH)]
    return np.stack([layer[row] for _, layer in layers]), layers[0][0]


def _along(outlook: Outlook, field: Field, depth: float) -> tuple[Values, Values]:
    """Places along, m, as far as the insulation, and temperatures (round, along) there."""
    reach = outlook.setting.insulated
    z = np.linspace(-reach, reach, _ALONG)
    own, layer = field.mesh.z, field.layer(depth)
    at = np.abs(z) if field.mesh.mirrored else z
    return z, np.stack([np.interp(at, own, row) for row in layer])


def _begin(
    outlook: Outlook,
    document: Document,
    size: tuple[float, float],
    what: str,
    index: int | None = None,
) -> tuple[Canvas, legend.Frame]:
    setting = outlook.setting
    title = f"Joint {setting.joint}, {setting.treatment}: predicted, {what}"
    canvas = Canvas(*size, title)
    subtitle = _subtitle(outlook, outlook.course.hold_end if index is None else index)
    items = [
        legend.line_item(raster.RANGE, "end of the range"),
        legend.line_item(raster.ISOTHERM, "other temperatures, °C"),
        legend.line_item(CENTRE, "weld"),
        legend.line_item(HIDDEN, "soak band"),
        legend.line_item(_HEATED, "heated band"),
    ]
    return canvas, legend.frame(canvas, title, subtitle, document, items, [PREDICTION])


def _subtitle(outlook: Outlook, index: int) -> list[str]:
    """What an instant is, and lowest and highest; at the end of the hold with their 5 to 95 %."""
    course, last = outlook.course, outlook.hold_end
    low, high = f"{course.coldest[index]:.0f}", f"{course.hottest[index]:.0f}"
    name = ""
    if index == course.hold_end:
        name, low, high = "end of the hold, ", spread_words(last.lowest), spread_words(last.highest)
    elif index == course.ramp_end:
        name = "end of the ramp, "
    return [
        f"{name}{axes.time_text(float(course.seconds[index]))} h, every input as stated",
        f"range {outlook.window[0]:.0f} to {outlook.window[1]:.0f} °C, setpoint "
        f"{course.setpoint[index]:.0f} °C",
        f"lowest of the soak band {low} °C, highest {high} °C",
    ]


def _end(canvas: Canvas, outlook: Outlook, bottom: float) -> str:
    raster.scale_bar(canvas, Point(1.0, bottom - 0.5), outlook.window, canvas.note)
    return canvas.svg()


def _bands(canvas: Canvas, outlook: Outlook, line: Callable[[float], tuple[Point, Point]]) -> None:
    setting = outlook.setting
    for at, style in (
        (0.0, CENTRE), (setting.soak, HIDDEN), (-setting.soak, HIDDEN),
        (setting.heated, _HEATED), (-setting.heated, _HEATED),
    ):  # fmt: skip
        canvas.line(*line(at), style, 3)


def _millimetres(canvas: Canvas, scale: axes.Scale, box: Box) -> None:
    for value in axes.steps(1000 * scale.low, 1000 * scale.high, box.bottom - box.top, 9.0):
        y = scale.at(value / 1000)
        canvas.line(Point(box.left - 1.2, y), Point(box.left, y), NARROW)
        canvas.text(Point(box.left - 2.0, y + TEXT / 2.0), f"{value:g}", TEXT, "end")
    canvas.text(Point(box.left - 2.0, box.top - 1.5), "mm", TEXT, "end")


def _couples(canvas: Canvas, outlook: Outlook, scale: axes.Scale, box: Box, depth: float) -> None:
    """A cross where a thermocouple of this face sits, with its tag."""
    for couple in outlook.setting.couples:
        if couple.inside != (depth == 1.0) or not scale.low <= couple.z <= scale.high:
            continue
        part = couple.degrees / 360.0
        if outlook.setting.leftward:
            part = 1.0 - part
        at = Point(box.left + (box.right - box.left) * part, scale.at(couple.z))
        for dx, dy in ((1.0, 1.0), (1.0, -1.0)):
            canvas.line(Point(at.x - dx, at.y - dy), Point(at.x + dx, at.y + dy), NARROW, 4)
        canvas.text(Point(at.x + 1.6, at.y - 0.6), couple.tag, canvas.note, ground=True)
