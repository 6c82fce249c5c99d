"""Tables fitted to a page: how wide each column is, and which columns go into a table of their own
where all of them do not fit."""

from __future__ import annotations

import re
from collections.abc import Sequence
from math import ceil
from typing import Any, NamedTuple

from hts.paper.packet import letters

#: Blank room on both sides of a cell, mm.
PADDING = 1.4
#: A column is not made wider than this for a single word, nor for a whole text, mm.
_WIDEST_WORD, _WIDEST_TEXT = 32.0, 110.0
#: A text up to here is short, mm.
_SHORT = 26.0
#: Longer texts may go on to the next page within a row.
_WHOLE = 900
#: Room that is left over makes columns of numbers wider by less than those of words.
_NUMBERS_GROW = 0.5
#: As the templates set rows: capitals and leading as parts of the size of letters, and room above
#: a row, mm.
_CAPITAL, _LEADING, _ABOVE = 0.714, 0.45, 1.0
#: `5`, `1 5/8`, `643 (25 5/16)`, `5 %`; with marks.
_SIZE = r"[-–+±]?[\d.,:/]+(\s\d+/\d+)?"
_NUMBER = re.compile(rf"[-–+±]? ?{_SIZE}(\s?%)?(\s\({_SIZE}\))?[\ud800\ud801]*")
#: Words that stand among numbers.
_AMONG = ("free", "open")


class Style(NamedTuple):
    """Sizes of letters in points: rows and heads."""

    body: float = 8.0
    head: float = 7.2


NORMAL, SMALL = Style(), Style(7.2, 6.8)


class Column(NamedTuple):
    """What is known of a column before its width is: the least and the best width, mm."""

    head: str
    cells: list[str]
    least: float
    best: float
    is_number: bool
    #: Not broken for the sake of others, however long.
    is_whole: bool = False


def fitted(
    heads: Sequence[str],
    rows: Sequence[Sequence[str]],
    room: float,
    style: Style = NORMAL,
    keep: int = 1,
    whole: Sequence[int] = (),
) -> list[dict[str, Any]]:
    """The table as one or more for the templates, each within `room` mm.

    Where it is too wide it is split by columns, and the first `keep` stand in every part. A column
    without an entry is left out. The texts of the columns `whole` are broken last.
    """
    columns = [
        _column(head, [row[index] for row in rows], style)._replace(is_whole=index in whole)
        for index, head in enumerate(heads)
        if index < keep or any(row[index] for row in rows)
    ]
    parts = _split(columns, room, keep)
    return [_table(part, room, style) for part in parts]


def height(part: dict[str, Any]) -> float:
    """About what a table for the templates takes, mm."""
    letter: float = part["body"] * letters.POINT
    first, further = letter * _CAPITAL + 2 * _ABOVE, letter * (_CAPITAL + _LEADING)
    total = 2 * further + first
    for row in part["rows"]:
        lines = 1
        for cell, width in zip(row["cells"], part["widths"], strict=True):
            text = cell if isinstance(cell, str) else "".join(c for c in cell if isinstance(c, str))
            wide = letters.width(text[:20_000], part["body"])
            lines = max(lines, ceil(wide / max(width - 2 * PADDING, 1.0) - 0.02))
        total += first + (lines - 1) * further
    return total


def given(
    widths: Sequence[float],
    heads: Sequence[str],
    rows: Sequence[Sequence[str]],
    room: float,
    upright: Sequence[int] = (),
) -> list[float]:
    """The widths wanted, in mm for a page of `room` mm; a column too narrow for a word in it takes
    from those that have more than they need."""
    total = sum(widths)
    wanted = [width * room / total for width in widths]
    least = [
        _column("" if index in upright else head, [row[index] for row in rows], NORMAL).least
        + 2 * PADDING
        for index, head in enumerate(heads)
    ]
    lacking = sum(max(0.0, low - width) for low, width in zip(least, wanted, strict=True))
    spare = [max(0.0, width - low) for low, width in zip(least, wanted, strict=True)]
    if not 0.0 < lacking <= sum(spare):
        return wanted
    share = lacking / sum(spare)
    return [
        max(low, width) - more * share
        for low, width, more in zip(least, wanted, spare, strict=True)
    ]


def is_whole(row: Sequence[str]) -> bool:
    """Whether a row is short enough to be kept on one page."""
    return all(len(cell) < _WHOLE for cell in row)


def _column(head: str, cells: list[str], style: Style) -> Column:
    head = letters.plain(head)
    cells = [_joined(letters.plain(cell)) for cell in cells]
    least = max(
        [0.0]
        + [_longest_word(cell, style.body, False) for cell in cells]
        + [_longest_word(head, style.head, True)]
    )
    best = max(
        [least, min(letters.width(head, style.head, True), 2.2 * least)]
        + [min(letters.width(cell, style.body), _WIDEST_TEXT) for cell in cells]
    )
    filled = [cell for cell in cells if cell and cell not in _AMONG]
    is_number = any(cells) and all(_NUMBER.fullmatch(cell) for cell in filled)
    if is_number:
        # A figure is not broken, nor the one in brackets beside it.
        whole = max((letters.width(cell, style.body) for cell in cells), default=0.0)
        least = max(least, min(whole, _WIDEST_WORD))
    return Column(head, cells, least, best, is_number)


def _joined(cell: str) -> str:
    """A figure is kept on one line with the one in brackets beside it."""
    return cell.replace(" (", f"{letters.KEPT}(") if _NUMBER.fullmatch(cell) else cell


def _longest_word(text: str, points: float, bold: bool) -> float:
    words = text.split(" ") if len(text) < 20_000 else text[:20_000].split(" ")
    return min(max(letters.width(word, points, bold) for word in words), _WIDEST_WORD)


def _split(columns: list[Column], room: float, keep: int) -> list[list[Column]]:
    fixed = columns[:keep]
    parts: list[list[Column]] = [[]]
    for column in columns[keep:]:
        if parts[-1] and _least([*fixed, *parts[-1], column]) > room:
            parts.append([])
        parts[-1].append(column)
    return [[*fixed, *part] for part in parts]


def _least(columns: Sequence[Column]) -> float:
    return sum(column.least + 2 * PADDING for column in columns)


def _table(columns: list[Column], room: float, style: Style) -> dict[str, Any]:
    widths = _widths(columns, room)
    inner = [width - 2 * PADDING for width in widths]
    return {
        "widths": [round(width, 3) for width in widths],
        "numbers": [column.is_number for column in columns],
        "body": style.body,
        "head": style.head,
        "heads": [
            letters.printed(column.head, width, style.head, True)
            for column, width in zip(columns, inner, strict=True)
        ],
        "rows": [
            {
                "whole": is_whole(row),
                "cells": [
                    letters.printed(cell, width, style.body)
                    for cell, width in zip(row, inner, strict=True)
                ],
            }
            for row in zip(*(column.cells for column in columns), strict=True)
        ],
    }


def _widths(columns: list[Column], room: float) -> list[float]:
    """Each at least what its longest word needs, at best its longest text, all together `room`."""
    least = [column.least + 2 * PADDING for column in columns]
    best = [column.best + 2 * PADDING for column in columns]
    if sum(least) >= room:
        return [width * room / sum(least) for width in least]
    if sum(best) > room:
        # Numbers and short words are not broken for the sake of long texts.
        whole = [
            high if column.is_number or column.is_whole or column.best <= _SHORT else low
            for column, low, high in zip(columns, least, best, strict=True)
        ]
        least = whole if sum(whole) < room else least
        share = (room - sum(least)) / (sum(best) - sum(least))
        return [low + (high - low) * share for low, high in zip(least, best, strict=True)]
    weights = [
        width * (_NUMBERS_GROW if column.is_number else 1.0)
        for column, width in zip(columns, best, strict=True)
    ]
    extra = (room - sum(best)) / sum(weights)
    return [width + weight * extra for width, weight in zip(best, weights, strict=True)]
