"""Scales of ISO 5455: what is drawn to scale is drawn to one of them."""

from __future__ import annotations

_STEPS = (1, 2, 5)
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


def largest(least: float) -> int:
    """The largest scale 1 : n of ISO 5455 with n at least so great."""
    factor = 1
    while True:
        for step in _STEPS:
            if factor * step >= least:
                return factor * step
        factor *= 10
