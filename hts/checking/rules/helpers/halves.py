"""Which side of its figures a condition asks for: more of a fact than so much, or less."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from typing import NamedTuple

from hts.syntax.formula import Formula
from hts.syntax.formula.conditions import Compare, Joined, Negation
from hts.syntax.formula.nodes import Literal, Name, Node

#: Ways a condition can hold, beyond which nothing is judged.
_MOST = 64
_NOT = {"<": ">=", ">": "<=", "<=": ">", ">=": "<", "=": "!=", "!=": "="}
_TURNED = {"<": ">", ">": "<", "<=": ">=", ">=": "<="}


class Bounded(NamedTuple):
    """A fact that is compared with a figure, as `t > 20 mm`; ``above``: more of it is asked for."""

    fact: str
    above: bool
    text: str


class Way(NamedTuple):
    """One way a condition can hold: what it bounds, and all else it asks for, as texts."""

    bounds: tuple[Bounded, ...]
    others: frozenset[str]

    def only(self, fact: str) -> str:
        """`above` or `below` where a fact is bounded on that side alone, else ""."""
        sides = {bound.above for bound in self.bounds if bound.fact == fact}
        return "" if len(sides) != 1 else "above" if sides.pop() else "below"


def ways(condition: Formula) -> list[Way]:
    """The ways a condition can hold, each of one part of every `or`; none where there are too
    many."""
    found = _parted(condition.root, turned=False)
    return [_way(parts, condition.text) for parts in found] if found is not None else []


_Part = tuple[Node, bool]


def _parted(node: Node, turned: bool) -> list[list[_Part]] | None:
    if isinstance(node, Negation):
        return _parted(node.parts[0], not turned)
    if not isinstance(node, Joined):
        return [[(node, turned)]]
    left, right = (_parted(part, turned) for part in node.parts)
    if left is None or right is None or len(left) * len(right) > _MOST:
        return None
    if node.decisive != turned:
        return left + right
    return [one + other for one, other in product(left, right)]


def _way(parts: list[_Part], text: str) -> Way:
    bounds: list[Bounded] = []
    others: set[str] = set()
    for node, turned in parts:
        written = " ".join(text[node.start : node.end].split())
        bound = next(_bounded(node, turned, written), None)
        if bound is not None:
            bounds.append(bound)
        else:
            others.add(f"not {written}" if turned else written)
    return Way(tuple(bounds), frozenset(others))


def _bounded(node: Node, turned: bool, written: str) -> Iterator[Bounded]:
    if not isinstance(node, Compare):
        return
    left, right = node.parts
    relation = node.relation
    if isinstance(left, Literal):
        left, right, relation = right, left, _TURNED.get(relation, relation)
    if turned:
        relation = _NOT[relation]
    if isinstance(left, Name) and isinstance(right, Literal) and relation not in ("=", "!="):
        yield Bounded(left.word, relation[0] == ">", f"not {written}" if turned else written)
