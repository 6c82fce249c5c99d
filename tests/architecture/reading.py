"""Which module reads which field of the language, noted while everything is run."""

from __future__ import annotations

import sys
from collections import defaultdict
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

from hts.language.vocabulary.declare import Entry

#: (class that declares the field, field) -> modules that read it.
Readers = dict[tuple[type[Entry], str], set[str]]


@contextmanager
def noted() -> Iterator[Readers]:
    """What is read of any entry meanwhile, by the module that asks for it."""
    readers: Readers = defaultdict(set)
    plain = object.__getattribute__

    def read(self: Entry, name: str) -> Any:
        cls = type(self)
        if name in cls.fields:
            readers[(cls, name)].add(sys._getframe(1).f_globals.get("__name__", ""))
        return plain(self, name)

    def asked(method: Callable[..., Any]) -> Callable[..., Any]:
        def wrapped(self: Entry, field: str = "") -> Any:
            if field:
                readers[(type(self), field)].add(sys._getframe(1).f_globals.get("__name__", ""))
            return method(self, field)

        return wrapped

    says = Entry.says
    Entry.__getattribute__ = read  # type: ignore[assignment, method-assign]
    Entry.says = asked(says)  # type: ignore[method-assign]
    try:
        yield readers
    finally:
        del Entry.__getattribute__
        Entry.says = says  # type: ignore[method-assign]
