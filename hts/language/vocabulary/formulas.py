"""Formulas and conditions inside entries: cut out here, read by the formula grammar."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from hts.base.quantities import (
    COUNT,
    DIFFERENCE,
    ENERGY,
    LENGTH,
    RATE,
    TEMPERATURE,
    THERMAL_RESISTANCE,
    TIME,
    Quantity,
)
from hts.language.vocabulary import mistakes
from hts.language.vocabulary.cursor import Cursor, Misread
from hts.language.vocabulary.types import Json, Type, refuse_impossible
from hts.limits.facts import FACT_KINDS
from hts.syntax.formula import CONDITION, Formula, FormulaError, Kind, UnknownFact
from hts.syntax.tree import Item


class FormulaText(NamedTuple):
    """The text of a formula, checked, with its place."""

    text: str
    start: int
    end: int


_EXAMPLES: dict[Kind, str] = {
    COUNT: "2",
    DIFFERENCE: "25 K",
    ENERGY: "125 J",
    LENGTH: "3 t",
    RATE: "110 degC/h",
    TEMPERATURE: "315 degC",
    THERMAL_RESISTANCE: "0.35 m2K/W",
    TIME: "2.5 min/mm * t",
    CONDITION: "t <= 60 mm",
}


class Expression(Type):
    """A formula for a value of one kind."""

    def __init__(self, wants: Kind, called: str, sided: bool = False, usual: str = "") -> None:
        """``sided``: the value is a width, so the formula says `each side` or `total`."""
        self.wants = wants
        self.usual = usual
        self.called = called
        self.sided = sided
        self.words = f"a formula for {wants.with_article}"
        self.example = _EXAMPLES.get(wants, "") + (" each side" if sided else "")

    def read(self, cursor: Cursor) -> FormulaText:
        first = cursor.item
        if first is None:
            raise self.wrong(cursor)
        last = self._last(cursor)
        each_side = False
        text_end = last.end
        if self.sided:
            text_end, each_side = self._side(cursor, last.end)
        text = cursor.source.text[first.start : text_end]
        try:
            Formula.parse(text, self.wants).check(FACT_KINDS, self.called)
        except FormulaError as error:
            at = first.start
            raise Misread(
                mistakes.BAD_FORMULA,
                error.message,
                at + error.start,
                at + max(error.end, error.start),
                error.help,
            ) from None
        self._refuse_impossible(text, first.start, last.end)
        return FormulaText(f"2 * ({text})" if each_side else text, first.start, last.end)

    def _refuse_impossible(self, text: str, start: int, end: int) -> None:
        """Raises Misread where the formula divides by nothing, or gives nothing or less, whatever
        the joint."""
        if self.wants is CONDITION:
            return
        try:
            value = Formula.parse(text, self.wants).evaluate({})
        except UnknownFact:
            return
        except FormulaError as error:
            at, last = start + error.start, start + max(error.end, error.start)
            raise Misread(mistakes.BAD_FORMULA, error.message, at, last, error.help) from None
        if isinstance(value, Quantity):
            refuse_impossible(self, value, start, end)
        elif isinstance(value, Fraction) and self.zero_or_less(value):
            raise Misread(
                mistakes.IMPOSSIBLE_VALUE,
                f"the {self.called} comes to {value}: a number above zero is expected here",
                start,
                end,
                "check the sign and the digits",
            )

    def _last(self, cursor: Cursor) -> Item:
        """Moves past the formula, which ends at a clause of the entry or a comma."""
        depth = 0
        last = cursor.items[cursor.at]
        while cursor.item is not None:
            kind = cursor.kind
            if kind == "LPAR":
                depth += 1
            elif kind == "RPAR":
                depth -= 1
            elif depth <= 0 and self._ends(cursor, kind):
                break
            last = cursor.items[cursor.at]
            cursor.at += 1
        return last

    def _ends(self, cursor: Cursor, kind: str) -> bool:
        """Whether the formula is over: a quoted word after = or != still belongs to it."""
        before = cursor.items[cursor.at - 1] if cursor.at else None
        if kind == "TEXT" and before is not None and cursor.text(before) in ("=", "!="):
            return False
        return kind in ("COMMA", "TEXT") or self._at_label(cursor)

    def _at_label(self, cursor: Cursor) -> bool:
        fields = cursor.labels.get(cursor.word(), ())
        return any(cursor.matches(field.words) for field in fields)

    def _side(self, cursor: Cursor, end: int) -> tuple[int, bool]:
        before = cursor.items[: cursor.at]
        words = [cursor.text(item) for item in before[-2:]]
        if words == ["each", "side"]:
            return before[-3].end, True
        if words[-1:] == ["total"]:
            return before[-2].end, False
        item = before[-1]
        raise Misread(
            mistakes.WIDTH_WITHOUT_SIDE,
            f"the {self.called} does not say whether it is in total or on each side",
            item.start,
            end,
            "write `total` or `each side` after the formula",
        )

    def export(self, value: FormulaText) -> Json:
        return {"formula": value.text}

    def schema(self) -> Json:
        return {"$ref": "#/$defs/formula"}


class ConditionText(Expression):
    """A condition on the joint."""

    def __init__(self) -> None:
        super().__init__(CONDITION, "the condition")
        self.words = "a condition"
