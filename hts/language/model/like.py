"""A joint begun `like` another: what it says itself, over what the other says."""

from __future__ import annotations

from typing import TypeVar

from hts.language.vocabulary.declare import BLOCK, Entry, Field
from hts.language.vocabulary.types import Reference

E = TypeVar("E", bound=Entry)


def over(base: E, own: E) -> E:
    """An entry that says what ``own`` says and, for the rest, what ``base`` says.

    Blocks are laid over each other entry by entry; named entries (zones, thermocouples) replace
    those of the same name. What ``own`` says it is `without` is not taken over.
    """
    cls = type(own)
    made = cls()
    made.source, made.start, made.end = own.source, own.start, own.end
    made.places = own.places
    made.address = own.address
    made.base = base
    made.sound = own.sound and base.sound
    left_out = [each for each in getattr(own, "without", ()) if isinstance(each, str)]
    for name, field in cls.fields.items():
        mine = " ".join(field.words) in left_out
        setattr(made, name, getattr(own, name) if mine else _field(field, base, own))
    return made


def _field(field: Field, base: Entry, own: Entry) -> object:
    mine = getattr(own, field.name)
    theirs = getattr(base, field.name)
    if field.many:
        gone = [each.name for each in getattr(own, "without", ()) if isinstance(each, Reference)]
        if gone and field.form == BLOCK:
            theirs = [entry for entry in theirs if getattr(entry, "name", None) not in gone]
        if not mine:
            return theirs
        if field.form == BLOCK and all(isinstance(getattr(e, "name", None), str) for e in mine):
            return _by_name(theirs, mine)
        return mine
    if field.name not in own.places:
        return theirs
    if isinstance(mine, Entry) and isinstance(theirs, Entry) and type(mine).takes_block():
        return over(theirs, mine)
    return mine


def _by_name(theirs: list[Entry], mine: list[Entry]) -> list[Entry]:
    """Entries in the order of the base, own ones in place of those of the same name; a name given
    twice stays twice, to be told."""
    rest = list(mine)
    laid: list[Entry] = []
    for entry in theirs:
        own = next((e for e in rest if e.name == entry.name), None)  # type: ignore[attr-defined]
        if own is not None:
            rest.remove(own)
        laid.append(own or entry)
    return [*laid, *rest]
