"""Every single-fact change of a text, made from what the vocabulary says stands there."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from hts.base.quantities.clock import ClockPosition
from hts.language.vocabulary.formulas import Expression
from hts.language.vocabulary.types import (
    ELEMENTS,
    SIDES,
    BookEdition,
    Choice,
    Clock,
    Count,
    Day,
    ElementShare,
    Name,
    Number,
    Offset,
    Size,
    Text,
    To,
    Width,
)
from hts.syntax.tree import Group
from tests.corruption import formulas
from tests.corruption.digits import exchanged_units, moved_dates, slips
from tests.corruption.places import Places, Value
from tests.corruption.world import World, editions


class Mutant(NamedTuple):
    """``text[start:end]`` replaced by ``new``: one wrong fact."""

    path: str
    change: str
    start: int
    end: int
    new: str

    def applied(self, text: str) -> str:
        return text[: self.start] + self.new + text[self.end :]


def mutants(found: Places, world: World) -> Iterator[Mutant]:
    """Every mutant of a text, in the order of its places; each resulting text once."""
    seen: set[tuple[int, int, str]] = set()
    for mutant in _all(found, world):
        key = (mutant.start, mutant.end, mutant.new)
        if key not in seen and found.source.text[mutant.start : mutant.end] != mutant.new:
            seen.add(key)
            yield mutant


def _all(found: Places, world: World) -> Iterator[Mutant]:
    text = found.source.text
    for value in found.values:
        yield from _value(text, value, world)
    for words in found.words:
        written = text[words.start : words.end]
        for new in _turned(written):
            yield Mutant(words.path, "least for most", words.start, words.end, new)
    for part in found.parts:
        yield Mutant(part.path, f"{part.what} left out", part.start, part.end, "")
    for step in found.steps:
        if step.follows is not None:
            first, second = step.follows, step.node
            between = text[first.end : second.start]
            new = text[second.start : second.end] + between + text[first.start : first.end]
            yield Mutant(step.path, "steps exchanged", first.start, second.end, new)


_TURNED = {"at least": "at most", "at most": "at least", "above": "below", "below": "above"}


def _turned(written: str) -> Iterator[str]:
    for word, other in _TURNED.items():
        if re.search(rf"\b{word}\b", written):
            yield re.sub(rf"\b{word}\b", other, written)


def _value(text: str, value: Value, world: World) -> Iterator[Mutant]:
    if value.items[0].kind == "BY_RULE":
        return
    for change, start, end, new in _changes(text, value, world):
        yield Mutant(value.path, change, start, end, new)


def _changes(text: str, value: Value, world: World) -> Iterator[formulas.Made]:
    kind = value.type
    if isinstance(kind, Expression):
        yield from formulas.changes(text, value.items)
        return
    start, end = value.start, value.end
    written = text[start:end]
    if isinstance(kind, Choice):
        for choice in kind.choices:
            yield "other choice", start, end, choice
    elif isinstance(kind, (To, Name)):
        for name in world.names(value):
            yield "other name", start, end, name
    elif isinstance(kind, Clock):
        yield from _clock(value, written, world)
    elif isinstance(kind, Day):
        for slip in moved_dates(written, *world.dates(value)):
            yield slip.change, start, end, slip.text
    elif isinstance(kind, Text):
        yield "text emptied", start, end, '""'
        for other in world.texts(value):
            yield "other text", start, end, other
    elif isinstance(kind, (Count, Number, Size)):
        yield from _plain(value, written, world)
    elif isinstance(kind, BookEdition):
        yield from _edition(text, value)
    else:
        yield from _measured(text, value, world)


def _clock(value: Value, written: str, world: World) -> Iterator[formulas.Made]:
    at = ClockPosition.read(written)
    start, end = value.start, value.end
    yield "mirrored", start, end, str(at.mirrored)
    for hours in (1, 3, 6):
        yield (
            "moved round",
            start,
            end,
            str(ClockPosition.from_minutes((at.minutes + 60 * hours) % 720)),
        )
    for other in world.siblings(value):
        yield "made equal to another's", start, end, other


def _plain(value: Value, written: str, world: World) -> Iterator[formulas.Made]:
    start, end = value.start, value.end
    for slip in slips(written):
        yield slip.change, start, end, slip.text
    for other in world.siblings(value):
        yield "made equal to another's", start, end, other
    if value.path.endswith(".schedule"):
        for other in world.schedules(value):
            yield "other choice", start, end, other
    elif value.path.endswith(("p-number", "p-number.each")):
        for other in formulas.P_NUMBERS:
            yield "other choice", start, end, other


def _edition(text: str, value: Value) -> Iterator[formulas.Made]:
    first, last = value.items[0], value.items[-1]
    own = text[first.start : first.end]
    for id in editions():
        if id != own:
            yield "other name", first.start, first.end, id
    if last is not first:
        year = text[last.start : last.end]
        for other in editions().get(own, ()):
            yield "other edition", last.start, last.end, other
        for slip in slips(year):
            yield slip.change, last.start, last.end, slip.text


def _measured(text: str, value: Value, world: World) -> Iterator[formulas.Made]:
    """Quantities, ranges, widths and distances: units and digits of each part, ends exchanged."""
    for item in value.items:
        parts = [p for p in (item.low, item.high) if p] if isinstance(item, Group) else [item]
        for part in parts:
            written = text[part.start : part.end]
            if written[:1].isdigit() or written[:1] == "-":
                for slip in (*exchanged_units(written), *slips(written)):
                    yield slip.change, part.start, part.end, slip.text
        if isinstance(item, Group) and item.kind == "RANGE" and item.low is not None:
            yield from _exchanged_ends(text, item)
    kind = value.type
    if isinstance(kind, Width):
        yield from formulas._counted(text, value.items)
    elif isinstance(kind, Offset):
        first = value.items[0]
        side = text[value.items[1].start : value.end]
        for other in SIDES:
            if other != side:
                yield "other side", value.items[1].start, value.end, other
        for whole in world.siblings(value):
            yield "made equal to another's", value.start, value.end, whole
            distance = re.match(r"\S+ \S+", whole)
            if distance is not None:
                yield "made equal to another's", first.start, first.end, distance[0]
    elif isinstance(kind, ElementShare):
        symbol = value.items[0]
        for element in sorted(ELEMENTS):
            yield "other choice", symbol.start, symbol.end, element
    else:
        for whole in world.siblings(value):
            yield "made equal to another's", value.start, value.end, whole


def _exchanged_ends(text: str, item: Group) -> Iterator[formulas.Made]:
    assert item.low is not None
    low = text[item.low.start : item.low.end]
    high, _, unit = text[item.high.start : item.high.end].partition(" ")
    sign = text[item.low.end : item.high.start]
    low_number, _, low_unit = low.partition(" ")
    new = f"{high}{' ' + low_unit if low_unit else ''}{sign}{low_number} {unit}"
    yield "ends exchanged", item.start, item.end, new
