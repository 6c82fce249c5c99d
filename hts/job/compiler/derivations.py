"""Every limit in force on a joint or a treatment, with its reason and what it prevailed over."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.checking.govern import JointLimits
from hts.job.compiler.why import Why, demanded
from hts.limits import LIMITED, Amount, Demand, Governing
from hts.limits.demand import size
from hts.limits.quantities import Direction
from hts.syntax.formula import Text

DIRECTIONS: tuple[Direction, ...] = ("minimum", "maximum", "exactly")


class Rival(NamedTuple):
    """A demand of another source that did not govern, and by how much it is the looser."""

    value: Amount
    margin: Amount
    why: Why


class Derivation(NamedTuple):
    """One bound in force. `direction` is minimum, maximum, exactly, or status for a word.

    `above` is the temperature a rate counts from, `within` the distance a spread counts over,
    `side` the part of the joint it is for (None: all of it), `places` where on the clock a number
    of thermocouples belongs.
    """

    quantity: str
    direction: str
    value: Amount | str
    why: Why
    above: Quantity | None = None
    within: Quantity | None = None
    side: str | None = None
    rival: Rival | None = None
    places: tuple[str, ...] = ()


class Undecided(NamedTuple):
    """A limit that may or may not apply, because the text does not say what it hangs on."""

    quantity: str
    source: str
    citation: str
    lacks: tuple[str, ...]
    reason: str


def derivations(limits: JointLimits, subjects: Iterable[str]) -> list[Derivation]:
    """The bounds on the quantities of these subjects (joint, preheat, bake, cycle)."""
    wanted = set(subjects)
    found: list[Derivation] = []
    for quantity, governing in limits.governing.items():
        if LIMITED[quantity].subject not in wanted:
            continue
        if isinstance(LIMITED[quantity].kind, Text):
            found += _status(governing)
            continue
        for direction in DIRECTIONS:
            found += _bounds(governing, direction)
    return found


def undecided(limits: JointLimits, subjects: Iterable[str]) -> list[Undecided]:
    """The limits on these subjects that lack a fact."""
    wanted = set(subjects)
    return [
        Undecided(
            quantity, item.limit.source.name, item.limit.source.citation, item.names, item.reason
        )
        for quantity, governing in limits.governing.items()
        if LIMITED[quantity].subject in wanted
        for item in governing.unanswered
    ]


def _status(governing: Governing) -> list[Derivation]:
    demand = governing.status_setter()
    if demand is None:
        return []
    word = demand.limit.status or ""
    if demand.limit.option is not None:
        word = f"{demand.limit.option}: {word}"
    return [
        Derivation(
            governing.quantity, "status", word, demanded(demand, "exactly"), side=demand.side
        )
    ]


def _bounds(governing: Governing, direction: Direction) -> list[Derivation]:
    """The strictest bound; for a rate the strictest of each step of temperature, for a spread
    every one that counts over a longer distance than a stricter one."""
    setters: list[Demand] = _over_distances(governing, direction)
    for threshold in governing.thresholds():
        demand = governing.rate_at(threshold, direction)
        if demand is not None and demand not in setters:
            setters.append(demand)
    found = []
    for demand in setters:
        value = demand.bounds[direction]
        rival = _rival(governing, demand, direction)
        found.append(
            Derivation(
                governing.quantity,
                direction,
                governing.printed(value, direction, demand.above),
                demanded(demand, direction),
                demand.above,
                demand.within,
                demand.side,
                rival,
                demand.limit.positions,
            )
        )
    return found


def _over_distances(governing: Governing, direction: Direction) -> list[Demand]:
    """Limits over distances that no stricter one covers; none where no limit has a distance."""
    ordered = governing.ordered(direction)
    if all(demand.within is None for demand in ordered):
        return []
    kept: list[Demand] = []
    for demand in ordered:
        if not any(
            one.within is None or (demand.within is not None and one.within >= demand.within)
            for one in kept
        ):
            kept.append(demand)
    return kept


def _rival(governing: Governing, setter: Demand, direction: Direction) -> Rival | None:
    """The strictest demand of another source that counts wherever the setter does."""
    ours = setter.bounds[direction]
    for other in governing.ordered(direction):
        counts = other.above is None or (setter.above is not None and other.above <= setter.above)
        if other.limit.source.name == setter.limit.source.name or not counts:
            continue
        theirs = other.bounds[direction]
        low, high = sorted((ours, theirs), key=size)
        shown = governing.printed(theirs, direction, other.above)
        return Rival(shown, high - low, demanded(other, direction))  # type: ignore[operator]
    return None
