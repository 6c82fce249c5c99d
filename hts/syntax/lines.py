"""Texts of which every line can be read by itself: a line that was read before is not read again.

Specifications of one site have most of their lines in common. Whatever is not a plain line (text
that cannot be read, brackets over several lines, braces that do not match or stand alone) is left
to the parser of whole texts, which tells what is wrong; where a text is read here, the tree is the
one that parser makes.
"""

from __future__ import annotations

import re
from typing import Any

from hts.syntax.lalr import END, Machine, Tables, Token
from hts.syntax.tree import Block, Entry, Item, Line

#: Lines that are kept; all are forgotten before they take much memory.
_MOST_KEPT = 8_000
#: The language has no entry of so many lines; whatever goes on for longer is read as a whole.
_LONGEST = 200


class Lines:
    """Reads texts line by line with the tables of the grammar.

    ``deepest``: blocks within each other, ``most``: items of one entry, at most.
    """

    def __init__(self, tables: Tables, deepest: int, most: int) -> None:
        self._tables = tables
        self._deepest = deepest
        self._most = most
        self._known: dict[str, Line | None] = {}

    def entries(self, text: str) -> list[Entry] | None:
        """The entries of a text, None where it has to be read as a whole."""
        if text.endswith("\r"):  # no line end, and nothing else
            return None
        known = self._known
        if len(known) > _MOST_KEPT:
            known.clear()
        here: list[Entry] = []
        above: list[tuple[list[Entry], Token]] = []
        begins = 0
        more = 0
        started = ""
        lines = text.split("\n")
        for number, written in enumerate(lines):
            if more:
                written = f"{started}\n{written}"
            line = known.get(written, _UNREAD)
            if line is _UNREAD:
                line = known[written] = self._read(written)
            if line is None:
                return None
            if line.goes_on:
                more += 1
                if more > _LONGEST or number + 1 == len(lines):
                    return None
                started = written
                continue
            more = 0
            if line.closes:
                if not above:
                    return None
                block_of, opened = above.pop()
                at = begins + line.at
                entry = block_of[-1]
                entry.block = Block(opened, here, Token("RBRACE", "}", at, at + 1))
                entry.end = at + 1
                here = block_of
            elif line.end:
                here.append(Entry.of_line(line, begins))
                if line.opens:
                    at = begins + line.opens
                    above.append((here, Token("LBRACE", "{", at, at + 1)))
                    if len(above) > self._deepest:
                        return None
                    here = []
            begins += len(written) + 1
        return None if above else here

    def _read(self, written: str) -> Line | None:
        # A line end of another system is part of the line end.
        text = written[:-1] if written.endswith("\r") else written
        tokens = [token for token in self._tables.tokens(text) if token.kind != "_NL"]
        if not tokens:
            return Line([], 0, 0)
        first, last = tokens[0], tokens[-1]
        if first.kind == "RBRACE":
            return Line([], first.start, 0, closes=True) if first is last else None
        if last.kind == "COMMA":
            return Line([], 0, 0, goes_on=True)
        opens = tokens.pop().start if last.kind == "LBRACE" else 0
        kinds = [token.kind for token in tokens]
        if not _NOT_PLAIN.isdisjoint(kinds) or not _paired(kinds):
            return None
        if "COMMA" in kinds and _DECIMAL_COMMA.search(text):
            return None
        items = self._items(tokens, len(text))
        if items is None or len(items) > self._most:
            return None
        return Line(items, items[0].start, items[-1].end, opens=opens)

    def _items(self, tokens: list[Token], end: int) -> list[Item] | None:
        machine = Machine(self._tables)
        if not all(map(machine.feed, (*tokens, Token(END, "", end, end)))):
            return None
        entries: list[Entry] = machine.values[-1]
        return entries[0].items if len(entries) == 1 else None


_UNREAD: Any = object()
#: What a phrase by itself has none of.
_NOT_PLAIN = frozenset({"LBRACE", "RBRACE", "UNFINISHED", "ILLEGAL"})
_DECIMAL_COMMA = re.compile(r"\d,\d")


def _paired(kinds: list[str]) -> bool:
    """Whether every bracket is closed on the line."""
    opened = 0
    for kind in kinds:
        if kind == "LPAR":
            opened += 1
        elif kind == "RPAR":
            opened -= 1
            if opened < 0:
                return False
    return not opened
