"""A place in a specification in words, as a foreman would name it: `joint W12, zone bottom`."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from hts.base.text.blocks import blocks_around
from hts.base.text.reading import TABLE_ENDINGS

if TYPE_CHECKING:
    from hts.base.text import Span
    from hts.language.vocabulary.declare import Entry, Field

#: The joints a cycle is for.
_JOINT = r"(?:each\s+of\s+)?[\w.-]+(?:\s+like\s+[\w.-]+)?"
_FOR = re.compile(rf"\bfor\s+{_JOINT}(?:\s*,\s*{_JOINT})*")
_WORD = re.compile(r'"[^"]*"?|[^\s,{}]+')


def place_in_words(span: Span, address: str = "") -> str:
    """The entries a place lies in, from the outside in; empty where the text has none to name.

    An entry without a name inside another is left out where one with a name lies in it.
    ``address`` is that of a finding: it names the joint where the place is in another that the
    joint is `like`.
    """
    source = span.source
    if source.name.lower().endswith(TABLE_ENDINGS):
        # A finding says in words which weld and which column it is.
        return ""
    number = source.position(span.start)[0]
    lines = [*blocks_around(source, number), source.line(number)]
    named = _named(lines)
    joint, name = address.split("/")[0], named[0][0] if named else ""
    if joint and name.startswith("joint ") and name != f"joint {joint}":
        named[0] = f"joint {joint} like {name.removeprefix('joint ')}", True
    return ", ".join(
        text
        for index, (text, has_name) in enumerate(named)
        if index == 0 or has_name or not any(name for _, name in named[index + 1 :])
    )


def _named(lines: list[str]) -> list[tuple[str, bool]]:
    """What the entries that begin on these lines are called, and whether each has a name of its
    own; up to the first the language does not know."""
    from hts.language.vocabulary.spec import File

    cls: type[Entry] | None = File
    found: list[tuple[str, bool]] = []
    for line in lines:
        words = _WORD.findall(line.strip())
        field = _entry(cls, words) if cls is not None else None
        if field is None:
            break
        inner = field.entry
        text, has_name = " ".join(field.words), False
        if inner is not None:
            name = words[len(field.words) : len(field.words) + 1] if _has_name(inner) else []
            joints = _FOR.search(line) if "joints" in inner.fields and name else None
            text = " ".join((_title(inner), *name, *([joints[0]] if joints else [])))
            has_name = bool(name)
        found.append((text, has_name))
        cls = inner
    return found


def _entry(cls: type[Entry], words: list[str]) -> Field | None:
    """The entry of a block that begins with these words."""
    for field in cls.children.get(words[0], ()) if words else ():
        if tuple(words[: len(field.words)]) == field.words:
            return field
    return cls.named if words and words[0] != "}" else None


def _has_name(cls: type[Entry]) -> bool:
    """Whether the first thing an entry says is its name, or the joint it is about."""
    from hts.language.vocabulary.types import Name, To

    first = cls.values[0].type if cls.values else None
    return isinstance(first, Name) or (isinstance(first, To) and cls.takes_block())


def _title(cls: type[Entry]) -> str:
    from hts.language.vocabulary.paths import title

    return title(cls)
