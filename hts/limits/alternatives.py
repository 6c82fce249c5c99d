"""Rows of one procedure against each other: what they leave out, where they contradict.

Two rows are *alternatives* where they limit the same quantity in the same direction and their
conditions are about the same facts, such as `when t <= 60 mm` and `when t > 65 mm`. A row without
a condition is a base, and rows with one tighten it: that is no contradiction, and neither is a row
for part of the cases of another.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from typing import NamedTuple

from hts.base.quantities import Quantity
from hts.limits.cells import Domain, Grid, Sample, TooMuch, Undecidable, facts, holds
from hts.limits.demand import Amount, size
from hts.limits.facts import FACTS
from hts.limits.limit import Limit
from hts.limits.quantities import Direction
from hts.limits.regions import Box, Regions, meets, numbers, within
from hts.syntax.formula import Fact, Formula, FormulaError, Text, UnknownFact

#: From so many words a procedure is for, naming all but one looks like forgetting one.
_ALL_BUT_ONE = 3
#: Overlaps told of one row, and pairs looked at closely.
_MOST_TOLD = 3
_MOST_GRIDS = 200
_IN_EVERY_CYCLE = ("hold temperature", "hold time", "heating rate", "cooling rate")


Told = Callable[[Sequence[Limit]], None]
"""Called with rows of which something could be decided, but not in a time anyone would wait."""


def untold(_: Sequence[Limit]) -> None:
    """Of a caller that only wants what was found."""


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


def left_out(rows: Sequence[Limit], domain: Domain, left_open: Told = untold) -> list[LeftOut]:
    """Words that rows on one quantity forgot, none if undecidable.

    Asked only of a fact whose words are all known. Those are the fact's own, such as the three
    ways a pipe lies; or, for what every cycle has, those the procedure is for.
    """
    regions = _regions(rows, domain, left_open)
    if regions is None or any(row.when is None for row in rows) or None in regions.boxes:
        return []
    found = []
    for place, fact in enumerate(regions.axes):
        kind = FACTS[fact].kind
        listed = domain.words.get(fact, ())
        words = listed or (kind.words if isinstance(kind, Text) else ())
        about = tuple(row for row in rows if fact in names_of(row))
        if len(words) < _ALL_BUT_ONE + bool(listed) or len(about) < 2:
            continue
        if listed and any(row.quantity not in _IN_EVERY_CYCLE for row in rows):
            continue
        held = 0
        for boxes in regions.boxes:
            for box in boxes or ():
                held |= box[place]
        limited = {regions.axes[fact][number].value for number in numbers(held)}
        missing = [word for word in words if word not in limited]
        if len(missing) == 1:
            found.append(LeftOut(about, fact, missing[0]))
    return found


def overlaps(
    rows: Sequence[Limit], direction: Direction, domain: Domain, left_open: Told = untold
) -> list[Overlap]:
    """Alternatives that hold together in part, with different values, as far as can be decided.

    Of each row those with the first few others, in the order written.
    """
    regions = _regions(rows, domain, left_open)
    if regions is None:
        return []
    found: list[Overlap] = []
    grids = 0
    alike = [(_step(row), names_of(row)) for row in rows]
    for number, row in enumerate(rows):
        told = 0
        for earlier in range(number):
            if alike[earlier] != alike[number] or not alike[number][1]:
                continue
            first, second = regions.boxes[earlier], regions.boxes[number]
            if not first or not second or not _in_part(first, second):
                continue
            other = rows[earlier]
            bounds = getattr(other, direction), getattr(row, direction)
            if bounds[0].text == bounds[1].text:
                continue
            fixed = not any(bound.names for bound in bounds)
            if fixed and not _stricter(other, row, direction, {}):
                continue
            if fixed and len(first) == len(second) == 1:
                overlap = _of_boxes(other, row, direction, regions, first[0], second[0])
            else:
                grids += 1
                if grids > _MOST_GRIDS:
                    left_open(rows)
                    return found
                try:
                    overlap = _overlap(other, row, direction, Grid([other.when, row.when], domain))
                except TooMuch:
                    left_open([other, row])
                    continue
                except Undecidable:
                    continue
            if overlap is not None:
                found.append(overlap)
                told += 1
                if told == _MOST_TOLD:
                    break
    return found


def _in_part(first: Sequence[Box], second: Sequence[Box]) -> bool:
    """Whether two regions may overlap in part along a fact. Of two boxes it is certain."""
    if len(first) == len(second) == 1:
        pairs = list(zip(first[0], second[0], strict=True))
        return all(a & b for a, b in pairs) and any(a & ~b and b & ~a for a, b in pairs)
    return meets(first, second)


def _of_boxes(
    limit: Limit, other: Limit, direction: Direction, regions: Regions, first: Box, second: Box
) -> Overlap | None:
    """Of two rows of fixed values, each one box, that overlap in part."""
    strict, loose = (
        (limit, other) if _stricter(limit, other, direction, {}) == 1 else (other, limit)
    )
    for fact, a, b in zip(regions.axes, first, second, strict=True):
        if a & ~b and b & ~a:
            samples = regions.axes[fact]
            low, high = ((a & b) & -(a & b)).bit_length() - 1, (a & b).bit_length() - 1
            return Overlap(direction, strict, loose, fact, samples[low], samples[high])
    return None


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


def idle(
    rows: Sequence[Limit], direction: Direction, domain: Domain, left_open: Told = untold
) -> list[Idle]:
    """Rows of fixed values that another one always outdoes, as far as that can be decided."""
    fixed = [row for row in rows if not getattr(row, direction).names]
    regions = _regions(fixed, domain, left_open)
    if regions is None:
        return []
    steps = [_step(row) for row in fixed]
    amounts = [value(getattr(row, direction), {}) for row in fixed]
    sizes = [None if amount is None else size(amount) for amount in amounts]
    sign = -1 if direction == "maximum" else 1
    found = []
    for number, row in enumerate(fixed):
        for other, stronger in enumerate(fixed):
            one, more = sizes[number], sizes[other]
            if other == number or steps[other] != steps[number] or one is None or more is None:
                continue
            # Of two that say the same, the later one is idle.
            if (more - one) * sign < 0 or (more == one and other > number):
                continue
            try:
                always = _covers(regions, other, number)
            except TooMuch:
                left_open([row, stronger])
                continue
            if always:
                found.append(Idle(row, stronger))
                break
    return found


def covered(
    rows: Sequence[Limit],
    wider: Callable[[Limit, Limit], bool],
    domain: Domain,
    left_open: Told = untold,
) -> list[Idle]:
    """Rows that hold only where a row does that is `wider(row, that one)`."""
    regions = _regions(rows, domain, left_open)
    if regions is None:
        return []
    found = []
    for number, row in enumerate(rows):
        for place, other in enumerate(rows):
            if place == number or not wider(row, other):
                continue
            try:
                if _covers(regions, place, number):
                    found.append(Idle(row, other))
            except TooMuch:
                left_open([row, other])
    return found


def _covers(regions: Regions, wider: int, row: int) -> bool:
    """Whether one row holds wherever the other does; False where that cannot be decided.

    Raises TooMuch."""
    if regions.unconditional[wider]:
        return True
    first, second = regions.boxes[wider], regions.boxes[row]
    if first is None or second is None:
        return False
    return within(second, first)


def never_hold(rows: Sequence[Limit], domain: Domain, left_open: Told = untold) -> list[Limit]:
    """Rows whose condition holds nowhere; none where that cannot be decided."""
    regions = _regions(rows, domain, left_open)
    return [
        row
        for row, boxes in zip(rows, regions.boxes if regions else (), strict=False)
        if boxes == []
    ]


def _regions(rows: Sequence[Limit], domain: Domain, left_open: Told) -> Regions | None:
    """Where each row holds; None where the domain itself cannot be known."""
    try:
        regions = Regions([row.when for row in rows], domain)
    except TooMuch:
        left_open(rows)
        return None
    except Undecidable:
        return None
    for number in sorted(regions.too_much):
        left_open([rows[number]])
    return regions


def names_of(row: Limit) -> frozenset[str]:
    """The facts a row's condition is about."""
    return frozenset(row.when.names if row.when is not None else ())


def _step(row: Limit) -> tuple[str | None, str, str]:
    """What alternatives share: a step of a rate, the distance of a spread, an option."""
    return row.option, _text(row.above), _text(row.within)


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


def value(formula: Formula, known: Mapping[str, Fact]) -> Amount | None:
    """A bound for these facts; None where they do not give one."""
    try:
        found = formula.evaluate(known)
    except (UnknownFact, FormulaError):
        return None
    return found if isinstance(found, Quantity | Fraction) else None
