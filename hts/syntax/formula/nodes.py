"""What formulas are made of: quantities, numbers, names and words.

Values are exact fractions in the coherent base units (mm, s, K, kg, A), temperatures in degC; the
unit check makes sure that such numbers are only ever joined where that has a meaning.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import lru_cache

from hts.base.quantities import (
    COUNT,
    DIFFERENCE,
    DIMENSIONS,
    HARDNESS,
    LENGTH,
    TIME,
    Dimension,
    Quantity,
    QuantityError,
    find_unit,
)
from hts.base.quantities.number import NumberError, read_number
from hts.syntax.formula.errors import FormulaError, UnknownFact
from hts.syntax.formula.value_kinds import Fact, Kind, Text, Words, kind_of

Kinds = Mapping[str, Kind]
Facts = Mapping[str, Fact]
Value = Fraction | str | Words | bool

_BLANKS = " \t"


class Node:
    """A sub-expression at `[start, end)` of the formula's text."""

    __slots__ = ("end", "parts", "start")

    def __init__(self, start: int, end: int, *parts: Node) -> None:
        self.start = start
        self.end = end
        self.parts = parts

    def kind(self, names: Kinds) -> Kind:
        """What the value is, when the names are of these kinds. Raises FormulaError."""
        raise NotImplementedError

    def value(self, facts: Facts) -> Value:
        """The value with these facts. Raises FormulaError, UnknownFact."""
        raise NotImplementedError

    def dimension(self, names: Kinds) -> Dimension:
        """The dimension of a number. Raises FormulaError for a word or a condition."""
        kind = self.kind(names)
        if not isinstance(kind, Dimension):
            raise self.error(f"this is {kind.with_article}, where a number is needed")
        if kind is HARDNESS:
            raise self.error("hardness has no place in a formula: its scales do not convert")
        return kind

    def number(self, facts: Facts) -> Fraction:
        """The value of a number."""
        value = self.value(facts)
        if not isinstance(value, Fraction):
            raise self.error("a number is needed here")
        return value

    def names(self) -> list[str]:
        """Names of the facts it uses, in reading order."""
        return [name for part in self.parts for name in part.names()]

    def require(self, facts: Facts) -> None:
        """Raises UnknownFact for all names that are missing."""
        missing = [name for name in self.names() if name not in facts]
        if missing:
            raise UnknownFact(missing)

    def error(self, message: str, help: str = "") -> FormulaError:
        return FormulaError(self.start, self.end, message, help)


class Number(Node):
    """A number without a unit; `written` stands for itself beside a word."""

    __slots__ = ("base", "written")

    def __init__(self, start: int, written: str) -> None:
        super().__init__(start, start + len(written))
        self.written = written
        try:
            self.base = read_number(written)
        except NumberError as error:
            raise self.error(f"{written!r} is not a number: {error}") from None

    def kind(self, names: Kinds) -> Kind:
        return COUNT

    def value(self, facts: Facts) -> Fraction:
        return self.base


class Literal(Node):
    """A written quantity. `degC` and `degF` are temperatures until something else is wanted."""

    __slots__ = ("base", "quantity")

    def __init__(self, start: int, end: int, text: str, wanted: Dimension | None = None) -> None:
        super().__init__(start, end)
        symbol = text.lstrip("-0123456789./" + _BLANKS)
        dimension = wanted or _dimension_of_unit(symbol)
        try:
            self.quantity = Quantity.read(text, dimension or LENGTH)
        except QuantityError as error:
            raise self.error(str(error)) from None
        self.base = self.quantity.base_value

    @property
    def is_point(self) -> bool:
        return self.quantity.dimension.point

    def as_difference(self) -> Literal:
        """The same digits and unit, as a temperature difference."""
        return Literal(self.start, self.end, self.quantity.written, DIFFERENCE)

    def negated(self, start: int) -> Literal:
        """A minus sign before a temperature belongs to its digits."""
        quantity = self.quantity
        return Literal(start, self.end, f"-{quantity.written}", quantity.dimension)

    def kind(self, names: Kinds) -> Kind:
        return self.quantity.dimension

    def value(self, facts: Facts) -> Fraction:
        return self.base


@lru_cache(maxsize=256)
def _dimension_of_unit(symbol: str) -> Dimension | None:
    """The first dimension with this unit; a point comes before its difference."""
    first = symbol.split(maxsplit=1)[0] if symbol.split() else symbol
    if first != symbol:  # 2 h 30 min
        return TIME
    return next((d for d in DIMENSIONS if symbol and find_unit(symbol, d) is not None), None)


class Name(Node):
    """A fact."""

    __slots__ = ("word",)

    def __init__(self, start: int, word: str) -> None:
        super().__init__(start, start + len(word))
        self.word = word

    def kind(self, names: Kinds) -> Kind:
        kind = names.get(self.word)
        if kind is None:
            raise self.error(f"{self.word} is not a fact a formula can use", self._help(names))
        return kind

    def _help(self, names: Kinds) -> str:
        if "-" in self.word:
            return "a minus sign needs a blank on both sides"
        if self.word[0].isdigit():
            return "a class such as 5A belongs to the right of = or inside in (...)"
        if any(find_unit(self.word, dimension) for dimension in DIMENSIONS):
            return f"a unit needs a number: 1 {self.word}"
        from difflib import get_close_matches

        near = get_close_matches(self.word, list(names), n=1)
        return f"did you mean {near[0]}?" if near else ""

    def value(self, facts: Facts) -> Fraction | str | Words:
        try:
            fact = facts[self.word]
        except KeyError:
            raise UnknownFact((self.word,)) from None
        if isinstance(fact, Quantity):
            return fact.base_value
        return fact if isinstance(fact, str | Words) else Fraction(fact)

    def names(self) -> list[str]:
        return [self.word]


class Word(Node):
    """A word that stands for itself."""

    __slots__ = ("word",)

    def __init__(self, start: int, end: int, word: str) -> None:
        super().__init__(start, end)
        self.word = word

    def kind(self, names: Kinds) -> Kind:
        return Text()

    def value(self, facts: Facts) -> str:
        return self.word


def unlike(left: Node, left_kind: Kind, right: Node, right_kind: Kind) -> str:
    """What the two sides of a sum or comparison are, for a message."""
    first = f"{_called(left, 'this side')} is {left_kind.with_article}"
    return f"{first}, {_called(right, 'the other')} is {right_kind.with_article}"


def _called(node: Node, otherwise: str) -> str:
    if isinstance(node, Name | Word):
        return node.word
    if isinstance(node, Literal):
        return str(node.quantity)
    return node.written if isinstance(node, Number) else otherwise


class Given(Mapping[str, Kind]):
    """The kinds of the facts given, as names for a unit check."""

    __slots__ = ("_facts",)

    def __init__(self, facts: Facts) -> None:
        self._facts = facts

    def __getitem__(self, name: str) -> Kind:
        return kind_of(self._facts[name])

    def __iter__(self) -> Iterator[str]:
        return iter(self._facts)

    def __len__(self) -> int:
        return len(self._facts)
