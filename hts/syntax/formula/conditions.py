"""Conditions: comparing numbers and words, and joining comparisons.

A condition asks only for the facts that can still decide it: `a and b` is false when either is
false, whatever else is missing.
"""

from __future__ import annotations

from collections.abc import Callable
from operator import eq, ge, gt, le, lt, ne
from typing import Any

from hts.base.quantities import (
    COUNT,
    DIFFERENCE,
    HARDNESS,
    MASS_FRACTION,
    RATIO,
    Dimension,
    Quantity,
)
from hts.syntax.formula.errors import UnknownFact
from hts.syntax.formula.nodes import (
    Facts,
    Given,
    Kinds,
    Literal,
    Name,
    Node,
    Number,
    Word,
    unlike,
)
from hts.syntax.formula.value_kinds import CONDITION, Kind, Text, Words, fits, one_of

RELATIONS: dict[str, Callable[[Any, Any], bool]] = {
    "<=": le,
    ">=": ge,
    "!=": ne,
    "=": eq,
    "<": lt,
    ">": gt,
}
EQUALITIES = ("=", "!=")


class Compare(Node):
    """`left relation right`, both numbers or, for = and !=, a word fact and a word."""

    __slots__ = ("relation",)

    def __init__(self, left: Node, relation: str, right: Node) -> None:
        if relation in EQUALITIES and isinstance(right, Name):
            right = Word(right.start, right.end, right.word)
        super().__init__(left.start, right.end, left, right)
        self.relation = relation

    def kind(self, names: Kinds) -> Kind:
        left, right = self.parts
        left_kind = left.kind(names)
        if isinstance(left_kind, Text):
            if self.relation not in EQUALITIES:
                raise self.error("words are compared with = or != only")
            _check_word(left_kind, left, right)
            return CONDITION
        if isinstance(right, Word):
            raise self.error(
                f"{_name(left)} is {left_kind.with_article}; {right.word} is a word here",
                "to the right of = a name is a word; two facts are equal when a - b = 0 mm",
            )
        left, right = _settled(left, right, names)
        kinds = left.dimension(names), right.dimension(names)
        if HARDNESS in kinds or not fits(*kinds):
            raise self.error(unlike(left, kinds[0], right, kinds[1]), _missing_unit(kinds))
        return CONDITION

    def value(self, facts: Facts) -> bool:
        left, right = self.parts
        if isinstance(left, Name) and isinstance(right, Literal):
            # Nearly every comparison there is; what follows says the same of it, but takes longer.
            fact = facts.get(left.word)
            if isinstance(fact, Quantity) and fact.dimension is right.quantity.dimension:
                return RELATIONS[self.relation](fact.base_value, right.base)
        self.require(facts)
        first = left.value(facts)
        if isinstance(first, str | Words):
            written = right.written if isinstance(right, Number) else right.value(facts)
            return one_of(first, (written,)) is (self.relation == "=")
        if isinstance(left, Literal) or isinstance(right, Literal):
            left, right = _settled(left, right, Given(facts))
        return RELATIONS[self.relation](left.number(facts), right.number(facts))


def _settled(left: Node, right: Node, names: Kinds) -> tuple[Node, Node]:
    """Both sides; a written degC beside a temperature difference is one, too."""
    if isinstance(right, Literal) and right.is_point and left.kind(names) is DIFFERENCE:
        return left, right.as_difference()
    if isinstance(left, Literal) and left.is_point and right.kind(names) is DIFFERENCE:
        return left.as_difference(), right
    return left, right


def _missing_unit(kinds: tuple[Dimension, Dimension]) -> str:
    shares = any(kind in (MASS_FRACTION, RATIO) for kind in kinds)
    return "a share is written with %" if shares and COUNT in kinds else ""


def _check_word(kind: Text, left: Node, right: Node) -> None:
    """Raises FormulaError unless `right` is one of the words `left` can be."""
    if isinstance(right, Word):
        word = right.word
    elif isinstance(right, Number):
        word = right.written
    else:
        raise right.error(f"{_name(left)} is a word, and this is none")
    if kind.words and word not in kind.words:
        raise right.error(f"{_name(left)} is never {word}", _close(word, kind.words))


#: So many words at most are all told; of longer lists those close to what was written.
_ALL_TOLD = 20


def _close(word: str, words: tuple[str, ...]) -> str:
    if len(words) <= _ALL_TOLD:
        return f"it is one of {', '.join(words)}"
    close = [each for each in words if each.startswith(word[:1])]
    return f"there are {', '.join(close or words)}"


def _name(node: Node) -> str:
    return node.word if isinstance(node, Name) else "this"


class Member(Node):
    """`left in (a, b, c)`: one of these words, or of these numbers."""

    __slots__ = ("choices",)

    def __init__(self, left: Node, choices: list[Word | Number], end: int) -> None:
        super().__init__(left.start, end, left)
        self.choices = choices

    def kind(self, names: Kinds) -> Kind:
        left = self.parts[0]
        kind = left.kind(names)
        for choice in self.choices:
            if isinstance(kind, Text):
                _check_word(kind, left, choice)
            else:
                wanted = left.dimension(names)
                if not fits(choice.dimension(names), wanted):
                    raise choice.error(f"{_name(left)} is {wanted.with_article}")
        return CONDITION

    def value(self, facts: Facts) -> bool:
        self.require(facts)
        value = self.parts[0].value(facts)
        if isinstance(value, str | Words):
            choices = [c.word if isinstance(c, Word) else c.written for c in self.choices]
            return one_of(value, choices)
        return any(isinstance(c, Number) and value == c.base for c in self.choices)


class Known(Node):
    """`name is known`: the fact is there, whatever its value."""

    __slots__ = ()

    def __init__(self, name: Node, end: int) -> None:
        super().__init__(name.start, end, name)
        if not isinstance(name, Name):
            raise name.error("only a fact can be known or not", "such as: carbon is known")

    def kind(self, names: Kinds) -> Kind:
        self.parts[0].kind(names)
        return CONDITION

    def value(self, facts: Facts) -> bool:
        return self.parts[0].names()[0] in facts


class Negation(Node):
    __slots__ = ()

    def kind(self, names: Kinds) -> Kind:
        return _condition(self.parts[0], names)

    def value(self, facts: Facts) -> bool:
        return not self.parts[0].value(facts)


class Joined(Node):
    """`and` (`decisive` False: one false part decides) or `or` (`decisive` True)."""

    __slots__ = ("decisive",)

    def __init__(self, left: Node, right: Node, decisive: bool) -> None:
        super().__init__(left.start, right.end, left, right)
        self.decisive = decisive

    def kind(self, names: Kinds) -> Kind:
        for part in self.parts:
            _condition(part, names)
        return CONDITION

    def value(self, facts: Facts) -> bool:
        missing: list[str] = []
        for part in self.parts:
            try:
                if part.value(facts) is self.decisive:
                    return self.decisive
            except UnknownFact as unknown:
                missing += unknown.names
        if missing:
            raise UnknownFact(missing)
        return not self.decisive


def _condition(node: Node, names: Kinds) -> Kind:
    kind = node.kind(names)
    if kind is not CONDITION:
        raise node.error(f"this is {kind.with_article}, where a condition is needed")
    return kind
