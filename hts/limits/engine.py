"""From limits and facts to what governs.

Limits feed each other: the governing thickness is the `t` of the hold time, the soak band a part
of the heated band. Each quantity is therefore worked out when a formula first asks for it.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from fractions import Fraction
from itertools import count

from hts.base.quantities import LENGTH, Quantity
from hts.limits.demand import Amount, Demand, Governing, Unanswered, size
from hts.limits.dissimilar import ranked
from hts.limits.limit import Limit, Source
from hts.limits.merged import displaced_by, merged, merged_unanswered
from hts.limits.quantities import DIRECTIONS, GIVES, LIMITED, OPTION
from hts.limits.reads import as_written, facts_read
from hts.syntax.formula import Fact, FormulaError, UnknownFact, one_of


def demands(
    limits: Iterable[Limit],
    facts_by_side: Mapping[str, Mapping[str, Fact]],
    options: Collection[str] = (),
) -> dict[str, Governing]:
    """What governs each quantity the limits speak of, by its name, in the order of LIMITED.

    `facts_by_side` has the facts of each part joined (facts of the whole joint repeated in each).
    A stated `soak_band` or `t` is taken as it is, and worked out where it is not stated. `t` and
    `weld_thickness` are as the source of the formula defines them, or else the largest that any
    other source gives; bands and zones are the largest minimum over all sources (of the rows that
    could be answered: see `unanswered` of the quantity that gives them). `options` are
    the permitted alternatives the specification makes use of; one that a limit forbids is not
    taken. Never raises for what a limit says: one without a value is among the unanswered.
    """
    return dict(Engine(limits).demands(facts_by_side, options))


#: Answers kept by one engine, and joints of which all answers are; they are forgotten before they
#: take much memory.
_MOST_KEPT = 4000
_MOST_JOINTS = 500


class Engine:
    """Limits to be put to many joints: what was answered for some facts is not worked out again
    for a joint that has the same ones, whatever else is different about it."""

    def __init__(self, limits: Iterable[Limit]) -> None:
        self.limits: dict[str, list[Limit]] = {}
        for limit in limits:
            self.limits.setdefault(limit.quantity, []).append(limit)
        self._reads: dict[str, tuple[str, ...]] = {}
        self._asked = 0
        # No number is given twice: answers that are still to be worked out hold on to theirs.
        self._number = count()
        self._numbers: dict[tuple[object, ...], int] = {}
        self._joints: dict[tuple[object, ...], Mapping[str, Governing]] = {}
        self.known: dict[tuple[object, ...], Governing] = {}

    def demands(
        self, facts_by_side: Mapping[str, Mapping[str, Fact]], options: Collection[str] = ()
    ) -> Mapping[str, Governing]:
        """As the function `demands`; what nobody asks for is not worked out. One for all joints of
        equal facts."""
        if len(self.known) > _MOST_KEPT:
            self.known.clear()
            self._numbers.clear()
            self._joints.clear()
        elif len(self._joints) > _MOST_JOINTS:
            self._joints.clear()
        self._asked += 1
        if self._asked == 2:  # a single joint has nobody to share with
            self._reads = facts_read(self.limits)
        sides = _distinct(ranked(facts_by_side))
        numbers = [self._numbered(facts) for facts in sides.values()]
        key = (tuple(options), tuple(sides), *(tuple(side.values()) for side in numbers))
        found = self._joints.get(key)
        if found is None:
            found = self._joints[key] = _Answers(_Solver(self, sides, numbers, tuple(options)))
        return found

    def reads(self, quantity: str) -> tuple[str, ...] | None:
        """The facts that settle the answer for a quantity; None where more than facts does, and as
        long as one joint was asked about."""
        return self._reads.get(quantity)

    def _numbered(self, facts: Mapping[str, Fact]) -> dict[str, int]:
        """A number for each fact, the same for the same fact as written.

        Of two equal quantities in different units each is another fact: limits are printed, and
        where codes have both systems read, in the unit that was written.
        """
        numbers = self._numbers
        found = {}
        for name, fact in facts.items():
            written = as_written(name, fact)
            number = numbers.get(written)
            if number is None:
                number = numbers[written] = next(self._number)
            found[name] = number
        return found


class _Answers(Mapping[str, Governing]):
    """What governs each quantity, worked out when it is asked for."""

    __slots__ = ("_solver",)

    def __init__(self, solver: _Solver) -> None:
        self._solver = solver

    def __getitem__(self, quantity: str) -> Governing:
        solver = self._solver
        if quantity not in solver.limits:
            raise KeyError(quantity)
        if quantity not in solver.done and solver.engine.reads(quantity) is None:
            # What it comes to may depend on what was asked before: all is asked in one order.
            for name in self:
                solver.solve(name)
        return solver.solve(quantity)

    def __contains__(self, quantity: object) -> bool:
        return quantity in self._solver.limits

    def __iter__(self) -> Iterator[str]:
        return (name for name in LIMITED if name in self._solver.limits)

    def __len__(self) -> int:
        return len(self._solver.limits)


class _Solver:
    """One joint's limits, worked out on demand."""

    def __init__(
        self,
        engine: Engine,
        sides: Mapping[str, Mapping[str, Fact]],
        numbers: list[dict[str, int]],
        options: tuple[str, ...],
    ) -> None:
        """``numbers``: of the facts of each side."""
        self.engine = engine
        self.limits = engine.limits
        self.sides = sides
        self.home = _home(self.sides)
        self.options = options
        self.done: dict[str, Governing] = {}
        self.working: list[str] = []
        self.facts: dict[tuple[str, str], _Facts] = {}
        self._numbers = numbers
        self._shape = (options, *self.home.values(), *self.sides)

    def solve(self, quantity: str) -> Governing:
        found = self.done.get(quantity)
        if found is None:
            reads = self.engine.reads(quantity)
            if reads is None:
                found = self._worked_out(quantity)
            else:
                sides = [tuple(map(numbers.get, reads)) for numbers in self._numbers]
                key = (quantity, self._shape, *sides)
                found = self.engine.known.get(key)
                if found is None:
                    found = self.engine.known[key] = self._worked_out(quantity)
            self.done[quantity] = found
        return found

    def _worked_out(self, quantity: str) -> Governing:
        self.working.append(quantity)
        found = self._governing(quantity)
        self.working.pop()
        return found

    def _governing(self, quantity: str) -> Governing:
        found: list[Demand] = []
        unanswered: list[Unanswered] = []
        for limit in self.limits.get(quantity, ()):
            if limit.option is not None and quantity != OPTION and not self._taken(limit.option):
                continue
            for side in self.sides:
                facts = self._facts(limit.source, side)
                try:
                    if _applies(self._as_written(limit, facts, ("when",)), facts):
                        found.append(self._demand(limit, side, facts))
                except UnknownFact as unknown:
                    names = self._roots(unknown.names)
                    unanswered.append(Unanswered(limit, side, names, self._circle(names)))
                except FormulaError as error:
                    unanswered.append(Unanswered(limit, side, (), error.message))
        kept, displaced = displaced_by(found)
        return Governing(
            quantity,
            tuple(merged(kept, len(self.sides))),
            tuple(merged(displaced, len(self.sides))),
            tuple(merged_unanswered(unanswered, len(self.sides))),
        )

    def _as_written(self, limit: Limit, facts: Mapping[str, Fact], parts: tuple[str, ...]) -> Limit:
        """The limit as printed in the system of units that the facts of these parts are written in.

        Codes print 25 mm beside 1 in: a wall of 1 in is no more than 1 in. Where the parts name no
        such fact, or facts of both systems, it is the system the joint is written in.
        """
        if limit.pair is None or not _is_for(limit, facts):
            return limit
        used = {system for name in limit.names(parts) if (system := _system(facts.get(name)))}
        lengths = parts == ("within",) or (
            parts != ("above",) and LIMITED[limit.quantity].kind is LENGTH
        )
        system = used.pop() if len(used) == 1 else self.home[lengths]
        return limit.pair if system and system != limit.system else limit

    def _demand(self, limit: Limit, side: str, facts: Mapping[str, Fact]) -> Demand:
        """The limit's values for these facts. Raises UnknownFact with everything it lacks."""
        values: dict[str, Amount] = {}
        missing: list[str] = []
        bounding = self._as_written(limit, facts, DIRECTIONS)
        for part in limit.parts():
            if part == "when":
                continue
            # A rate by the inch of wall can begin at a temperature written in degC.
            row = bounding if part in DIRECTIONS else self._as_written(limit, facts, (part,))
            try:
                value = getattr(row, part).evaluate(facts)
            except UnknownFact as unknown:
                missing += unknown.names
                continue
            assert isinstance(value, Quantity | Fraction)
            values[part] = value
        if missing:
            raise UnknownFact(missing)
        above, within = values.get("above"), values.get("within")
        assert not isinstance(above, Fraction) and not isinstance(within, Fraction)
        bounds = {direction: values[direction] for direction in DIRECTIONS if direction in values}
        return Demand(bounding, side, facts, bounds, above, within)

    def _taken(self, option: str) -> bool:
        if option not in self.options:
            return False
        options_stated = self.solve(OPTION).demands if OPTION in self.limits else ()
        return all(
            d.limit.option != option or d.limit.status != "forbidden" for d in options_stated
        )

    def _facts(self, source: Source, side: str) -> _Facts:
        key = (source.name, side)
        if key not in self.facts:
            self.facts[key] = _Facts(self, source.name, self.sides[side])
        return self.facts[key]

    def _roots(self, names: Iterable[str]) -> tuple[str, ...]:
        """The facts to state: for one that a limit should have given, what that limit lacked."""
        roots: dict[str, None] = {}
        for name in names:
            governing = self.done.get(GIVES.get(name, ""))
            lacking = [n for u in governing.unanswered for n in u.names] if governing else []
            roots.update(dict.fromkeys(lacking or [name]))
        return tuple(roots)

    def _circle(self, names: Iterable[str]) -> str:
        """Why facts can never be known that are worked out from the quantity itself."""
        circle = [GIVES[name] for name in names if GIVES.get(name) in self.working]
        return f"depends on itself through {', '.join(circle)}" if circle else ""

    def derived(self, name: str, source: str) -> Amount | None:
        """A fact that limits give, as the limits of `source` are to read it."""
        quantity = GIVES[name]
        if quantity not in self.limits or quantity in self.working:
            return None
        governing = self.solve(quantity)
        if "exactly" not in LIMITED[quantity].directions:
            return governing.minimum
        defines = any(limit.source.name == source for limit in self.limits[quantity])
        amounts = [
            demand.exactly
            for demand in governing.demands
            if demand.exactly is not None and (not defines or demand.limit.source.name == source)
        ]
        return max(amounts, key=size, default=None)


class _Facts(Mapping[str, Fact]):
    """The facts of one side as one source reads them: stated ones, then derived ones."""

    __slots__ = ("_given", "_known", "_solver", "_source")

    def __init__(self, solver: _Solver, source: str, given: Mapping[str, Fact]) -> None:
        self._solver = solver
        self._source = source
        self._given = given
        self._known: dict[str, Amount] = {}

    def __getitem__(self, name: str) -> Fact:
        if name in self._given:
            return self._given[name]
        if name in self._known:
            return self._known[name]
        amount = self._solver.derived(name, self._source) if name in GIVES else None
        if amount is None:
            raise KeyError(name)
        self._known[name] = amount
        return amount

    def __iter__(self) -> Iterator[str]:
        return iter({**self._given, **self._known})

    def __len__(self) -> int:
        return len({**self._given, **self._known})


def _distinct(sides: Mapping[str, Mapping[str, Fact]]) -> Mapping[str, Mapping[str, Fact]]:
    """The sides to work out: one will do where both parts joined are the same."""
    if len(sides) < 2:
        return sides
    first, *others = sides.items()
    return dict([first]) if all(other == first[1] for _, other in others) else sides


#: Facts that show in which system of units a joint is written: lengths, and temperatures.
_LENGTHS = ("wall", "thicker_wall", "cap_width", "outside_diameter")
_TEMPERATURES = ("hold_minimum", "preheat")


def _home(sides: Mapping[str, Mapping[str, Fact]]) -> dict[bool, str]:
    """The system of units a joint writes its lengths in (True), and its temperatures (False).

    Each stands in for the other; "" where nothing shows it.
    """

    def first(names: tuple[str, ...]) -> str:
        found = (_system(facts.get(name)) for name in names for facts in sides.values())
        return next((system for system in found if system), "")

    return {
        True: first((*_LENGTHS, *_TEMPERATURES)),
        False: first((*_TEMPERATURES, *_LENGTHS)),
    }


def _system(fact: Fact | None) -> str:
    """The system of units a fact is written in, "" where its unit is of both."""
    if not isinstance(fact, Quantity) or fact.unit.system == "both":
        return ""
    return fact.unit.system


def _is_for(limit: Limit, facts: Mapping[str, Fact]) -> bool:
    return all(one_of(facts.get(name), words) for name, words in limit.where.items())


def _applies(limit: Limit, facts: Mapping[str, Fact]) -> bool:
    """Whether the limit is for these facts. Raises UnknownFact where they leave it open."""
    missing = []
    for name, words in limit.where.items():
        word = facts.get(name)
        if word is None:
            missing.append(name)
        elif not one_of(word, words):
            return False
    when = limit.when
    if when is not None:
        try:
            if not when.holds(facts):
                return False
        except UnknownFact as unknown:
            missing += unknown.names
    if missing:
        raise UnknownFact(missing)
    return True
