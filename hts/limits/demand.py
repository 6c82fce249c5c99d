"""Limits applied to one joint: what each demands, and which of them governs."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal, NamedTuple

from hts.base.quantities import Quantity
from hts.limits.limit import Limit
from hts.limits.quantities import LIMITED, Direction
from hts.syntax.formula import Fact, FormulaError, Text, UnknownFact

Amount = Quantity | Fraction
"""A quantity, or a plain number for a count."""


def size(amount: Amount) -> Fraction:
    """The amount in the canonical unit of its dimension, for ordering within one quantity."""
    return amount.value if isinstance(amount, Quantity) else amount


class Demand:
    """One limit applied to the facts of one side, or of the whole joint (`side` is None)."""

    __slots__ = ("_printed", "above", "bounds", "facts", "limit", "side", "within")

    def __init__(
        self,
        limit: Limit,
        side: str | None,
        facts: Mapping[str, Fact],
        bounds: Mapping[Direction, Amount],
        above: Quantity | None,
        within: Quantity | None,
    ) -> None:
        self.limit = limit
        self.side = side
        self.facts = facts
        self.bounds = bounds
        self.above = above
        self.within = within
        # Joints with equal facts share one of these, and many rules ask the same of each.
        self._printed: dict[Direction, Amount] = {}

    @property
    def minimum(self) -> Amount | None:
        return self.bounds.get("minimum")

    @property
    def maximum(self) -> Amount | None:
        return self.bounds.get("maximum")

    @property
    def exactly(self) -> Amount | None:
        return self.bounds.get("exactly")

    def bound_for(self, direction: Direction, value: Amount) -> Amount:
        """The bound as printed in the system of units that a value held to it is written in."""
        return self.bound_in(direction, value.unit.system if isinstance(value, Quantity) else "")

    def bound_in(self, direction: Direction, system: str) -> Amount:
        """The bound as printed in a system of units, SI or US; else as it is."""
        bound, pair = self.bounds[direction], self.limit.pair
        if pair is None or system in ("both", "", self.limit.system):
            return bound
        known = self._printed.get(direction)
        if known is None:
            known = self._printed[direction] = self._of(pair, direction)
        return known

    def _of(self, pair: Limit, direction: Direction) -> Amount:
        """The bound as the pair of the limit prints it, as it is where that has none."""
        try:
            made = getattr(pair, direction).evaluate(self.facts)
        except (UnknownFact, FormulaError):
            return self.bounds[direction]
        return made if isinstance(made, Quantity | Fraction) else self.bounds[direction]

    def both(self, direction: Direction, value: Amount | None = None) -> Amount:
        """The bound (for a value), with the figure printed beside it in the other system."""
        bound = self.bounds[direction] if value is None else self.bound_for(direction, value)
        if self.limit.pair is None or not isinstance(bound, Quantity):
            return bound
        other = self.bound_in(direction, "US" if bound.unit.system == "SI" else "SI")
        return bound.with_beside(other) if isinstance(other, Quantity) else bound

    def shown(self, direction: Direction) -> str:
        """The formula of one bound with the numbers put in; "" without such a bound."""
        formula = getattr(self.limit, direction)
        return formula.shown(self.facts) if formula is not None else ""

    def same_as(self, other: Demand) -> bool:
        """Whether the other side demands just the same of the same limit."""
        return (
            self.limit is other.limit
            and self.bounds == other.bounds
            and _value(self.above) == _value(other.above)
            and _value(self.within) == _value(other.within)
        )

    def rank(self) -> tuple[str, str, str]:
        """An order among equal demands that does not hang on the order they came in."""
        return (self.limit.source.name, self.limit.id, self.side or "")

    def __repr__(self) -> str:
        bounds = ", ".join(f"{key} {amount}" for key, amount in self.bounds.items())
        return f"<Demand {self.limit.quantity}: {bounds or self.limit.status}>"


def _value(quantity: Quantity | None) -> Fraction | None:
    return None if quantity is None else quantity.value


class Unanswered(NamedTuple):
    """A limit that could not be decided for a side: facts missing, or no value (`reason`)."""

    limit: Limit
    side: str | None
    names: tuple[str, ...]
    reason: str = ""


class Governing:
    """What governs one quantity: the strictest bounds and all the demands behind them.

    `displaced` are demands that another row of the same source stands in for.
    """

    __slots__ = (
        "_conflict",
        "_exclusive",
        "_ordered",
        "demands",
        "displaced",
        "quantity",
        "unanswered",
    )

    def __init__(
        self,
        quantity: str,
        demands: tuple[Demand, ...],
        displaced: tuple[Demand, ...] = (),
        unanswered: tuple[Unanswered, ...] = (),
    ) -> None:
        self.quantity = quantity
        self.demands = demands
        self.displaced = displaced
        self.unanswered = unanswered
        # Joints with equal facts share one of these, and many rules ask the same of each.
        self._ordered: dict[Direction, list[Demand]] = {}
        self._exclusive: list[tuple[Demand, Demand]] | None = None
        self._conflict: tuple[Demand, Demand] | Literal[False] | None = False

    def ordered(self, direction: Direction) -> list[Demand]:
        """The demands with such a bound, the strictest first; not to be changed."""
        known = self._ordered.get(direction)
        if known is None:
            known = self._ordered[direction] = self._in_order(direction)
        return known

    def _in_order(self, direction: Direction) -> list[Demand]:
        sign = 1 if direction == "maximum" else -1
        having = [
            (sign * size(demand.bounds[direction]), demand.rank(), demand)
            for demand in self.demands
            if direction in demand.bounds
        ]
        return [demand for _, _, demand in sorted(having, key=lambda item: item[:2])]

    def setter(self, direction: Direction) -> Demand | None:
        """The demand that sets the bound."""
        return next(iter(self.ordered(direction)), None)

    def runner_up(self, direction: Direction) -> Demand | None:
        """The strictest demand of another source."""
        ordered = self.ordered(direction)
        return next(
            (d for d in ordered if d.limit.source.name != ordered[0].limit.source.name), None
        )

    def margin(self, direction: Direction) -> Amount | None:
        """How much stricter the bound is than the runner-up's, never negative."""
        first, second = self.setter(direction), self.runner_up(direction)
        if first is None or second is None:
            return None
        strict, loose = first.bounds[direction], second.bounds[direction]
        if size(strict) < size(loose):
            strict, loose = loose, strict
        return strict - loose  # type: ignore[operator]  # one quantity, hence one type

    @property
    def minimum(self) -> Amount | None:
        return self._bound("minimum")

    @property
    def maximum(self) -> Amount | None:
        return self._bound("maximum")

    @property
    def exactly(self) -> Amount | None:
        """The largest of the exact values: thicknesses that differ by source do not conflict."""
        return self._bound("exactly")

    def _bound(self, direction: Direction) -> Amount | None:
        demand = self.setter(direction)
        return None if demand is None else demand.bounds[direction]

    @property
    def status(self) -> str | None:
        """The strictest word of a choice, or None where nothing is said."""
        demand = self.status_setter()
        return None if demand is None else demand.limit.status

    def status_setter(self) -> Demand | None:
        """The demand that sets the word of a choice."""
        kind = LIMITED[self.quantity].kind
        order = kind.words if isinstance(kind, Text) else ()
        stated = [demand for demand in self.demands if demand.limit.status is not None]
        ranked = sorted(stated, key=lambda d: (order.index(d.limit.status or ""), d.rank()))
        return next(iter(ranked), None)

    def saying(self, status: str) -> Demand | None:
        """The first demand with this word of a choice, whatever stricter word another one has."""
        stated = [demand for demand in self.demands if demand.limit.status == status]
        return min(stated, key=Demand.rank, default=None)

    def thresholds(self) -> list[Quantity | None]:
        """Temperatures at which a limit starts, rising; None first where one holds throughout."""
        starts = {demand.above.value: demand.above for demand in self.demands if demand.above}
        throughout = any(demand.above is None for demand in self.demands)
        return [*([None] if throughout else []), *(starts[value] for value in sorted(starts))]

    def rate_at(
        self, temperature: Quantity | None, direction: Direction = "maximum"
    ) -> Demand | None:
        """The strictest demand in force just above `temperature` (None: below all thresholds)."""
        for demand in self.ordered(direction):
            if demand.above is None or (temperature is not None and demand.above <= temperature):
                return demand
        return None

    def printed(
        self, value: Amount, direction: Direction, temperature: Quantity | None = None
    ) -> Amount:
        """The value with the strictest figure beside it that codes print in the other system.

        Of the demands that the value meets; of those on a rate, in force at the temperature.
        """
        if not isinstance(value, Quantity) or value.unit.partner is None:
            return value
        own, other = ("SI", "US") if value.unit.system == "SI" else ("US", "SI")
        sign = 1 if direction == "maximum" else -1
        figures = [
            figure
            for demand in self.ordered(direction)
            if demand.limit.pair is not None
            and (demand.above is None or (temperature and demand.above <= temperature))
            and sign * value.value <= sign * size(demand.bound_in(direction, own))
            and isinstance(figure := demand.bound_in(direction, other), Quantity)
        ]
        if not figures:
            return value
        return value.with_beside(min(figures, key=lambda figure: sign * figure.value))

    def conflict(self) -> tuple[Demand, Demand] | None:
        """A minimum above a maximum that holds together with it, or None."""
        if self._conflict is False:
            self._conflict = self._conflicting()
        return self._conflict

    def _conflicting(self) -> tuple[Demand, Demand] | None:
        for threshold in self.thresholds():
            low = self.rate_at(threshold, "minimum")
            high = self.rate_at(threshold, "maximum")
            if low and high and size(low.bounds["minimum"]) > size(high.bounds["maximum"]):
                return low, high
        return None

    def exclusive(self) -> list[tuple[Demand, Demand]]:
        """Each minimum with each maximum that no value meets together with it; often none. Not to
        be changed."""
        if self._exclusive is None:
            self._exclusive = [] if self.conflict() is None else self._excluding()
        return self._exclusive

    def _excluding(self) -> list[tuple[Demand, Demand]]:
        return [
            (low, high)
            for low in self.ordered("minimum")
            for high in self.ordered("maximum")
            if size(low.bounds["minimum"]) > size(high.bounds["maximum"])
        ]

    @property
    def empty(self) -> bool:
        """Whether no value meets all demands."""
        return self.conflict() is not None
