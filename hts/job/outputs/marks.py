"""Marks beside values that rest on memory or on common practice, with their footnotes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from hts.job.compiler.why import Why

#: Basis and mark, the less well founded first.
MARKS = {"memory": "†", "practice": "‡"}
_NOTES = {
    "memory": "† from memory of the source named, not confirmed in a copy of it: check it before "
    "the work relies on it.",
    "practice": "‡ common practice or an assumption; no standard gives it.",
}


class Marks:
    """Hands out marks and remembers which footnotes the page needs."""

    def __init__(self, signs: Mapping[str, str] = MARKS) -> None:
        self._signs = signs
        self._used: set[str] = set()

    def of(self, *reasons: Why | None) -> str:
        """The mark for a value with these reasons, empty for one well founded."""
        bases = {why.basis for why in reasons if why is not None}
        found = [basis for basis in self._signs if basis in bases]
        self._used.update(found)
        return "".join(self._signs[basis] for basis in found)

    def marked(self, text: str, *reasons: Why | None) -> str:
        """A value with its mark; an empty text stays empty."""
        return f"{text}{self.of(*reasons)}" if text else ""

    def notes(self) -> Iterable[str]:
        """The footnotes the page needs."""
        return [_NOTES[basis] for basis in self._signs if basis in self._used]
