"""Comments, layout and the files things stand in: said differently, meant the same."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.job.comparison.change import Representation
from hts.language.model import Spec

#: A text in quotes, in which # is a letter like any other, or a comment.
_COMMENT = re.compile(r'"(?:\\.|[^"\\\n])*"|(#[^\n]*)')


def texts(old: Spec, new: Spec) -> Iterator[Representation]:
    """How the texts of two sides that differ do so, beyond what they say."""
    mine, theirs = _used(old), _used(new)
    if mine != theirs:
        yield Representation("file", "use", ", ".join(mine), ", ".join(theirs))
    first, second = _comments(old), _comments(new)
    if first != second:
        yield Representation("comments", "", *map(_count, (first, second)))
    elif _words(old) == _words(new) and _tables(old) == _tables(new):
        yield Representation("layout", "", "", "")
    if _tables(old) != _tables(new):
        yield Representation("table", "", "", "")


def _used(spec: Spec) -> list[str]:
    named = [use.path for use in spec.file.uses] + [book.path for book in spec.file.books]
    return sorted(path for path in named if path)


def _comments(spec: Spec) -> list[str]:
    found = [m[1].rstrip() for s in spec.sources for m in _COMMENT.finditer(s.text) if m[1]]
    return sorted(found)


def _words(spec: Spec) -> list[list[str]]:
    return [source.text.split() for source in spec.sources]


def _tables(spec: Spec) -> list[str]:
    return [table.text for table in spec.tables]


def _count(comments: list[str]) -> str:
    return f"{len(comments)} comment{'s' if len(comments) != 1 else ''}"
