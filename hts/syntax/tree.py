"""The lossless tree: entries, blocks and values, each with its exact place.

Blanks and comments are not nodes; they are the text between two tokens, so nothing of the source
is lost: `Tree.pieces` joined gives the source back.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from hts.base.text import Source
from hts.syntax.lalr import Token


class Group:
    """Several tokens read as one value: a range ``A .. B`` or a tolerance ``A +/- B``.

    ``low`` is None in ``+/- B``.
    """

    __slots__ = ("end", "high", "kind", "low", "sign", "start")

    def __init__(self, kind: str, low: Token | None, sign: Token, high: Token) -> None:
        self.kind = kind
        self.low = low
        self.sign = sign
        self.high = high
        self.start = (low or sign).start
        self.end = high.end


Item = Token | Group


class Block:
    """``{ … }`` with its entries."""

    __slots__ = ("close", "entries", "open")

    def __init__(self, open: Token, entries: list[Entry], close: Token) -> None:
        self.open = open
        self.entries = entries
        self.close = close


class Line:
    """What stands on one line, wherever it stands: ``items``, and where they begin and end, counted
    from the beginning of the line.

    ``opens`` is where the brace of a block stands, 0 without one; ``closes``: it is the brace that
    ends one; ``goes_on``: the next line belongs to it. ``readings`` is for who reads entries, to
    keep what a line says.
    """

    __slots__ = ("at", "closes", "end", "goes_on", "items", "opens", "readings")

    def __init__(
        self,
        items: list[Item],
        at: int,
        end: int,
        *,
        opens: int = 0,
        closes: bool = False,
        goes_on: bool = False,
    ) -> None:
        self.items = items
        self.at = at
        self.end = end
        self.opens = opens
        self.closes = closes
        self.goes_on = goes_on
        self.readings: dict[Any, Any] = {}


class Entry:
    """A phrase, and the block that may follow it.

    ``broken``: part of the phrase could not be read; the cause has already been reported. ``line``
    is the line it stands on and ``begins`` where that begins, where it was read by itself.
    """

    __slots__ = ("_items", "begins", "block", "broken", "end", "line", "start")

    def __init__(self, items: list[Item], broken: bool, start: int, end: int) -> None:
        self._items: list[Item] | None = items
        self.broken = broken
        self.start = start
        self.end = end
        self.block: Block | None = None
        self.line: Line | None = None
        self.begins = 0

    @staticmethod
    def of_line(line: Line, begins: int) -> Entry:
        """The entry of a line that begins at an offset of the text."""
        made = Entry.__new__(Entry)
        made._items = None
        made.broken = False
        made.start = begins + line.at
        made.end = begins + line.end
        made.block = None
        made.line = line
        made.begins = begins
        return made

    @property
    def items(self) -> list[Item]:
        if self._items is None:
            assert self.line is not None
            self._items = [_moved(item, self.begins) for item in self.line.items]
        return self._items


def _moved(item: Item, by: int) -> Item:
    if isinstance(item, Token):
        return Token(item.kind, item.text, item.start + by, item.end + by)
    low = _moved_token(item.low, by) if item.low is not None else None
    return Group(item.kind, low, _moved_token(item.sign, by), _moved_token(item.high, by))


def _moved_token(token: Token, by: int) -> Token:
    return Token(token.kind, token.text, token.start + by, token.end + by)


class Tree:
    """A parsed source; ``tokens`` holds every token in order, line ends included."""

    __slots__ = ("_tokens", "entries", "source")

    def __init__(
        self, source: Source, tokens: Callable[[], list[Token]], entries: list[Entry]
    ) -> None:
        """``tokens``: called when somebody asks for them."""
        self.source = source
        self._tokens: Callable[[], list[Token]] | list[Token] = tokens
        self.entries = entries

    @property
    def tokens(self) -> list[Token]:
        if callable(self._tokens):
            self._tokens = self._tokens()
        return self._tokens

    def pieces(self) -> Iterator[str]:
        """Tokens and the text between them, in order: joined, they are the source."""
        text = self.source.text
        at = 0
        for token in self.tokens:
            if token.start > at:
                yield text[at : token.start]
            yield text[token.start : token.end]
            at = max(at, token.end)
        yield text[at:]
