"""What every kind of value has in common."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from hts.language.vocabulary import mistakes
from hts.language.vocabulary.cursor import Cursor, Misread

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
    #: For a quantity: what the trade would call plausible, as hts.language.vocabulary.usual reads
    #: it. One that begins with 0 may be zero, one that begins with a minus may be negative, too.
    usual = ""

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
        """JSON Schema of `export`'s result; shared parts stand under `$defs`."""
        return {"type": "string", "minLength": 1}

    def zero_or_less(self, value: Fraction | int) -> bool:
        """Whether a value is zero or negative where the trade has none such."""
        if value > 0:
            return False
        if value == 0:
            return not self.usual.startswith(("0 ", "0, ", "-"))
        return not self.usual.startswith("-")

    def hint(self) -> str:
        """What helps where something else was written."""
        return f"for example {self.example}" if self.example else ""

    def wrong(self, cursor: Cursor) -> Misread:
        """What to raise where the next item is not such a value."""
        start, end = cursor.here()
        hint = self.hint()
        if cursor.item is None:
            return Misread(
                mistakes.MISSING_VALUE,
                f"{self.words} is missing at the end of the line",
                start,
                end,
                hint,
            )
        found = cursor.text(cursor.item)
        return Misread(
            mistakes.WRONG_VALUE,
            f"{found!r} is given where {self.words} is expected",
            start,
            end,
            hint,
        )
