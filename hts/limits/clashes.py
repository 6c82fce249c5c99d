"""A least value above a greatest one that holds together with it, within one procedure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import NamedTuple

from hts.limits.alternatives import Told, value
from hts.limits.cells import Domain, Grid, Sample, TooMuch, Undecidable, facts, holds, like
from hts.limits.demand import Amount, size
from hts.limits.facts import FACTS
from hts.limits.limit import Limit
from hts.limits.regions import Regions, meets
from hts.syntax.formula import Fact, Formula, Text, Words

#: Halvings of the stretch in which the clash begins: a millionth of it is left.
_HALVINGS = 20


#: Pairs of rows looked at closely.
_MOST_PAIRS = 200


class Clash(NamedTuple):
    """Two rows no value meets, with what each asks for where they are furthest apart.

    `case` are the facts of that place; `fact` is the number it hangs on, or "" where it hangs on
    none, and `begins` the value beyond which the rows clash, `rising` upwards from it.
    """

    low: Limit
    high: Limit
    least: Amount
    greatest: Amount
    case: dict[str, Fact]
    fact: str = ""
    begins: Amount | None = None
    rising: bool = True


def clashes(
    lows: Sequence[Limit], highs: Sequence[Limit], domain: Domain, left_open: Told
) -> Iterator[Clash]:
    """Every clash of one of these minimums with one of these maximums, as far as can be decided.

    `left_open` is called where it could be decided, but not in a time anyone would wait.
    """
    rows = [*lows, *highs]
    try:
        regions = Regions([row.when for row in rows], domain)
    except TooMuch:
        left_open(rows)
        return
    except Undecidable:
        return
    for number in sorted(regions.too_much):
        left_open([rows[number]])
    least = [_fixed(low.minimum) for low in lows]
    greatest = [_fixed(high.maximum) for high in highs]
    looked_at = 0
    for one, low in enumerate(lows):
        for other, high in enumerate(highs):
            first, second = least[one], greatest[other]
            if first is not None and second is not None and first <= second:
                continue
            here, there = regions.boxes[one], regions.boxes[len(lows) + other]
            if here is None or there is None or not meets(here, there):
                continue
            looked_at += 1
            if looked_at > _MOST_PAIRS:
                left_open(rows)
                return
            try:
                found = clash(low, high, domain)
            except TooMuch:
                left_open([low, high])
                continue
            if found is not None:
                yield found


def _fixed(formula: Formula | None) -> Fraction | None:
    if formula is None or formula.names:
        return None
    amount = value(formula, {})
    return None if amount is None else size(amount)


def clash(low: Limit, high: Limit, domain: Domain) -> Clash | None:
    """Where the minimum of one row is above the maximum of the other; None if undecidable.

    Raises TooMuch.

    Looked for at the ends of the domain, at the values conditions name and at places between; a
    fact that only a formula knows, of which the procedure names no value, leaves it open.
    """
    least, greatest = low.minimum, high.maximum
    assert least is not None and greatest is not None
    formulas = (least, greatest)
    try:
        grid = Grid([low.when, high.when], domain, formulas)
    except TooMuch:
        raise
    except Undecidable:
        return None
    worst: tuple[Amount, Amount, dict[str, Sample]] | None = None
    for cell in grid:
        found = _bounds(formulas, cell)
        if found is None or not (holds(low.when, cell) and holds(high.when, cell)):
            continue
        first, second = found
        if size(first) > size(second) and (
            worst is None or size(first) - size(second) > size(worst[0]) - size(worst[1])
        ):
            worst = first, second, cell
    if worst is None:
        return None
    first, second, cell = worst
    made = Clash(low, high, first, second, facts(cell))
    numbers = {name for formula in formulas for name in formula.names if _is_number(name)}
    if len(numbers) != 1:
        return made
    (fact,) = numbers
    return _begun(made, fact, grid, cell)


def _bounds(
    formulas: tuple[Formula, Formula], cell: dict[str, Sample]
) -> tuple[Amount, Amount] | None:
    least, greatest = (value(formula, facts(cell)) for formula in formulas)
    return None if least is None or greatest is None else (least, greatest)


def _is_number(name: str) -> bool:
    return not isinstance(FACTS[name].kind, Text)


def _begun(made: Clash, fact: str, grid: Grid, worst: dict[str, Sample]) -> Clash:
    """The clash with the value of the fact from which on it is there."""
    assert made.low.minimum is not None and made.high.maximum is not None
    formulas = (made.low.minimum, made.high.maximum)

    def excess(amount: Amount) -> bool:
        found = _bounds(formulas, {**worst, fact: Sample(amount)})
        return found is not None and size(found[0]) > size(found[1])

    def held(sample: Sample) -> bool:
        cell = {**worst, fact: sample}
        return holds(made.low.when, cell) and holds(made.high.when, cell)

    axis = grid.axes[fact]
    # The least value may be no end of the domain: the search begins close to nothing.
    lowest = _amount(axis[0])
    small = [Sample(like(lowest, size(lowest) / 1000))] if size(lowest) > 0 else []
    samples = [s for s in (*small, *axis) if held(s)]
    at = samples.index(worst[fact])
    free = [n for n, sample in enumerate(samples) if not excess(_amount(sample))]
    before = [n for n in free if n < at]
    after = [n for n in free if n > at]
    if not free:
        return made._replace(fact=fact)
    rising = bool(before)
    good, bad = (before[-1], before[-1] + 1) if before else (after[0], after[0] - 1)
    met, broken = _amount(samples[good]), _amount(samples[bad])
    for _ in range(_HALVINGS):
        middle = like(met, (size(met) + size(broken)) / 2)
        if excess(middle):
            broken = middle
        else:
            met = middle
    return made._replace(fact=fact, begins=met, rising=rising)


def _amount(sample: Sample) -> Amount:
    value = sample.value
    assert not isinstance(value, str | Words)
    return Fraction(value) if isinstance(value, int) else value
