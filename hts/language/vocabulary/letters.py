"""Letters that the fonts of the paper do not have."""

from __future__ import annotations

import unicodedata
from bisect import bisect_right
from functools import cache

from hts.base.data import load
from hts.base.findings import Finding, Label, Report
from hts.base.fonts import Font, letters_of
from hts.language.vocabulary.hidden import HIDDEN
from hts.language.vocabulary.mistakes import MISSING_LETTER
from hts.syntax import Tree

#: As many are named in one finding.
_NAMED = 5


def missing_letters(tree: Tree, report: Report, font: Font | None = None) -> None:
    """Reports, once for a source, letters outside comments that paper can only show as numbers.

    ``font``: the team's own, beside the shipped ones.
    """
    source = tree.source
    if source.text.isascii():
        return
    found: dict[str, tuple[int, int]] = {}
    for token in tree.tokens:
        # A run of line ends and comments is one token, and nothing of it is printed.
        if token.text.isascii() or token.text.lstrip(" \t")[:1] in ("#", "\r", "\n"):
            continue
        for letter in unicodedata.normalize("NFC", token.text):
            if not _drawn(letter, font) and letter not in HIDDEN:
                found.setdefault(letter, (token.start, token.end))
    if found:
        start, end = next(iter(found.values()))
        named = ", ".join(f"U+{ord(letter):04X}" for letter in list(found)[:_NAMED])
        more = f" and {len(found) - _NAMED} more" if len(found) > _NAMED else ""
        first = next(iter(found))
        report.add(
            Finding(
                MISSING_LETTER,
                f"the fonts of the paper do not have {named}{more}; "
                f"printed is <U+{ord(first):04X}>",
                Label(source.span(start, end)),
                help="write it in Latin, Greek or Cyrillic letters, or give a font that has it: "
                "`font` under [paper] in hts.toml",
            )
        )


def _drawn(letter: str, font: Font | None) -> bool:
    if letter.isascii() or (alone(letter) and ord(letter) in letters_of(font)):
        return True
    firsts, lasts = _runs()
    index = bisect_right(firsts, ord(letter)) - 1
    return index >= 0 and ord(letter) <= lasts[index] and not unicodedata.combining(letter)


def alone(letter: str) -> bool:
    """Whether a letter stands by itself, from left to right: only those are taken from a team's
    own font, since a tag that changes its order or its shape beside others can be misread."""
    return unicodedata.category(letter)[0] != "M" and unicodedata.bidirectional(letter) in (
        "L",
        "ON",
        "EN",
    )


@cache
def _runs() -> tuple[list[int], list[int]]:
    runs = load("letters")["runs"]
    return [first for first, _ in runs], [last for _, last in runs]
