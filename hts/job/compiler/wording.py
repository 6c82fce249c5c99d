"""Entries in the words of the language, for settings that go onto paper as the text has them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from hts.base.quantities import Interval, Quantity
from hts.language.vocabulary.declare import BLOCK, ENTRY, FLAG, Entry
from hts.language.vocabulary.types import Edition, Multiple, OffsetValue, Reference, WidthValue


def line_of(entry: Entry, say: Callable[[Quantity], str] = str) -> str:
    """An entry without a block as one line: `on power loss ask the engineer within 30 min`.

    `say` shows a quantity.
    """
    return " ".join(part for part in (" ".join(entry.words), *clauses(entry, say)) if part)


def clauses(entry: Entry, say: Callable[[Quantity], str] = str) -> list[str]:
    """What an entry says, clause by clause, without the words it is known by."""
    parts = []
    for field in type(entry).fields.values():
        value = getattr(entry, field.name)
        if field.form == BLOCK or value is None or value is False or (field.many and not value):
            continue
        value_words = worded(value, say) if field.form != FLAG else ""
        parts.append(" ".join(part for part in (*field.words, value_words) if part))
    return parts


def entries(block: Entry, say: Callable[[Quantity], str] = str) -> list[str]:
    """What the lines inside a block say, one text each: `classification ER90S-B3`."""
    found = []
    for field in type(block).fields.values():
        said = getattr(block, field.name)
        if field.form not in (ENTRY, BLOCK) or said is None or said is False or said == []:
            continue
        for one in said if field.many and isinstance(said, list) else [said]:
            words = line_of(one, say) if isinstance(one, Entry) else worded(one, say)
            own = () if isinstance(one, Entry) else field.words
            found.append(" ".join(filter(None, (*own, "" if said is True else words))))
    return found


def worded(value: Any, say: Callable[[Quantity], str] = str) -> str:
    """A value as the language writes it, without the quotes of a text."""
    if isinstance(value, list | tuple) and not hasattr(value, "_fields"):
        return ", ".join(worded(one, say) for one in value)
    if isinstance(value, Quantity):
        return say(value)
    if isinstance(value, Interval):
        if say is str or value.low is None or value.high is None:
            return value.show()
        return f"{say(value.low)} to {say(value.high)}"
    if isinstance(value, Reference):
        return value.name
    if isinstance(value, OffsetValue):
        return f"{say(value.distance)} {value.side}"
    if isinstance(value, Multiple):
        return f"{value.factor} t"
    if isinstance(value, WidthValue):
        return f"{worded(value.amount, say)} {'each side' if value.each_side else 'total'}"
    if isinstance(value, Edition):
        return f"{value.book} edition {value.edition}" if value.edition else value.book
    return str(value)
