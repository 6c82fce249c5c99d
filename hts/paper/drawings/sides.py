"""Which end of the pipe is up on the page, and which way the clock then runs.

On the outside laid flat, to the right × up points at the reader: with the clock from left to
right, up is the direction of gaze (`hts.language.model.orientation`). What stands up at the site
(what is above; a branch) is drawn up, and then the clock may run from right to left.
"""

from __future__ import annotations

from hts.language.model.joint import Joint
from hts.language.model.orientation import (
    BRANCH,
    FLOW,
    HEIGHT,
    PAIRS,
    Orientation,
    named,
    pair_of,
    untied,
)

#: Ends that are drawn up wherever the text tells which they are.
_STANDING = (HEIGHT[1], BRANCH[1])


class Sides:
    """How the two ends lie on the page.

    `upper` and `lower`: what the ends are called; `flow`: 1 up the page, -1 down, 0 where the text
    does not tell; `leftward`: the clock runs from right to left; `note`: what cannot be told.
    """

    def __init__(self, joint: Joint) -> None:
        self._orientation = Orientation(joint.entry)
        self._up = _up(joint, self._orientation)
        gaze = self._orientation.sign(self._up)
        self.leftward = gaze == -1
        self._has_view = gaze is not None
        self.flow = self.sign(FLOW[1]) or 0
        told = [side for pair in PAIRS for side in pair]
        self.upper = tuple(side for side in told if self.sign(side) == 1)
        self.lower = tuple(side for side in told if self.sign(side) == -1)
        self.note = _note(joint, self._orientation)

    def sign(self, side: str) -> int | None:
        """1 for an end that is drawn up, -1 for one drawn down, None where nothing tells."""
        return self._orientation.compared(side, self._up)

    def across(self, degrees: float) -> float:
        """The part of the width, from the left, at which a clock position is drawn."""
        return 1 - degrees / 360 if self.leftward else degrees / 360

    def is_certain(self, degrees: float) -> bool:
        """Whether left and right of a clock position are known: without a view, only at 12:00 and
        6:00."""
        return self._has_view or degrees % 180 == 0


def _up(joint: Joint, orientation: Orientation) -> str:
    for side in _STANDING:
        if orientation.sign(side) is not None:
            return side
    for pair in PAIRS:
        for side in pair:
            if orientation.sign(side) == 1:
                return side
    # Nothing tells from where the clock is seen: any end may be up.
    for side, _ in named(joint):
        pair = pair_of(side)
        return next((end for end in pair if end in _STANDING), pair[1])
    return FLOW[1]


def _note(joint: Joint, orientation: Orientation) -> str:
    if orientation.clashes:
        return f"The text contradicts itself: {orientation.clashes[0].words}."
    open_point = untied(joint, orientation)
    if open_point is not None:
        return (
            f"The text does not say whether {open_point.side} is {' or '.join(open_point.other)}: "
            "settle it before marking."
        )
    return ""
