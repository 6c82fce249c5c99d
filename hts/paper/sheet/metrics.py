"""How wide a text is in the fonts of the paper, and texts made to fit."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise
from typing import Any

from hts.base.fonts import letters_of
from hts.job.outputs.text import visible
from hts.language.vocabulary.letters import alone
from hts.paper.sheet.fonts import BOLD, REGULAR, given
from hts.paper.sheet.needed import needed

#: Parts of the font size, as the tables of both fonts give them (`OS/2`, and the outlines of the
#: letters of all European languages; of these Ů, ĺ and ĥ reach up to 0.03 farther).
CAPITAL = 0.714
ABOVE = 0.98
BELOW = 0.25
ELLIPSIS = "…"

#: Kerning that draws letters together is not counted; what rounding adds stays within this.
_RESERVE = 1.02


def font_size(height: float) -> float:
    """The font size in mm at which capitals are `height` mm high, the nominal size of ISO 3098."""
    return height / CAPITAL


def drawable(text: str) -> str:
    """The text with everything the fonts cannot draw, and all that would change the place or the
    order of letters, written as its number: `<U+05D0>`. One line."""
    text = unicodedata.normalize("NFC", text)
    if text.isascii() and text.isprintable():
        return text
    known, more = _advances(REGULAR), letters_of(given())
    return "".join(
        c
        if c.isprintable()
        and ((ord(c) in known and not unicodedata.combining(c)) or (ord(c) in more and alone(c)))
        else _number(c)
        for c in text
    )


def _number(character: str) -> str:
    shown = visible(character)
    return shown if shown != character else f"<U+{ord(character):04X}>"


def width(text: str, height: float, bold: bool = False) -> float:
    """Width in mm of a line of drawable text with capitals `height` mm high."""
    font = given()
    length = _length(text, BOLD if bold else REGULAR, None if font is None else font.path)
    return length * font_size(height) * _RESERVE


@lru_cache(maxsize=16384)
def _length(text: str, path: str, more_path: str | None) -> float:
    """The same as part of the font size; the papers of many joints have most texts in common."""
    advances = _advances(path)
    more = {} if more_path is None else _advances(more_path)
    widest = max(advances[-1], more.get(-1, 0.0))
    total = sum(advances.get(ord(c)) or more.get(ord(c), widest) for c in text)
    apart = _apart(path)
    return total + sum(apart.get(pair, 0.0) for pair in pairwise(text))


def shortened(text: str, height: float, most: float, bold: bool = False) -> str:
    """The text, cut and ended with `…` where it is wider than `most` mm."""
    if len(text) * height / 10 < most and width(text, height, bold) <= most:
        return text
    kept = ""
    for c in text:
        if width(kept + c + ELLIPSIS, height, bold) > most:
            break
        kept += c
    return kept.rstrip() + ELLIPSIS


def wrapped(text: str, height: float, most: float, lines: int, bold: bool = False) -> list[str]:
    """The text in at most so many lines, each no wider than `most` mm; the last is cut."""
    made: list[str] = []
    words = text.split()
    while words and len(made) < lines - 1:
        line = words[0]
        count = 1
        while count < len(words) and width(f"{line} {words[count]}", height, bold) <= most:
            line = f"{line} {words[count]}"
            count += 1
        made.append(shortened(line, height, most, bold))
        words = words[count:]
    if words:
        made.append(shortened(" ".join(words), height, most, bold))
    return made


@lru_cache(maxsize=4)
def _advances(path: str) -> dict[int, float]:
    """Code point -> advance as part of the font size; -1 -> the widest."""
    tables = needed("fontTools.ttLib", "paper").TTFont(path, lazy=True)
    units = float(tables["head"].unitsPerEm)
    metrics = tables["hmtx"].metrics
    advances = {code: metrics[name][0] / units for code, name in tables.getBestCmap().items()}
    advances[-1] = max(advances.values())
    return advances


@lru_cache(maxsize=2)
def _apart(path: str) -> dict[tuple[str, str], float]:
    """Pairs of characters that the font's kerning sets apart -> by how much, as part of the font
    size (OpenType, GPOS lookup type 2)."""
    tables = needed("fontTools.ttLib", "paper").TTFont(path, lazy=True)
    characters: dict[str, list[str]] = {}
    for code, name in tables.getBestCmap().items():
        characters.setdefault(name, []).append(chr(code))
    units = float(tables["head"].unitsPerEm)
    found: dict[tuple[str, str], float] = {}
    for lookup in tables["GPOS"].table.LookupList.Lookup:
        for part in lookup.SubTable:
            part = getattr(part, "ExtSubTable", part)
            if type(part).__name__ != "PairPos":
                continue
            for first, second, value in _pairs(part):
                for a in characters.get(first, ()):
                    for b in characters.get(second, ()):
                        found[a, b] = max(found.get((a, b), 0.0), value / units)
    return found


def _pairs(part: Any) -> Iterator[tuple[str, str, int]]:
    """Pairs of glyphs set apart by a table of kerning, and its units."""
    glyphs = part.Coverage.glyphs
    if part.Format == 1:
        for first, pairs in zip(glyphs, part.PairSet, strict=True):
            for pair in pairs.PairValueRecord:
                if (value := _advance(pair.Value1)) > 0:
                    yield first, pair.SecondGlyph, value
        return
    classes = part.ClassDef2.classDefs
    seconds: dict[int, list[str]] = {}
    for glyph, number in classes.items():
        seconds.setdefault(number, []).append(glyph)
    for first in glyphs:
        record = part.Class1Record[part.ClassDef1.classDefs.get(first, 0)]
        for number, pair in enumerate(record.Class2Record):
            if (value := _advance(pair.Value1)) > 0:
                for second in seconds.get(number, ()):
                    yield first, second, value


def _advance(value: Any) -> int:
    return getattr(value, "XAdvance", 0) or 0
