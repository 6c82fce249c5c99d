"""Entries in the words of the language, for settings that go onto paper as the text has them."""

from __future__ import annotations

from typing import Any

from hts.quantities import Interval, Quantity
from hts.vocabulary.declare import BLOCK, FLAG, Entry
from hts.vocabulary.types import Edition, Multiple, OffsetValue, Reference, WidthValue


def line_of(entry: Entry) -> str:
    """An entry without a block as one line: `on power loss ask the engineer within 30 min`."""
    parts = [" ".join(entry.words)]
    for field in type(entry).fields.values():
        value = getattr(entry, field.name)
        if field.form == BLOCK or value is None or value is False or (field.many and not value):
            continue
        parts.append(" ".join(field.words))
        if field.form != FLAG:
            parts.append(worded(value))
    return " ".join(part for part in parts if part)


def worded(value: Any) -> str:
    """A value as the language writes it, without the quotes of a text."""
    if isinstance(value, list | tuple) and not hasattr(value, "_fields"):
        return ", ".join(worded(one) for one in value)
    if isinstance(value, Quantity):
        return str(value)
    if isinstance(value, Interval):
        return value.show()
    if isinstance(value, Reference):
        return value.name
    if isinstance(value, OffsetValue):
        return f"{value.distance} {value.side}"
    if isinstance(value, Multiple):
        return f"{value.factor} t"
    if isinstance(value, WidthValue):
        return f"{worded(value.amount)} {'each side' if value.each_side else 'total'}"
    if isinstance(value, Edition):
        return f"{value.book} edition {value.edition}" if value.edition else value.book
    return str(value)
