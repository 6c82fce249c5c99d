"""Joints that cannot be drawn, and the picture that says so."""

from __future__ import annotations

from hts.job.compiler.job import Job, JointSheet
from hts.language.model.branching import NotPlaced, branching
from hts.language.model.joint import Joint
from hts.language.model.seam import PAD, SEAM, Seam, weld_along
from hts.paper.drawings import legend
from hts.paper.drawings.canvas import Canvas, Point
from hts.paper.drawings.style import HEAD, TEXT
from hts.paper.sheet import metrics

_LINE = 4.6
_SIZE = {
    SEAM: "the text does not tell how long the seam is and from which end distances along it "
    "count. "
    'Write `seam 2.4 m from "lower head" on the left`',
    PAD: "the text does not tell the size of the pad. Write `pad 400 mm by 250 mm`",
}
_HAND = (
    "the text does not say on which hand the end lies that distances count from. Write `on the "
    "left` or `on the right`, as the weld is faced from outside with side A above"
)


def not_drawn(joint: Joint) -> str:
    """Why the outside cannot be laid flat with its thermocouples; empty where it can."""
    kind = joint.entry.kind or ""
    if kind == "branch":
        stands = branching(joint)
        if isinstance(stands, NotPlaced):
            return f"{stands.why}. Write {stands.entry}" if stands.entry else stands.why
    if kind not in _SIZE:
        return ""
    weld = weld_along(joint)
    if weld is None:
        return _SIZE[kind]
    return _HAND if isinstance(weld, Seam) and not weld.hand else ""


def notice(
    job: Job,
    sheet: JointSheet,
    size: tuple[float, float],
    title: str,
    why: str,
    elsewhere: bool = False,
) -> str:
    """SVG that says what is not drawn and why; `elsewhere`: another drawing shows the places."""
    canvas = Canvas(*size, title)
    frame = legend.frame(canvas, title, [], job.document, [], [], "not drawn")
    canvas.text(Point(2, frame.top + 8), "Not drawn", HEAD, bold=True)
    said = f"{why[0].upper()}{why[1:]}."
    if not elsewhere:
        said += (
            " Thermocouples are placed by the tag sheet, with sketches made at the joint and "
            "agreed before marking."
        )
    lines = metrics.wrapped(said, TEXT, size[0] - 4, 6)
    for number, line in enumerate(lines):
        canvas.text(Point(2, frame.top + 15 + _LINE * number), line)
    return canvas.svg()
