"""Reads what a line of a procedure demands: an entry in the words of a job, and how it is to be."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from hts.base.quantities import COUNT, LENGTH, MASS_FRACTION
from hts.base.quantities.number import read_number
from hts.language.vocabulary import mistakes
from hts.language.vocabulary.cursor import Cursor, Misread
from hts.language.vocabulary.declare import CLAUSE, ENTRY, FLAG, Field
from hts.language.vocabulary.demanded import (
    Demanded,
    Place,
    Target,
    Test,
    by_first_word,
    compared,
    of_a_stage,
    places,
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
    Json,
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

_LEAST, _MOST = ("at", "least"), ("at", "most")
#: Ways to relieve stress that are not by heat.
_NOT_BY_HEAT = ("mechanical", "vibrat", "peen", "overload", "proof test", "hydrostatic")
#: Stand-ins, so that a formula ends where a bound or another value begins.
_BOUNDS = {
    "at": [Field(CLAUSE, "at least", None, ""), Field(CLAUSE, "at most", None, "")],
    "or": [Field(CLAUSE, "or", None, "")],
}
_SIZED = (Amount, PlusMinus, Count, Number, Range, Width, Offset)


class _Words(Cursor):
    """The items of a demand from the entry it names on: ``own`` are the clauses of that entry."""

    __slots__ = ("own",)
    own: dict[str, list[Field]]

    def own_label(self) -> Field | None:
        """The clause or flag of the entry that begins at the cursor."""
        if self.word() == "at" and self.word(1) in ("least", "most"):
            found = [field for field in self.own.get("at", ()) if len(field.words) > 1]
        else:
            found = self.own.get(self.word(), [])
        return next((field for field in found if self.matches(field.words)), None)


class DemandText(Type):
    """An entry of a job in its own words, and what it has to say."""

    words = "an entry of a job, in its own words"
    example = "thermocouples attached capacitor discharge"

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind in ("WORD", "NUMBER")

    def read(self, cursor: Cursor) -> Demanded:
        first = cursor.item
        if first is None:
            raise self.wrong(cursor)
        begun = cursor.at
        count, most = _count(cursor, _LEAST), _count(cursor, _MOST)
        found = _places(self, cursor)
        leaf, entry = found[0].leaf, found[0].target.entry
        labels = {**entry.labels, **cursor.labels, **_BOUNDS}
        for word in entry.labels.keys() & {"at", "or", *cursor.labels}:
            labels[word] = [*entry.labels[word], *labels[word]]
        inner = _Words(cursor.source, cursor.items, labels, entry.values)
        inner.own = entry.labels
        inner.at = cursor.at
        tests: list[Test] = []
        if leaf is not None:
            tests.append(_test(inner, leaf))
        if leaf is None or leaf.form != ENTRY:
            tests += _tests(inner, cursor, tests)
        cursor.at = inner.at
        last = cursor.items[cursor.at - 1]
        text = " ".join(cursor.text(item) for item in cursor.items[begun : cursor.at])
        targets = tuple(dict.fromkeys(place.target for place in found))
        for test in tests:
            _refuse_impossible(test, targets[0], first.start, last.end)
        # At most two of them are met by none.
        least = count if count is not None else 1 if most is None else 0
        return Demanded(text, targets, tuple(tests), least, first.start, last.end, most)

    def export(self, value: Demanded) -> Json:
        return value.text


def _count(cursor: Cursor, bound: tuple[str, str]) -> int | None:
    """How many of the entry there have to be, where the demand begins `at least 2`, or how many
    there can be."""
    length = cursor.matches(bound)
    if not length or cursor.at + length + 1 >= len(cursor.items):
        return None
    item = cursor.items[cursor.at + length]
    if item.kind != "NUMBER" or not cursor.text(item).isdigit():
        return None
    cursor.at += length + 1
    return max(1, int(cursor.text(item)))


def _places(type: DemandText, cursor: Cursor) -> list[Place]:
    """What the words at the cursor name; it moves past them."""
    longest, found = 0, list[Place]()
    for words, place in by_first_word().get(cursor.word(), ()):
        length = cursor.matches(words)
        if words[-1] == "at" and cursor.word(length) in ("least", "most"):
            continue
        if length > longest:
            longest, found = length, []
        if length and length == longest:
            found.append(place)
    if not found:
        raise _unknown(type, cursor)
    first = min(place.rank for place in found)
    found = [place for place in found if place.rank == first]
    if len({place.kind for place in found}) > 1 or (len(found) > 1 and of_a_stage(found[0])):
        start = cursor.items[cursor.at].start
        end = cursor.items[cursor.at + longest - 1].end
        raise Misread(
            mistakes.WRONG_VALUE,
            f"{cursor.source.text[start:end]!r} can mean several entries of a job",
            start,
            end,
            "say which: " + ", ".join(f"`{place.called}`" for place in found[:6]),
        )
    cursor.at += longest
    return found


def _unknown(type: DemandText, cursor: Cursor) -> Misread:
    from hts.language.vocabulary.suggest import nearest  # wanted by messages only

    if cursor.item is None:
        return type.wrong(cursor)
    more = 0
    while cursor.word(more + 1) and cursor.word(more + 1) not in cursor.labels and more < 3:
        more += 1
    start, end = cursor.items[cursor.at].start, cursor.items[cursor.at + more].end
    written = cursor.source.text[start:end]
    called = {" ".join(step[-1]): None for step in (p.words for p in places())}
    if any(word in written.lower() for word in _NOT_BY_HEAT):
        help = 'this is not done by heat, and out of scope: ask for it with `check "…"`'
        return Misread(
            mistakes.UNKNOWN_CHOICE, f"{written!r} is not an entry of a job", start, end, help
        )
    if cursor.kind == "NUMBER":
        number = cursor.text(cursor.items[cursor.at])
        return Misread(
            mistakes.WRONG_VALUE,
            f"{number} is given where {type.words} is expected",
            start,
            cursor.items[cursor.at].end,
            f"say whether there are to be `at least {number}` or `at most {number}`",
        )
    guess = nearest(written, called) or nearest(cursor.text(cursor.items[cursor.at]), called)
    return Misread(
        mistakes.UNKNOWN_CHOICE,
        f"{written!r} is not an entry of a job",
        start,
        end,
        f"did you mean `{guess}`?"
        if guess
        else f"write it as a job does, for example `{type.example}`",
    )


def _tests(inner: _Words, outer: Cursor, already: list[Test]) -> list[Test]:
    """What else the entry has to say: values, clauses and flags in any order."""
    found: list[Test] = []
    # Which joints an entry is for is the job's to say.
    waiting: list[Any] = [field for field in inner.values if not isinstance(field.type, Joints)]
    while inner.item is not None:
        comma = inner.kind == "COMMA"
        inner.at += comma
        field = inner.own_label()
        if field is not None:
            if any(test.field is field for test in (*already, *found)):
                break
            inner.at += len(field.words)
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
        found.append(_test(inner, field))
    return found


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
    if cursor.matches(_LEAST) or cursor.matches(_MOST):
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


def _listed(cursor: Cursor, field: Field, type: Type) -> Test:
    """Values parted by `or`, of which one is asked for, or by commas or `and`, which are all asked
    for. Raises Misread where `and` and `or` part values of one demand."""
    begun = cursor.at
    values = [type.read(cursor)]
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
        values.append(type.read(cursor))
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


def _refuse_impossible(test: Test, target: Target, begun: int, end: int) -> None:
    """Raises Misread where all of several values are asked of what can say one alone."""
    several = test.field.many or (target.chain and target.chain[-1].many)
    if test.every and not several:
        raise Misread(
            mistakes.WRONG_VALUE,
            f"{len(test.among)} values are asked for, and a job says one here",
            begun,
            end,
            "part them by `or` where one of them will do",
        )


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
        if (
            least is None
            and (length := cursor.matches(_LEAST))
            and not (most and cursor.own_label())
        ):
            cursor.at += length
            least = _bound(cursor, field, type)
        elif (
            most is None
            and (length := cursor.matches(_MOST))
            and not (least and cursor.own_label())
        ):
            cursor.at += length
            most = _bound(cursor, field, type)
        else:
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
        # `1 h per in of t` goes on.
        return ends or (cursor.kind == "WORD" and cursor.word() != "per")
    finally:
        cursor.at = at
