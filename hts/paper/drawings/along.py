"""Distances along the pipe on paper.

Bands are so unlike in width that a true scale leaves no room about the weld. Each stretch between
two band edges therefore gets an equal share of the height and on top a part that grows with its
length; things farther away stand one below the other behind a break.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence

#: Part of the height shared out equally.
_EVEN = 0.55
#: Height of the break, and of each thing behind it, mm.
BREAK, ROW = 3.0, 6.5
#: Each stands near the foot of its row, its words above it.
_FOOT = 1.5
#: The weld itself gets less of what is shared equally.
_WELD = 0.6


class Along:
    """`y(distance)`: the height of a distance from the weld centreline, positive drawn up.

    `edges` are distances > 0 where a band ends, `far` those up and down that lie behind the break;
    all in mm at the pipe. `top` and `bottom` bound the picture, mm on paper.
    """

    def __init__(
        self,
        edges: Sequence[float],
        far_up: Sequence[float],
        far_down: Sequence[float],
        top: float,
        bottom: float,
    ) -> None:
        self._far = (sorted(set(far_up)), sorted(set(far_down)))
        up, down = (_room(far) for far in self._far)
        self.top, self.bottom = top, bottom
        #: Bounds of what is not behind a break.
        self.core = (top + up, bottom - down)
        self.centre = (self.core[0] + self.core[1]) / 2
        self._edges = [0.0, *sorted(set(edges))]
        half = (self.core[1] - self.core[0]) / 2
        spans = [b - a for a, b in zip(self._edges, self._edges[1:], strict=False)]
        even = [_WELD if len(spans) > 1 and not index else 1.0 for index in range(len(spans))]
        self._heights = [0.0]
        for part, span in zip(even, spans, strict=True):
            share = _EVEN * part / sum(even) + (1 - _EVEN) * span / sum(spans)
            self._heights.append(self._heights[-1] + share * half)

    @property
    def last(self) -> float:
        """The greatest distance that is not behind a break."""
        return self._edges[-1]

    def y(self, distance: float) -> float:
        size = abs(distance)
        if size <= self.last:
            return self.centre - (1 if distance >= 0 else -1) * self._height(size)
        rows = self._far[0 if distance >= 0 else 1]
        before = BREAK + ROW * (bisect_right(rows, size) - 1)
        if distance >= 0:
            return self.core[0] - before - _FOOT
        return self.core[1] + before + ROW - _FOOT

    def _height(self, size: float) -> float:
        index = min(bisect_right(self._edges, size), len(self._edges) - 1)
        a, b = self._edges[index - 1], self._edges[index]
        low, high = self._heights[index - 1], self._heights[index]
        return low + (high - low) * (size - a) / (b - a)


def _room(far: Sequence[float]) -> float:
    return BREAK + ROW * len(far) if far else 0.0
