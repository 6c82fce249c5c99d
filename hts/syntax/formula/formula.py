"""One formula or condition: its text, its tree, its kind and its value."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import lru_cache

from hts.base.quantities import COUNT, DIFFERENCE, TIME, TIME_PER_LENGTH, Dimension, Quantity
from hts.syntax.formula.arithmetic import Negative
from hts.syntax.formula.conditions import Compare, Joined, Known, Negation
from hts.syntax.formula.errors import FormulaError
from hts.syntax.formula.functions import Call
from hts.syntax.formula.nodes import Given, Literal, Name, Node
from hts.syntax.formula.parser import tree
from hts.syntax.formula.value_kinds import Fact, Kind, Words, fits

LONGEST = 500
_SIGNS = {"*": "×", "-": "−", "<=": "≤", ">=": "≥", "!=": "≠", "sqrt": "√"}
_SIGN = r"<=|>=|!=|\*|(?<!\w)-|sqrt(?=\s*\()"


class Formula:
    """A parsed formula; the same text is parsed once.

    `wants` is what the formula is for: a dimension, CONDITION, or None when anything will do. It
    settles what a lone `30 degC` is, and `check` refuses a formula that gives something else.
    """

    __slots__ = ("_facts", "_written", "names", "root", "text", "wants")

    def __init__(self, text: str, wants: Kind | None, root: Node) -> None:
        """For `parse`."""
        self.text = text
        self.wants = wants
        self.root = _as_difference(root) if wants is DIFFERENCE else root
        self._facts = tuple(_facts_in(root))
        #: The facts it uses, each once, in reading order.
        self.names = tuple(dict.fromkeys(name.word for name in self._facts))
        self._written = tuple(literal.quantity for literal in _literals(self.root))

    @staticmethod
    def parse(text: str, wants: Kind | None = None) -> Formula:
        """The formula `text` writes. Raises FormulaError."""
        return _parse(text, wants)

    def check(self, names: Mapping[str, Kind], called: str = "this") -> Kind:
        """What the formula gives when its names are of these kinds.

        Raises FormulaError, which says which sub-expression does not fit and why; `called` is
        what its value is for, such as `hold time`.
        """
        kind = self.root.kind(names)
        if isinstance(kind, Dimension):
            kind = self.root.dimension(names)
        if self.wants is not None and not fits(kind, self.wants):
            message = f"{self.text} is {kind.with_article}; {called} is {self.wants.with_article}"
            raise self.root.error(message)
        return kind

    def evaluate(self, facts: Mapping[str, Fact]) -> Quantity | Fraction | bool | str | Words:
        """The value with these facts, whose kinds are those the formula was checked for.

        Exact but for sqrt (see `functions.square_root`). A number without a dimension, or of a
        dimension without a name, is a Fraction (in mm, s, K, kg, A). Raises UnknownFact with all
        the names still needed, and FormulaError for a division by zero and the like.
        """
        value = self._value(facts)
        if not isinstance(value, Fraction):
            return value
        dimension = self.wants if isinstance(self.wants, Dimension) else self.check(Given(facts))
        if not isinstance(dimension, Dimension) or dimension is COUNT or not dimension.canonical:
            return value
        return Quantity.of_base(value, dimension, self._unit(dimension, facts))

    def number(self, facts: Mapping[str, Fact]) -> Fraction | None:
        """The `base_value` of what it gives, for ordering; None for what is no amount. Raises as
        `evaluate`, and costs half as much."""
        value = self._value(facts)
        if isinstance(value, Quantity):
            return value.base_value
        return value if isinstance(value, Fraction) else None

    def _value(self, facts: Mapping[str, Fact]) -> Quantity | Fraction | bool | str | Words:
        root = self.root
        if not isinstance(root, Joined | Negation | Known) and any(
            name not in facts for name in self.names
        ):
            root.require(facts)
        return root.value(facts)

    def holds(self, facts: Mapping[str, Fact]) -> bool:
        """The value of a condition. Raises UnknownFact, FormulaError."""
        return self.root.value(facts) is True

    def shown(self, facts: Mapping[str, Fact]) -> str:
        """The formula with the values put in: `2.5 min/mm × 25.4 mm`."""
        pieces = []
        at = 0
        for name in self._facts:
            if name.word not in facts:
                continue
            value = str(facts[name.word])
            if self.text.startswith("^", name.end):
                value = f"({value})"
            # In a multiple such as `5 t` the sign is not written.
            times = "× " if self.text[at : name.start].rstrip(" \t")[-1:].isdigit() else ""
            pieces += [_signs(self.text[at : name.start]), times, value]
            at = name.end
        return "".join([*pieces, _signs(self.text[at:])])

    def _unit(self, dimension: Dimension, facts: Mapping[str, Fact]) -> str | None:
        """A unit for the result: the one the author wrote, else the one of the facts."""
        for written in self._written:
            unit = written.unit
            if unit.dimension is dimension:
                return unit.symbol
            if unit.dimension is TIME_PER_LENGTH and dimension is TIME:
                return unit.symbol.partition("/")[0]
        for name in self.names:
            fact = facts.get(name)
            if isinstance(fact, Quantity) and fact.dimension is dimension:
                return fact.unit.symbol
        return None

    @property
    def literals(self) -> tuple[Quantity, ...]:
        """The quantities written in it, in reading order."""
        return self._written

    @property
    def compared(self) -> tuple[tuple[str, Quantity], ...]:
        """The same, each with the fact it is compared with alone, "" where with none."""
        return tuple(_compared(self.root))

    def __repr__(self) -> str:
        return f"<Formula {self.text}>"


@lru_cache(maxsize=4096)
def _parse(text: str, wants: Kind | None) -> Formula:
    if len(text) > LONGEST:
        raise FormulaError(0, len(text), f"a formula has at most {LONGEST} characters")
    return Formula(text, wants, tree(text))


def _as_difference(node: Node) -> Node:
    """The tree with the temperatures that make up its value read as differences."""
    if isinstance(node, Literal) and node.is_point:
        return node.as_difference()
    if isinstance(node, Call | Negative):
        node.parts = tuple(_as_difference(part) for part in node.parts)
    return node


def _facts_in(node: Node) -> list[Name]:
    if isinstance(node, Name):
        return [node]
    return [name for part in node.parts for name in _facts_in(part)]


def _compared(node: Node) -> Iterator[tuple[str, Quantity]]:
    if isinstance(node, Literal):
        yield "", node.quantity
        return
    facts = [part.word for part in node.parts if isinstance(part, Name)]
    for part in node.parts:
        if isinstance(part, Literal) and isinstance(node, Compare) and facts:
            yield facts[0], part.quantity
        else:
            yield from _compared(part)


def _literals(node: Node) -> list[Literal]:
    if isinstance(node, Literal):
        return [node]
    return [literal for part in node.parts for literal in _literals(part)]


def _signs(text: str) -> str:
    return re.sub(_SIGN, lambda found: _SIGNS[found.group()], text)
