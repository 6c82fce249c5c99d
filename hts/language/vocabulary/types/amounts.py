"""Quantities: single values, ranges, tolerances, mass fractions, and `by rule`."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from hts.base.quantities import (
    DIFFERENCE,
    MASS_FRACTION,
    TEMPERATURE,
    Dimension,
    Interval,
    Quantity,
    QuantityError,
    difference_of,
    find_unit,
    symbols_of,
)
from hts.language.vocabulary import mistakes
from hts.language.vocabulary.cursor import Cursor, Misread
from hts.language.vocabulary.types.base import BY_RULE, Json, Type
from hts.syntax.tree import Group, Item

#: degC; SI brochure, 9th edition, 2.3.1.
ABSOLUTE_ZERO = Fraction(-27315, 100)
_MORE = {
    True: "a value above zero is expected here",
    False: "no value below zero is possible here",
}
_PROBLEMS = {
    "no unit": mistakes.MISSING_UNIT,
    "unknown unit": mistakes.UNKNOWN_UNIT,
    "wrong dimension": mistakes.WRONG_DIMENSION,
    "bad number": mistakes.UNREADABLE_NUMBER,
    "decimal comma": mistakes.UNREADABLE_NUMBER,
}

EXAMPLES = {
    "length": "25.4 mm",
    "time": "2 h 30 min",
    "temperature": "705 degC",
    "temperature difference": "25 K",
    "rate": "200 degC/h",
    "power": "12 kW",
    "power density": "4 W/cm2",
    "heat input": "1.5 kJ/mm",
    "mass fraction": "0.11 %",
    "hydrogen content": "5 ml/100g",
    "hardness": "248 HV10",
    "angle": "30 deg",
    "stress": "415 MPa",
    "energy": "125 J",
    "voltage": "65 V",
    "current": "180 A",
    "resistance": "1 Mohm",
    "ratio": "10 %",
    "thermal resistance": "0.5 m2K/W",
    "density": "128 kg/m3",
    "speed": "20 mm/h",
}


class Amount(Type):
    """A quantity of one dimension."""

    def __init__(self, dimension: Dimension, usual: str = "") -> None:
        self.dimension = dimension
        self.usual = usual
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
        refuse_impossible(self, quantity, item.start, item.end)
        cursor.at += 1
        refuse_sum(cursor, item, quantity)
        return quantity

    def export(self, value: Quantity) -> Json:
        return export_quantity(value)

    def schema(self) -> Json:
        return quantity_schema(self.dimension)


class OrRule(Type):
    """A value stated, or `by rule`."""

    def __init__(self, stated: Type) -> None:
        self.stated = stated
        self.usual = stated.usual
        self.words = f"{stated.words} or `by rule`"
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
        return {"anyOf": [{"$ref": "#/$defs/by-rule"}, self.stated.schema()]}


class Range(Type):
    """A range ``A .. B`` or a tolerance ``A +/- B``."""

    def __init__(self, dimension: Dimension, usual: str = "") -> None:
        self.dimension = dimension
        self.usual = usual
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
        # 705 +/- 15 K: a unit of differences only is no unit for the middle.
        lent = high.unit.symbol if find_unit(high.unit.symbol, self.dimension) else ""
        low = read_quantity(cursor, item.low, self.dimension, lent)
        cursor.at += 1
        try:
            if item.kind == "TOLERANCE":
                interval = Interval.plus_minus(low, high)
            else:
                interval = Interval(low, high)
        except ValueError as error:
            raise Misread(
                mistakes.REVERSED_RANGE,
                str(error),
                item.start,
                item.end,
                "write the smaller value first",
            ) from None
        if interval.low == interval.high:
            raise Misread(
                mistakes.REVERSED_RANGE,
                f"{cursor.text(item)!r} has no width",
                item.start,
                item.end,
                f"write two values, the smaller one first, as in {self.example}",
            )
        assert interval.low is not None and interval.high is not None
        refuse_impossible(self, interval.low, item.start, item.end)
        return interval

    def _not_a_range(self, cursor: Cursor) -> Misread:
        item = cursor.item
        if item is None or item.kind not in ("QUANTITY", "NUMBER"):
            return self.wrong(cursor)
        last = item
        for follows in cursor.items[cursor.at + 1 : cursor.at + 3]:
            if follows.kind not in ("OPERATOR", "QUANTITY", "NUMBER"):
                break
            last = follows
        if last is not item:
            shown = cursor.source.text[item.start : last.end]
            return Misread(
                mistakes.UNCLEAR_TOLERANCE,
                f"{shown!r} is not a range",
                item.start,
                last.end,
                f"write a range, as in {self.example}",
            )
        return Misread(
            mistakes.WRONG_VALUE,
            f"{cursor.text(item)!r} is one value where {self.words} is expected",
            item.start,
            item.end,
            f"write a range, as in {self.example}, or a tolerance A +/- B",
        )

    def export(self, value: Interval) -> Json:
        assert value.low is not None and value.high is not None
        return {"from": export_quantity(value.low), "to": export_quantity(value.high)}

    def schema(self) -> Json:
        return {"$ref": f"#/$defs/range-of-{slug(self.dimension)}"}


class PlusMinus(Type):
    """A symmetric tolerance ``+/- B``; the value is B."""

    def __init__(self, dimension: Dimension = DIFFERENCE, usual: str = "") -> None:
        self.dimension = dimension
        self.usual = usual
        self.words = "a tolerance"
        self.example = "+/- 1.5 degC"

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind == "TOLERANCE"

    def read(self, cursor: Cursor) -> Quantity:
        item = cursor.item
        if not isinstance(item, Group) or item.kind != "TOLERANCE" or item.low is not None:
            raise self.wrong(cursor)
        quantity = read_quantity(cursor, item.high, self.dimension)
        refuse_impossible(self, quantity, item.start, item.end)
        cursor.at += 1
        return quantity

    def export(self, value: Quantity) -> Json:
        return export_quantity(value)

    def schema(self) -> Json:
        return quantity_schema(self.dimension)


def read_quantity(cursor: Cursor, item: Item, dimension: Dimension, unit: str = "") -> Quantity:
    """Quantity of a token; ``unit`` is taken where the token has none. Raises Misread."""
    text = cursor.text(item)
    if item.kind == "NUMBER" and unit:
        text = f"{text} {unit}"
    elif item.kind == "NUMBER" and item is cursor.item:
        # 25.4 mn: the unknown unit is the word after the number.
        word = cursor.word(1)
        if word and not cursor.knows(word) and _may_be_unit(word, dimension):
            text = f"{text} {word}"
            item = Group("RANGE", item, item, cursor.items[cursor.at + 1])  # type: ignore[arg-type]
    elif item.kind not in ("QUANTITY", "NUMBER", "WORD"):
        raise Amount(dimension).wrong(cursor)
    try:
        return Quantity.read(text, dimension)
    except QuantityError as error:
        # Offer the units by name, the usual ones first.
        raise Misread(
            _PROBLEMS[error.problem],
            _without_remedy(error, text),
            item.start,
            item.end,
            _remedy(error, dimension),
        ) from None


def refuse_impossible(type: Type, quantity: Quantity, start: int, end: int) -> None:
    """Raises Misread on zero or less where the trade has none, below absolute zero, and on a share
    of a mass above all of it."""
    value = quantity.value
    if value.numerator > 0:
        if quantity.dimension is MASS_FRACTION and value > 100:
            raise Misread(
                mistakes.IMPOSSIBLE_VALUE,
                f"{quantity} is more than the whole",
                start,
                end,
                "check the digits and the decimal point",
            )
        return
    if quantity.dimension is TEMPERATURE:
        if value <= ABSOLUTE_ZERO:
            raise Misread(
                mistakes.IMPOSSIBLE_VALUE,
                f"{quantity} lies below absolute zero",
                start,
                end,
                "check the sign, the digits and the unit",
            )
    elif type.zero_or_less(value):
        raise Misread(
            mistakes.IMPOSSIBLE_VALUE,
            f"{quantity} is {'less than nothing' if value else 'nothing'}: {_MORE[not value]}",
            start,
            end,
            "check the sign, the digits and the unit; leave the entry out where there is none",
        )


def _may_be_unit(word: str, dimension: Dimension) -> bool:
    """Whether a word after a number was meant as its unit; no unit has more than four letters."""
    if len(word) <= 4:
        return True
    from hts.base.quantities.spelling import suggest_unit  # wanted by messages only

    return suggest_unit(word, dimension) is not None


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
    if error.problem not in ("no unit", "unknown unit", "wrong dimension"):
        return ""
    units = symbols_of(dimension)[:6]
    return f"{dimension.with_article} is written in {', '.join(units)}" if units else ""


def refuse_sum(cursor: Cursor, item: Item, quantity: Quantity) -> None:
    """Raises Misread on `760 degC + 10`, which says nothing about values below."""
    if cursor.kind == "OPERATOR" and cursor.item is not None:
        sign = cursor.text(cursor.item)
        if sign in "+-":
            follows = cursor.items[min(cursor.at + 1, len(cursor.items) - 1)]
            raise Misread(
                mistakes.UNCLEAR_TOLERANCE,
                f"'{cursor.source.text[item.start : follows.end]}' is not a clear tolerance",
                item.start,
                follows.end,
                f"write a range {quantity} .. B, or a tolerance {quantity} +/- B",
            )


def export_quantity(value: Quantity) -> Json:
    """Digits and unit as written, and the exact value in the canonical unit of the dimension.

    A hardness is given on the scale it was written in, for scales do not convert.
    """
    unit = value.unit.scale or value.dimension.canonical
    return {"written": value.written, "value": str(value.value), "unit": unit}


def quantity_schema(dimension: Dimension) -> Json:
    """JSON Schema of an exported quantity of this dimension."""
    return {"$ref": f"#/$defs/quantity-of-{slug(dimension)}"}


def slug(dimension: Dimension) -> str:
    """Name of a dimension under `$defs`: `temperature-difference`."""
    return dimension.name.replace(" ", "-")
