"""Text as it goes onto a page: nothing in it steers, and nothing of it runs out of its column."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any

from hts.base.fonts import Font
from hts.job.outputs.marks import Marks
from hts.paper.sheet import metrics
from hts.paper.sheet.fonts import given

#: Instead of the marks themselves. Half of a surrogate pair never comes out of a decoded file,
#: so that no text of a specification can set a mark.
MEMORY, PRACTICE = "\ud800", "\ud801"
_LETTER = {MEMORY: "m", PRACTICE: "p"}
#: Where a line may be broken and nothing is printed.
_BREAK = "\N{ZERO WIDTH SPACE}"
#: Signs the fonts do not have, and what stands for them.
SIGNS = {
    "\N{MINUS SIGN}": "\N{EN DASH}",
    "\N{RIGHTWARDS ARROW}": "=",
    "\N{LESS-THAN OR EQUAL TO}": "<=",
    "\N{GREATER-THAN OR EQUAL TO}": ">=",
    "\N{SQUARE ROOT}": "sqrt",
}
POINT = 25.4 / 72
#: A number and its unit stay on one line.
_UNIT = re.compile(
    r"(?<=\d) (?=(?:[mk]?m|in|m²K|kg|[CFK]|°[CF]|deg[CF]|h|min|s|%|J|kJ|[km]?V|k?W|A|HBW)\b|%)"
)
KEPT = "\N{NO-BREAK SPACE}"
#: Units as a text writes them behind a number, which paper has signs for.
_WRITTEN = re.compile(r"(?<=\d )(?:deg([CF])\b|(m)2(?=\*?K/W)|(kg/m)3\b)")
#: A column as wide as its longest word holds it, whatever the rounding, mm.
_HAIR = 0.01
#: As many marks as a value may carry, in letters of the text.
_MARK_WIDTH = 0.6


def marks() -> Marks:
    """Marks that `pieces` knows again."""
    return Marks({"memory": MEMORY, "practice": PRACTICE})


def mark_of(basis: str) -> str:
    """The mark of a value of this basis, empty for one well founded."""
    return {"memory": MEMORY, "practice": PRACTICE}.get(basis, "")


def plain(text: str) -> str:
    """Text of ours or of a specification that the fonts can draw; marks stay."""
    for sign, shown in SIGNS.items():
        text = text.replace(sign, shown)
    text = _WRITTEN.sub(_signed, text)
    if text.isascii() and text.isprintable():
        return _UNIT.sub(KEPT, text)
    shown = "".join(
        part if part in _LETTER else metrics.drawable(part) for part in _parted(text) if part
    )
    return _UNIT.sub(KEPT, shown)


def pieces(text: str, room: float = 0.0, points: float = 8.0, bold: bool = False) -> Any:
    """`printed` for text that is not plain yet."""
    return printed(plain(text), room, points, bold)


def printed(shown: str, room: float = 0.0, points: float = 8.0, bold: bool = False) -> Any:
    """What the templates print: a string, or a list of strings and marks (`{"mark": "m"}`).

    Words wider than `room` mm in letters of `points` get places to break at; 0: no limit.
    """
    if room > 0:
        shown = broken(shown, room, points, bold)
    if not any(mark in shown for mark in _LETTER):
        return shown
    return [{"mark": _LETTER[part]} if part in _LETTER else part for part in _parted(shown) if part]


def _signed(unit: re.Match[str]) -> str:
    """`°C` for `degC`, `m²` for `m2`."""
    scale, area, density = unit.groups()
    return f"°{scale}" if scale else f"{area}²" if area else f"{density}³"


def _parted(text: str) -> list[str]:
    """The text between marks, and the marks."""
    parts = [""]
    for c in text:
        if c in _LETTER:
            parts += [c, ""]
        else:
            parts[-1] += c
    return parts


def width(text: str, points: float, bold: bool = False) -> float:
    """Width in mm of a line of plain text."""
    return _line_width(text, points, bold, given())


@lru_cache(maxsize=8192)
def _line_width(text: str, points: float, bold: bool, font: Font | None) -> float:
    """The papers of many joints have most lines in common; `font` is the one of the team."""
    return sum(_word_width(word, points, bold, font) for word in text.split(" ")) + (
        text.count(" ") * _word_width(" ", points, bold, font)
    )


@lru_cache(maxsize=8192)
def _word_width(word: str, points: float, bold: bool, font: Font | None) -> float:
    height = points * POINT * metrics.CAPITAL
    bare = word.replace(MEMORY, "").replace(PRACTICE, "").replace(_BREAK, "")
    more = (len(word) - len(bare)) * points * POINT * _MARK_WIDTH
    return metrics.width(bare, height, bold) + more


def broken(text: str, room: float, points: float, bold: bool = False) -> str:
    """The text with places to break at in words wider than `room` mm."""
    if width(text, points, bold) <= room:
        return text
    return " ".join(
        word if width(word, points, bold) <= room + _HAIR else _cut(word, room, points, bold)
        for word in text.split(" ")
    )


def _cut(word: str, room: float, points: float, bold: bool) -> str:
    parts, used = [""], 0.0
    for c in word:
        wide = _word_width(c, points, bold, given())
        if used + wide > room and parts[-1]:
            parts.append("")
            used = 0.0
        parts[-1] += c
        used += wide
    return _BREAK.join(parts)


def short(text: str, room: float, points: float, bold: bool = False) -> str:
    """One line no wider than `room` mm, cut with `…`."""
    return metrics.shortened(plain(text), points * POINT * metrics.CAPITAL, room, bold)
