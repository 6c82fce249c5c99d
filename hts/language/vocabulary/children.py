"""Which entry of a block a node of the tree is."""

from __future__ import annotations

from hts.language.vocabulary.declare import Entry, Field
from hts.syntax.tree import Entry as Node


def child_of(cls: type[Entry], node: Node) -> tuple[Field | None, int]:
    """As `find_child`; the same line is looked up once."""
    if node.line is None:
        return find_child(cls, node)
    found: tuple[Field | None, int] | None = node.line.readings.get(cls)
    if found is None:
        found = node.line.readings[cls] = find_child(cls, node)
    return found


def find_child(cls: type[Entry], node: Node) -> tuple[Field | None, int]:
    """Field an inner entry belongs to, and how many words name it."""
    items = node.items
    text = getattr(items[0], "text", "")
    for field in cls.children.get(text, ()):
        words = field.words
        if len(words) <= len(items) and all(
            getattr(items[i], "text", None) == words[i] for i in range(1, len(words))
        ):
            return field, len(words)
    for field in cls.wordless:
        if field.entry is not None and field.entry.takes_line(items):
            return field, 0
    if cls.named is not None and items[0].kind in ("WORD", "NUMBER"):
        return cls.named, 0
    return None, 0
