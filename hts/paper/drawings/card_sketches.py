"""The sketches of the attachment card: line drawings with letters that lead to the values."""

from __future__ import annotations

from math import pi, sin

from hts.job.compiler.job import JointSheet
from hts.paper.drawings import card_rows, hatching
from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.style import (
    BLACK,
    FINE,
    HIDDEN,
    NARROW,
    OUTLINE,
    PALE_GREY,
    PALE_ORANGE,
    TEXT,
    WHITE,
    Line,
)

_METAL = 6.5  # thickness of the metal that is drawn, mm
_WIRE = Line(0.7)
_SLEEVE = Line(1.8)


def letter(canvas: Canvas, at: Point, text: str, to: Point | None = None) -> None:
    """A letter in a circle, with a line to what it names."""
    if to is not None:
        canvas.line(at, to, FINE, 3)
        canvas.circle(to, 0.35, BLACK, layer=3)
    canvas.circle(at, 1.9, WHITE, NARROW, 4)
    canvas.text(Point(at.x, at.y + 0.9), text, 1.8, "middle", bold=True)


def junction(canvas: Canvas, sheet: JointSheet, box: Box) -> None:
    """The end on the metal: two wires, each welded on by itself, or a tip pressed on."""
    metal = _metal(canvas, box)
    if card_rows.way_of(sheet) in card_rows.WELDED:
        _welded(canvas, box, metal)
    else:
        _pressed(canvas, box, metal)


def _metal(canvas: Canvas, box: Box) -> float:
    """Metal along the foot of the sketch, cut; returns the height of its face."""
    top = box.bottom - _METAL
    ring = hatching.corners(Box(box.left, top, box.right, box.bottom))
    hatching.hatch(canvas, [ring], 2.2)
    canvas.line(Point(box.left, top), Point(box.right, top), OUTLINE, 2)
    return top


def _welded(canvas: Canvas, box: Box, face: float) -> None:
    wide, high = box.right - box.left, face - box.top
    feet = (box.left + wide * 0.40, box.left + wide * 0.58)
    bare, top = face - high * 0.42, box.top + 1.5
    for foot, side in zip(feet, (-1, 1), strict=True):
        canvas.line(Point(foot, face), Point(foot, bare), _WIRE, 3)
        canvas.line(Point(foot, bare), Point(foot - side * 1.5, top), _SLEEVE, 3)
        canvas.polygon(
            [Point(foot - 1.1, face), Point(foot, face - 1.5), Point(foot + 1.1, face)],
            BLACK,
            layer=3,
        )
        sign = "+" if side < 0 else "\N{EN DASH}"
        canvas.text(Point(foot + side * 2.6, bare - 1), sign, TEXT, "middle", bold=True)
    # The cover over both, broken where the wires leave it.
    cover = [
        Point(feet[0] - 6 + (feet[1] - feet[0] + 12) * n / 20, face - 7.5 * sin(pi * n / 20))
        for n in range(21)
    ]
    canvas.lines(cover, HIDDEN, 2)
    # The spot that was cleaned.
    canvas.line(Point(feet[0] - 7, face + 0.7), Point(feet[1] + 7, face + 0.7), Line(0.7), 2)
    for x in feet:
        canvas.line(Point(x, face + 0.8), Point(x, face + 4.2), FINE, 3)
    one, other = (Point(x, face + 3.4) for x in feet)
    canvas.line(one, other, FINE, 3)
    canvas.arrow(one, other, 3, 1.6)
    canvas.arrow(other, one, 3, 1.6)
    right, left = box.right - 2.5, box.left + 2.5
    letter(canvas, Point(left, face - 3), "B", Point(feet[0] - 6.5, face + 0.5))
    letter(canvas, Point(right, bare + 4), "C", Point(feet[1] + 0.4, (bare + face) / 2))
    letter(canvas, Point(left, bare + 2), "D", Point(feet[0] - 0.6, face - 1))
    letter(canvas, Point((feet[0] + feet[1]) / 2, face + 4.4), "E")
    letter(canvas, Point(right, face - 4), "H", cover[17])
    # Bent flat and back.
    x = box.left + 3
    canvas.lines([Point(x, top + 5), Point(x + 5, top + 5)], Line(0.4, (1, 0.7)), 3)
    canvas.line(Point(x + 5, top + 5), Point(x + 5, top), _WIRE, 3)
    canvas.arc(Point(x + 5, top + 5), 4.2, 270, 90, FINE, 3)
    canvas.arrow(Point(x + 0.8, top + 5), Point(x + 1.0, top + 3.4), 3, 1.6)
    letter(canvas, Point(x + 9.5, top + 2.5), "F", Point(x + 4.2, top + 1.8))


def _pressed(canvas: Canvas, box: Box, face: float) -> None:
    middle, top = (box.left + box.right) / 2, box.top + 2
    canvas.line(Point(middle + 9, top), Point(middle + 9, face - 5), _SLEEVE, 3)
    canvas.lines([Point(middle + 9, face - 5), Point(middle + 5, face - 1)], _SLEEVE, 3)
    canvas.line(Point(middle - 6, face - 0.9), Point(middle + 5, face - 0.9), Line(1.6), 3)
    band = Box(middle - 3, face - 2.6, middle + 2, face)
    canvas.rectangle(band, PALE_GREY, NARROW, 4)
    cover = [Point(middle - 12 + 24 * n / 20, face - 8 * sin(pi * n / 20)) for n in range(21)]
    canvas.lines(cover, HIDDEN, 2)
    left, right = box.left + 2.5, box.right - 2.5
    letter(canvas, Point(left, face - 9), "A", Point(middle - 2, face - 2))
    letter(canvas, Point(left, face - 3), "B", Point(middle - 9, face))
    letter(canvas, Point(right, face - 3), "D", Point(middle + 3, face - 0.9))
    letter(canvas, Point(right, face - 9), "H", Point(middle + 8, face - 6))


def lead(canvas: Canvas, sheet: JointSheet, box: Box) -> None:
    """From above: weld, heaters or turns of the coil, the lead, connector and tags."""
    coil = card_rows.is_induction(sheet)
    block = sheet.joint.entry.thermocouples
    along = block is not None and block.leads == "along the coil"
    split = box.top + (box.bottom - box.top) * 0.58
    pipe = Box(box.left, box.top + 2, box.right, split - 2)
    canvas.rectangle(pipe, WHITE, OUTLINE, 1)
    middle = (pipe.top + pipe.bottom) / 2
    weld = box.left + (box.right - box.left) * 0.22
    seam = Box(weld - 1.6, pipe.top, weld + 1.6, pipe.bottom)
    hatching.hatch(canvas, [hatching.corners(seam)], 1.4, layer=2)
    canvas.rectangle(seam, "none", NARROW, 2)
    end = box.right - 3
    if coil:
        for number in range(5):
            x = weld - 5 + 5.5 * number
            turn = Box(x, pipe.top - 1.2, x + 1.8, pipe.bottom + 1.2)
            canvas.rectangle(turn, PALE_ORANGE, NARROW, 2)
    else:
        for top, bottom in ((pipe.top + 1, middle - 1.4), (middle + 1.4, pipe.bottom - 1)):
            heater = Box(weld - 7, top, weld + 17, bottom)
            canvas.rectangle(heater, PALE_ORANGE, NARROW, 2)
    spot = Point(weld, middle)
    if along:
        canvas.lines([spot, Point(weld + 3.5, middle), Point(weld + 3.5, pipe.bottom)], _WIRE, 3)
    canvas.lines([spot, Point(end, middle)], _WIRE, 3)
    for way in (1, -1):
        canvas.line(
            Point(spot.x - 0.9, spot.y - way * 0.9),
            Point(spot.x + 0.9, spot.y + way * 0.9),
            Line(0.5),
            4,
        )
    letter(canvas, Point(weld + 22, pipe.top + 3), "K", Point(weld + 20, middle))
    letter(canvas, Point(end - 4, pipe.bottom - 3), "L", Point(end - 6, middle))
    # Below: flag, wire, connector, cable, flag.
    y = split + (box.bottom - split) * 0.55
    gap = 1.7
    left, plug = box.left + 6, (box.left + box.right) / 2
    for dy, sign in ((-gap, "+"), (gap, "\N{EN DASH}")):
        canvas.line(Point(left, y + dy), Point(plug - 4, y + dy), _WIRE, 3)
        canvas.line(Point(plug + 6, y + dy), Point(box.right - 6, y + dy), _WIRE, 3)
        foot = Point(plug - 6.5, y + dy + (-0.8 if dy < 0 else 2.9))
        canvas.text(foot, sign, TEXT, "middle", bold=True)
        canvas.line(Point(plug - 1, y + dy), Point(plug + 3, y + dy), Line(1.0), 4)
    canvas.rectangle(Box(plug - 4, y - 3.4, plug, y + 3.4), WHITE, NARROW, 3)
    canvas.rectangle(Box(plug + 2, y - 3.4, plug + 6, y + 3.4), WHITE, NARROW, 3)
    for x in (box.left + 1, box.right - 7):
        canvas.rectangle(Box(x, y - 2.4, x + 6, y + 2.4), WHITE, NARROW, 3)
        canvas.text(Point(x + 3, y + TEXT / 2), "T1", TEXT, "middle")
    letter(canvas, Point(left + 8, y - 5.4), "M", Point(left + 8, y - gap))
    letter(canvas, Point(box.right - 12, y - 5.4), "N", Point(box.right - 12, y - gap))
    letter(canvas, Point(plug + 1, y - 6.2), "O", Point(plug + 1, y - 3))
    letter(canvas, Point(box.left + 3.4, y + 5.0), "P", Point(box.left + 3.4, y + 2.4))


def probe(canvas: Canvas, sheet: JointSheet, box: Box) -> None:
    """Beside the groove: whole face on the metal; lifted off it reads too low."""
    face = _groove(canvas, box)
    wide = box.right - box.left
    x = box.left + wide * 0.55
    _tip(canvas, Point(x, face), 0.0, box.top + 2)
    lifted = box.left + wide * 0.84
    _tip(canvas, Point(lifted, face - 2.4), 1.2, box.top + 2)
    start = box.left + wide * 0.24
    _distance(canvas, start, x, face + 3.0)
    letter(canvas, Point((start + x) / 2, face + 3.0), "Q")
    letter(canvas, Point(x - 7, face - 7), "R", Point(x - 1, face - 0.4))
    letter(canvas, Point(lifted - 5, box.top + 4), "S", Point(lifted - 0.5, face - 2.2))
    for dx in (-2.0, 0.0, 2.0):
        canvas.line(Point(lifted + dx, face - 0.4), Point(lifted + dx, face - 1.6), FINE, 3)


def _tip(canvas: Canvas, at: Point, tilt: float, top: float) -> None:
    canvas.line(Point(at.x + tilt, top), Point(at.x, at.y - 3), Line(2.4), 3)
    face = Box(at.x - 3, at.y - 3, at.x + 3, at.y)
    canvas.rectangle(face, PALE_GREY, NARROW, 3)


def crayon(canvas: Canvas, sheet: JointSheet, box: Box) -> None:
    """Marks beside the groove, none in it."""
    face = _groove(canvas, box)
    wide = box.right - box.left
    start, x = box.left + wide * 0.24, box.left + wide * 0.6
    _distance(canvas, start, x, face + 3.0)
    letter(canvas, Point((start + x) / 2, face + 3.0), "V")
    for number, name in enumerate(("W", "X")):
        left = x + 8 * number
        strokes = [Point(left + 1.2 * n, face - (0.3 if n % 2 else 1.7)) for n in range(5)]
        canvas.lines(strokes, Line(0.6), 3)
        letter(canvas, Point(left + 2.4, face - 9), name, Point(left + 2.4, face - 1.2))
    groove = box.left + wide * 0.12
    for way in (1, -1):
        canvas.line(
            Point(groove - 2.2, face - 5 - way * 2.2),
            Point(groove + 2.2, face - 5 + way * 2.2),
            Line(0.7),
            3,
        )
    letter(canvas, Point(groove + 6.5, face - 9), "Y", Point(groove + 1.2, face - 6))


def _groove(canvas: Canvas, box: Box) -> float:
    """Metal with half a groove at its left; returns the height of its face."""
    face = box.bottom - _METAL
    wide = box.right - box.left
    edge, root = box.left + wide * 0.24, box.left + wide * 0.14
    ring = [
        Point(edge, face),
        Point(box.right, face),
        Point(box.right, box.bottom),
        Point(root, box.bottom),
    ]
    hatching.hatch(canvas, [ring], 2.2)
    canvas.lines([Point(root, box.bottom), Point(edge, face), Point(box.right, face)], OUTLINE, 2)
    return face


def _distance(canvas: Canvas, start: float, end: float, y: float) -> None:
    one, other = Point(start, y), Point(end, y)
    for x in (start, end):
        canvas.line(Point(x, y - 3), Point(x, y + 1.2), FINE, 3)
    canvas.line(one, other, FINE, 3)
    canvas.arrow(one, other, 3, 1.6)
    canvas.arrow(other, one, 3, 1.6)
