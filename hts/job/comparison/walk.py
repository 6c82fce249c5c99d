"""Two trees of facts put side by side."""

from __future__ import annotations

from itertools import pairwise

from hts.job.comparison.canonical import spelling
from hts.job.comparison.change import Change, Representation, Side, make
from hts.job.comparison.demands import which_way
from hts.job.comparison.direction import CROSSED, UNCROSSED, crossed, direction
from hts.job.comparison.facts import SEQUENCE, Fact, SpecNode
from hts.job.comparison.lookup import named, row_of
from hts.job.comparison.match import Names, match, reworded
from hts.job.comparison.registry import (
    ADDED,
    CHANGED,
    LOOSENED,
    REMOVED,
    RENAMED,
    TIGHTENED,
    Action,
)
from hts.job.comparison.unsaid import UNSAID
from hts.job.comparison.wording import said_whole
from hts.language.vocabulary.demand_lines import Allows, Forbids
from hts.language.vocabulary.demanded import Demanded

#: Names of things inside a joint mean nothing outside of it.
_LOCAL = ("zone", "thermocouple")
#: What is in these has names that other entries of a joint refer to, and comes first.
_NAMING = ("heating", "thermocouples")


class Walk:
    """The result is in `changes`, `representations` and `joints`."""

    def __init__(self, old: SpecNode, new: SpecNode) -> None:
        self.changes: list[Change] = []
        self.representations: list[Representation] = []
        #: Joints of both sides, by their names.
        self.joints: list[tuple[str, str]] = []
        self._names = Names()
        self._groups(old, new, "", "")

    def _things(self, old: SpecNode, new: SpecNode, before: str, after: str) -> None:
        """A thing that both sides have; `before` and `after` are its addresses."""
        if old.path == "joint":
            self.joints.append((old.key, new.key))
            self._names.forget(_LOCAL)
        self._facts(old, new, before, after)
        self._groups(old, new, before, after)

    def _groups(self, old: SpecNode, new: SpecNode, before: str, after: str) -> None:
        groups = dict.fromkeys((*_NAMING, *old.children, *new.children))
        for group in groups:
            self._group(
                group,
                old.children.get(group, []),
                new.children.get(group, []),
                before,
                after,
            )

    def _group(
        self, group: str, old: list[SpecNode], new: list[SpecNode], before: str, after: str
    ) -> None:
        if not old and not new:
            return
        found = match(old, new, self._names)
        for node in found.removed:
            self._alone(node, REMOVED, before)
        for node in found.added:
            self._alone(node, ADDED, after)
        for mine, theirs in found.renamed:
            first, second = _address(before, mine.label), _address(after, theirs.label)
            self._change(
                mine.path,
                RENAMED,
                Side(first, mine.key, mine.key, mine.place),
                Side(second, theirs.key, theirs.key, theirs.place),
            )
        for mine, theirs in (*found.pairs, *found.renamed):
            self._things(mine, theirs, _address(before, mine.label), _address(after, theirs.label))
        self._order(group, [*found.pairs, *found.renamed], old, new, (before, after))

    def _order(
        self,
        group: str,
        pairs: list[tuple[SpecNode, SpecNode]],
        old: list[SpecNode],
        new: list[SpecNode],
        where: tuple[str, str],
    ) -> None:
        """Another order: of steps it is another treatment, of all else only another layout."""
        if len(pairs) < 2:
            return
        rank = {id(node): number for number, node in enumerate(new)}
        place = {id(node): number for number, node in enumerate(old)}
        ranks = [
            rank[id(theirs)] for mine, theirs in sorted(pairs, key=lambda pair: place[id(pair[0])])
        ]
        if all(a < b for a, b in pairwise(ranks)):
            return
        if isinstance(new[0].entry, SEQUENCE):
            path = new[0].path.rpartition(".")[0]
            row = named("treatment", "order of steps")
            first, second = _steps(where[0], old), _steps(where[1], new)
            self.changes.append(make(path, row, CHANGED, first, second))
        else:
            label = new[0].path.rpartition(".")[2]
            self.representations.append(Representation("order", where[1] or group, "", label))

    # Facts --------------------------------------------------------------------------------------

    def _facts(self, old: SpecNode, new: SpecNode, before: str, after: str) -> None:
        theirs = dict(new.facts)
        gone: dict[str, Fact] = {}
        for label, fact in old.facts.items():
            other = theirs.pop(self._now(label, fact), None)
            if other is None:
                gone[label] = fact
            else:
                self._values(fact, other, f"{before}/{label}", after, label, old, new)
        where = before, after
        self._said_otherwise(gone, theirs, where)
        for first, second in reworded(gone, theirs):
            one, other = gone.pop(first), theirs.pop(second)
            sides = _side(f"{before}/{first}", one), _side(f"{after}/{second}", other)
            self._change(other.path, CHANGED, *sides)
        for label, fact in gone.items():
            self._single(label, fact, REMOVED, where, new)
        for label, fact in theirs.items():
            self._single(label, fact, ADDED, where, old)

    def _said_otherwise(
        self, gone: dict[str, Fact], come: dict[str, Fact], where: tuple[str, str]
    ) -> None:
        """What one side says in one field and the other in another, such as an arc and a clock."""
        for first, one in list(gone.items()):
            for second, other in list(come.items()):
                if one.otherwise is not None and one.otherwise[0] == other.path:
                    same, path = one.otherwise[1] == other.canonical, other.path
                elif other.otherwise is not None and other.otherwise[0] == one.path:
                    same, path = other.otherwise[1] == one.canonical, one.path
                else:
                    continue
                del gone[first], come[second]
                before, after = f"{where[0]}/{first}", f"{where[1]}/{second}"
                if same:
                    words = f"{first} {spelling(one.value)}", f"{second} {spelling(other.value)}"
                    self.representations.append(Representation("unit or spelling", after, *words))
                else:
                    self._change(path, CHANGED, _side(before, one), _side(after, other))
                break

    def _now(self, label: str, fact: Fact) -> str:
        """The label of a fact on the newer side: one of several references goes by the name."""
        if not fact.refers or "[" not in label:
            return label
        name = self._names.now(fact.refers, fact.canonical)
        return f"{label.partition('[')[0]}[{name or ''}]"

    def _values(
        self,
        old: Fact,
        new: Fact,
        before: str,
        after: str,
        label: str,
        mine: SpecNode,
        theirs: SpecNode,
    ) -> None:
        after = f"{after}/{self._now(label, old)}"
        value = self._names.now(old.refers, old.canonical) if old.refers else old.canonical
        if value == new.canonical:
            self._spelt(old, new, after)
            return
        if mine.named and mine.is_key(old):  # told as renamed
            return
        row = row_of(new.path)
        counts = old.counts and new.counts
        action = direction(row.sense, old.canonical, new.canonical) if counts else CHANGED
        if isinstance(old.value, Demanded) and isinstance(new.value, Demanded):
            forbids = isinstance(new.entry, Forbids) and not isinstance(new.entry, Allows)
            action = which_way(old.value, new.value, forbids)
        reason = ""
        if action in (TIGHTENED, LOOSENED) and (_crossed(label, mine) or _crossed(label, theirs)):
            action, reason = CHANGED, CROSSED if _crossed(label, theirs) else UNCROSSED
        self._change(new.path, action, _side(before, old), _side(after, new), reason)

    def _spelt(self, old: Fact, new: Fact, address: str) -> None:
        if old.value is new.value or old.refers:
            return
        before, after = spelling(old.value), spelling(new.value)
        if before != after:
            self.representations.append(Representation("unit or spelling", address, before, after))

    # Changes ------------------------------------------------------------------------------------

    def _single(
        self, label: str, fact: Fact, action: Action, where: tuple[str, str], silent: SpecNode
    ) -> None:
        """A fact that one side alone states; `silent` is the thing on the other side."""
        at, elsewhere = reversed(where) if action == ADDED else where
        side = _side(f"{at}/{label}", fact)
        other = _not_said(f"{elsewhere}/{label}", label, fact, silent)
        if other is None:
            self._change(fact.path, action, *_sides(action, side))
            return
        old, new = (other, side) if action == ADDED else (side, other)
        if other.value == side.value:
            said = ("", spelling(fact.value))
            words = said if action == ADDED else tuple(reversed(said))
            self.representations.append(Representation("default", side.address, *words))
            return
        row = row_of(fact.path)
        way = direction(row.sense, old.value, new.value) if fact.counts else CHANGED
        self._change(fact.path, way, old, new)

    def _alone(self, node: SpecNode, action: Action, where: str) -> None:
        address = _address(where, node.label)
        if node.facts and not node.children and all(f.unsaid for f in node.facts.values()):
            said = ("", next(iter(node.facts.values())).text)
            words = said if action == ADDED else tuple(reversed(said))
            self.representations.append(Representation("default", address, *words))
            return
        text, value = said_whole(node)
        side = Side(address, text, value, node.place)
        self._change(node.path, action, *_sides(action, side))

    def _change(
        self, path: str, action: Action, old: Side | None, new: Side | None, reason: str = ""
    ) -> None:
        self.changes.append(make(path, row_of(path), action, old, new, reason=reason))


def _steps(address: str, steps: list[SpecNode]) -> Side:
    """The steps of a treatment in their order, each by its number among its kind."""
    words = ", ".join(step.label.replace("-", " ") for step in steps)
    return Side(address, words, words, steps[0].place)


def _sides(action: Action, side: Side) -> tuple[Side | None, Side | None]:
    return (None, side) if action == ADDED else (side, None)


def _side(address: str, fact: Fact) -> Side:
    return Side(address, fact.text, fact.canonical, fact.place)


def _crossed(label: str, node: SpecNode) -> bool:
    return crossed(label, {step: fact.canonical for step, fact in node.facts.items()})


def _not_said(address: str, label: str, fact: Fact, silent: SpecNode) -> Side | None:
    """What holds where a thing does not state this; None where nothing does."""
    implied = silent.implied.get(label)
    value = implied.canonical if implied is not None else UNSAID.get(fact.path)
    if value is None:
        return None
    text = implied.text if implied is not None else "no" if value == "yes" else value
    return Side(address, f"{text}, unless said", value, silent.place)


def _address(where: str, label: str) -> str:
    return f"{where}/{label}" if where else label
