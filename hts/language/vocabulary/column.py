"""What a column of a table leads to: an entry of the joint by its words, the value left out.

`wall measured` is `wall … measured`, `side run NPS` is `side run NPS …`: the cell stands where the
value is missing.
"""

from __future__ import annotations

from typing import NamedTuple

from hts.base.quantities import LENGTH, Dimension
from hts.base.quantities.units import is_unit
from hts.language.vocabulary import mistakes
from hts.language.vocabulary.cursor import Cursor, Misread
from hts.language.vocabulary.declare import BLOCK, CLAUSE, ENTRY, FLAG, Entry, Field
from hts.language.vocabulary.joint import Joint
from hts.language.vocabulary.types import Choice, Json, OrRule, Type, Width

#: Entries of the joint that say how it is put together, which a table cannot.
_NOT_BY_ROW = ("names", "like", "row", "without")
_WIDTHS = (("each", "side"), ("total",))


class Lead(NamedTuple):
    """Where a column leads.

    `path` are the blocks from the joint inwards and, last, the entry; `field` takes the cell, and
    `given` are the words of what is said beside it, by field. `after` follows the cell. `words`
    are those of the column, as written.
    """

    path: tuple[Field, ...]
    field: Field
    given: dict[str, tuple[str, ...]]
    after: tuple[str, ...]
    words: str

    @property
    def entry(self) -> Field:
        return self.path[-1]

    @property
    def group(self) -> tuple[object, ...]:
        """What columns that say one and the same entry have in common."""
        return (*(id(field) for field in self.path), self.given.get("name"))

    @property
    def dimension(self) -> Dimension | None:
        """That of the cells; None where they are not quantities."""
        return dimension_of(self.field.type)


def dimension_of(type: Type | None) -> Dimension | None:
    """The dimension of what a type reads; None for one that is not a quantity."""
    if isinstance(type, OrRule):
        return dimension_of(type.stated)
    if isinstance(type, Width):
        return LENGTH
    return getattr(type, "dimension", None)


class LeadsTo(Type):
    """The words of an entry of the joint, without its value."""

    words = "the words of an entry of the joint"
    example = "wall measured"

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind == "WORD"

    def read(self, cursor: Cursor) -> Lead:
        start = cursor.here()[0]
        path: list[Field] = []
        cls: type[Entry] = Joint
        while True:
            field = _child(cls, cursor)
            if field is None or not _by_row(field, path):
                raise _unknown(cls, cursor, path)
            cursor.at += len(field.words)
            path.append(field)
            inner = field.entry
            if field.form == ENTRY or inner is None:
                return _lead(path, field, {}, cursor, start)
            if not inner.takes_block():
                return self._phrase(path, inner, cursor, start)
            cls = inner

    def _phrase(self, path: list[Field], cls: type[Entry], cursor: Cursor, start: int) -> Lead:
        given: dict[str, tuple[str, ...]] = {}
        hole: Field | None = None
        while cursor.word():
            label = _labelled(cls, cursor)
            if label is not None:
                cursor.at += len(label.words)
                if label.form == FLAG:
                    given[label.name] = label.words
                elif isinstance(label.type, Choice) and label.type.begins(cursor):
                    given[label.name] = (*label.words, *_choice(label.type, cursor))
                elif hole is None:
                    hole = label
                else:
                    raise _two(label, cursor)
                continue
            value = next(
                (
                    each
                    for each in cls.values
                    if each.name not in given
                    and isinstance(each.type, Choice)
                    and each.type.begins(cursor)
                ),
                None,
            )
            if value is None:
                break
            assert isinstance(value.type, Choice)
            given[value.name] = _choice(value.type, cursor)
        if hole is None:
            hole = next((each for each in cls.values if each.name not in given), None)
        if hole is None:
            labels = [" ".join(f.words) for fs in cls.labels.values() for f in fs if f.form != FLAG]
            raise Misread(
                mistakes.MISSING_VALUE,
                f"`{cursor.source.text[start : _end(cursor)]}` does not say which value the "
                "cells are",
                start,
                _end(cursor),
                f"go on with one of: {', '.join(f'`{label}`' for label in labels)}",
            )
        return _lead(path, hole, given, cursor, start)

    def export(self, value: Lead) -> Json:
        return value.words


class UnitName(Type):
    """The name of a unit."""

    words = "a unit"
    example = "mm"

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind == "WORD"

    def read(self, cursor: Cursor) -> str:
        if cursor.item is None:
            raise self.wrong(cursor)
        first = last = cursor.item
        more = 1
        for item in cursor.items[cursor.at + 1 :]:
            # degC/h is three items that touch.
            if item.start != last.end:
                break
            last = item
            more += 1
        written = cursor.source.text[first.start : last.end]
        if not is_unit(written):
            raise Misread(
                mistakes.UNKNOWN_UNIT,
                f"{written!r} is not a unit",
                first.start,
                last.end,
                "units are written as in mm, in, degC, kJ/mm",
            )
        cursor.at += more
        return written


def _lead(
    path: list[Field], field: Field, given: dict[str, tuple[str, ...]], cursor: Cursor, start: int
) -> Lead:
    after: tuple[str, ...] = ()
    stated = field.type.stated if isinstance(field.type, OrRule) else field.type
    if isinstance(stated, Width):
        after = next((words for words in _WIDTHS if cursor.matches(words)), ())
        cursor.at += len(after)
    words = " ".join(cursor.source.text[start : _end(cursor)].split())
    return Lead(tuple(path), field, given, after, words)


def _end(cursor: Cursor) -> int:
    return cursor.items[cursor.at - 1].end


def _by_row(field: Field, path: list[Field]) -> bool:
    """Whether a row can say it: not how the joint is put together, nor one of several zones."""
    return field.name not in _NOT_BY_ROW and not (path and field.form == BLOCK and field.many)


def _child(cls: type[Entry], cursor: Cursor) -> Field | None:
    found = cls.children.get(cursor.word(), ())
    return next((field for field in found if cursor.matches(field.words)), None)


def _labelled(cls: type[Entry], cursor: Cursor) -> Field | None:
    found = cls.labels.get(cursor.word(), ())
    return next(
        (f for f in found if f.form in (CLAUSE, FLAG) and cursor.matches(f.words)),
        None,
    )


def _choice(type: Choice, cursor: Cursor) -> tuple[str, ...]:
    return tuple(type.read(cursor).split())


def _two(label: Field, cursor: Cursor) -> Misread:
    first, last = cursor.items[cursor.at - len(label.words)], cursor.items[cursor.at - 1]
    return Misread(
        mistakes.UNEXPECTED_VALUE,
        f"`{' '.join(label.words)}` is a second value for the same cells",
        first.start,
        last.end,
        "a column leads to one value; the other one is another column",
    )


def _unknown(cls: type[Entry], cursor: Cursor, path: list[Field]) -> Misread:
    from hts.language.vocabulary.suggest import nearest

    start, end = cursor.here()
    known = [
        " ".join(field.words)
        for fields in cls.children.values()
        for field in fields
        if _by_row(field, path)
    ]
    found = cursor.text(cursor.item) if cursor.item is not None else "the end of the line"
    two = f"{found} {cursor.word(1)}".strip()
    guess = nearest(two, known) or nearest(found, known)
    where = f"`{' '.join(path[-1].words)}`" if path else "a joint"
    return Misread(
        mistakes.UNKNOWN_ENTRY,
        f"{found!r} is not an entry of {where} that a column can say",
        start,
        end,
        f"did you mean `{guess}`?" if guess else f"there are: {', '.join(sorted(known))}",
    )
