"""Names, texts, numbers without a unit, dates and choices."""

from __future__ import annotations

from datetime import date
from typing import Any, NamedTuple

from hts.base.quantities.number import NumberError, read_number
from hts.language.vocabulary import mistakes
from hts.language.vocabulary.cursor import Cursor, Misread
from hts.language.vocabulary.types.base import Json, Type


class Text(Type):
    """Free text in double quotes."""

    words = "a text in double quotes"
    example = '"Free text"'

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind == "TEXT"

    def read(self, cursor: Cursor) -> str:
        if cursor.kind != "TEXT":
            raise self.wrong(cursor)
        item = cursor.items[cursor.at]
        cursor.at += 1
        text = cursor.source.text[item.start + 1 : item.end - 1]
        if not text.strip():
            raise Misread(
                mistakes.WRONG_VALUE,
                "the text is empty",
                item.start,
                item.end,
                "say what belongs here, or leave the entry out",
            )
        if "\\" in text:
            text = text.replace('\\"', '"').replace("\\\\", "\\")
        return text


class Name(Type):
    """A name: letters, digits, hyphens and dots."""

    words = "a name"
    example = "W12"

    def __init__(self, words: str = "a name", example: str = "W12", of: str = "") -> None:
        """``of``: what it must be the name of (a rule, a row …); without it the name is free."""
        self.words = words
        self.example = example
        self.of = of

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind in ("WORD", "NUMBER")

    def read(self, cursor: Cursor) -> str:
        if cursor.kind not in ("WORD", "NUMBER"):
            raise self.wrong(cursor)
        item = cursor.items[cursor.at]
        cursor.at += 1
        return cursor.text(item)


class Reference:
    """A name of something declared elsewhere; ``target`` is filled in when names are resolved."""

    __slots__ = ("end", "name", "start", "target", "what")

    def __init__(self, what: str, name: str, start: int, end: int) -> None:
        self.what = what
        self.name = name
        self.start = start
        self.end = end
        self.target: Any = None

    def __repr__(self) -> str:
        return f"<{self.what} {self.name}>"


_NAMED = {
    "material": "header-pipe",
    "filler": "root-wire",
    "joint": "W12",
    "weld list": "line-welds",
    "zone": "top",
    "thermocouple": "T1",
    "controller": "C1",
    "recorder": "R1",
    "power source": "PS1",
    "procedure": "P-07",
}


class To(Type):
    """The name of a thing of one kind: a material, a joint, a zone …"""

    def __init__(self, what: str) -> None:
        self.what = what
        self.words = f"the name of a {what}"
        self.example = _NAMED[what]

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind in ("WORD", "NUMBER")

    def read(self, cursor: Cursor) -> Reference:
        if cursor.kind not in ("WORD", "NUMBER"):
            raise self.wrong(cursor)
        item = cursor.items[cursor.at]
        cursor.at += 1
        return Reference(self.what, cursor.text(item), item.start, item.end)

    def export(self, value: Reference) -> Json:
        return value.name


class Address(Type):
    """The address of a thing: W12.T5, or W12/thermocouples/T5 as findings print it."""

    words = "an address"
    example = "W12.T5"

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind == "WORD"

    def read(self, cursor: Cursor) -> str:
        if cursor.kind != "WORD":
            raise self.wrong(cursor)
        first = cursor.at
        cursor.at += 1
        while cursor.kind == "OPERATOR" and cursor.text(cursor.items[cursor.at]) == "/":
            cursor.at += 1
            if cursor.kind not in ("WORD", "NUMBER"):
                raise self.wrong(cursor)
            cursor.at += 1
        # Blanks beside a slash mean nothing here, as in formulas.
        return "".join(cursor.text(item) for item in cursor.items[first : cursor.at])


class Edition(NamedTuple):
    """A rule book and the edition a specification states (None: it states none)."""

    book: str
    edition: str | None
    start: int
    end: int


class BookEdition(Type):
    """A rule book with its edition."""

    words = "a rule book and its edition"
    example = "asme-b31.3 edition 2018"

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind == "WORD"

    def read(self, cursor: Cursor) -> Edition:
        if cursor.kind != "WORD":
            raise self.wrong(cursor)
        item = cursor.items[cursor.at]
        cursor.at += 1
        edition = None
        end = item.end
        if cursor.word() == "edition":
            cursor.at += 1
            if cursor.kind not in ("NUMBER", "WORD"):
                raise Name("an edition", "edition 2018").wrong(cursor)
            edition = cursor.text(cursor.items[cursor.at])
            end = cursor.items[cursor.at].end
            cursor.at += 1
        elif cursor.kind in ("WORD", "NUMBER", "QUANTITY") and cursor.word() not in cursor.labels:
            # A title instead of the name of the book: ASME B31.3.
            for follows in cursor.items[cursor.at :]:
                if follows.kind == "COMMA":
                    break
                end = follows.end
            written = cursor.source.text[item.start : end]
            raise Misread(
                mistakes.WRONG_VALUE,
                f"{written!r} is given where {self.words} is expected",
                item.start,
                end,
                self.hint(),
            )
        return Edition(cursor.text(item), edition, item.start, end)

    def export(self, value: Edition) -> Json:
        return {"book": value.book, "edition": value.edition}

    def schema(self) -> Json:
        return {
            "type": "object",
            "properties": {
                "book": super().schema(),
                "edition": {"type": ["string", "null"], "minLength": 1},
            },
            "required": ["book", "edition"],
            "additionalProperties": False,
        }


class Count(Type):
    """A whole number."""

    words = "a whole number"

    def __init__(self, example: str = "2", usual: str = "") -> None:
        self.example = example
        self.usual = usual

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind == "NUMBER"

    def read(self, cursor: Cursor) -> int:
        if cursor.kind == "NUMBER":
            text = cursor.text(cursor.items[cursor.at])
            if text.isdigit() and len(text) <= 6:
                if self.zero_or_less(int(text)):
                    raise _nothing(cursor, text)
                cursor.at += 1
                return int(text)
        raise self.wrong(cursor)

    def schema(self) -> Json:
        return {"type": "integer", "minimum": 1 if self.zero_or_less(0) else 0}


class Number(Type):
    """A number without a unit, kept exactly."""

    words = "a number"
    example = "5"

    def __init__(self, usual: str = "") -> None:
        self.usual = usual

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind == "NUMBER"

    def read(self, cursor: Cursor) -> str:
        if cursor.kind != "NUMBER":
            raise self.wrong(cursor)
        text = cursor.text(cursor.items[cursor.at])
        try:
            value = read_number(text)
        except NumberError as error:
            start, end = cursor.here()
            raise Misread(mistakes.UNREADABLE_NUMBER, error.reason, start, end) from None
        if self.zero_or_less(value):
            raise _nothing(cursor, text)
        cursor.at += 1
        return text

    def schema(self) -> Json:
        return {"type": "string", "pattern": r"^-?[0-9]+(\.[0-9]+)?( [0-9]+/[0-9]+|/[0-9]+)?$"}


def _nothing(cursor: Cursor, text: str) -> Misread:
    start, end = cursor.here()
    return Misread(
        mistakes.IMPOSSIBLE_VALUE,
        f"{text} is given where a number above zero is expected",
        start,
        end,
        "leave the entry out where there is none",
    )


class Size(Type):
    """A nominal size or a schedule as printed: 12, 1 1/2, 40S, XS."""

    def __init__(self, words: str, example: str, known: tuple[str, ...] = ()) -> None:
        """``known``: all there are, where that is a closed list."""
        self.words = words
        self.example = example
        self.known = known

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind in ("NUMBER", "WORD")

    def read(self, cursor: Cursor) -> str:
        if not self.begins(cursor):
            raise self.wrong(cursor)
        item = cursor.items[cursor.at]
        size = " ".join(cursor.text(item).split())
        if self.known and size not in self.known:
            close = [each for each in self.known if each.lower().startswith(size[:1].lower())]
            raise Misread(
                mistakes.UNKNOWN_CHOICE,
                f"there is no {self.words.split(' ', 1)[-1]} {size}",
                item.start,
                item.end,
                f"there are {', '.join(close or self.known)}",
            )
        cursor.at += 1
        return size


class Day(Type):
    """A date, year first."""

    words = "a date"
    example = "2026-11-20"

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind == "DATE"

    def read(self, cursor: Cursor) -> str:
        if cursor.kind != "DATE":
            raise self.wrong(cursor)
        text = cursor.text(cursor.items[cursor.at])
        try:
            date.fromisoformat(text)
        except ValueError:
            start, end = cursor.here()
            cause = f"{text} is not a day of the calendar"
            raise Misread(mistakes.WRONG_VALUE, cause, start, end) from None
        cursor.at += 1
        return text

    def schema(self) -> Json:
        return {"type": "string", "format": "date", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}


def _phrase(choice: str) -> tuple[str, ...]:
    """The words of a choice as they are read: `95 %` is one quantity."""
    return tuple(word.replace("\0", " ") for word in choice.replace(" %", "\0%").split())


class Choice(Type):
    """One of a closed list of words or phrases."""

    words = "a choice"

    def __init__(self, *choices: str, ranked: bool = False) -> None:
        """``ranked``: each asks for more than those before it, so that it also does where one of
        them is demanded."""
        self.choices = choices
        self.ranked = ranked
        self._phrases = sorted(map(_phrase, choices), key=lambda p: -len(p))
        self._first = {phrase[0] for phrase in self._phrases}
        self.example = choices[0]

    def hint(self) -> str:
        return f"it is one of: {', '.join(self.choices)}"

    def begins(self, cursor: Cursor) -> bool:
        return getattr(cursor.item, "text", None) in self._first

    def read(self, cursor: Cursor) -> str:
        for phrase in self._phrases:
            length = cursor.matches(phrase)
            if length:
                cursor.at += length
                return " ".join(phrase)
        if cursor.kind == "TEXT":
            start, end = cursor.here()
            raise Misread(
                mistakes.UNKNOWN_CHOICE,
                f"{cursor.text(cursor.items[cursor.at])} is a text; "
                "a choice is written without quotes",
                start,
                end,
                self.hint(),
            )
        if cursor.kind not in ("WORD", "NUMBER"):
            raise self.wrong(cursor)
        from hts.language.vocabulary.suggest import nearest  # wanted by messages only

        # The wrong phrase ends where a clause of the entry begins.
        more = 0
        while cursor.word(more + 1) and cursor.word(more + 1) not in cursor.labels:
            more += 1
        start, end = cursor.items[cursor.at].start, cursor.items[cursor.at + more].end
        found = cursor.source.text[start:end]
        guess = nearest(found, self.choices) or nearest(cursor.word(), self.choices)
        help = f"did you mean {guess!r}?" if guess else self.hint()
        raise Misread(mistakes.UNKNOWN_CHOICE, f"{found!r} is not a choice here", start, end, help)

    def schema(self) -> Json:
        return {"enum": list(self.choices)}
