"""Entries as JSON: what a specification says, field by field.

Every field stands under its own name. What is not said is left out, a flag is `true` where it
stands, a field that may be repeated is a list, a name of another thing is the name. Entries of
several kinds kept in one list, such as the steps of a cycle, say which they are under `entry`.
"""

from __future__ import annotations

from typing import Any

from hts.language.vocabulary.declare import FLAG, Entry, Field

#: Key that tells the entries of a family apart.
KIND = "entry"


def export(entry: Entry) -> dict[str, Any]:
    """The JSON form of an entry and all below it, as grammar/spec.schema.json describes it."""
    exported: dict[str, Any] = {}
    for field in type(entry).fields.values():
        value = getattr(entry, field.name)
        if value is None or value is False or (field.many and not value):
            continue
        if field.many:
            exported[key(field)] = [_one(field, item) for item in value]
        else:
            exported[key(field)] = _one(field, value)
    return exported


def key(field: Field) -> str:
    """Name of a field in JSON: that of its attribute, without the mark that keeps it apart from
    a word of Python."""
    return field.name.rstrip("_")


def _one(field: Field, value: Any) -> Any:
    if field.form == FLAG:
        return True
    if field.family:
        return {KIND: " ".join(type(value).words), **export(value)}
    if isinstance(value, Entry):
        return export(value)
    assert field.type is not None
    return field.type.export(value)
