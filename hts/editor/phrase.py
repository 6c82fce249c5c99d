"""One entry without its block, read word by word: what each word is, and what may come next.

It is read by the vocabulary's own types, as the reader of the language does, but nothing is told
and nothing stops it: a text is wrong most of the time while it is written. Everything is counted
from the beginning of the entry, so that a phrase is read once wherever it moves to.
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from hts.base.text import Source
from hts.language.vocabulary.children import find_child
from hts.language.vocabulary.cursor import Cursor, Misread
from hts.language.vocabulary.declare import BLOCK, ENTRY, FLAG, Entry, Field
from hts.language.vocabulary.reader import next_value
from hts.language.vocabulary.types import (
    Address,
    BookEdition,
    Choice,
    Joints,
    Name,
    OrRule,
    Size,
    Text,
    To,
    Type,
)
from hts.syntax import Group, Token, items_of
from hts.syntax.tree import Entry as Node
from hts.syntax.tree import Item

# What a word is -----------------------------------------------------------------------------------

WORDS = "words"  # the entry begins with it
CLAUSE = "clause"
FLAG_WORDS = "flag"
CHOICE = "choice"
NAME = "name"  # declared here, or free
REFERENCE = "reference"
FACT = "fact"  # in a formula
QUANTITY, NUMBER, CLOCK, DATE, TEXT = "quantity", "number", "clock", "date", "text"
BY_RULE = "by rule"
SIGN = "sign"
UNKNOWN = "unknown"

_BY_KIND = {
    "QUANTITY": QUANTITY,
    "MULTIPLE": QUANTITY,
    "NUMBER": NUMBER,
    "CLOCK": CLOCK,
    "DATE": DATE,
    "TEXT": TEXT,
    "BY_RULE": BY_RULE,
    "UNFINISHED": TEXT,
    "ILLEGAL": UNKNOWN,
}


class Part(NamedTuple):
    """A token and what it is; ``field`` is what it says something of, None where nothing is.

    ``start`` and ``end`` are offsets from the beginning of the phrase.
    """

    start: int
    end: int
    role: str
    field: Field | None


class Value(NamedTuple):
    """What a field was given. ``items`` are its first item and the one behind its last; it is not
    ``sound`` where its type does not take it."""

    field: Field
    start: int
    end: int
    items: tuple[int, int]
    sound: bool


class Phrase:
    """``field`` is that of the block the entry stands in, None where the block knows no such entry;
    ``cls`` is the class of an entry that has one of its own.

    ``waiting`` are the values without a label that have not been given, ``name`` what the entry is
    called where it has a name; ``named`` whether a name stands in it at all.
    """

    __slots__ = (
        "_reading",
        "cls",
        "field",
        "name",
        "named",
        "parts",
        "text",
        "values",
        "waiting",
    )

    def __init__(self, text: str) -> None:
        self.text = text
        #: Tokens and items while they are read: of many phrases at once only what came of it is
        #: kept.
        self._reading: tuple[list[Token], list[Item]] | None = items_of(Source(text, ""))
        self.field: Field | None = None
        self.cls: type[Entry] | None = None
        self.parts: list[Part] = []
        self.values: list[Value] = []
        self.waiting: list[Field] = []
        self.name: str | None = None
        self.named = False

    @property
    def tokens(self) -> list[Token]:
        """Every token of the phrase."""
        return (self._reading or items_of(Source(self.text, "")))[0]

    @property
    def items(self) -> list[Item]:
        """Its items, ranges and tolerances as one each."""
        return (self._reading or items_of(Source(self.text, "")))[1]

    def settle(self) -> Phrase:
        """The phrase with no more than what came of reading it."""
        self._reading = None
        return self

    def said(self) -> set[str]:
        """Names of the fields the phrase says; a flag and a clause count with their words."""
        return {part.field.name for part in self.parts if part.field and part.role != WORDS} | {
            value.field.name for value in self.values
        }


@lru_cache(maxsize=4096)
def read_phrase(block: type[Entry] | None, text: str) -> Phrase:
    """The phrase ``text`` in the block of an entry; None: in a block nobody knows."""
    phrase = Phrase(text)
    items = phrase.items
    field, skip = None, 0
    if block is not None and items:
        field, skip = find_child(block, Node(items, False, 0, len(text)))
    if field is None:
        for item in items:
            _add(phrase, item, None)
        return phrase.settle()
    phrase.field = field
    phrase.cls = field.entry if field.form == BLOCK else None
    for item in items[:skip]:
        phrase.parts.append(Part(item.start, item.end, WORDS, field))
    _Walk(phrase, skip).walk()
    phrase.name = _name(phrase)
    phrase.named = any(part.role in (NAME, REFERENCE) for part in phrase.parts)
    return phrase.settle()


class _Walk:
    """Reads the items behind the words an entry begins with."""

    def __init__(self, phrase: Phrase, skip: int) -> None:
        self.phrase = phrase
        self.cls = phrase.cls
        labels = self.cls.labels if self.cls is not None else {}
        values = self.cls.values if self.cls is not None else ()
        self.cursor = Cursor(Source(phrase.text, ""), phrase.items, labels, values)
        self.cursor.at = skip

    def walk(self) -> None:
        phrase, cursor = self.phrase, self.cursor
        assert phrase.field is not None
        if self.cls is None:
            assert phrase.field.form == ENTRY
            self._value(phrase.field)
            while cursor.item is not None:
                self._pass(None)
            return
        phrase.waiting = list(self.cls.values)
        while cursor.item is not None:
            label = self._label()
            if label is not None:
                self._labelled(label)
            elif cursor.kind == "COMMA":
                self._pass(None)
            else:
                field = next_value(phrase.waiting, cursor)
                if field is None:
                    self._pass(None)
                else:
                    phrase.waiting.remove(field)
                    self._value(field)

    def _label(self) -> Field | None:
        assert self.cls is not None
        fields = self.cls.labels.get(self.cursor.word(), ())
        return next((field for field in fields if self.cursor.matches(field.words)), None)

    def _labelled(self, field: Field) -> None:
        role = FLAG_WORDS if field.form == FLAG else CLAUSE
        for _ in range(self.cursor.matches(field.words)):
            item = self.cursor.items[self.cursor.at]
            self.phrase.parts.append(Part(item.start, item.end, role, field))
            self.cursor.at += 1
        if field.form != FLAG:
            self._value(field)

    def _value(self, field: Field) -> None:
        """Reads a value, or the list of them that the field takes."""
        cursor = self.cursor
        first = at = cursor.at
        sound = True
        assert field.type is not None
        try:
            field.type.read(cursor)
            while field.many and cursor.kind == "COMMA" and self._goes_on(field):
                cursor.at += 1
                at = cursor.at
                field.type.read(cursor)
        except Misread:
            sound = False
            cursor.at = max(cursor.at, at)
            while cursor.item is not None and (self.cls is None or self._label() is None):
                if cursor.kind == "COMMA" and not field.many:
                    break
                cursor.at += 1
        for item in cursor.items[first : cursor.at]:
            _add(self.phrase, item, field)
        start = cursor.items[first].start if first < len(cursor.items) else len(self.phrase.text)
        end = cursor.items[cursor.at - 1].end if cursor.at > first else start
        self.phrase.values.append(Value(field, start, end, (first, cursor.at), sound))

    def _goes_on(self, field: Field) -> bool:
        """Whether the list goes on behind the comma at the cursor."""
        cursor = self.cursor
        cursor.at += 1
        try:
            assert field.type is not None
            labelled = self.cls is not None and self._label() is not None
            return not labelled and (
                self.cls is None or cursor.item is None or field.type.begins(cursor)
            )
        finally:
            cursor.at -= 1

    def _pass(self, field: Field | None) -> None:
        _add(self.phrase, self.cursor.items[self.cursor.at], field)
        self.cursor.at += 1


def _add(phrase: Phrase, item: Item, field: Field | None) -> None:
    """The parts an item is made of."""
    if isinstance(item, Group):
        for token in (item.low, item.high):
            if token is not None:
                phrase.parts.append(Part(token.start, token.end, _BY_KIND[token.kind], field))
        signs = [t for t in phrase.tokens if item.start <= t.start < item.end]
        signs = [t for t in signs if t.kind in ("DOTS", "PLUS_MINUS")]
        phrase.parts += [Part(t.start, t.end, SIGN, field) for t in signs]
        phrase.parts.sort()
        return
    if item.kind == "_NL":
        return
    end = item.start + 1 if item.kind == "COMMA" else item.end
    role = _role(item, field)
    before = phrase.parts[-1] if phrase.parts else None
    if role == CHOICE and before is not None and before[1:] == (item.start, CHOICE, field):
        # 60584-3 is one word of a choice, though the lexer reads a number and one below zero.
        phrase.parts[-1] = Part(before.start, end, CHOICE, field)
        return
    phrase.parts.append(Part(item.start, end, role, field))


def _role(token: Token, field: Field | None) -> str:
    kind = token.kind
    if field is None:
        return _BY_KIND.get(kind, UNKNOWN if kind == "WORD" else SIGN)
    type_ = stated(field.type)
    if isinstance(type_, Choice) and kind not in ("COMMA", "TEXT", "UNFINISHED", "ILLEGAL"):
        return CHOICE
    if kind in ("WORD", "NUMBER"):
        if isinstance(type_, BookEdition):
            return {"edition": CHOICE}.get(token.text, REFERENCE if kind == "WORD" else NUMBER)
        if isinstance(type_, Joints) and token.text in ("each", "of", "like"):
            return CHOICE
        if isinstance(type_, To | Address) or (isinstance(type_, Name) and type_.of):
            return REFERENCE
        if isinstance(type_, Name):
            return NAME
        if isinstance(type_, Size):
            return CHOICE if type_.known else NUMBER
    if kind == "WORD":
        return FACT if hasattr(type_, "wants") else CHOICE
    return _BY_KIND.get(kind, SIGN)


def stated(type_: Type | None) -> Type | None:
    """The type of a value that is stated, where `by rule` may stand for it, too."""
    return type_.stated if isinstance(type_, OrRule) else type_


def _name(phrase: Phrase) -> str | None:
    """What an entry is called: its name, or the first of its names."""
    for value in phrase.values:
        if value.field.name in ("name", "names") and value.sound:
            first = phrase.items[value.items[0]]
            text = phrase.text[first.start : first.end]
            if isinstance(value.field.type, Text):
                return text[1:-1].replace('\\"', '"').replace("\\\\", "\\")
            return text
    return None
