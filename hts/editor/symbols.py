"""What a text is made of: its entries as a list, what can be folded, and what a selection grows
to."""

from __future__ import annotations

from typing import NamedTuple

from hts.editor.outline import Line, chain
from hts.editor.place import Text
from hts.language.vocabulary.paths import title

#: Entries of a block that are listed: those with a block, a name or a treatment of their own.
_SHORT = 60


class Symbol(NamedTuple):
    """An entry: what it is and what it is called; ``name_span`` lies in ``span``, both as offsets.

    ``kind`` is the title of its class.
    """

    name: str
    kind: str
    detail: str
    span: tuple[int, int]
    name_span: tuple[int, int]
    inner: tuple[Symbol, ...]


def symbols(text: Text) -> list[Symbol]:
    """The entries with a class of their own, as they lie in each other."""
    return _symbols(text, text.outline.top)


def _symbols(text: Text, lines: list[Line]) -> list[Symbol]:
    found = []
    for line in lines:
        phrase = text.phrase(line)
        inner = tuple(_symbols(text, line.inner))
        if phrase.cls is None:
            continue
        words = title(phrase.cls)
        name = phrase.name or words
        whole = " ".join(phrase.text.split())
        found.append(
            Symbol(
                name[:_SHORT] or words,
                words,
                whole[:_SHORT],
                (line.start, line.whole_end),
                (line.start, line.end),
                inner,
            )
        )
    return found


def foldings(text: Text) -> list[tuple[int, int]]:
    """The blocks that reach over more than one line, as offsets of their braces."""
    return [
        (line.open, line.close)
        for line in text.outline.lines
        if line.open is not None
        and line.close is not None
        and "\n" in text.source.text[line.open : line.close]
    ]


def selections(text: Text, offset: int) -> list[tuple[int, int]]:
    """What lies round an offset, from the word to the whole text."""
    found: list[tuple[int, int]] = []
    place = text.at(offset)
    line = place.line if place is not None else text.outline.block_at(offset)
    if place is not None:
        if place.part is not None:
            found.append((place.span.start, place.span.end))
        value = place.value_span
        if value is not None and value.start <= offset <= value.end:
            found.append((value.start, value.end))
        found.append((place.line.start, place.line.end))
    if line is not None:
        found += [(each.start, each.whole_end) for each in chain(line)]
    found.append((0, len(text.source.text)))
    grown: list[tuple[int, int]] = []
    for span in found:
        if not grown or (span != grown[-1] and span[0] <= grown[-1][0] and span[1] >= grown[-1][1]):
            grown.append(span)
    return grown
