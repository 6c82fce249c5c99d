"""What a text says, whatever its layout: its entries with each value in one spelling."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.syntax import Entry, Group, Tree

#: Spellings the language takes for one another.
_SAME = {"°C": "degC", "°F": "degF", "±": "+/-", "…": ".."}
_VALUES = frozenset({"QUANTITY", "NUMBER", "MULTIPLE", "BY_RULE", "DOTS", "PLUS_MINUS"})
_BLANKS = re.compile(r"[ \t]+")
_BLANKS_BESIDE_NO_DIGIT = re.compile(r"(?<=\D) | (?=\D)")

Piece = tuple[str, str, int]
"""Kind and text of a part of the tree, blanks that say nothing left out; and where it stands."""


def pieces(tree: Tree) -> Iterator[Piece]:
    """All of a tree that says something, in order: without comments and layout."""
    for entry in tree.entries:
        yield from _pieces_of(entry)


def _pieces_of(entry: Entry) -> Iterator[Piece]:
    for item in entry.items:
        if isinstance(item, Group):
            yield item.kind, "", item.start
            tokens = [token for token in (item.low, item.high) if token]
        else:
            tokens = [item]
        for token in tokens:
            yield token.kind, _meaning(token.kind, token.text), token.start
    if entry.block:
        yield "BLOCK", "{", entry.block.open.start
        for inner in entry.block.entries:
            yield from _pieces_of(inner)
        yield "BLOCK", "}", entry.block.close.start
    yield "END", "", entry.end


def _meaning(kind: str, text: str) -> str:
    """What two texts of one meaning have in common."""
    if kind == "COMMA":
        return ","
    if kind not in _VALUES:
        return text
    for written, standard in _SAME.items():
        text = text.replace(written, standard)
    # A blank between two digits parts 1 1/2 from 11/2; any other says nothing.
    return _BLANKS_BESIDE_NO_DIGIT.sub("", _BLANKS.sub(" ", text))
