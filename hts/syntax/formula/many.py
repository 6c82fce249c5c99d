"""Formulas for many cases at once, such as hundreds of rows for thousands of typical welds.

What comes out is what `Formula.holds` and `Formula.number` give for each case, exactly; they are
the meaning, and this is the faster way to it. A formula is worked out once for each distinct choice
of the facts it reads. A set of cases is one whole number with a bit for each, so that `and`, `or`
and `not` are each one operation, however many cases there are.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import NamedTuple

from hts.syntax.formula.arithmetic import Negative, Power, Product, Sum
from hts.syntax.formula.conditions import RELATIONS, Compare, Joined, Negation
from hts.syntax.formula.errors import FormulaError, UnknownFact
from hts.syntax.formula.formula import Formula
from hts.syntax.formula.functions import Call
from hts.syntax.formula.nodes import Facts, Literal, Name, Node, Number
from hts.syntax.formula.ratios import Groups, Ratio


class Numbers(NamedTuple):
    """What a formula gives in some cases, in base units, for each group of cases that are alike to
    it; `group_of` is the group of each case."""

    ratios: list[Ratio]
    group_of: list[int]


class _Truth(NamedTuple):
    """The cases where a condition is true, is false, and cannot be worked out (FormulaError); in
    the rest a fact is missing that would decide it."""

    true: int
    false: int
    broken: int


class _NotACondition(Exception):
    """A part that is neither true nor false: no check has passed it."""


class Cases:
    """Cases, each the facts of one, and what formulas give in all of them."""

    def __init__(self, cases: Sequence[Facts]) -> None:
        self.all = (1 << len(cases)) - 1
        self._cases = cases
        self._groups: dict[tuple[str, ...], Groups] = {}
        self._truths: dict[str, _Truth] = {}

    def holds(self, condition: Formula) -> int:
        """The cases where a condition holds; not those where it cannot be decided."""
        try:
            return self._truth(condition, condition.root).true
        except _NotACondition:
            groups = self._told_apart(condition.names)
            return groups.where(_holds(condition, facts) for facts in groups.first)

    def named(self, name: str, words: Collection[object]) -> int:
        """The cases where a fact is one of these words."""
        groups = self._told_apart((name,))
        return groups.where(facts.get(name) in words for facts in groups.first)

    def numbers(self, formula: Formula) -> Numbers:
        """What a formula gives in each case."""
        groups = self._told_apart(formula.names)
        return Numbers(groups.ratios(formula.root), groups.group_of)

    def _told_apart(self, names: Sequence[str]) -> Groups:
        key = tuple(sorted(set(names)))
        if key not in self._groups:
            self._groups[key] = Groups(self._cases, key)
        return self._groups[key]

    def _truth(self, whole: Formula, node: Node) -> _Truth:
        if isinstance(node, Negation):
            true, false, broken = self._truth(whole, node.parts[0])
            return _Truth(false, true, broken)
        if isinstance(node, Joined):
            return self._joined(whole, node)
        written = whole.text[node.start : node.end]
        if written not in self._truths:
            self._truths[written] = self._compared(node)
        return self._truths[written]

    def _joined(self, whole: Formula, node: Joined) -> _Truth:
        """One decisive part decides, unless a part before it cannot be worked out."""
        first, second = (self._truth(whole, part) for part in node.parts)
        decided = first.true if node.decisive else first.false
        open_ = self.all & ~decided & ~first.broken
        decided |= open_ & (second.true if node.decisive else second.false)
        broken = first.broken | open_ & second.broken
        if node.decisive:
            return _Truth(decided, first.false & second.false, broken)
        return _Truth(first.true & second.true, decided, broken)

    def _compared(self, node: Node) -> _Truth:
        groups = self._told_apart(node.names())
        if not isinstance(node, Compare) or not all(_is_number(p, groups) for p in node.parts):
            return self._one_by_one(node, groups)
        left, right = (groups.ratios(part) for part in node.parts)
        relation, each = RELATIONS[node.relation], list(zip(left, right, strict=True))
        worked = groups.where(b and d for (_, b), (_, d) in each)
        true = worked & groups.where(relation(a * d, c * b) for (a, b), (c, d) in each)
        return _Truth(true, worked & ~true, groups.known & ~worked)

    def _one_by_one(self, node: Node, groups: Groups) -> _Truth:
        """As the condition itself says, for each case that differs in a fact it reads."""
        true = false = broken = 0
        for facts, bits in zip(groups.first, groups.bits, strict=True):
            try:
                value = node.value(facts)
            except UnknownFact:
                continue
            except FormulaError:
                broken |= bits
                continue
            if value is True:
                true |= bits
            elif value is False:
                false |= bits
            else:
                raise _NotACondition
        return _Truth(true, false, broken)


def _holds(condition: Formula, facts: Facts) -> bool:
    try:
        return condition.holds(facts)
    except (UnknownFact, FormulaError):
        return False


def _is_number(node: Node, groups: Groups) -> bool:
    """Whether it is a number whatever stands beside it, unlike a written degC, or a word."""
    if isinstance(node, Name):
        return node.word not in groups.words
    if isinstance(node, Literal):
        return not node.is_point
    return isinstance(node, Number | Sum | Product | Negative | Power | Call)
