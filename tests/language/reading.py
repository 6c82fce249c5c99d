"""Which module reads which field of language and data, noted while everything is run."""

from __future__ import annotations

import sys
from collections import defaultdict
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from typing import Any

from hts.language.vocabulary.declare import Entry
from hts.limits.books import Book
from hts.limits.limit import Limit
from hts.science.tables.grades import Grade

#: (class, attribute) -> modules that read it. A subclass of Entry counts as itself.
Readers = dict[tuple[type, str], set[str]]

#: What the shipped data are read into.
DATA: tuple[type, ...] = (Book, Limit, Grade)


@contextmanager
def noted() -> Iterator[Readers]:
    """What is read of any entry and of the data meanwhile, by the module that asks for it."""
    readers: Readers = defaultdict(set)
    with ExitStack() as stack:
        for cls in (Entry, *DATA):
            stack.enter_context(_noted(cls, readers))
        yield readers


@contextmanager
def _noted(cls: Any, readers: Readers) -> Iterator[None]:
    def read(self: Any, name: str) -> Any:
        if name[:1] != "_":
            readers[(type(self), name)].add(sys._getframe(1).f_globals.get("__name__", ""))
        return object.__getattribute__(self, name)

    says = getattr(cls, "says", None)

    def asked(self: Any, field: str) -> Any:
        readers[(type(self), field)].add(sys._getframe(1).f_globals.get("__name__", ""))
        return says(self, field)  # type: ignore[misc]

    cls.__getattribute__ = read
    if says is not None:
        cls.says = asked
    try:
        yield
    finally:
        del cls.__getattribute__
        if says is not None:
            cls.says = says
