"""The attachment card: how thermocouples, probes and crayons are put on, with the values."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from hts.job.compiler.job import Job, JointSheet
from hts.paper.drawings import card_rows, card_sketches, legend
from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.card_rows import CRAYON, LEAD, PROBE, THERMOCOUPLE, Row
from hts.paper.drawings.style import FINE, HEAD, SMALL, TEXT
from hts.paper.sheet import metrics

_HEADS = {
    THERMOCOUPLE: "The junction",
    LEAD: "The lead",
    PROBE: "The contact probe",
    CRAYON: "The crayon",
}
_MARK = 6.0
_SKETCH, _TALLEST = 31.0, 62.0  # least and greatest height of a sketch, mm


def attachment_card(job: Job, sheet: JointSheet, size: tuple[float, float], of: str = "") -> str:
    """SVG of the card of a joint; `size` is width and height of the picture, mm; `of` names the
    joints, where it is the card of several."""
    title = f"Joint {of or sheet.joint.name}: attachment card"
    canvas = Canvas(*size, title)
    found = card_rows.rows(job, sheet)
    notes = [
        "In brackets what a value rests on; practice has no standard behind it, memory was "
        "recalled and not seen in the standard."
    ]
    frame = legend.frame(canvas, title, [], job.document, [], notes, "not to scale")
    parts = [part for part in _HEADS if any(row.part == part for row in found)]
    if not parts:
        canvas.text(Point(2, frame.top + 8), "Nothing is attached to this joint.", HEAD)
        return canvas.svg()
    area = Box(0.5, frame.top + 1, canvas.width - 0.5, frame.bottom)
    per_row = len(parts) if canvas.width >= 220 else min(len(parts), 2)
    lines = -(-len(parts) // per_row)
    wide, tall = (area.right - area.left) / per_row, (area.bottom - area.top) / lines
    for number, part in enumerate(parts):
        left = area.left + wide * (number % per_row)
        top = area.top + tall * (number // per_row)
        own = [row for row in found if row.part == part]
        _panel(canvas, sheet, Box(left, top, left + wide - 2, top + tall - 2), part, own)
    return canvas.svg()


def _panel(canvas: Canvas, sheet: JointSheet, box: Box, part: str, rows: Sequence[Row]) -> None:
    canvas.rectangle(box, "none", FINE)
    canvas.text(Point(box.left + 2, box.top + 4.6), _HEADS[part], TEXT, bold=True)
    room = box.bottom - box.top - _SKETCH
    for height in (TEXT, SMALL):
        texts = [_lines(row, box.right - box.left - _MARK - 3, height) for row in rows]
        pitch, apart = height * 1.48, 1.1
        depth = sum(len(lines) for lines in texts) * pitch + len(rows) * apart + 2
        if depth <= room:
            break
    tallest = (box.bottom - box.top) * 0.45
    top = min(box.bottom - min(depth, room), box.top + max(_TALLEST, tallest))
    picture = Box(box.left + 2, box.top + 6.5, box.right - 2, top - 1)
    _SKETCHES[part](canvas, sheet, picture)
    canvas.line(Point(box.left, top), Point(box.right, top), FINE)
    y = top + 1.2
    for row, lines in zip(rows, texts, strict=True):
        if y + pitch * len(lines) > box.bottom:
            canvas.text(Point(box.right - 1, top - 1), "more in the specification", SMALL, "end")
            break
        card_sketches.letter(canvas, Point(box.left + 3.4, y + height * 0.85), row.mark)
        for number, line in enumerate(lines):
            foot = y + height * 1.2 + pitch * number
            canvas.text(Point(box.left + _MARK + 1, foot), line, height)
        y += pitch * len(lines) + apart


def _lines(row: Row, room: float, height: float) -> list[str]:
    text = f"{row.what}: {row.value}  [{row.basis}]"
    return metrics.wrapped(metrics.drawable(text), height, room, 5)


_SKETCHES: dict[str, Callable[[Canvas, JointSheet, Box], None]] = {
    THERMOCOUPLE: card_sketches.junction,
    LEAD: card_sketches.lead,
    PROBE: card_sketches.probe,
    CRAYON: card_sketches.crayon,
}
