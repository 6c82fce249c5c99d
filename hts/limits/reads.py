"""Which facts the answer for a quantity can depend on, and when two facts are the same."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from hts.base.quantities import Quantity
from hts.limits.facts import FACT_KINDS
from hts.limits.limit import Limit
from hts.limits.quantities import GIVES, OPTION
from hts.syntax.formula import Fact

_NAME = re.compile(r"[^\W\d]\w*")


def facts_read(by_quantity: Mapping[str, Sequence[Limit]]) -> dict[str, tuple[str, ...]]:
    """For each quantity the facts its limits read, and those of the quantities it hangs on.

    A quantity that hangs on itself, or on one that does, is left out: what it comes to depends on
    which of them was asked for first.
    """
    own = {quantity: _own(limits) for quantity, limits in by_quantity.items()}
    needs = {quantity: _needed(quantity, by_quantity, own) for quantity in by_quantity}
    reached = {quantity: _reached(quantity, needs) for quantity in by_quantity}
    circles = {quantity for quantity, others in reached.items() if quantity in others}
    return {
        quantity: tuple(dict.fromkeys(n for each in (quantity, *others) for n in own[each]))
        for quantity, others in reached.items()
        if quantity not in circles and not circles & others.keys()
    }


def _own(limits: Sequence[Limit]) -> dict[str, None]:
    return dict.fromkeys(name for limit in limits for name in _names(limit))


def _names(limit: Limit) -> Iterator[str]:
    """Every word of it that is the name of a fact: one that stands there as something else does no
    harm, and no formula has to be parsed for it."""
    for printed in (limit, limit.pair):
        if printed is not None:
            yield from printed.where
            for text in printed.texts:
                yield from (name for name in _NAME.findall(text) if name in FACT_KINDS)


def _needed(
    quantity: str, by_quantity: Mapping[str, Sequence[Limit]], own: Mapping[str, dict[str, None]]
) -> dict[str, None]:
    given = dict.fromkeys(GIVES[name] for name in own[quantity] if name in GIVES)
    if any(limit.option is not None for limit in by_quantity[quantity]) and quantity != OPTION:
        given[OPTION] = None
    return {each: None for each in given if each in by_quantity}


def _reached(quantity: str, needs: Mapping[str, dict[str, None]]) -> dict[str, None]:
    """All that it hangs on, however far away; itself among them where that is a circle."""
    found: dict[str, None] = {}
    waiting = list(needs[quantity])
    while waiting:
        each = waiting.pop()
        if each not in found:
            found[each] = None
            waiting += needs[each]
    return found


def as_written(name: str, fact: Fact) -> tuple[object, ...]:
    """A fact with all of it that shows, hashed without hashing a fraction."""
    if isinstance(fact, Quantity):
        value = fact.value
        unit = fact.unit
        return (
            name,
            value.numerator,
            value.denominator,
            unit.symbol,
            unit.dimension.name,
            fact.spelling,
        )
    return (name, type(fact), str(fact), fact)
