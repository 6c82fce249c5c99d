"""Clock positions, band widths and distances from the weld."""

from __future__ import annotations

from typing import NamedTuple

from hts.base.quantities import LENGTH, Quantity
from hts.base.quantities.clock import ClockError, ClockPosition
from hts.base.quantities.number import read_number
from hts.language.vocabulary import mistakes
from hts.language.vocabulary.cursor import Cursor, Misread
from hts.language.vocabulary.types.amounts import Amount, export_quantity, quantity_schema
from hts.language.vocabulary.types.base import Json, Type
from hts.language.vocabulary.types.words import Choice


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
            raise Misread(
                mistakes.WRONG_VALUE,
                f"{error.text!r} is not a clock position from 1:00 to 12:59",
                start,
                end,
                f"did you mean {error.suggestion!r}?" if error.suggestion else "",
            ) from None
        cursor.at += 1
        return position

    def export(self, value: ClockPosition) -> Json:
        return str(value)

    def schema(self) -> Json:
        return {"type": "string", "pattern": r"^([1-9]|1[0-2]):[0-5][0-9]$"}


class Multiple(NamedTuple):
    """A multiple of the governing thickness, as written."""

    factor: str


class WidthValue(NamedTuple):
    """A width and what it counts: ``amount`` in total, or on each side of the weld."""

    amount: Quantity | Multiple
    each_side: bool


_LENGTH = Amount(LENGTH)
_COUNTS = ((("each", "side"), True), (("total",), False), (("in", "total"), False))


class Width(Type):
    """A band width that says whether it is in total or on each side."""

    words = "a width that says `total` or `each side`"
    example = "160 mm each side"

    def __init__(self, usual: str = "") -> None:
        """``usual``: in total."""
        self.usual = usual

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind in ("QUANTITY", "MULTIPLE", "NUMBER")

    def read(self, cursor: Cursor) -> WidthValue:
        item = cursor.item
        if item is None:
            raise self.wrong(cursor)
        amount: Quantity | Multiple
        if item.kind == "MULTIPLE":
            amount = Multiple(" ".join(cursor.text(item).split()[:-1]))
            if read_number(amount.factor) <= 0:
                raise Misread(
                    mistakes.IMPOSSIBLE_VALUE,
                    f"{cursor.text(item)!r} is not a width: a value above zero is expected here",
                    item.start,
                    item.end,
                    "check the sign and the digits",
                )
            cursor.at += 1
        else:
            amount = _LENGTH.read(cursor)
        for words, each in _COUNTS:
            if cursor.matches(words):
                cursor.at += len(words)
                return WidthValue(amount, each)
        raise Misread(
            mistakes.WIDTH_WITHOUT_SIDE,
            f"{cursor.text(item)} does not say whether it is in total or on each side",
            item.start,
            item.end,
            "write `total` or `each side` after the width",
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


SIDES = (
    "upstream",
    "downstream",
    "side A",
    "side B",
    "on run",
    "on branch",
    "on pad",
    "above",
    "below",
)


class Offset(Type):
    """An axial distance from the weld centreline with its side."""

    words = "a distance from the weld centreline with its side"
    example = "42 mm downstream"

    def __init__(self, usual: str = "") -> None:
        self.usual = usual
        self._amount = Amount(LENGTH, usual)
        self._side = Choice(*SIDES)

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind in ("QUANTITY", "NUMBER")

    def read(self, cursor: Cursor) -> OffsetValue:
        distance = self._amount.read(cursor)
        misspelt = cursor.word() and cursor.word() not in cursor.labels
        if not misspelt and not self._side.begins(cursor):
            start, end = cursor.here()
            raise Misread(
                mistakes.MISSING_VALUE,
                f"{distance} does not say to which side of the weld",
                start,
                end,
                f"write one of {', '.join(SIDES)}",
            )
        return OffsetValue(distance, self._side.read(cursor))

    def export(self, value: OffsetValue) -> Json:
        return {"distance": export_quantity(value.distance), "side": value.side}

    def schema(self) -> Json:
        return {
            "type": "object",
            "properties": {
                "distance": quantity_schema(LENGTH),
                "side": {"enum": list(SIDES)},
            },
            "required": ["distance", "side"],
            "additionalProperties": False,
        }
