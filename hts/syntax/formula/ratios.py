"""The arithmetic of formulas for many cases at once, in whole numbers: a number is two of them, one
above and one below the line. What comes out is what `Node.number` gives, which is the meaning."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from functools import reduce
from itertools import compress
from operator import or_

from hts.base.quantities import Quantity
from hts.syntax.formula.arithmetic import LARGEST_BITS, Negative, Power, Product, Sum
from hts.syntax.formula.functions import Call, square_root
from hts.syntax.formula.nodes import Facts, Literal, Name, Node, Number
from hts.syntax.formula.value_kinds import Words

Ratio = tuple[int, int]
"""Above and below the line. Below is positive, or 0 where there is no number."""

NONE: Ratio = (0, 0)


class Groups:
    """Cases told apart by the facts of these names: the first of each group stands for it, `bits`
    are its cases, `group_of` is the group of each case, `known` where all these facts are known."""

    def __init__(self, cases: Sequence[Facts], names: Sequence[str]) -> None:
        self.names = names
        self.group_of: list[int] = []
        self.first: list[Facts] = []
        members: list[list[int]] = []
        found: dict[tuple[object, ...], int] = {}
        for number, facts in enumerate(cases):
            group = found.setdefault(tuple(map(facts.get, names)), len(found))
            if group == len(members):
                self.first.append(facts)
                members.append([])
            members[group].append(number)
            self.group_of.append(group)
        self.bits = [sum(1 << number for number in numbers) for numbers in members]
        self.known = self.where(None not in key for key in found)
        #: Those of the names that are words in some case.
        self.words = {
            name
            for place, name in enumerate(names)
            if any(isinstance(key[place], str | Words) for key in found)
        }
        self._facts: dict[str, list[Ratio]] = {}

    def where(self, holds: Iterable[object]) -> int:
        """The cases of the groups for which something holds, as bits."""
        return reduce(or_, compress(self.bits, holds), 0)

    def ratios(self, node: Node) -> list[Ratio]:
        """The number of an expression in each group."""
        if isinstance(node, Number | Literal):
            return [node.base.as_integer_ratio()] * len(self.first)
        if isinstance(node, Name):
            if node.word not in self._facts:
                self._facts[node.word] = [_fact(facts, node.word) for facts in self.first]
            return self._facts[node.word]
        parts = [self.ratios(part) for part in node.parts]
        if isinstance(node, Sum):
            return _sum(node.sign, *parts)
        if isinstance(node, Product):
            return _product(*parts) if node.sign > 0 else _quotient(*parts)
        if isinstance(node, Negative):
            return [(-above, below) for above, below in parts[0]]
        if isinstance(node, Power):
            return [_power(ratio, node.exponent) for ratio in parts[0]]
        assert isinstance(node, Call)
        return _CALLS[node.function](*parts)


def _fact(facts: Facts, name: str) -> Ratio:
    fact = facts.get(name)
    if fact is None or isinstance(fact, str | Words):
        return NONE
    return (fact.base_value if isinstance(fact, Quantity) else fact).as_integer_ratio()


# In what follows a 0 below the line stays there by the arithmetic alone, wherever it can.


def _sum(sign: int, first: list[Ratio], second: list[Ratio]) -> list[Ratio]:
    return [(a * d + sign * c * b, b * d) for (a, b), (c, d) in zip(first, second, strict=True)]


def _product(first: list[Ratio], second: list[Ratio]) -> list[Ratio]:
    return [(a * c, b * d) for (a, b), (c, d) in zip(first, second, strict=True)]


def _quotient(first: list[Ratio], second: list[Ratio]) -> list[Ratio]:
    return [
        ((a * d, b * c) if c > 0 else (-a * d, b * -c)) if d else NONE
        for (a, b), (c, d) in zip(first, second, strict=True)
    ]


def _power(ratio: Ratio, exponent: int) -> Ratio:
    above, below = ratio
    if below and above.bit_length() + below.bit_length() > LARGEST_BITS:
        # Perhaps only because it is not in its lowest terms.
        above, below = Fraction(above, below).as_integer_ratio()
        if above.bit_length() + below.bit_length() > LARGEST_BITS:
            return NONE
    return above**exponent, below**exponent


def _root(ratios: list[Ratio]) -> list[Ratio]:
    return [
        square_root(Fraction(a, b)).as_integer_ratio() if b and a >= 0 else NONE for a, b in ratios
    ]


def _greatest(first: list[Ratio], *others: list[Ratio], sign: int = 1) -> list[Ratio]:
    for other in others:
        first = [
            ((a, b) if sign * a * d >= sign * c * b else (c, d)) if b and d else NONE
            for (a, b), (c, d) in zip(first, other, strict=True)
        ]
    return first


def _least(*ratios: list[Ratio]) -> list[Ratio]:
    return _greatest(*ratios, sign=-1)


def _rounded(
    whole: Callable[[int, int], int],
) -> Callable[[list[Ratio], list[Ratio]], list[Ratio]]:
    """So many whole steps; `whole` makes a whole number of two whose quotient need not be one."""

    def rounded(ratios: list[Ratio], steps: list[Ratio]) -> list[Ratio]:
        return [
            (whole(a * d, b * c) * c, d) if b and d and c > 0 else NONE
            for (a, b), (c, d) in zip(ratios, steps, strict=True)
        ]

    return rounded


def _nearest(above: int, below: int) -> int:
    """A half away from zero."""
    size = (2 * abs(above) + below) // (2 * below)
    return size if above >= 0 else -size


_CALLS: dict[str, Callable[..., list[Ratio]]] = {
    "sqrt": _root,
    "abs": lambda ratios: [(abs(above), below) for above, below in ratios],
    "max": _greatest,
    "min": _least,
    "round_up": _rounded(lambda above, below: -(-above // below)),
    "round_down": _rounded(lambda above, below: above // below),
    "round_to": _rounded(_nearest),
}
