"""Joints that cannot be drawn, and the picture that says so."""

from __future__ import annotations

from hts.job.compiler.job import Job, JointSheet
from hts.language.model.branching import NotPlaced, branching
from hts.language.model.joint import Joint
from hts.paper.drawings import legend
from hts.paper.drawings.canvas import Canvas, Point
from hts.paper.drawings.style import HEAD, TEXT
from hts.paper.sheet import metrics

_LINE = 4.6
_WHY = {
    "long seam": "a long seam does not go round the pipe: clock position and distance from the "
    "weld do not tell where along the seam a place lies",
    "attachment": "an attachment does not go round the pipe: clock position and distance from the "
    "weld do not tell where beside it a place lies",
}


def not_drawn(joint: Joint) -> str:
    """Why the outside cannot be laid flat with its thermocouples; empty where it can."""
    kind = joint.entry.kind or ""
    if kind == "branch":
        stands = branching(joint)
        if isinstance(stands, NotPlaced):
            return f"{stands.why}. Write {stands.entry}" if stands.entry else stands.why
    return _WHY.get(kind, "")


def notice(job: Job, sheet: JointSheet, size: tuple[float, float], title: str, why: str) -> str:
    """SVG that says what is not drawn and why, with the places as the text tells them."""
    canvas = Canvas(*size, title)
    frame = legend.frame(canvas, title, [], job.document, [], [], "not drawn")
    canvas.text(Point(2, frame.top + 8), "Not drawn", HEAD, bold=True)
    said = (
        f"{why[0].upper()}{why[1:]}. Thermocouples are placed by the tag sheet, with sketches made "
    )
    lines = metrics.wrapped(said + "at the joint and agreed before marking.", TEXT, size[0] - 4, 6)
    for number, line in enumerate(lines):
        canvas.text(Point(2, frame.top + 15 + _LINE * number), line)
    return canvas.svg()
