"""An entry to fill in: its words, and what it must say, with places for the values."""

from __future__ import annotations

from hts.language.vocabulary.declare import BLOCK, CLAUSE, ENTRY, FLAG, Entry, Field


class _Stops:
    """Numbers the places to fill in, in the order of the text."""

    def __init__(self) -> None:
        self.count = 0

    def stop(self, example: str) -> str:
        self.count += 1
        return f"${{{self.count}:{escaped(example)}}}"


def escaped(text: str) -> str:
    """Text as it stands in a place to fill in."""
    return text.replace("\\", "\\\\").replace("}", "\\}").replace("$", "\\$")


def snippet_of(field: Field) -> str:
    """The entry, clause or flag of a field with what it must say; the cursor ends behind it."""
    stops = _Stops()
    text = "\n".join(_lines(field, stops))
    return text if "$0" in text else text + "$0"


def value_snippet(example: str) -> str:
    """A value to be overwritten."""
    if example.startswith('"') and example.endswith('"') and len(example) > 1:
        return f'"${{1:{escaped(example[1:-1])}}}"'
    return _Stops().stop(example)


def _lines(field: Field, stops: _Stops) -> list[str]:
    words = " ".join(field.words)
    if field.form == BLOCK:
        assert field.entry is not None
        return _entry(field.entry, stops)
    if field.form == FLAG:
        return [words]
    assert field.type is not None
    example = field.example or field.type.example
    if field.form == ENTRY:
        example = example.removeprefix(words).strip() or field.type.example
    return [f"{words} {stops.stop(example)}"]


def _entry(cls: type[Entry], stops: _Stops) -> list[str]:
    """The phrase of an entry and, where it needs one, a block with what that must say."""
    first = [" ".join(cls.words)] if cls.words else []
    first += [stops.stop(f.type.example) for f in cls.values if f.required and f.type]
    clauses = [field for field in cls.fields.values() if field.form == CLAUSE]
    needed = [field for field in clauses if field.required]
    if not needed:
        needed = [cls.fields[name] for name in cls.one_of[:1] if cls.fields[name] in clauses]
    for field in needed:
        assert field.type is not None
        first.append(f"{' '.join(field.words)} {stops.stop(field.example or field.type.example)}")
    phrase = " ".join(first)
    if not cls.needs_block:
        return [phrase]
    inner = [
        f"\t{line}"
        for field in cls.fields.values()
        if field.required and field.form in (ENTRY, BLOCK) and not field.family
        for line in _lines(field, stops)
    ]
    return [f"{phrase} {{", *(inner or ["\t$0"]), "}"]
