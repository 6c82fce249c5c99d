"""Walks over the items of one entry while its values are read."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Protocol

from hts.base.findings import Kind
from hts.base.text import Source
from hts.syntax.tree import Item


class Typed(Protocol):
    """What a walk needs of a field: its first words and the type of its value."""

    @property
    def words(self) -> tuple[str, ...]: ...

    @property
    def type(self) -> Any: ...


class Misread(Exception):
    """A value that is not what the entry takes: what was read, what was expected, what to do."""

    def __init__(self, kind: Kind, message: str, start: int, end: int, help: str = "") -> None:
        super().__init__(message)
        self.kind = kind
        self.message = message
        self.start = start
        self.end = end
        self.help = help


class Cursor:
    """Position in the items of an entry."""

    __slots__ = ("at", "items", "labels", "source", "values")

    def __init__(
        self,
        source: Source,
        items: list[Item],
        labels: Mapping[str, Sequence[Typed]],
        values: Sequence[Typed] = (),
    ) -> None:
        self.source = source
        self.items = items
        self.at = 0
        #: First words of the entry's clauses: a word among them is never part of a value.
        self.labels = labels
        #: What stands in the entry without a label.
        self.values = values

    @property
    def item(self) -> Item | None:
        """The next item, None at the end."""
        return self.items[self.at] if self.at < len(self.items) else None

    @property
    def kind(self) -> str:
        """Kind of the next item, empty at the end."""
        return self.items[self.at].kind if self.at < len(self.items) else ""

    def word(self, ahead: int = 0) -> str:
        """Text of an item to come if it is a word, else empty."""
        at = self.at + ahead
        if at < len(self.items):
            item = self.items[at]
            if item.kind == "WORD":
                return item.text  # type: ignore[union-attr]
        return ""

    def knows(self, word: str) -> bool:
        """Whether the entry has a use for the word: it begins a clause or is part of a choice."""
        return word in self.labels or any(
            word in choice.split()
            for field in self.values
            for choice in getattr(field.type, "choices", ())
        )

    def matches(self, words: tuple[str, ...]) -> int:
        """How many of the next items are these words; 0 where they are not.

        A word such as 60584-3 is two items that touch.
        """
        items = self.items
        at = self.at
        count = len(items)
        for word in words:
            if at >= count:
                return 0
            item = items[at]
            text = getattr(item, "text", "")
            if " " in word:
                # `95 %` is one quantity, however many blanks stand in it.
                text = " ".join(text.split())
            at += 1
            while text != word:
                if not text or not word.startswith(text) or at >= count:
                    return 0
                if items[at].start != item.end:
                    return 0
                item = items[at]
                text += getattr(item, "text", "")
                at += 1
        return at - self.at

    def text(self, item: Item) -> str:
        return self.source.text[item.start : item.end]

    def here(self) -> tuple[int, int]:
        """Place of the next item, or the end of the last one."""
        if self.at < len(self.items):
            item = self.items[self.at]
            return item.start, item.end
        end = self.items[-1].end if self.items else 0
        return end, end

    def skip_commas(self) -> None:
        while self.at < len(self.items) and self.items[self.at].kind == "COMMA":
            self.at += 1
