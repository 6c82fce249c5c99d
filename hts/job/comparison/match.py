"""Which thing of one side is which of the other: by name, and where names differ by what is said.

Every step treats both sides alike, so that the sides can change places, and none compares each
thing with each: work grows with the number of things.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Hashable, Iterable
from difflib import SequenceMatcher
from itertools import zip_longest
from typing import NamedTuple, TypeVar

from hts.job.comparison.facts import SEQUENCE, Fact, SpecNode

K = TypeVar("K", bound=Hashable)
#: A renamed thing may be named by another one that is renamed, too, as a thermocouple by its
#: spare; nobody has spares of spares of spares.
_ROUNDS = 3
#: How alike two texts are, 0 to 1, for the one to be the other reworded. Common practice of tools
#: that find renamed files, no source. A word of some length in both counts for a good part of it.
_ALIKE = 0.6
_SHARED_WORD = 0.35
_WORD = re.compile(r"[^\W\d_]{4,}")
#: Beyond so many pairs of texts nobody has reworded them one by one.
_MOST_PAIRS = 400


class Names:
    """What things are called on the newer side, by their kind and their name on the older one."""

    def __init__(self) -> None:
        self._now: dict[str, dict[str, str]] = {}
        self._taken: dict[str, set[str]] = {}

    def rename(self, kind: str, old: str, new: str) -> None:
        """A thing has another name now."""
        self._now.setdefault(kind, {})[old] = new
        self._taken.setdefault(kind, set()).add(new)

    def now(self, kind: str, name: str) -> str | None:
        """The name on the newer side; None where the same name means another thing there."""
        found = self._now.get(kind, {}).get(name)
        if found is None and name not in self._taken.get(kind, ()):
            return name
        return found

    def forget(self, kinds: Iterable[str]) -> None:
        """Leaves out the names of these kinds."""
        for kind in kinds:
            self._now.pop(kind, None)
            self._taken.pop(kind, None)


class Matched(NamedTuple):
    """`pairs` are things both sides have, `renamed` those that changed their name only."""

    pairs: list[tuple[SpecNode, SpecNode]]
    renamed: list[tuple[SpecNode, SpecNode]]
    removed: list[SpecNode]
    added: list[SpecNode]


def match(old: list[SpecNode], new: list[SpecNode], names: Names) -> Matched:
    """The things of one list of each side. Renamed things are added to `names`."""
    if isinstance((old or new)[0].entry, SEQUENCE):
        return _in_order(old, new)
    pairs, gone, come = _by(lambda t: (t.path, t.key), old, new)
    renamed: list[tuple[SpecNode, SpecNode]] = []
    for _ in range(_ROUNDS):
        found, gone, come = _by(_mark, gone, come, lambda t: _mark(t, names))
        if not found:
            break
        for before, after in found:
            if before.named and after.named:
                renamed.append((before, after))
                names.rename(_kind(before), before.key, after.key)
            else:
                pairs.append((before, after))
    again, gone, come = _alone(gone, come)
    return Matched([*pairs, *again], renamed, gone, come)


def _kind(node: SpecNode) -> str:
    return node.path.rpartition(".")[2]


def _by(
    key: Callable[[SpecNode], K],
    old: list[SpecNode],
    new: list[SpecNode],
    old_key: Callable[[SpecNode], K] | None = None,
) -> tuple[list[tuple[SpecNode, SpecNode]], list[SpecNode], list[SpecNode]]:
    """Pairs with the same key, and what is left on either side. Of several with one key those
    that say the same are paired first, the others in their order."""
    pairs: list[tuple[SpecNode, SpecNode]] = []
    gone: list[SpecNode] = []
    come: list[SpecNode] = []
    theirs = _grouped(key, new)
    for value, mine in _grouped(old_key or key, old).items():
        others = theirs.pop(value, [])
        if len(mine) == len(others) == 1:
            pairs.append((mine[0], others[0]))
            continue
        same, mine, others = _alike(mine, others)
        pairs += same
        pairs += zip(mine, others, strict=False)
        gone += mine[len(others) :]
        come += others[len(mine) :]
    for others in theirs.values():
        come += others
    return pairs, gone, come


def _alike(
    mine: list[SpecNode], others: list[SpecNode]
) -> tuple[list[tuple[SpecNode, SpecNode]], list[SpecNode], list[SpecNode]]:
    if not mine or not others:
        return [], mine, others
    waiting = _grouped(lambda t: t.mark, reversed(others))
    same = []
    rest = []
    for node in mine:
        found = waiting.get(node.mark)
        if found:
            same.append((node, found.pop()))
        else:
            rest.append(node)
    left = {id(node) for found in waiting.values() for node in found}
    return same, rest, [node for node in others if id(node) in left]


def _grouped(key: Callable[[SpecNode], K], nodes: Iterable[SpecNode]) -> dict[K, list[SpecNode]]:
    groups: dict[K, list[SpecNode]] = {}
    for node in nodes:
        groups.setdefault(key(node), []).append(node)
    return groups


def _mark(node: SpecNode, names: Names | None = None) -> tuple[object, ...]:
    """What a thing says but for its name; with `names` in those of the newer side. A thing that
    says nothing else is like no other."""
    if not any(node.mark[1:]):
        return (node.path, node.key)
    if names is None or not any(fact.refers for fact in node.facts.values()):
        return node.mark
    facts = sorted(
        (label, (names.now(fact.refers, fact.canonical) or "") if fact.refers else fact.canonical)
        for label, fact in node.facts.items()
        if not node.is_key(fact) and not fact.unsaid
    )
    return (node.mark[0], tuple(facts), *node.mark[2:])


def _alone(
    gone: list[SpecNode], come: list[SpecNode]
) -> tuple[list[tuple[SpecNode, SpecNode]], list[SpecNode], list[SpecNode]]:
    """Pairs the only one of its kind that is left on either side, unless it has a name: then a
    new name and new values mean another thing."""
    pairs = []
    mine, others = _grouped(lambda t: t.path, gone), _grouped(lambda t: t.path, come)
    for path in list(mine):
        if len(mine[path]) == len(others.get(path, ())) == 1 and not (
            mine[path][0].named and others[path][0].named
        ):
            pairs.append((mine.pop(path)[0], others.pop(path)[0]))
    left = {id(t) for nodes in (*mine.values(), *others.values()) for t in nodes}
    return pairs, [t for t in gone if id(t) in left], [t for t in come if id(t) in left]


def _in_order(old: list[SpecNode], new: list[SpecNode]) -> Matched:
    """Steps of a treatment: what is alike at both ends is paired, and between them the first
    heating with the first heating, the second with the second."""
    first = 0
    while first < min(len(old), len(new)) and old[first].mark == new[first].mark:
        first += 1
    last = 0
    while last < min(len(old), len(new)) - first and old[-1 - last].mark == new[-1 - last].mark:
        last += 1
    pairs = list(zip(old[:first], new[:first], strict=True))
    pairs += zip(old[len(old) - last :], new[len(new) - last :], strict=True)
    gone: list[SpecNode] = []
    come: list[SpecNode] = []
    mine = _grouped(lambda t: t.path, old[first : len(old) - last])
    others = _grouped(lambda t: t.path, new[first : len(new) - last])
    for path in dict.fromkeys((*mine, *others)):
        for before, after in zip_longest(mine.get(path, ()), others.get(path, ())):
            if before is None:
                come.append(after)
            elif after is None:
                gone.append(before)
            else:
                pairs.append((before, after))
    return Matched(pairs, [], gone, come)


def reworded(gone: dict[str, Fact], come: dict[str, Fact]) -> list[tuple[str, str]]:
    """Texts of one field that say nearly the same, by their labels, those most alike first."""
    if len(gone) * len(come) > _MOST_PAIRS:
        return []
    near: list[tuple[float, str, str]] = []
    for first, old in gone.items():
        for second, new in come.items():
            if old.path == new.path and isinstance(old.value, str) and isinstance(new.value, str):
                # Which of two texts comes first must not count: the sides can change places.
                one, other = sorted((old.value, new.value))
                ratio = SequenceMatcher(None, one, other).ratio()
                if {w.lower() for w in _WORD.findall(one)} & {
                    w.lower() for w in _WORD.findall(other)
                }:
                    ratio += _SHARED_WORD
                if ratio >= _ALIKE:
                    near.append((-ratio, first, second))
    pairs: list[tuple[str, str]] = []
    for _, first, second in sorted(near, key=lambda n: (n[0], *sorted(n[1:]))):
        if all(first != a and second != b for a, b in pairs):
            pairs.append((first, second))
    return pairs
