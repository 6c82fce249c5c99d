"""Title, legend, notes and identity: what frames every drawing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from hts.job.compiler.document import Document
from hts.job.compiler.tags import Tag
from hts.paper.drawings import marks
from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.style import FINE, HEAD, SMALL, TEXT, Line
from hts.paper.sheet import metrics

_PITCH = 5.0  # of the rows of a legend
_LINE = 3.6  # of the lines of notes
_SAMPLE, _DASHED = 8.0, 15.0  # length of the sample of a line
_APART = 4.0


class Item(NamedTuple):
    """A line of the legend: its sample, drawn about a point, as wide as `room`; and words."""

    sample: Callable[[Canvas, Point], None]
    room: float
    words: str


class Frame(NamedTuple):
    """What is left for the drawing itself."""

    top: float
    bottom: float


def frame(
    canvas: Canvas,
    title: str,
    subtitle: Sequence[str],
    document: Document,
    items: Sequence[Item],
    notes: Sequence[str],
) -> Frame:
    """Draws title, legend, notes and identity, and says what is left between them.

    The parts of the subtitle are put on as few lines as they need.
    """
    wide = canvas.width
    y = HEAD + 0.8
    canvas.text(Point(0.5, y), _fit(title, HEAD, wide - 1, bold=True), HEAD, bold=True)
    for line in _joined(subtitle, wide - 1):
        y += 4.6
        canvas.text(Point(0.5, y), line)
    bottom = canvas.height - 0.9
    canvas.text(Point(0.5, bottom), _fit(_identity(document), SMALL, wide - 1), SMALL)
    bottom -= 2.9
    canvas.line(Point(0, bottom), Point(wide, bottom), FINE)
    lines = [
        line
        for note in notes
        for line in metrics.wrapped(metrics.drawable(note), SMALL, wide - 1, 3)
    ]
    for line in reversed(lines):
        canvas.text(Point(0.5, bottom - 1.2), line, SMALL)
        bottom -= _LINE
    rows = _rows(items, wide)
    bottom -= _PITCH * len(rows)
    for number, row in enumerate(rows):
        _row(canvas, row, bottom + _PITCH * (number + 0.5))
    return Frame(y + 1.6, bottom - 0.6)


def line_item(line: Line, words: str) -> Item:
    """A line of the legend for a type of line; one with long dashes shows two of them."""
    long = _DASHED if line.dashes and line.dashes[0] > _SAMPLE / 2 else _SAMPLE

    def sample(canvas: Canvas, at: Point) -> None:
        canvas.line(Point(at.x - long / 2, at.y), Point(at.x + long / 2, at.y), line)

    return Item(sample, long, words)


def area_item(fill: str, line: Line, words: str) -> Item:
    """A line of the legend for an area."""

    def sample(canvas: Canvas, at: Point) -> None:
        box = Box(at.x - 3, at.y - 1.4, at.x + 3, at.y + 1.4)
        canvas.rectangle(box, fill, line)

    return Item(sample, 6.0, words)


def duty_items(tags: tuple[Tag, ...]) -> list[Item]:
    """The lines of the legend for thermocouples."""
    found = [
        Item(lambda canvas, at, d=duty: marks.sign(canvas, at, d), 2 * marks.SIGN, duty.words)  # type: ignore[misc]
        for duty in marks.duties(tags)
    ]
    inside = [tag for tag in tags if tag.surface == "inside"]
    if inside:
        duty = marks.duty_of(inside[0])
        found.append(
            Item(
                lambda canvas, at: marks.sign(canvas, at, duty, True),
                2 * marks.SIGN,
                "dashed: on the inside",
            )
        )
    return found


def _rows(items: Sequence[Item], wide: float) -> list[list[Item]]:
    rows: list[list[Item]] = [[]]
    used = 0.0
    for item in items:
        room = _room(item)
        if rows[-1] and used + room > wide:
            rows.append([])
            used = 0.0
        rows[-1].append(item)
        used += room
    return [row for row in rows if row]


def _room(item: Item) -> float:
    return item.room + 1 + metrics.width(item.words, SMALL) + _APART


def _row(canvas: Canvas, row: Sequence[Item], y: float) -> None:
    x = 0.5
    for item in row:
        item.sample(canvas, Point(x + item.room / 2, y))
        canvas.text(Point(x + item.room + 1, y + SMALL / 2), item.words, SMALL)
        x += _room(item)


def _joined(parts: Sequence[str], most: float) -> list[str]:
    lines: list[str] = []
    for part in parts:
        text = metrics.drawable(part)
        if lines and metrics.width(f"{lines[-1]}; {text}", TEXT) <= most:
            lines[-1] = f"{lines[-1]}; {text}"
        else:
            lines.append(metrics.shortened(text, TEXT, most))
    return lines


def _fit(text: str, height: float, most: float, bold: bool = False) -> str:
    return metrics.shortened(metrics.drawable(text), height, most, bold)


def _identity(document: Document) -> str:
    # The fingerprint first: where a number of great length is cut, it still stands.
    revision = f"revision {document.revision}, {document.status}"
    return f"fingerprint {document.fingerprint}  ·  {document.number}, {revision}"
