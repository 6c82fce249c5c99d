"""What changed in the limits in force: how a book, a wall or a procedure reaches hold, rates and
bands."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.quantities import Quantity
from hts.job.comparison.canonical import exact
from hts.job.comparison.change import Change, Side, make, under
from hts.job.comparison.direction import CROSSED, UNCROSSED, direction
from hts.job.comparison.limits_in_force import LimitsInForce, by_rule
from hts.job.comparison.lookup import named
from hts.job.comparison.registry import ADDED, CHANGED, LOOSENED, NOTE, REMOVED, TIGHTENED
from hts.job.compiler.derivations import Derivation, Undecided
from hts.job.compiler.why import Why
from hts.language.model.joint import Joint, Treatment
from hts.limits import Amount

_BOUNDS = {"minimum": "at least", "maximum": "at most", "exactly": "is", "status": "is"}
_KINDS = {
    "minimum": "lower limit in force",
    "maximum": "upper limit in force",
    "exactly": "value in force",
    "status": "demand in words",
}
#: Quantities of which each text states its own value, so that a limit only checks it.
CHECKED = "the specification states its own value, which is held against the limit"

Key = tuple[str, str]


def effects(
    old: LimitsInForce, new: LimitsInForce, joints: list[tuple[str, str]]
) -> Iterator[Change]:
    """The changes of limits in force on these joints, each named as it is on either side."""
    for before, after in joints:
        mine, theirs = old.joint(before), new.joint(after)
        if mine is None or theirs is None:
            continue
        yield from _limits(_Part(old, mine, None), _Part(new, theirs, None))
        for first, second in _treatments(old.treatments(mine), new.treatments(theirs)):
            yield from _limits(_Part(old, mine, first), _Part(new, theirs, second))


class _Part:
    """A joint, or one treatment of it, on one side."""

    def __init__(self, force: LimitsInForce, joint: Joint, treatment: Treatment | None) -> None:
        self.joint = joint
        self.treatment = treatment
        self.bounds, self.open = force.demanded(joint, treatment)

    @property
    def address(self) -> str:
        return self.joint.name if self.treatment is None else self.treatment.address

    def grouped(self) -> dict[Key, list[Derivation]]:
        groups: dict[Key, list[Derivation]] = {}
        for bound in self.bounds:
            groups.setdefault((bound.quantity, bound.direction), []).append(bound)
        return groups

    def rules(self, key: Key) -> bool:
        return by_rule(self.joint, self.treatment, *key)


def _treatments(
    old: list[Treatment], new: list[Treatment]
) -> Iterator[tuple[Treatment, Treatment]]:
    """Treatments of one name; of one kind where it is the only one on both sides."""
    for is_bake in (False, True):
        mine = [t for t in old if t.is_bake == is_bake]
        theirs = [t for t in new if t.is_bake == is_bake]
        if len(mine) == len(theirs) == 1:
            yield mine[0], theirs[0]
            continue
        names = {t.name: t for t in theirs}
        yield from ((t, names[t.name]) for t in mine if t.name in names)


def _limits(old: _Part, new: _Part) -> Iterator[Change]:
    mine, theirs = old.grouped(), new.grouped()
    for key in dict.fromkeys((*mine, *theirs)):
        before = _side(old, key, mine.get(key))
        after = _side(new, key, theirs.get(key))
        if (before and before.value) == (after and after.value):
            continue
        row = named("limit", _KINDS[key[1]])
        if before is None or after is None:
            action = ADDED if before is None else REMOVED
        elif row.sense == "plain" and key[1] == "status":
            action = CHANGED
        else:
            action = direction(row.sense, before.value, after.value)
        because = _because(mine.get(key), theirs.get(key))
        if action in (TIGHTENED, LOOSENED):
            for grouped, words in ((theirs, CROSSED), (mine, UNCROSSED)):
                if _exclude(grouped, key[0]):
                    action, because = CHANGED, f"{because}; {words}"
                    break
        change = make(key[0], row, action, before, after)
        if key[1] == "status" or old.rules(key) or new.rules(key):
            yield change._replace(reason=because)
        elif key[0] == "weld thickness":
            yield under(change, NOTE, f"{because}; other limits are worked out with it")
        else:
            yield under(change, NOTE, f"{because}; {CHECKED}")
    yield from _undecided(old, new)


def _exclude(grouped: dict[Key, list[Derivation]], quantity: str) -> bool:
    """Whether the lower limits in force are above an upper one."""
    least = [b.value for b in grouped.get((quantity, "minimum"), ())]
    greatest = [b.value for b in grouped.get((quantity, "maximum"), ())]
    return any(
        isinstance(a, Quantity) and isinstance(b, Quantity) and a > b
        for a in least
        for b in greatest
    )


def _side(part: _Part, key: Key, bounds: list[Derivation] | None) -> Side | None:
    if not bounds:
        return None
    address = f"{part.address}/limits/{key[0].replace(' ', '-')}"
    words = _BOUNDS[key[1]]
    text = "; ".join(f"{words} {_text(bound)}" for bound in bounds)
    return Side(address, text, "; ".join(_value(bound) for bound in bounds), None)


def _text(bound: Derivation) -> str:
    parts = [str(bound.value)]
    if bound.above is not None:
        parts.append(f"above {bound.above}")
    if bound.within is not None:
        parts.append(f"within {bound.within}")
    return " ".join(parts)


def _value(bound: Derivation) -> str:
    parts = [_exact(bound.value)]
    if bound.above is not None:
        parts.append(f"above {exact(bound.above)}")
    if bound.within is not None:
        parts.append(f"within {exact(bound.within)}")
    return " ".join(parts)


def _exact(value: Amount | str) -> str:
    return exact(value) if isinstance(value, Quantity) else str(value)


def _because(old: list[Derivation] | None, new: list[Derivation] | None) -> str:
    """Formula with numbers and source of both sides; the source once where it is the same."""
    before, after = [bound.why for bound in old or ()], [bound.why for bound in new or ()]
    if not before:
        return f"now demanded: {_sources(after)}"
    if not after:
        return f"no longer demanded: {_sources(before)}"
    if len(before) == len(after) == 1 and before[0].cited == after[0].cited:
        return f"{_numbers(before[0])} -> {_numbers(after[0])} ({after[0].cited})"
    return f"{_sources(before)} -> {_sources(after)}"


def _sources(reasons: list[Why]) -> str:
    return "; ".join(f"{_numbers(why)} ({why.cited})" for why in reasons)


def _numbers(why: Why) -> str:
    return why.numbers or why.formula or "it"


def _undecided(old: _Part, new: _Part) -> Iterator[Change]:
    row = named("limit", "undecided limit")
    mine = {_open_key(item): item for item in old.open}
    theirs = {_open_key(item): item for item in new.open}
    for key, item in mine.items():
        if key not in theirs:
            yield make(item.quantity, row, REMOVED, _open_side(old, item), None)
    for key, item in theirs.items():
        if key not in mine:
            lacks = ", ".join(item.lacks) or item.reason
            yield make(item.quantity, row, ADDED, None, _open_side(new, item), lacks=lacks)


def _open_key(item: Undecided) -> tuple[object, ...]:
    return (item.quantity, _cited(item), item.lacks)


def _open_side(part: _Part, item: Undecided) -> Side:
    address = f"{part.address}/limits/{item.quantity.replace(' ', '-')}"
    text = f"{_cited(item)}: lacks {', '.join(item.lacks) or item.reason}"
    return Side(address, text, text, None)


def _cited(item: Undecided) -> str:
    # The line of a procedure moves with its layout.
    line = item.citation.startswith("line ")
    return item.source if line or not item.citation else f"{item.source}, {item.citation}"
