"""Which thing of one side is which of the other: by name, and where names differ by what is said.

Every step treats both sides alike, so that the sides can change places, and none compares each
thing with each: work grows with the number of things.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from itertools import zip_longest
from typing import NamedTuple, TypeVar

from hts.job.comparison.facts import SEQUENCE, Thing

K = TypeVar("K", bound=Hashable)
#: A renamed thing may be named by another one that is renamed, too, as a thermocouple by its
#: spare; nobody has spares of spares of spares.
_ROUNDS = 3


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

    pairs: list[tuple[Thing, Thing]]
    renamed: list[tuple[Thing, Thing]]
    removed: list[Thing]
    added: list[Thing]


def match(old: list[Thing], new: list[Thing], names: Names) -> Matched:
    """The things of one list of each side. Renamed things are added to `names`."""
    if isinstance((old or new)[0].entry, SEQUENCE):
        return _in_order(old, new)
    pairs, gone, come = _by(lambda t: (t.path, t.key), old, new)
    renamed: list[tuple[Thing, Thing]] = []
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


def _kind(thing: Thing) -> str:
    return thing.path.rpartition(".")[2]


def _by(
    key: Callable[[Thing], K],
    old: list[Thing],
    new: list[Thing],
    old_key: Callable[[Thing], K] | None = None,
) -> tuple[list[tuple[Thing, Thing]], list[Thing], list[Thing]]:
    """Pairs with the same key, and what is left on either side. Of several with one key those
    that say the same are paired first, the others in their order."""
    pairs: list[tuple[Thing, Thing]] = []
    gone: list[Thing] = []
    come: list[Thing] = []
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
    mine: list[Thing], others: list[Thing]
) -> tuple[list[tuple[Thing, Thing]], list[Thing], list[Thing]]:
    if not mine or not others:
        return [], mine, others
    waiting = _grouped(lambda t: t.mark, reversed(others))
    same = []
    rest = []
    for thing in mine:
        found = waiting.get(thing.mark)
        if found:
            same.append((thing, found.pop()))
        else:
            rest.append(thing)
    left = {id(thing) for found in waiting.values() for thing in found}
    return same, rest, [thing for thing in others if id(thing) in left]


def _grouped(key: Callable[[Thing], K], things: Iterable[Thing]) -> dict[K, list[Thing]]:
    groups: dict[K, list[Thing]] = {}
    for thing in things:
        groups.setdefault(key(thing), []).append(thing)
    return groups


def _mark(thing: Thing, names: Names | None = None) -> tuple[object, ...]:
    """What a thing says but for its name; with `names` in those of the newer side. A thing that
    says nothing else is like no other."""
    if not any(thing.mark[1:]):
        return (thing.path, thing.key)
    if names is None or not any(fact.refers for fact in thing.facts.values()):
        return thing.mark
    facts = sorted(
        (label, (names.now(fact.refers, fact.canonical) or "") if fact.refers else fact.canonical)
        for label, fact in thing.facts.items()
        if not thing.is_key(fact)
    )
    return (thing.mark[0], tuple(facts), *thing.mark[2:])


def _alone(
    gone: list[Thing], come: list[Thing]
) -> tuple[list[tuple[Thing, Thing]], list[Thing], list[Thing]]:
    """Pairs the only one of its kind that is left on either side, unless it has a name: then a
    new name and new values mean another thing."""
    pairs = []
    mine, others = _grouped(lambda t: t.path, gone), _grouped(lambda t: t.path, come)
    for path in list(mine):
        if len(mine[path]) == len(others.get(path, ())) == 1 and not (
            mine[path][0].named and others[path][0].named
        ):
            pairs.append((mine.pop(path)[0], others.pop(path)[0]))
    left = {id(t) for things in (*mine.values(), *others.values()) for t in things}
    return pairs, [t for t in gone if id(t) in left], [t for t in come if id(t) in left]


def _in_order(old: list[Thing], new: list[Thing]) -> Matched:
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
    gone: list[Thing] = []
    come: list[Thing] = []
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
