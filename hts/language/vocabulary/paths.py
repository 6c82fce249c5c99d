"""Paths into the vocabulary, such as `joint.heating.zone.power`: one step per entry or clause.

A step is the words of the entry, clause or flag; what has no words goes by its name: a value that
stands right after the words of its entry, or an entry that begins with a name of its own.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.language.vocabulary.declare import BLOCK, VALUE, Entry, Field


def title(cls: type[Entry]) -> str:
    """What the reference calls an entry: its words, or for want of words what it is."""
    return " ".join(cls.words) or re.sub(r"(?<=[a-z])(?=[A-Z])", " ", cls.__name__).lower()


def steps(cls: type[Entry]) -> Iterator[tuple[str, Field]]:
    """Every step that leads on from an entry, in the order declared; one for each of a family."""
    inner = {id(f): f for fields in (*cls.children.values(), cls.wordless) for f in fields}
    for field in cls.fields.values():
        if field.family:
            members = {f.entry: f for f in inner.values() if f.name == field.name}
            yield from ((title(member), members[member]) for member in field.family)
        elif field.form == BLOCK:
            assert field.entry is not None
            yield title(field.entry), field
        else:
            yield field.name.rstrip("_") if field.form == VALUE else " ".join(field.words), field


def find(root: type[Entry], path: str) -> Field:
    """The field a path leads to. LookupError names the first step that is not there."""
    cls: type[Entry] | None = root
    found: Field | None = None
    for step in path.split("."):
        field = dict(steps(cls)).get(step) if cls is not None else None
        if field is None:
            raise LookupError(f"{path}: there is no {step!r}")
        found, cls = field, field.entry
    assert found is not None
    return found


def walk(root: type[Entry]) -> Iterator[tuple[str, tuple[type[Entry], ...], Field]]:
    """Every path below a root, the entries it leads through (the root first), and its field."""
    waiting: list[tuple[str, tuple[type[Entry], ...]]] = [("", (root,))]
    while waiting:
        before, chain = waiting.pop(0)
        for step, field in steps(chain[-1]):
            path = f"{before}.{step}" if before else step
            yield path, chain, field
            if field.entry is not None:
                waiting.append((path, (*chain, field.entry)))


def entries(root: type[Entry]) -> dict[type[Entry], list[type[Entry]]]:
    """Every class of entry, and the classes in whose blocks it may stand."""
    homes: dict[type[Entry], list[type[Entry]]] = {root: []}
    for _, chain, field in walk(root):
        if field.entry is not None:
            owners = homes.setdefault(field.entry, [])
            if chain[-1] not in owners:
                owners.append(chain[-1])
    return homes
