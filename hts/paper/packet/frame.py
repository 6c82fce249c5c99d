"""The frame of a page: its size and margins."""

from __future__ import annotations

from typing import Any, NamedTuple

from hts.paper.sheet import Size

#: Room for the holes of a binder on the edge that is bound, mm.
_BOUND = 24.0
_EDGE, _HEAD, _FOOT = 13.0, 22.0, 20.0


class Frame(NamedTuple):
    """A sheet of a size. Upright it is bound on the left; laid on its side, along its top, so that
    in the binder all sheets are punched on one edge."""

    size: Size

    def room(self, across: bool) -> float:
        """Width between the margins, mm."""
        if across:
            return self.size.height - 2 * _EDGE
        return self.size.width - _BOUND - _EDGE

    def depth(self, across: bool) -> float:
        """Height between the margins, mm."""
        if across:
            return self.size.width - (_HEAD + _BOUND - _EDGE) - _FOOT
        return self.size.height - _HEAD - _FOOT

    def data(self) -> dict[str, Any]:
        """For the templates, mm."""
        return {
            "width": self.size.width,
            "height": self.size.height,
            "bound": _BOUND,
            "edge": _EDGE,
            "head": _HEAD,
            "foot": _FOOT,
        }
