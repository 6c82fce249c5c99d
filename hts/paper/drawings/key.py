"""The key beside a drawing whose thermocouples are numbered."""

from __future__ import annotations

from collections.abc import Sequence

from hts.base.quantities import LENGTH
from hts.job.compiler.tags import Tag
from hts.job.outputs.show import NEAREST, Shown, spoken
from hts.paper.drawings import marks
from hts.paper.drawings.canvas import Box, Canvas, Point
from hts.paper.drawings.style import FINE, TEXT
from hts.paper.sheet import metrics

_PITCH, _LEAST_PITCH = 4.7, 2.9
#: Letters are smaller than usual where the rows are closer than this allows: better than no row.
_LETTERS = 0.68
#: Narrower drawings have no room for a key.
LEAST_WIDTH = 220.0
_NUMBER = 5.0
_SIGN_AT = 7.0
_TAG_AT = 10.0


def has_room(canvas: Canvas) -> bool:
    return canvas.width >= LEAST_WIDTH


def width(names: dict[str, str], tags: Sequence[Tag], shown: Shown, most: float) -> float:
    """Width of the key in mm; 0 where tags are written where they sit."""
    if all(names[tag.tag] == metrics.drawable(tag.tag) for tag in tags):
        return 0.0
    widest = max(
        _TAG_AT + metrics.width(_tag(tag), TEXT) + 2 + metrics.width(_place(tag, shown), TEXT)
        for tag in tags
    )
    return min(widest + 1, most)


def draw(
    canvas: Canvas, box: Box, names: dict[str, str], tags: Sequence[Tag], shown: Shown
) -> list[Tag]:
    """Number, duty, tag and place of each; returns those it has no room for."""
    pitch = min(_PITCH, max((box.bottom - box.top - 5) / max(len(tags), 1), _LEAST_PITCH))
    letters = min(TEXT, _LETTERS * pitch)
    canvas.text(Point(box.left, box.top + TEXT), "Thermocouples", TEXT, bold=True)
    canvas.line(Point(box.left, box.top + 4), Point(box.right, box.top + 4), FINE)
    room = int((box.bottom - box.top - 5) / pitch)
    for row, tag in enumerate(tags[:room]):
        middle = box.top + 5 + pitch * (row + 0.5)
        foot = middle + letters / 2
        canvas.text(Point(box.left + _NUMBER - 1, foot), names[tag.tag], letters, "end")
        marks.sign(
            canvas,
            Point(box.left + _SIGN_AT, middle),
            marks.duty_of(tag),
            tag.surface == "inside",
            min(marks.SIGN, pitch * 0.46),
        )
        name = metrics.shortened(_tag(tag), letters, (box.right - box.left) * 0.62)
        canvas.text(Point(box.left + _TAG_AT, foot), name, letters)
        free = box.right - box.left - _TAG_AT - 2 - metrics.width(name, letters)
        place = metrics.shortened(_place(tag, shown), letters, free)
        canvas.text(Point(box.right, foot), place, letters, "end")
    return list(tags[room:])


def _tag(tag: Tag) -> str:
    return metrics.drawable(tag.tag)


def _place(tag: Tag, shown: Shown) -> str:
    """`3:00, 62 mm upstream`, in the governing unit alone."""
    clock = str(tag.clock) if tag.clock is not None else "–"
    if tag.along is not None:
        clock = f"{shown.tape(tag.along)} along"
    if tag.on_weld:
        return f"{clock}, on weld"
    if tag.offset is None:
        return clock
    symbol = shown.units.symbols(LENGTH)[0]
    distance = f"{spoken(tag.offset.distance, symbol, NEAREST)} {symbol}"
    return f"{clock}, {distance} {tag.offset.side.removeprefix('on ')}"
