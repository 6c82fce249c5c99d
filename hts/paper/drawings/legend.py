"""Title block, legend and notes: what frames every drawing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from hts.job.compiler.document import Document
from hts.job.compiler.tags import Tag
from hts.paper.drawings import hatching, marks
from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.style import FINE, HEAD, NARROW, TEXT, Line
from hts.paper.sheet import metrics

_PITCH = 5.0  # of the rows of a legend
_LEAST_CELL = 12.0  # of the title block
#: Part of the title block a document number may take, and its least part of the usual letters.
_NUMBER, _SMALLEST = 0.3, 0.7
#: How many times its room a text may need to be cut.
_CUT = 1.6
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
    scale: str = "",
) -> Frame:
    """Draws title block, legend, notes and identity, and says what is left between them.

    The parts of the subtitle are put on as few lines as they need. Without a title there is no
    title block.
    """
    wide, note = canvas.width, canvas.note
    y = 0.0
    for line in _joined(subtitle, wide - 1):
        y += 4.6
        canvas.text(Point(0.5, y - 0.7), line)
    bottom = _title_block(canvas, title, scale, document) if title else canvas.height
    lines = [
        line
        for text in notes
        for line in metrics.wrapped(metrics.drawable(text), note, wide - 1, 3)
    ]
    for line in reversed(lines):
        canvas.text(Point(0.5, bottom - 1.2), line, note)
        bottom -= note * 1.5 + 0.4
    rows = _rows(items, wide, note)
    bottom -= _PITCH * len(rows)
    for number, row in enumerate(rows):
        _row(canvas, row, bottom + _PITCH * (number + 0.5))
    return Frame(y + 1.2, bottom - 0.6)


def _title_block(canvas: Canvas, title: str, scale: str, document: Document) -> float:
    """Title, scale, and what tells the issue apart (ISO 7200); returns its upper edge."""
    wide, bottom = canvas.width, canvas.height - 0.1
    middle, top = bottom - 4.6, bottom - 10.6
    edge = Box(0.1, top, wide - 0.1, bottom)
    said = scale if scale.startswith("not") or not scale else f"scale {scale}"
    room = metrics.width(said, TEXT) + 4 if said else 0.0
    canvas.text(Point(1.5, middle - 1.3), _fit(title, HEAD, wide - room - 4, True), HEAD, bold=True)
    if said:
        canvas.text(Point(wide - 1.5, middle - 1.5), said, TEXT, "end")
        canvas.line(Point(wide - room + 1, top), Point(wide - room + 1, middle), FINE)
    x = 1.5
    # What tells the issue apart comes first; for a number of great length the letters are small.
    cells = (
        f"fingerprint {document.fingerprint}",
        document.number,
        f"revision {document.revision}, {document.status}",
        f"issued {document.dated}" if document.dated else "",
        document.title,
    )
    for cell in cells:
        free = wide - 1.5 - x
        if not cell or free < _LEAST_CELL:
            continue
        if cell in cells[3:] and metrics.width(metrics.drawable(cell), TEXT) > free * _CUT:
            # A bit of a date or a title says nothing; the head of the page has them.
            continue
        height = TEXT
        if cell is document.number:
            free = min(free, _NUMBER * wide)
            needed = metrics.width(metrics.drawable(cell), TEXT)
            height = TEXT * min(1.0, max(free / needed, _SMALLEST))
        text = _fit(cell, height, free)
        if x > 1.5:
            canvas.line(Point(x - 1.5, middle), Point(x - 1.5, bottom), FINE)
        canvas.text(Point(x, bottom - 1.2), text, height)
        x += metrics.width(text, height) + 3.0
    canvas.line(Point(edge.left, middle), Point(edge.right, middle), FINE)
    canvas.rectangle(edge, "none", NARROW, 1)
    return top - 0.6


def line_item(line: Line, words: str) -> Item:
    """A line of the legend for a type of line; one with long dashes shows two of them."""
    long = _DASHED if line.dashes and line.dashes[0] > _SAMPLE / 2 else _SAMPLE

    def sample(canvas: Canvas, at: Point) -> None:
        canvas.line(Point(at.x - long / 2, at.y), Point(at.x + long / 2, at.y), line)

    return Item(sample, long, words)


def area_item(fill: str, line: Line, words: str, hatched: bool = False) -> Item:
    """A line of the legend for an area."""

    def sample(canvas: Canvas, at: Point) -> None:
        box = Box(at.x - 3, at.y - 1.4, at.x + 3, at.y + 1.4)
        canvas.rectangle(box, fill, line)
        if hatched:
            hatching.hatch(canvas, [hatching.corners(box)], 1.5, layer=1)

    return Item(sample, 6.0, words)


def duty_items(tags: tuple[Tag, ...]) -> list[Item]:
    """The lines of the legend for thermocouples."""
    found = [
        Item(lambda canvas, at, d=duty: marks.sign(canvas, at, d), 2 * marks.SIGN, duty.words)  # type: ignore[misc]
        for duty in marks.duties(tags)
    ]
    if tags:
        found.append(Item(marks.place, 2 * marks.SPOT, "where it sits"))
    if any(tag.surface == "inside" for tag in tags):
        found.append(
            Item(
                lambda canvas, at: marks.place(canvas, at, True),
                2 * marks.SPOT,
                "on the inside",
            )
        )
    return found


def _rows(items: Sequence[Item], wide: float, note: float) -> list[list[Item]]:
    rows: list[list[Item]] = [[]]
    used = 0.0
    for item in items:
        room = _room(item, note)
        if rows[-1] and used + room > wide:
            rows.append([])
            used = 0.0
        rows[-1].append(item)
        used += room
    return [row for row in rows if row]


def _room(item: Item, note: float) -> float:
    return item.room + 1 + metrics.width(item.words, note) + _APART


def _row(canvas: Canvas, row: Sequence[Item], y: float) -> None:
    x = 0.5
    for item in row:
        item.sample(canvas, Point(x + item.room / 2, y))
        canvas.text(Point(x + item.room + 1, y + canvas.note / 2), item.words, canvas.note)
        x += _room(item, canvas.note)


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
