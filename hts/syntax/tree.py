"""The lossless tree: entries, blocks and values, each with its exact place.

Blanks and comments are not nodes; they are the text between two tokens, so nothing of the source
is lost: `Tree.pieces` joined gives the source back.
"""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.text import Source
from hts.syntax.lalr import Token


class Group:
    """Several tokens read as one value: a range ``A .. B`` or a tolerance ``A +/- B``.

    ``low`` is None in ``+/- B``.
    """

    __slots__ = ("end", "high", "kind", "low", "start")

    def __init__(self, kind: str, low: Token | None, sign: Token, high: Token) -> None:
        self.kind = kind
        self.low = low
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


class Entry:
    """A phrase, and the block that may follow it.

    ``broken``: part of the phrase could not be read; the cause has already been reported.
    """

    __slots__ = ("block", "broken", "end", "items", "start")

    def __init__(self, items: list[Item], broken: bool, start: int, end: int) -> None:
        self.items = items
        self.broken = broken
        self.start = start
        self.end = end
        self.block: Block | None = None


class Tree:
    """A parsed source; ``tokens`` holds every token in order, line ends included."""

    __slots__ = ("entries", "source", "tokens")

    def __init__(self, source: Source, tokens: list[Token], entries: list[Entry]) -> None:
        self.source = source
        self.tokens = tokens
        self.entries = entries

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
