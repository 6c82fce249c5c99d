"""What a line says, kept for the next time the same line is read as the same entry.

Lines are kept by `hts.syntax.lines`. Kept is only what was read without a finding, and whose values
are the same wherever they stand, or know how to be moved.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import Any, NamedTuple

from hts.base.quantities import Interval, Quantity
from hts.base.quantities.clock import ClockPosition
from hts.base.text import Source
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.formulas import FormulaText
from hts.language.vocabulary.types import ByRule, Edition, Share
from hts.language.vocabulary.types.places import OffsetValue, WidthValue
from hts.language.vocabulary.types.words import Reference
from hts.syntax.tree import Entry as Node

_ANYWHERE = frozenset(
    {
        bool,
        int,
        str,
        Fraction,
        Quantity,
        Interval,
        ClockPosition,
        ByRule,
        Share,
        OffsetValue,
        WidthValue,
        type(None),
    }
)
_MOVED = frozenset({Reference, Edition, FormulaText})


class KeptPhrase:
    """The phrase of one entry as it was read; places are counted from the beginning of the line."""

    __slots__ = ("_end", "_lists", "_moved", "_places", "_said", "_start", "_type")

    def __init__(self, made: Entry, begins: int, said: dict[str, Any]) -> None:
        self._type = type(made)
        self._start = made.start - begins
        self._end = made.end - begins
        self._places = [
            (name, start - begins, end - begins) for name, (start, end) in made.places.items()
        ]
        self._said: dict[str, Any] = {}
        self._moved: list[tuple[str, Any]] = []
        self._lists: list[tuple[str, list[Any]]] = []
        for name, value in said.items():
            # In the order said, whatever is put into its place afterwards.
            self._said[name] = None if type(value) in _MOVED or type(value) is list else value
            if type(value) is list:
                self._lists.append((name, [_moved(each, -begins) for each in value]))
            elif type(value) in _MOVED:
                self._moved.append((name, _moved(value, -begins)))

    def made(self, source: Source, begins: int) -> Entry:
        """The entry where the line begins at this offset of a source, its block still to come."""
        made = self._type()
        state = made.__dict__
        state.update(self._said)
        for name, value in self._moved:
            state[name] = _moved(value, begins)
        for name, values in self._lists:
            state[name] = [_moved(value, begins) for value in values]
        state["source"] = source
        state["start"] = begins + self._start
        state["end"] = begins + self._end
        state["places"] = {n: (begins + start, begins + end) for n, start, end in self._places}
        return made


class KeptValue(NamedTuple):
    """The value of an entry that has nothing else, with its place in the line."""

    value: Any
    start: int
    end: int

    def made(self, begins: int) -> tuple[Any, bool, int, int]:
        """The value where the line begins at this offset, that it is sound, and its place."""
        value = self.value
        if type(value) is list:
            value = [_moved(each, begins) for each in value]
        elif type(value) in _MOVED:
            value = _moved(value, begins)
        return value, True, begins + self.start, begins + self.end


#: What every entry has, whatever it says.
_OF_PLACE = frozenset({"source", "start", "end", "places", "sound"})


def keep_phrase(node: Node, key: object, made: Entry) -> None:
    """Keeps what was read of a node without a finding, where it can be kept."""
    said = {name: value for name, value in made.__dict__.items() if name not in _OF_PLACE}
    if node.line is not None and _movable(said.values()):
        node.line.readings[key] = KeptPhrase(made, node.begins, said)


def keep_value(node: Node, key: object, value: Any, start: int, end: int) -> None:
    """Keeps a value read without a finding, where it can be kept."""
    if node.line is None or not _movable((value,)):
        return
    begins = node.begins
    kept = [_moved(v, -begins) for v in value] if type(value) is list else _moved(value, -begins)
    node.line.readings[key] = KeptValue(kept, start - begins, end - begins)


def _movable(values: Iterable[Any]) -> bool:
    return all(
        type(each) in _ANYWHERE or type(each) in _MOVED
        for value in values
        for each in (value if type(value) is list else (value,))
    )


def _moved(value: Any, by: int) -> Any:
    if type(value) is Reference:
        return Reference(value.what, value.name, value.start + by, value.end + by)
    if type(value) is Edition or type(value) is FormulaText:
        return value._replace(start=value.start + by, end=value.end + by)
    return value
