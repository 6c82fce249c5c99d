"""Chemical elements and their shares."""

from __future__ import annotations

from typing import NamedTuple

from hts.base.quantities import MASS_FRACTION, Quantity
from hts.language.vocabulary import mistakes
from hts.language.vocabulary.cursor import Cursor, Misread
from hts.language.vocabulary.types.amounts import Amount, export_quantity, quantity_schema
from hts.language.vocabulary.types.base import Json, Type

ELEMENTS = frozenset(
    (
        "C",
        "Si",
        "Mn",
        "P",
        "S",
        "Cr",
        "Mo",
        "Ni",
        "Cu",
        "V",
        "Nb",
        "Ti",
        "Al",
        "N",
        "B",
        "W",
        "As",
        "Sn",
        "Sb",
        "Co",
    )
)


#: An element that was looked for and not found is given as 0 %.
_SHARE = Amount(MASS_FRACTION, "0 .. 100 %")


class Share(NamedTuple):
    """A chemical element and its mass fraction."""

    element: str
    fraction: Quantity


class ElementShare(Type):
    """A chemical element with its mass fraction."""

    words = "an element and its mass fraction"
    example = "C 0.11 %"
    usual = (
        "C 0, 0.01 .. 0.6 %, Si 0 .. 2 %, Mn 0, 0.05 .. 3 %, P 0 .. 0.1 %, S 0 .. 0.1 %, "
        "Cr 0 .. 30 %, Mo 0 .. 18 %, Ni 0 .. 80 %, Cu 0 .. 4 %, V 0 .. 0.6 %, Nb 0 .. 4.5 %, "
        "Ti 0 .. 4 %, Al 0 .. 3 %, N 0 .. 0.5 %, B 0 .. 0.02 %, W 0 .. 5 %, As 0 .. 0.1 %, "
        "Sn 0 .. 0.1 %, Sb 0 .. 0.1 %, Co 0 .. 14 %"
    )

    def begins(self, cursor: Cursor) -> bool:
        return cursor.kind == "WORD"

    def read(self, cursor: Cursor) -> Share:
        symbol = cursor.word()
        if not symbol:
            raise self.wrong(cursor)
        if symbol not in ELEMENTS:
            start, end = cursor.here()
            meant = symbol.capitalize()
            raise Misread(
                mistakes.UNKNOWN_CHOICE,
                f"{symbol!r} is not an element of a steel analysis",
                start,
                end,
                f"did you mean {meant!r}?"
                if meant in ELEMENTS
                else f"it is one of: {', '.join(sorted(ELEMENTS))}",
            )
        cursor.at += 1
        return Share(symbol, _SHARE.read(cursor))

    def export(self, value: Share) -> Json:
        return {"element": value.element, "fraction": export_quantity(value.fraction)}

    def schema(self) -> Json:
        return {
            "type": "object",
            "properties": {
                "element": {"enum": sorted(ELEMENTS)},
                "fraction": quantity_schema(MASS_FRACTION),
            },
            "required": ["element", "fraction"],
            "additionalProperties": False,
        }
