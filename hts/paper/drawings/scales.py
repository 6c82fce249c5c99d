"""Scales of ISO 5455: what is drawn to scale is drawn to one of them."""

from __future__ import annotations

from collections.abc import Sequence

from hts.paper.drawings.canvas import Box

_STEPS = (1, 2, 5)
#: Where those would waste the room; ISO 5455 allows scales between for that.
#: A picture that has less than this part of its room is drawn to one of them.
_FILLED = 0.8
_BETWEEN = (1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8)
#: Smaller than this part of its room nothing is drawn only for the sake of a scale.
_LEAST = 0.6


def fitted(length: float, room: float, least: float) -> tuple[float, str]:
    """A length of the pipe on paper, mm, at the largest scale that leaves it in its room, and that
    scale, `1:10`; 0 and no scale where it would be shorter than `least`, or waste the room."""
    if length <= 0 or room <= 0:
        return 0.0, ""
    factor = 1
    while True:
        for step in _STEPS:
            scale = factor * step
            if length / scale <= room:
                drawn = length / scale
                return (drawn, f"1:{scale}") if drawn >= max(least, _LEAST * room) else (0.0, "")
        factor *= 10


def largest(least: float) -> float:
    """The largest scale 1 : n with n at least so great: of ISO 5455, or one between its scales
    where with that a picture has less than `_FILLED` of its room."""
    recommended = _next(least, _STEPS)
    return recommended if least >= _FILLED * recommended else _next(least, _BETWEEN)


def _next(least: float, steps: Sequence[float]) -> float:
    factor = 1
    while True:
        for step in steps:
            if round(factor * step, 1) >= least:
                return round(factor * step, 1)
        factor *= 10


def over(need: Box, room: Box) -> float:
    """How many times larger one box is than another."""
    wide = (need.right - need.left) / max(room.right - room.left, 1.0)
    return max(wide, (need.bottom - need.top) / max(room.bottom - room.top, 1.0))
