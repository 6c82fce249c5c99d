"""Sizes of sheets, upright."""

from __future__ import annotations

from typing import NamedTuple


class Size(NamedTuple):
    """A sheet: name as said, width and height in mm."""

    name: str
    width: float
    height: float


#: ISO 216.
A4 = Size("A4", 210.0, 297.0)
#: ANSI/ASME Y14.1, size A: 8.5 in by 11 in.
LETTER = Size("Letter", 215.9, 279.4)

SIZES = {size.name: size for size in (A4, LETTER)}
