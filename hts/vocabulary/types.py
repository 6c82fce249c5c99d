"""The kinds of value an entry takes: how each is read, described and put into JSON."""

from __future__ import annotations

from typing import Any, NamedTuple

from hts.quantities import (
    DIFFERENCE,
    LENGTH,
    Dimension,
    Interval,
    Quantity,
    QuantityError,
    difference_of,
    symbols_of,
)
from hts.quantities.clock import ClockError, ClockPosition
from hts.quantities.number import NumberError, read_number
from hts.syntax.tree import Group, Item
from hts.vocabulary import kinds
from hts.vocabulary.cursor import Cursor, Misread

_PROBLEMS = {
    "no unit": kinds.MISSING_UNIT,
    "unknown unit": kinds.UNKNOWN_UNIT,
    "wrong dimension": kinds.WRONG_DIMENSION,
    "bad number": kinds.UNREADABLE_NUMBER,
    "decimal comma": kinds.UNREADABLE_NUMBER,
}

Json = Any


class ByRule:
    """Stands for a value that the rules in force have to give."""

    __slots__ = ()

    def __repr__(self) -> str:
        return "by rule"


BY_RULE = ByRule()


class Type:
    """Base of the kinds of value. ``words`` describes it in the reference, with an article."""

    words = "a value"
    example = ""

    def begins(self, cursor: Cursor) -> bool:
        """Whether the next item can begin such a value."""
        return True

    def read(self, cursor: Cursor) -> Any:
        """The value at the cursor, which moves past it. Raises Misread."""
        raise NotImplementedError

    def export(self, value: Any) -> Json:
        """JSON form of a value."""
        return value

    def schema(self) -> Json:
        """JSON Schema of `export`'s result."""
        return {"type": "string"}

    def wrong(self, cursor: Cursor) -> Misread:
        """What to raise where the next item is not such a value."""
        start, end = cursor.here()
        hint = f"for example {self.example}" if self.example else ""
        if cursor.item is None:
            return Misread(
                kinds.MISSING_VALUE, f"{self.words} is missing at the end of the line",
                start, end, hint,
            )
        found = cursor.text(cursor.item)
        return Misread(
            kinds.WRONG_VALUE, f"{found!r} stands where {self.words} is expected",
            start, end, hint,
        )


class Text(Type):
    """Free text in double quotes."""

    words = "a text in double quotes"
    example = '"W12 as-built sketch"'

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind == "TEXT"

    def read(self, cursor: Cursor) -> str:
        if cursor.kind != "TEXT":
            raise self.wrong(cursor)
        item = cursor.items[cursor.at]
        cursor.at += 1
        text = cursor.source.text[item.start + 1 : item.end - 1]
        if "\\" in text:
            text = text.replace('\\"', '"').replace("\\\\", "\\")
        return text


class Name(Type):
    """A name: letters, digits, hyphens and dots."""

    words = "a name"
    example = "W12"

    def __init__(self, words: str = "a name", example: str = "W12") -> None:
        self.words = words
        self.example = example

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


class To(Type):
    """The name of a thing of one kind: a material, a joint, a zone …"""

    def __init__(self, what: str) -> None:
        self.what = what
        self.words = f"the name of a {what}"

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
        first = cursor.items[cursor.at]
        cursor.at += 1
        while cursor.kind == "OPERATOR" and cursor.text(cursor.items[cursor.at]) == "/":
            cursor.at += 1
            if cursor.kind not in ("WORD", "NUMBER"):
                raise self.wrong(cursor)
            cursor.at += 1
        return cursor.source.text[first.start : cursor.items[cursor.at - 1].end]


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
        return Edition(cursor.text(item), edition, item.start, end)

    def export(self, value: Edition) -> Json:
        return {"book": value.book, "edition": value.edition}

    def schema(self) -> Json:
        return {
            "type": "object",
            "properties": {"book": {"type": "string"}, "edition": {"type": ["string", "null"]}},
            "required": ["book", "edition"],
            "additionalProperties": False,
        }


class Count(Type):
    """A whole number."""

    words = "a whole number"
    example = "12"

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind == "NUMBER"

    def read(self, cursor: Cursor) -> int:
        if cursor.kind == "NUMBER":
            text = cursor.text(cursor.items[cursor.at])
            if text.isdigit() and len(text) <= 6:
                cursor.at += 1
                return int(text)
        raise self.wrong(cursor)

    def schema(self) -> Json:
        return {"type": "integer", "minimum": 0}


class Number(Type):
    """A number without a unit, kept exactly."""

    words = "a number"
    example = "5"

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind == "NUMBER"

    def read(self, cursor: Cursor) -> str:
        if cursor.kind != "NUMBER":
            raise self.wrong(cursor)
        text = cursor.text(cursor.items[cursor.at])
        try:
            read_number(text)
        except NumberError as error:
            start, end = cursor.here()
            raise Misread(kinds.UNREADABLE_NUMBER, error.reason, start, end) from None
        cursor.at += 1
        return text

    def schema(self) -> Json:
        return {"type": "string", "pattern": r"^-?[0-9]"}


class Size(Type):
    """A nominal size or a schedule as printed: 12, 1 1/2, 40S, XS."""

    def __init__(self, words: str, example: str) -> None:
        self.words = words
        self.example = example

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind in ("NUMBER", "WORD")

    def read(self, cursor: Cursor) -> str:
        if not self.begins(cursor):
            raise self.wrong(cursor)
        cursor.at += 1
        return " ".join(cursor.text(cursor.items[cursor.at - 1]).split())


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
        year, month, day = (int(part) for part in text.split("-"))
        leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
        days = (31, 29 if leap else 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
        if not (year and 1 <= month <= 12 and 1 <= day <= days[month - 1]):
            start, end = cursor.here()
            raise Misread(kinds.WRONG_VALUE, f"{text} is not a day of the calendar", start, end)
        cursor.at += 1
        return text

    def schema(self) -> Json:
        return {"type": "string", "format": "date", "pattern": r"^\d{4}-\d\d-\d\d$"}


class Clock(Type):
    """A clock position on the circumference."""

    words = "a clock position"
    example = "6:15"

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind == "CLOCK"

    def read(self, cursor: Cursor) -> ClockPosition:
        if cursor.kind != "CLOCK":
            raise self.wrong(cursor)
        try:
            position = ClockPosition.read(cursor.text(cursor.items[cursor.at]))
        except ClockError as error:
            start, end = cursor.here()
            raise Misread(kinds.WRONG_VALUE, str(error), start, end) from None
        cursor.at += 1
        return position

    def export(self, value: ClockPosition) -> Json:
        return str(value)

    def schema(self) -> Json:
        return {"type": "string", "pattern": r"^\d{1,2}:\d\d$"}


class Choice(Type):
    """One of a closed list of words or phrases."""

    def __init__(self, *choices: str) -> None:
        self.choices = choices
        self._phrases = sorted((tuple(c.split()) for c in choices), key=lambda p: -len(p))
        self._first = {phrase[0] for phrase in self._phrases}
        self.words = "one of " + ", ".join(choices)
        self.example = choices[0]

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
                kinds.UNKNOWN_CHOICE, f"{cursor.text(cursor.items[cursor.at])} is a text; "
                "a choice is written without quotes", start, end,
                f"it is one of: {', '.join(self.choices)}",
            )
        if cursor.kind not in ("WORD", "NUMBER"):
            raise self.wrong(cursor)
        from hts.vocabulary.suggest import nearest  # wanted by messages only

        # The wrong phrase ends where a clause of the entry begins.
        last = cursor.at
        while cursor.word(last + 1 - cursor.at) and cursor.word(last + 1 - cursor.at) not in cursor.labels:
            last += 1
        start, end = cursor.items[cursor.at].start, cursor.items[last].end
        found = cursor.source.text[start:end]
        guess = nearest(found, self.choices) or nearest(cursor.word(), self.choices)
        help = f"did you mean {guess!r}?" if guess else f"it is one of: {', '.join(self.choices)}"
        raise Misread(kinds.UNKNOWN_CHOICE, f"{found!r} is not a choice here", start, end, help)

    def schema(self) -> Json:
        return {"enum": list(self.choices)}


class Amount(Type):
    """A quantity of one dimension."""

    def __init__(self, dimension: Dimension) -> None:
        self.dimension = dimension
        self.words = dimension.with_article
        self.example = EXAMPLES.get(dimension.name, f"10 {dimension.canonical}")

    def begins(self, cursor: Cursor) -> bool:
        if cursor.kind in ("QUANTITY", "NUMBER"):
            return True
        # 25mn: a word only because its unit is unknown.
        return cursor.word()[:1].isdigit()

    def read(self, cursor: Cursor) -> Quantity:
        item = cursor.item
        if item is None or not Amount.begins(self, cursor):
            raise self.wrong(cursor)
        quantity = read_quantity(cursor, item, self.dimension)
        cursor.at += 1
        refuse_sum(cursor, item, quantity)
        return quantity

    def export(self, value: Quantity) -> Json:
        return export_quantity(value)

    def schema(self) -> Json:
        return {"$ref": "#/$defs/quantity"}


class OrRule(Type):
    """A value stated, or `by rule`."""

    def __init__(self, stated: Type) -> None:
        self.stated = stated
        self.words = f"{stated.words}, or `by rule`"
        self.example = stated.example

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind == "BY_RULE" or self.stated.begins(cursor)

    def read(self, cursor: Cursor) -> Any:
        if cursor.kind == "BY_RULE":
            cursor.at += 1
            return BY_RULE
        return self.stated.read(cursor)

    def export(self, value: Any) -> Json:
        return {"by": "rule"} if value is BY_RULE else self.stated.export(value)

    def schema(self) -> Json:
        return {"anyOf": [{"$ref": "#/$defs/by_rule"}, self.stated.schema()]}


class Range(Type):
    """A range ``A .. B`` or a tolerance ``A +/- B``."""

    def __init__(self, dimension: Dimension) -> None:
        self.dimension = dimension
        self.words = f"a range of {dimension.name}"
        unit = symbols_of(dimension)[0] if symbols_of(dimension) else ""
        self.example = f"690 .. 720 {unit}"

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind in ("RANGE", "TOLERANCE", "QUANTITY", "NUMBER")

    def read(self, cursor: Cursor) -> Interval:
        item = cursor.item
        if not isinstance(item, Group) or item.low is None:
            raise self._not_a_range(cursor)
        second = self.dimension if item.kind == "RANGE" else difference_of(self.dimension)
        high = read_quantity(cursor, item.high, second)
        low = read_quantity(cursor, item.low, self.dimension, high.unit.symbol)
        cursor.at += 1
        try:
            if item.kind == "TOLERANCE":
                interval = Interval.plus_minus(low, high)
            else:
                interval = Interval(low, high)
            if low == high and item.kind == "RANGE":
                raise ValueError("the range has no width")
        except ValueError as error:
            raise Misread(
                kinds.REVERSED_RANGE, str(error), item.start, item.end,
                "write the smaller value first",
            ) from None
        return interval

    def _not_a_range(self, cursor: Cursor) -> Misread:
        item = cursor.item
        if item is None or item.kind not in ("QUANTITY", "NUMBER"):
            return self.wrong(cursor)
        follows = cursor.items[cursor.at + 1] if cursor.at + 1 < len(cursor.items) else None
        if follows is not None and follows.kind in ("OPERATOR", "QUANTITY", "NUMBER"):
            shown = cursor.source.text[item.start : follows.end]
            return Misread(
                kinds.UNCLEAR_TOLERANCE, f"{shown!r} does not say from where to where",
                item.start, follows.end, f"write a range, as in {self.example}",
            )
        return Misread(
            kinds.WRONG_VALUE, f"{cursor.text(item)!r} is one value where {self.words} is expected",
            item.start, item.end, f"write a range, as in {self.example}, or a tolerance A +/- B",
        )

    def export(self, value: Interval) -> Json:
        assert value.low is not None and value.high is not None
        return {"from": export_quantity(value.low), "to": export_quantity(value.high)}

    def schema(self) -> Json:
        return {"$ref": "#/$defs/range"}


class PlusMinus(Type):
    """A symmetric tolerance ``+/- B``; the value is B."""

    def __init__(self, dimension: Dimension = DIFFERENCE) -> None:
        self.dimension = dimension
        self.words = "a tolerance"
        self.example = "+/- 1.5 degC"

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind == "TOLERANCE"

    def read(self, cursor: Cursor) -> Quantity:
        item = cursor.item
        if not isinstance(item, Group) or item.kind != "TOLERANCE" or item.low is not None:
            raise self.wrong(cursor)
        quantity = read_quantity(cursor, item.high, self.dimension)
        cursor.at += 1
        return quantity

    def export(self, value: Quantity) -> Json:
        return export_quantity(value)

    def schema(self) -> Json:
        return {"$ref": "#/$defs/quantity"}


class Multiple(NamedTuple):
    """A multiple of the governing thickness, as written."""

    factor: str


class WidthValue(NamedTuple):
    """A width and what it counts: ``amount`` in total, or on each side of the weld."""

    amount: Quantity | Multiple
    each_side: bool


class Width(Type):
    """A band width that says whether it is in total or on each side."""

    words = "a width that says `total` or `each side`"
    example = "160 mm each side"

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind in ("QUANTITY", "MULTIPLE", "NUMBER")

    def read(self, cursor: Cursor) -> WidthValue:
        item = cursor.item
        if item is None:
            raise self.wrong(cursor)
        amount: Quantity | Multiple
        if item.kind == "MULTIPLE":
            amount = Multiple(" ".join(cursor.text(item).split()[:-1]))
            cursor.at += 1
        else:
            amount = Amount(LENGTH).read(cursor)
        for words, each in ((("each", "side"), True), (("total",), False), (("in", "total"), False)):
            if cursor.matches(words):
                cursor.at += len(words)
                return WidthValue(amount, each)
        raise Misread(
            kinds.WIDTH_WITHOUT_SIDE,
            f"{cursor.text(item)} does not say whether it is in total or on each side",
            item.start, item.end, "write `total` or `each side` after the width",
        )

    def export(self, value: WidthValue) -> Json:
        if isinstance(value.amount, Multiple):
            amount: Json = {"times": "t", "factor": value.amount.factor}
        else:
            amount = export_quantity(value.amount)
        return {"width": amount, "counts": "each side" if value.each_side else "total"}

    def schema(self) -> Json:
        return {"$ref": "#/$defs/width"}


class OffsetValue(NamedTuple):
    """Axial distance from the weld centreline, and to which side."""

    distance: Quantity
    side: str


SIDES = ("upstream", "downstream", "side A", "side B", "on run", "on branch", "above", "below")


class Offset(Type):
    """An axial distance from the weld centreline with its side."""

    words = "a distance from the weld centreline with its side"
    example = "42 mm downstream"

    def __init__(self) -> None:
        self._side = Choice(*SIDES)

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind in ("QUANTITY", "NUMBER")

    def read(self, cursor: Cursor) -> OffsetValue:
        distance = Amount(LENGTH).read(cursor)
        if not self._side.begins(cursor):
            start, end = cursor.here()
            raise Misread(
                kinds.MISSING_VALUE, f"{distance} does not say to which side of the weld",
                start, end, f"write one of {', '.join(SIDES)}",
            )
        return OffsetValue(distance, self._side.read(cursor))

    def export(self, value: OffsetValue) -> Json:
        return {"distance": export_quantity(value.distance), "side": value.side}

    def schema(self) -> Json:
        return {
            "type": "object",
            "properties": {
                "distance": {"$ref": "#/$defs/quantity"}, "side": {"enum": list(SIDES)},
            },
            "required": ["distance", "side"],
            "additionalProperties": False,
        }


class Share(NamedTuple):
    """A chemical element and its mass fraction."""

    element: str
    fraction: Quantity


class ElementShare(Type):
    """A chemical element with its mass fraction."""

    words = "an element and its mass fraction"
    example = "C 0.11 %"

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind == "WORD"

    def read(self, cursor: Cursor) -> Share:
        from hts.quantities import MASS_FRACTION

        symbol = cursor.word()
        if symbol not in ELEMENTS:
            raise self.wrong(cursor)
        cursor.at += 1
        return Share(symbol, Amount(MASS_FRACTION).read(cursor))

    def export(self, value: Share) -> Json:
        return {"element": value.element, "fraction": export_quantity(value.fraction)}

    def schema(self) -> Json:
        return {
            "type": "object",
            "properties": {
                "element": {"enum": sorted(ELEMENTS)}, "fraction": {"$ref": "#/$defs/quantity"},
            },
            "required": ["element", "fraction"],
            "additionalProperties": False,
        }


ELEMENTS = frozenset(
    "C Si Mn P S Cr Mo Ni Cu V Nb Ti Al N B W As Sn Sb Co".split()
)

EXAMPLES = {
    "length": "25.4 mm", "time": "2 h 30 min", "temperature": "705 degC",
    "temperature difference": "25 K", "rate": "200 degC/h", "power": "12 kW",
    "power density": "4 W/cm2", "heat input": "1.5 kJ/mm", "mass fraction": "0.11 %",
    "hydrogen content": "5 ml/100g", "hardness": "248 HV10", "angle": "30 deg",
    "stress": "415 MPa", "energy": "125 J", "voltage": "65 V", "current": "180 A",
    "resistance": "1 Mohm", "ratio": "10 %", "thermal resistance": "0.5 m2K/W",
    "density": "128 kg/m3", "speed": "20 mm/h",
}


def read_quantity(cursor: Cursor, item: Item, dimension: Dimension, unit: str = "") -> Quantity:
    """Quantity of a token; ``unit`` is taken where the token has none. Raises Misread."""
    text = cursor.text(item)
    if item.kind == "NUMBER" and unit:
        text = f"{text} {unit}"
    elif item.kind == "NUMBER" and item is cursor.item:
        # 25.4 mn: the unknown unit is the word after the number.
        word = cursor.word(1)
        if word and word not in cursor.labels and len(word) <= 8:
            text = f"{text} {word}"
            item = Group("RANGE", item, item, cursor.items[cursor.at + 1])  # type: ignore[arg-type]
    elif item.kind not in ("QUANTITY", "NUMBER", "WORD"):
        raise Amount(dimension).wrong(cursor)
    try:
        return Quantity.read(text, dimension)
    except QuantityError as error:
        # Offer the units by name, the usual ones first.
        raise Misread(
            _PROBLEMS[error.problem], _without_remedy(error, text), item.start, item.end,
            _remedy(error, dimension),
        ) from None


def _without_remedy(error: QuantityError, text: str) -> str:
    if error.problem == "no unit":
        return f"{text!r} has no unit"
    if error.problem == "unknown unit":
        return f"{error.part!r} is not a unit"
    if error.problem == "wrong dimension":
        return f"{text!r} is not {error.dimension.with_article}"
    return f"{error.part!r} is not a number: {error.reason}"


def _remedy(error: QuantityError, dimension: Dimension) -> str:
    if error.suggestion:
        return f"did you mean {error.suggestion!r}?"
    units = symbols_of(dimension)[:6]
    return f"{dimension.with_article} is written in {', '.join(units)}" if units else ""


def refuse_sum(cursor: Cursor, item: Item, quantity: Quantity) -> None:
    """Raises Misread on `760 degC + 10`, which says nothing about values below."""
    if cursor.kind == "OPERATOR" and cursor.item is not None:
        sign = cursor.text(cursor.item)
        if sign in "+-":
            follows = cursor.items[min(cursor.at + 1, len(cursor.items) - 1)]
            raise Misread(
                kinds.UNCLEAR_TOLERANCE,
                f"'{cursor.source.text[item.start:follows.end]}' is not a clear tolerance",
                item.start, follows.end,
                f"write a range {quantity} .. B, or a tolerance {quantity} +/- B",
            )


def export_quantity(value: Quantity) -> Json:
    """Digits and unit as written, and the exact value in the canonical unit of the dimension."""
    exact = value.value
    canonical = str(exact.numerator) if exact.denominator == 1 else f"{exact.numerator}/{exact.denominator}"
    return {"written": value.written, "value": canonical, "unit": value.dimension.canonical}
