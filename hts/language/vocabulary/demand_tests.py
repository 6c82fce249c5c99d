"""Reads how an entry that a demand names is to be: what its clauses, flags and values have to say,
how many there are to be, and whether on each side of the weld."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from hts.base.quantities import COUNT, LENGTH, MASS_FRACTION
from hts.base.quantities.number import read_number
from hts.language.vocabulary import mistakes
from hts.language.vocabulary.cursor import Cursor, Misread
from hts.language.vocabulary.declare import CLAUSE, ENTRY, FLAG, Entry, Field
from hts.language.vocabulary.demanded import (
    EVERY,
    Place,
    Test,
    by_first_word,
    compared,
    has_sides,
    labels_of,
    stated,
)
from hts.language.vocabulary.formulas import Expression
from hts.language.vocabulary.types import (
    BY_RULE,
    Amount,
    Choice,
    Count,
    ElementShare,
    Joints,
    Name,
    Number,
    Offset,
    PlusMinus,
    Range,
    Text,
    To,
    Type,
    Width,
)

LEAST, MOST = ("at", "least"), ("at", "most")
#: Words of every demand: how many of what it names there are to be in all, and on which side.
_COUNT, _EACH_SIDE = ("count",), ("each", "side")
#: Stand-ins, so that a formula ends where a bound or another value begins.
_BOUNDS = {
    "at": [Field(CLAUSE, "at least", None, ""), Field(CLAUSE, "at most", None, "")],
    "or": [Field(CLAUSE, "or", None, "")],
    "count": [Field(CLAUSE, "count", None, "")],
}
_SIZED = (Amount, PlusMinus, Count, Number, Range, Width, Offset)


class _Words(Cursor):
    """The items of a demand from the entry it names on: ``own`` are the clauses of that entry.

    ``count`` and ``each_side`` are what the demand says of all that it names.
    """

    __slots__ = ("count", "each_side", "own")
    own: dict[str, list[Field]]
    count: int
    each_side: bool

    def own_label(self) -> Field | None:
        """The clause or flag of the entry that begins at the cursor."""
        if self.word() == "at" and self.word(1) in ("least", "most"):
            found = [field for field in self.own.get("at", ()) if len(field.words) > 1]
        else:
            found = self.own.get(self.word(), [])
        return next((field for field in found if self.matches(field.words)), None)


class Wanted:
    """What a demand says of the entry it names: its tests, how many such entries it asks for in
    all (0: it does not say), and whether on each side of the weld."""

    def __init__(self, cursor: Cursor, place: Place) -> None:
        entry = place.target.entry
        own = labels_of(entry)
        labels = {**_BOUNDS, **own, **cursor.labels}
        for word in own.keys() & {*_BOUNDS, *cursor.labels}:
            labels[word] = [*own[word], *_BOUNDS.get(word, ()), *cursor.labels.get(word, ())]
        inner = _Words(cursor.source, cursor.items, labels, entry.values)
        inner.own = own
        inner.count, inner.each_side = 0, False
        inner.at = cursor.at
        leaf = place.leaf
        found = [] if leaf is None else [_test(inner, leaf)]
        if leaf is None or leaf.form != ENTRY:
            found = _tests(inner, cursor, found, entry)
        cursor.at = inner.at
        self.tests = tuple(found)
        self.count, self.each_side = inner.count, inner.each_side


def _tests(inner: _Words, outer: Cursor, found: list[Test], entry: type[Entry]) -> list[Test]:
    """What else the entry has to say: values, clauses and flags in any order."""
    # Which joints an entry is for is the job's to say.
    waiting: list[Any] = [field for field in inner.values if not isinstance(field.type, Joints)]
    while inner.item is not None:
        comma = inner.kind == "COMMA"
        inner.at += comma
        field = inner.own_label()
        again = None
        if field is not None:
            again = next((test for test in found if test.field is field), None)
            if again is not None and not (again.among and field.name in entry.told_by):
                break
            inner.at += len(field.words)
        elif _of_all(inner, entry):
            continue
        elif any(inner.matches(each.words) for each in outer.labels.get(inner.word(), ())):
            inner.at -= comma
            break
        else:
            field = next((f for f in waiting if _begins(inner, f)), None)
            if field is None:
                inner.at -= comma
                break
            _refuse_words(inner, field)
            waiting.remove(field)
        test = _test(inner, field)
        if again is None:
            found.append(test)
        else:
            # `at 12:00 at 6:00`: each of them is asked for.
            words = f"{again.words} {test.words}"
            found[found.index(again)] = again._replace(
                among=(*again.among, *test.among), words=words, every=True
            )
    return found


def _of_all(cursor: _Words, entry: type[Entry]) -> bool:
    """Reads `count 2` or `each side` at the cursor; False where neither stands there."""
    start = cursor.here()[0]
    if cursor.matches(_COUNT):
        cursor.at += 1
        cursor.count = Count().read(cursor)
        return True
    length = cursor.matches(_EACH_SIDE)
    if not length:
        return False
    cursor.at += length
    if not has_sides(entry):
        raise Misread(
            mistakes.WRONG_VALUE,
            "`each side` is asked of what has no place beside the weld",
            start,
            cursor.items[cursor.at - 1].end,
            "leave it out, or name a thing with a distance from the weld, as a thermocouple has",
        )
    cursor.each_side = True
    return True


def _refuse_words(cursor: Cursor, field: Field) -> None:
    """Raises Misread where the name of a thing would be a word of the language: `cycle target`."""
    named = isinstance(field.type, Name | To) and cursor.word() in by_first_word()
    if not named:
        return
    start, end = cursor.here()
    ways = dict.fromkeys(place.called for _, place in by_first_word()[cursor.word()])
    raise Misread(
        mistakes.WRONG_VALUE,
        f"{cursor.word()!r} does not stand here by itself",
        start,
        end,
        f"say where it belongs: {', '.join(f'`{way}`' for way in list(ways)[:4])}",
    )


def _begins(cursor: Cursor, field: Field) -> bool:
    """Whether what comes next can be said of a value without words of its own."""
    if cursor.matches(LEAST) or cursor.matches(MOST):
        return compared(field) is not None
    return field.type is not None and field.type.begins(cursor)


def _test(cursor: _Words, field: Field) -> Test:
    begun = cursor.at
    test = _read(cursor, field)
    items = cursor.items[begun : cursor.at]
    written = cursor.source.text[items[0].start : items[-1].end] if items else ""
    label = " ".join(field.words)
    return test._replace(words=" ".join(f"{label} {written}".split()))


def _read(cursor: _Words, field: Field) -> Test:
    if field.form == FLAG or field.type is None:
        return Test(field)
    type = stated(field)
    if type is None:
        return Test(field)
    if isinstance(type, ElementShare):
        if cursor.kind != "WORD" or cursor.word() in cursor.labels:
            return Test(field)
        return _element(cursor, field)
    if isinstance(type, _SIZED):
        return _bounded(cursor, field, type)
    # A choice can begin with a word that is a clause elsewhere: `placed at the edge of the heat`.
    if isinstance(type, Choice) and type.begins(cursor):
        return _listed(cursor, field, type)
    if cursor.item is None or cursor.kind == "COMMA" or _at_label(cursor):
        return Test(field)
    if isinstance(type, Text) and not type.begins(cursor):
        return Test(field)
    return _listed(cursor, field, type)


def _at_label(cursor: Cursor) -> bool:
    return any(cursor.matches(field.words) for field in cursor.labels.get(cursor.word(), ()))


def _listed(cursor: _Words, field: Field, type: Type) -> Test:
    """Values parted by `or`, of which one is asked for, or by commas or `and`, which are all asked
    for. Raises Misread where `and` and `or` part values of one demand."""
    begun = cursor.at
    values = [_single(cursor, type)]
    parted: set[str] = set()
    while True:
        at = cursor.at
        cursor.at += cursor.kind == "COMMA"
        if cursor.word() in ("or", "and") and not (cursor.word() == "and" and _at_label(cursor)):
            parted.add(cursor.word())
            cursor.at += 1
        if cursor.at == at or cursor.item is None or _at_label(cursor) or not type.begins(cursor):
            cursor.at = at
            break
        values.append(_single(cursor, type))
    if {"or", "and"} <= parted:
        first, last = cursor.items[begun], cursor.items[cursor.at - 1]
        raise Misread(
            mistakes.WRONG_VALUE,
            "`and` and `or` part the values of one demand",
            first.start,
            last.end,
            "write a line for each that is asked for by itself",
        )
    return Test(field, among=tuple(values), every=len(values) > 1 and "or" not in parted)


def _single(cursor: _Words, type: Type) -> Any:
    """One value; for the name of a thing also `all thermocouples`, and others of that kind."""
    for each in EVERY.get(type.what, ()) if isinstance(type, To) else ():
        length = cursor.matches(tuple(each.words.split()))
        if length:
            cursor.at += length
            return each
    return type.read(cursor)


def _element(cursor: _Words, field: Field) -> Test:
    """`C at most 0.25 %`: a chemical element and bounds of its share."""
    element = cursor.word()
    cursor.at += 1
    bounds = _bounded(cursor, field, Amount(MASS_FRACTION))
    return bounds._replace(element=element)


def _bounded(cursor: _Words, field: Field, type: Type) -> Test:
    """`at least`, `at most`, both, or a bare value, which the stricter way of the field decides."""
    least: Any = None
    most: Any = None
    while True:
        before = cursor.at
        # `at least 0.7 kJ/mm, at most 2.5 kJ/mm`
        cursor.at += cursor.kind == "COMMA" and (least is not None or most is not None)
        if (
            least is None
            and (length := cursor.matches(LEAST))
            and not (most and cursor.own_label())
        ):
            cursor.at += length
            least = _bound(cursor, field, type)
        elif (
            most is None and (length := cursor.matches(MOST)) and not (least and cursor.own_label())
        ):
            cursor.at += length
            most = _bound(cursor, field, type)
        else:
            cursor.at = before
            break
    if least is not None or most is not None:
        return Test(field, least=least, most=most)
    if cursor.item is None or cursor.kind in ("COMMA", "TEXT") or _at_label(cursor):
        return Test(field)
    if cursor.kind == "BY_RULE":
        cursor.at += 1
        return Test(field, among=(BY_RULE,))
    if isinstance(type, Range) or (isinstance(type, Offset) and cursor.word(1)):
        return Test(field, among=(type.read(cursor),))
    if isinstance(type, PlusMinus) and type.begins(cursor):
        return Test(field, most=type.read(cursor))
    bound = _bound(cursor, field, type)
    if field.stricter == "lower":
        return Test(field, most=bound)
    if field.stricter == "higher":
        return Test(field, least=bound)
    found = [bound]
    while cursor.word() == "or":
        cursor.at += 1
        found.append(_bound(cursor, field, type))
    return Test(field, among=tuple(found))


def _bound(cursor: _Words, field: Field, type: Type) -> Any:
    """A quantity, a whole number, or a formula on the facts of the joint."""
    called = " ".join(field.words) or field.name.replace("_", " ")
    if isinstance(type, Width):
        return Expression(LENGTH, called, sided=True).read(cursor)
    if isinstance(type, Range) and cursor.kind == "RANGE":
        return type.read(cursor)
    kind = compared(field)
    assert kind is not None
    if cursor.kind in ("QUANTITY", "NUMBER") and _alone(cursor):
        plain = Count() if kind is COUNT else Amount(kind, type.usual)
        if kind is COUNT and isinstance(type, Number):
            return Fraction(read_number(Number(type.usual).read(cursor)))
        return plain.read(cursor)
    return Expression(kind, called).read(cursor)


def _alone(cursor: Cursor) -> bool:
    """Whether the item at the cursor is all of the value: no formula goes on from it."""
    at = cursor.at
    cursor.at += 1
    try:
        ends = cursor.kind in ("", "COMMA", "TEXT") or _at_label(cursor)
        ends = ends or bool(cursor.matches(_EACH_SIDE))
        # `1 h per in of t` goes on.
        return ends or (cursor.kind == "WORD" and cursor.word() != "per")
    finally:
        cursor.at = at
