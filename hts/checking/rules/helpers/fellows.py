"""What one entry leaves out and all the others of its kind state."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hts.language.vocabulary.declare import Entry


def lacking(entries: Sequence[Entry], fields: Sequence[str]) -> Iterator[tuple[Entry, list[str]]]:
    """Each entry that alone leaves fields out, with the words of these fields.

    Entries of one kind are compared; one that could not be read whole makes no comparison.
    """
    if len(entries) < 2 or not all(entry.sound for entry in entries):
        return
    found: dict[int, list[str]] = {}
    for name in fields:
        without = [n for n, entry in enumerate(entries) if not entry.says(name)]
        if len(without) == 1:
            words = " ".join(type(entries[0]).fields[name].words)
            found.setdefault(without[0], []).append(words)
    for n in sorted(found):
        yield entries[n], found[n]


def listed(words: Sequence[str]) -> str:
    """Words of the language as they stand in a message: `a`, `b` and `c`."""
    *first, last = (f"`{one}`" for one in words)
    return f"{', '.join(first)} and {last}" if first else last
