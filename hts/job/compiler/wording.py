"""Entries in the words of the language, for settings that go onto paper as the text has them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from hts.base.quantities import Interval, Quantity
from hts.language.vocabulary.declare import BLOCK, ENTRY, FLAG, Entry
from hts.language.vocabulary.types import (
    Edition,
    Multiple,
    OffsetValue,
    Reference,
    Share,
    WidthValue,
)

#: Shows a quantity; "minimum", "maximum" or "exactly" says to which side it may be rounded.
Say = Callable[[Quantity, str], str]
#: What a quantity bounds, by the word it stands after.
#: Material is laid at least as thick and as wide as the text says.
_BOUND = {"from": "minimum", "at least": "minimum", "to": "maximum", "at most": "maximum",
          "thickness": "minimum", "width": "minimum"}  # fmt: skip


def _as_written(value: Quantity, direction: str) -> str:
    return str(value)


def line_of(entry: Entry, say: Say = _as_written) -> str:
    """An entry without a block as one line: `on power loss ask the engineer within 30 min`."""
    return " ".join(part for part in (" ".join(entry.words), *clauses(entry, say)) if part)


def clauses(entry: Entry, say: Say = _as_written, *, block: bool = True) -> list[str]:
    """What an entry says, clause by clause, without the words it is known by; without its `block`
    only what stands before the brace."""
    parts = []
    for field in type(entry).fields.values():
        value = getattr(entry, field.name)
        if field.form == BLOCK or value is None or value is False or (field.many and not value):
            continue
        if field.form == ENTRY and not block:
            continue
        value_words = worded(value, say, _bound(field.words)) if field.form != FLAG else ""
        parts.append(" ".join(part for part in (*field.words, value_words) if part))
    return parts


def entries(block: Entry, say: Say = _as_written) -> list[str]:
    """What the lines inside a block say, one text each: `classification ER90S-B3`."""
    found = []
    for field in type(block).fields.values():
        said = getattr(block, field.name)
        if field.form not in (ENTRY, BLOCK) or said is None or said is False:
            continue
        if field.many and not said:
            continue
        lines = said if field.many and isinstance(said[0], Entry) else [said]
        for one in lines:
            words = line_of(one, say) if isinstance(one, Entry) else worded(one, say)
            own = () if isinstance(one, Entry) else field.words
            found.append(" ".join(filter(None, (*own, "" if said is True else words))))
    return found


def worded(value: Any, say: Say = _as_written, direction: str = "exactly") -> str:
    """A value as the language writes it, without the quotes of a text."""
    if isinstance(value, list | tuple) and not hasattr(value, "_fields"):
        return ", ".join(worded(one, say, direction) for one in value)
    if isinstance(value, Quantity):
        return say(value, direction)
    if isinstance(value, Interval):
        if say is _as_written or value.low is None or value.high is None:
            return value.show()
        return f"{say(value.low, 'minimum')} to {say(value.high, 'maximum')}"
    if isinstance(value, Reference):
        return value.name
    if isinstance(value, OffsetValue):
        return f"{say(value.distance, 'exactly')} {value.side}"
    if isinstance(value, Multiple):
        return f"{value.factor} t"
    if isinstance(value, Share):
        # A share of an analysis is of no system of units.
        return f"{value.element} {value.fraction}"
    if isinstance(value, WidthValue):
        amount = worded(value.amount, say, direction)
        return f"{amount} {'each side' if value.each_side else 'total'}"
    if isinstance(value, Edition):
        return f"{value.book} edition {value.edition}" if value.edition else value.book
    return str(value)


def _bound(words: tuple[str, ...]) -> str:
    return _BOUND.get(" ".join(words), "exactly")
