"""The layout of a log that begins as one read before: a recorder writes every log alike."""

from __future__ import annotations

from collections import deque
from functools import lru_cache
from typing import NamedTuple

from hts.record.reading.options import Options
from hts.record.reading.sniff import Layout, beginning, sniff

#: Any digit stands for all of them.
_DIGITS = bytes.maketrans(b"123456789", b"0" * 9)


class _Known(NamedTuple):
    """A layout, the lines before the readings, and the shapes of the readings it was found by."""

    asked: tuple[str | None, str | None]
    head: list[bytes]
    shapes: frozenset[bytes]
    layout: Layout


_known: deque[_Known] = deque(maxlen=8)


def layout_of(data: bytes, name: str, options: Options) -> Layout:
    """The same as `sniff`, without looking at every cell again where head and shapes are known."""
    lines = beginning(data)
    asked = (options.separator, options.decimal)
    shapes: dict[int, frozenset[bytes]] = {}
    for one in _known:
        first = len(one.head)
        if one.asked == asked and lines[:first] == one.head:
            if first not in shapes:
                shapes[first] = _shapes(lines[first:])
            if shapes[first] == one.shapes:
                return one.layout
    layout = sniff(data, name, options)
    # How many digits follow a comma can tell what it is; how many follow a point does not.
    if layout.decimal == ".":
        first = layout.first
        _known.appendleft(_Known(asked, lines[:first], _shapes(lines[first:]), layout))
    return layout


def _shapes(lines: list[bytes]) -> frozenset[bytes]:
    """The lines with every number of digits as one: all that the layout depends on."""
    return frozenset(map(_shape, {line.translate(_DIGITS) for line in lines}))


@lru_cache(maxsize=4096)
def _shape(line: bytes) -> bytes:
    for digits in (b"0000", b"00", b"00"):
        line = line.replace(digits, b"0")
    return line
