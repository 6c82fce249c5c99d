"""What stands at an offset of a text: entry, field, value, name, address.

Completion, hover, symbols, the live view and fixes ask here and nowhere else. A text need not be
right for it: whatever is readable is known.
"""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.quantities import Quantity
from hts.base.text import Source, Span
from hts.editor.dimensions import quantity_in
from hts.editor.outline import Line, Outline
from hts.editor.phrase import NAME, QUANTITY, REFERENCE, WORDS, Part, Phrase, read_phrase, stated
from hts.language.vocabulary.declare import Entry, Field
from hts.language.vocabulary.paths import title
from hts.language.vocabulary.spec import File
from hts.language.vocabulary.types import Joints, To


class Place:
    """Something of a text, from the whole entry down to one word.

    ``part`` is the word, None in a blank. ``span`` is the word, or the phrase of the entry.
    """

    __slots__ = ("line", "part", "phrase", "text")

    def __init__(self, text: Text, line: Line, phrase: Phrase, part: Part | None) -> None:
        self.text = text
        self.line = line
        self.phrase = phrase
        self.part = part

    @property
    def span(self) -> Span:
        if self.part is None:
            return self.text.source.span(self.line.start, self.line.end)
        start = self.line.start
        return self.text.source.span(start + self.part.start, start + self.part.end)

    @property
    def word(self) -> str:
        """The word itself."""
        return self.span.text

    @property
    def role(self) -> str:
        """What the word is: one of the roles of hts.editor.phrase, "" in a blank."""
        return self.part.role if self.part is not None else ""

    @property
    def block(self) -> type[Entry] | None:
        """The class of entry in whose block this stands."""
        return self.line.block

    @property
    def cls(self) -> type[Entry] | None:
        """The class of the entry; None for one of a single value, and for an unknown one."""
        return self.phrase.cls

    @property
    def field(self) -> Field | None:
        """What the word says something of: a field of the entry, or that of the block it is in."""
        if self.part is not None and self.part.field is not None:
            return self.part.field
        return self.phrase.field

    @property
    def address(self) -> str:
        """The address that findings about the entry carry, as W12/thermocouples/T5."""
        return self.text.address(self.line)

    @property
    def path(self) -> str:
        """The way through the vocabulary, as joint.heating.soak band; "" where it is unknown."""
        return self.text.path(self.line, self.part)

    @property
    def value_span(self) -> Span | None:
        """The whole value the word is part of, or that the words before it are followed by."""
        part = self.part
        if part is None or part.field is None:
            return None
        near = [v for v in self.phrase.values if v.field is part.field and v.end > v.start]
        for value in near:
            if value.start <= part.start < value.end:
                break
        else:
            following = [v for v in near if v.start >= part.end]
            if not following:
                return None
            value = following[0]
        start = self.line.start
        return self.text.source.span(start + value.start, start + value.end)

    @property
    def names(self) -> str:
        """The kind of thing whose name this is, declared or referred to: `joint`, `zone` …; ""
        for anything else."""
        if self.part is None or self.part.field is None:
            return ""
        if self.role == REFERENCE:
            type_ = stated(self.part.field.type)
            before = self.phrase.text[: self.part.start].split()[-2:]
            if isinstance(type_, Joints) and before == ["each", "of"]:
                return "weld list"
            return type_.what if isinstance(type_, To) else getattr(type_, "of", "") or "address"
        if self.role == NAME and self.part.field.name in ("name", "names") and self.cls:
            return title(self.cls)
        return ""

    @property
    def quantity(self) -> Quantity | None:
        """The quantity that stands here, None for anything else and what is none."""
        if self.role != QUANTITY or self.part is None or self.field is None:
            return None
        before = self.phrase.text[: self.part.start].rstrip()
        return quantity_in(self.word, self.field.type, apart=before.endswith(("+/-", "±")))


class Text:
    """A text and what stands in it, read as far as it is asked for."""

    __slots__ = ("_addresses", "outline", "source")

    def __init__(self, source: Source) -> None:
        self.source = source
        self.outline = Outline(source)
        self._addresses: dict[int, str] = {}
        self._tell_blocks(self.outline.top, File)

    def _tell_blocks(self, lines: list[Line], block: type[Entry] | None) -> None:
        """Says of each entry in what block it stands; the phrase is read only where it has to be:
        where something lies below."""
        for line in lines:
            line.block = block
            if line.inner:
                self._tell_blocks(line.inner, self.phrase(line).cls)

    def phrase(self, line: Line) -> Phrase:
        """The phrase of an entry, word by word."""
        words = self.source.text[line.start : line.end]
        return read_phrase(line.block, words)  # type: ignore[arg-type]  # a class is hashable

    def at(self, offset: int) -> Place | None:
        """What stands at an offset, or ends there; None between the entries."""
        line = self.outline.line_at(offset)
        if line is None:
            return None
        phrase = self.phrase(line)
        inside = offset - line.start
        part = None
        for each in phrase.parts:
            if each.start <= inside <= each.end:
                part = each
                if inside < each.end:
                    break
        return Place(self, line, phrase, part)

    def places(self) -> Iterator[Place]:
        """Every word of the text with what it is, in order."""
        for line in self.outline.lines:
            yield from self.places_of(line)

    def places_of(self, line: Line) -> Iterator[Place]:
        """Every word of one entry."""
        phrase = self.phrase(line)
        for part in phrase.parts:
            yield Place(self, line, phrase, part)

    def address(self, line: Line) -> str:
        """The address of an entry; for one of a single value, that of the entry it lies in."""
        known = self._addresses.get(line.start)
        if known is not None:
            return known
        above = self.address(line.parent) if line.parent is not None else ""
        phrase = self.phrase(line)
        if phrase.cls is None:
            address = above
        else:
            own = phrase.name or title(phrase.cls).replace(" ", "-")
            address = f"{above}/{own}" if above else own
        self._addresses[line.start] = address
        return address

    def path(self, line: Line, part: Part | None = None) -> str:
        """The way through the vocabulary to an entry or a word of it; "" where it is unknown."""
        steps: list[str] = []
        at: Line | None = line
        while at is not None:
            phrase = self.phrase(at)
            if phrase.field is None:
                return ""
            steps.insert(0, title(phrase.cls) if phrase.cls else " ".join(phrase.field.words))
            at = at.parent
        if part is not None and part.field is not None and part.role != WORDS:
            phrase = self.phrase(line)
            if phrase.cls is not None:
                steps.append(" ".join(part.field.words) or part.field.name.rstrip("_"))
        return ".".join(steps)
