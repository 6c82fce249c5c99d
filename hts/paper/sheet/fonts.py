"""The fonts of every paper and drawing. They are shipped, and those of the machine are never used,
so that a page is the same wherever it is made. A team may give one more, for letters these lack."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar

from hts.base.fonts import Font

FAMILY = "Noto Sans"
FOLDER = os.path.join(os.path.dirname(__file__), "fonts")
REGULAR = os.path.join(FOLDER, "NotoSans-Regular.ttf")
BOLD = os.path.join(FOLDER, "NotoSans-Bold.ttf")

_GIVEN: ContextVar[Font | None] = ContextVar("font of the team", default=None)


def given() -> Font | None:
    """The team's own font for the paper that is being made, or None."""
    return _GIVEN.get()


@contextmanager
def beside(font: Font | None) -> Iterator[None]:
    """Within, paper takes the letters that the shipped fonts lack from this one."""
    before = _GIVEN.set(font)
    try:
        yield
    finally:
        _GIVEN.reset(before)
