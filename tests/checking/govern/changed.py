"""Lines of procedures and texts changed in every way the vocabulary knows, one fact at a time."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator
from typing import TypeVar

from hts.base.text import Source
from tests.checking.rules.nearby import Nearby, with_less_between
from tests.corruption.changes import mutants
from tests.corruption.places import places
from tests.corruption.world import World
from tests.specs.test_requirement_kinds import ROWS, _under

_Thing = TypeVar("_Thing")


def changed_lines(job: str) -> list[str]:
    """Each line of the requirement kinds that the job meets, with one fact changed."""
    named = [(f"K-{n}", row.met) for n, row in enumerate(ROWS) if row.job == job]
    text = _under(job, named)
    begins = text.index(f"\nprocedure {named[0][0]} ")
    found = places(Source(text, job))
    lines = []
    for one in mutants(found, World(found, [])):
        if one.start > begins and "\n" not in one.new:
            start = text.rfind("\n", 0, one.start) + 1
            end = text.find("\n", one.end)
            line = (text[start : one.start] + one.new + text[one.end : end]).strip()
            if line and not line.startswith(("revision", "procedure", "}")):
                lines.append(line)
    return list(dict.fromkeys(lines))


def changed_texts(base: str) -> Iterator[Nearby]:
    """A base or a specification of the repository with one fact changed."""
    text = Nearby((), base).text() or ""
    found = places(Source(text, base))
    for one in mutants(found, World(found, [])):
        first = text.rfind("\n", 0, one.start) + 1
        end = text.find("\n", one.end)
        while text.count(text[first:end]) != 1 and first:
            first = text.rfind("\n", 0, first - 1) + 1
        old, new = text[first:end], text[first : one.start] + one.new + text[one.end : end]
        yield Nearby((), base, ((with_less_between(text, old), new),))


def some(things: Iterable[_Thing], of: int) -> list[_Thing]:
    """One of so many, the same ones whatever is added to them."""
    return [
        each
        for each in things
        if int.from_bytes(hashlib.sha256(repr(each).encode()).digest()[:4], "big") % of == 0
    ]
