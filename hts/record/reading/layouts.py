"""The layout of a log that begins as one read before: a recorder writes every log alike."""

from __future__ import annotations

from collections import deque
from functools import lru_cache
from typing import NamedTuple

from hts.record.reading.header import filled, preamble, remarks
from hts.record.reading.options import Options
from hts.record.reading.sniff import (
    SEPARATORS,
    WAYS,
    Layout,
    beginning,
    sniff,
    split,
)

#: Any digit stands for all of them.
_DIGITS = bytes.maketrans(b"123456789", b"0" * 9)


class _Known(NamedTuple):
    """A layout, the lines before the readings, the shapes of the readings it was found by, and how
    many cells of each hold something at the least."""

    asked: tuple[str | None, str | None]
    head: list[bytes]
    shapes: frozenset[bytes]
    least: int
    layout: Layout


_known: deque[_Known] = deque(maxlen=8)


def layout_of(data: bytes, name: str, options: Options) -> Layout:
    """The same as `sniff`, without looking at every cell again where head and shapes are known; a
    line of the head that only says what the log is of may be another."""
    lines = beginning(data)
    asked = (options.separator, options.decimal)
    shapes: dict[int, frozenset[bytes]] = {}
    for one in _known:
        first = len(one.head)
        if one.asked != asked or len(lines) < first:
            continue
        others = [pair for pair in zip(one.head, lines, strict=False) if pair[0] != pair[1]]
        separator = one.layout.separator
        if not all(_only_says(line, separator, one.least) for pair in others for line in pair):
            continue
        if first not in shapes:
            shapes[first] = _shapes(lines[first:])
        if shapes[first] == one.shapes:
            return _with_head(one.layout, lines) if others else one.layout
    layout = sniff(data, name, options)
    # How many digits follow a comma can tell what it is; how many follow a point does not.
    if layout.decimal == ".":
        first = layout.first
        rows = [split(_text(line), layout.separator) for line in lines[first:] if line.strip()]
        least = min(map(filled, rows))
        _known.appendleft(_Known(asked, lines[:first], _shapes(lines[first:]), least, layout))
    return layout


def _with_head(layout: Layout, lines: list[bytes]) -> Layout:
    before = lines[: layout.line - 1 if layout.line else layout.first]
    below = lines[layout.line : layout.first] if layout.line else []
    rows = [split(_text(line), layout.separator) for line in below]
    return layout._replace(
        preamble=preamble(list(map(_text, before)), layout.separator),
        remarks=remarks(rows, layout.width),
    )


def _text(line: bytes) -> str:
    return line.decode().rstrip("\r")


@lru_cache(maxsize=256)
def _only_says(line: bytes, separator: str, least: int) -> bool:
    """Whether a line before the readings is none of them in whatever way it is read, and too short
    for a row of names: the layout does not hang on it."""
    text = _text(line)
    if not text.strip(" ,;|\t") or text[0] in ",;|\t":
        return False
    rows = (split(text, one) for one in SEPARATORS)
    if any(reads(row) for row in rows for reads in WAYS):
        return False
    own = split(text, separator)
    return any(own) and (len(own) < 2 or filled(own) * 2 <= least)


def _shapes(lines: list[bytes]) -> frozenset[bytes]:
    """The lines with every number of digits as one: all that the layout depends on."""
    return frozenset(map(_shape, {line.translate(_DIGITS) for line in lines}))


@lru_cache(maxsize=4096)
def _shape(line: bytes) -> bytes:
    for digits in (b"0000", b"00", b"00"):
        line = line.replace(digits, b"0")
    return line
