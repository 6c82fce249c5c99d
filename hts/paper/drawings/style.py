"""Line types, text heights and colours of all drawings.

Line types follow ISO 128-2:2020: continuous wide for outlines, continuous narrow for dimensions and
leaders, dashed narrow for what is hidden, long-dashed dotted narrow for centre lines, long-dashed
double-dotted narrow for adjacent parts; dashes are multiples of the line width (from memory, not
confirmed in a copy). Text heights are nominal sizes of ISO 3098. Colours are those Okabe and Ito
published for readers who are colour-blind (2008); nothing is told by colour alone.
"""

from __future__ import annotations

from typing import NamedTuple


class Line(NamedTuple):
    """Width in mm, dashes and gaps in mm, colour."""

    width: float
    dashes: tuple[float, ...] = ()
    colour: str = "#000000"


BLACK, WHITE = "#000000", "#ffffff"
ORANGE, SKY, GREEN, BLUE, VERMILLION = "#e69f00", "#56b4e9", "#009e73", "#0072b2", "#d55e00"
GREY = "#8c8c8c"
PALE_ORANGE, PALER_ORANGE, PALE_GREY = "#f6d48c", "#fcefd2", "#d9d9d9"

_WIDE, _NARROW = 0.5, 0.25
_DASH, _LONG, _GAP, _DOT = 12 * _NARROW, 24 * _NARROW, 3 * _NARROW, 0.5 * _NARROW

OUTLINE = Line(_WIDE)
NARROW = Line(_NARROW)
FINE = Line(0.18)
LEADER = Line(0.18, colour="#404040")
HIDDEN = Line(_NARROW, (_DASH, _GAP))
CENTRE = Line(_NARROW, (_LONG, _GAP, _DOT, _GAP))
ADJACENT = Line(_NARROW, (_LONG, _GAP, _DOT, _GAP, _DOT, _GAP))

#: Where a thermocouple sits; hatching of what is cut, and of the weld.
CROSS = Line(0.4)
HATCH = Line(0.13, colour="#404040")

SMALL, TEXT, HEAD = 1.8, 2.5, 3.5

FONTS = "'Noto Sans', Arial, Helvetica, 'Liberation Sans', sans-serif"
