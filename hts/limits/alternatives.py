"""Rows of one procedure against each other: what they leave out, where they contradict.

Two rows are *alternatives* where they limit the same quantity in the same direction and their
conditions are about the same facts, such as `when t <= 60 mm` and `when t > 65 mm`. A row without
a condition is a base, and rows with one tighten it: that is no contradiction, and neither is a row
for part of the cases of another.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import combinations
from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.limits.cells import Domain, Grid, Sample, Undecidable, facts, holds
from hts.limits.demand import Amount, size
from hts.limits.facts import FACTS
from hts.limits.limit import Limit
from hts.limits.quantities import Direction
from hts.syntax.formula import Fact, Formula, FormulaError, Text, UnknownFact

#: From so many words a procedure is for, naming all but one looks like forgetting one.
_ALL_BUT_ONE = 3
_IN_EVERY_CYCLE = ("hold temperature", "hold time", "heating rate", "cooling rate")


class Gap(NamedTuple):
    """Values of a number, from sample to sample, between two rows and limited by none."""

    direction: Direction
    below: Limit
    above: Limit
    fact: str
    first: Sample
    last: Sample


class LeftOut(NamedTuple):
    """The one word of a fact for which no row has a limit, although the others have one."""

    rows: tuple[Limit, ...]
    fact: str
    word: str


class Overlap(NamedTuple):
    """Where two alternatives hold together with different values, of which `strict` counts."""

    direction: Direction
    strict: Limit
    loose: Limit
    fact: str
    first: Sample
    last: Sample


class Idle(NamedTuple):
    """A row that never counts: wherever it holds, `stronger` asks for at least as much."""

    row: Limit
    stronger: Limit


def gaps(rows: Sequence[Limit], direction: Direction, domain: Domain) -> list[Gap]:
    """Gaps in the numbers of rows that limit one quantity in one direction, none if undecidable."""
    grid = _grid(rows, domain)
    if grid is None:
        return []
    found: dict[tuple[int, int, str], Gap] = {}
    for fact in grid.axes:
        if isinstance(FACTS[fact].kind, Text):
            continue
        for cells in grid.along(fact):
            covering = [[row for row in rows if holds(row.when, cell)] for cell in cells]
            for start, end in _uncovered(covering):
                pair = _alternatives(covering[start - 1], covering[end], fact)
                if pair is not None:
                    below, above = pair
                    gap = Gap(
                        direction, below, above, fact, cells[start][fact], cells[end - 1][fact]
                    )
                    found.setdefault((id(below), id(above), fact), gap)
    return list(found.values())


def _grid(rows: Sequence[Limit], domain: Domain) -> Grid | None:
    """The cases the rows tell apart; None where one of them is for all, or it is undecidable."""
    if any(row.when is None for row in rows):
        return None
    try:
        return Grid([row.when for row in rows], domain)
    except Undecidable:
        return None


def _uncovered(covering: Sequence[Sequence[Limit]]) -> Iterator[tuple[int, int]]:
    """Runs of cells without a row that have one on both sides: [start, end)."""
    start = None
    for number, rows in enumerate(covering):
        if rows:
            if start:
                yield start, number
            start = None
        elif start is None:
            start = number


def _alternatives(
    first: Sequence[Limit], second: Sequence[Limit], fact: str
) -> tuple[Limit, Limit] | None:
    return next(
        (
            (one, other)
            for one in first
            for other in second
            if one is not other and fact in _names(one) and _names(one) == _names(other)
        ),
        None,
    )


def left_out(rows: Sequence[Limit], domain: Domain) -> list[LeftOut]:
    """Words that rows on one quantity forgot, none if undecidable.

    Asked only of a fact whose words are all known. Those are the fact's own, such as the three
    ways a pipe lies; or, for what every cycle has, those the procedure is for.
    """
    grid = _grid(rows, domain)
    if grid is None:
        return []
    found = []
    for fact in grid.axes:
        kind = FACTS[fact].kind
        listed = domain.words.get(fact, ())
        words = listed or (kind.words if isinstance(kind, Text) else ())
        about = tuple(row for row in rows if fact in _names(row))
        if len(words) < _ALL_BUT_ONE + bool(listed) or len(about) < 2:
            continue
        if listed and any(row.quantity not in _IN_EVERY_CYCLE for row in rows):
            continue
        limited = {cell[fact].value for cell in grid if any(holds(row.when, cell) for row in rows)}
        missing = [word for word in words if word not in limited]
        if len(missing) == 1:
            found.append(LeftOut(about, fact, missing[0]))
    return found


def overlaps(rows: Sequence[Limit], direction: Direction, domain: Domain) -> list[Overlap]:
    """Alternatives that hold together in part, with different values, as far as can be decided."""
    found = []
    for one, other in combinations(rows, 2):
        if not _alike(one, other) or not _names(one) or _names(one) != _names(other):
            continue
        try:
            overlap = _overlap(one, other, direction, Grid([one.when, other.when], domain))
        except Undecidable:
            continue
        if overlap is not None:
            found.append(overlap)
    return found


def _overlap(limit: Limit, other: Limit, direction: Direction, grid: Grid) -> Overlap | None:
    for fact in grid.axes:
        for cells in grid.along(fact):
            first = [holds(limit.when, cell) for cell in cells]
            second = [holds(other.when, cell) for cell in cells]
            pairs = list(zip(first, second, strict=True))
            if not {(True, False), (False, True), (True, True)} <= set(pairs):
                continue
            both = [cell for cell, held in zip(cells, pairs, strict=True) if all(held)]
            order = {_stricter(limit, other, direction, cell) for cell in both}
            if None in order or order == {0}:
                continue
            strict, loose = (limit, other) if 1 in order else (other, limit)
            return Overlap(direction, strict, loose, fact, both[0][fact], both[-1][fact])
    return None


def idle(rows: Sequence[Limit], direction: Direction, domain: Domain) -> list[Idle]:
    """Rows of fixed values that another one always outdoes, as far as that can be decided."""
    fixed = [row for row in rows if not getattr(row, direction).names]
    found = []
    for row in fixed:
        for other in fixed:
            if other is row or not _alike(row, other):
                continue
            stricter = _stricter(other, row, direction, {})
            # Of two that say the same, the later one is idle.
            again = stricter == 0 and rows.index(other) < rows.index(row)
            if (stricter == 1 or again) and covers(other, row, domain):
                found.append(Idle(row, other))
                break
    return found


def covers(wider: Limit, row: Limit, domain: Domain) -> bool:
    """Whether one row holds wherever the other does; False where that cannot be decided."""
    if wider.when is None:
        return True
    try:
        grid = Grid([wider.when, row.when], domain)
    except Undecidable:
        return False
    return all(holds(wider.when, cell) for cell in grid if holds(row.when, cell))


def never_holds(row: Limit, domain: Domain) -> bool:
    """Whether the condition of a row holds nowhere; False where that cannot be decided."""
    if row.when is None:
        return False
    try:
        return not any(holds(row.when, cell) for cell in Grid([row.when], domain))
    except Undecidable:
        return False


def _names(row: Limit) -> frozenset[str]:
    return frozenset(row.when.names if row.when is not None else ())


def _alike(limit: Limit, other: Limit) -> bool:
    """Whether both limit the same step of a rate, a spread over the same distance, an option."""
    return limit.option == other.option and all(
        _text(getattr(limit, part)) == _text(getattr(other, part)) for part in ("above", "within")
    )


def _text(formula: Formula | None) -> str:
    return "" if formula is None else formula.text


def _stricter(
    limit: Limit, other: Limit, direction: Direction, cell: dict[str, Sample]
) -> int | None:
    """1 where the first asks for more, -1 where the other does; None where nobody can say."""
    first, second = (value(getattr(row, direction), facts(cell)) for row in (limit, other))
    if first is None or second is None:
        return None
    difference = size(first) - size(second)
    if direction == "maximum":
        difference = -difference
    return (difference > 0) - (difference < 0)


def value(formula: Formula, known: dict[str, Fact]) -> Amount | None:
    """A bound for these facts; None where they do not give one."""
    try:
        found = formula.evaluate(known)
    except (UnknownFact, FormulaError):
        return None
    return found if isinstance(found, Quantity | Fraction) else None
