"""The figures with a unit of a text, as they are read and not as they are spaced."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.text import Source, Span


def figures(source: Source, start: int = 0, end: int | None = None) -> Iterator[tuple[str, Span]]:
    """Each figure between two places of a text in its canonical spelling, and where it stands."""
    # Imported here, for few texts are looked at so.
    from hts.language.layout.spelling import spelled
    from hts.syntax.parser import tables

    for token in tables().tokens(source.text[start:end]):
        if token.kind == "QUANTITY":
            yield spelled(token), source.span(start + token.start, start + token.end)
