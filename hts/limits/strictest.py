"""Which of many rows governs each of many welds: the strictest of those that hold for it.

Hundreds of rows for thousands of welds cost little: where a row holds is one whole number with a
bit for each weld, and figures are set beside each other as floats, the exact ones only where two
floats are the same.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import reduce
from operator import and_
from sys import float_info
from typing import NamedTuple

from hts.limits.alternatives import value
from hts.limits.demand import Amount, size
from hts.limits.limit import Limit
from hts.limits.quantities import Direction
from hts.limits.regions import numbers
from hts.syntax.formula import Cases, Fact, Formula

#: Of a row that does not hold, or has no figure: milder than every figure.
_NONE = float("-inf")


class _Varying(NamedTuple):
    """A row whose bound hangs on facts: its figure in each group of welds as a float, the larger
    the stricter, and exactly."""

    row: Limit
    formula: Formula
    near: list[float]
    exact: list[tuple[int, int]]
    group_of: list[int]


class Strictest:
    """The strictest of some rows that hold, for each of some welds, given by their facts."""

    def __init__(
        self, rows: Sequence[Limit], direction: Direction, welds: Sequence[Mapping[str, Fact]]
    ) -> None:
        self.welds = welds
        self.sign = 1 if direction == "minimum" else -1
        self._cases = Cases(welds)
        self._found: list[tuple[Limit, Amount] | None] = [None] * len(welds)
        fixed: list[tuple[Limit, Amount]] = []
        varying: list[_Varying] = []
        read: dict[str, _Varying] = {}
        for row in rows:
            formula: Formula = getattr(row, direction)
            if formula.names:
                if formula.text not in read:
                    read[formula.text] = self._varying(row, formula)
                varying.append(read[formula.text]._replace(row=row))
            elif (found := value(formula, {})) is not None:
                fixed.append((row, found))
        self._take_fixed(fixed)
        self._take_varying(varying)

    def __iter__(self) -> Iterator[tuple[Limit, Amount] | None]:
        """For each weld the row and its figure; None where no row holds."""
        return iter(self._found)

    def _applies(self, row: Limit) -> int:
        """The welds a row holds for, as bits."""
        held = [self._cases.named(name, words) for name, words in row.where.items()]
        if row.when is not None:
            held.append(self._cases.holds(row.when))
        return reduce(and_, held, self._cases.all)

    def _take_fixed(self, rows: list[tuple[Limit, Amount]]) -> None:
        """From the strictest on; of rows that ask for the same the first counts."""
        left = self._cases.all
        for row, amount in sorted(rows, key=lambda each: -self.sign * size(each[1])):
            if not left:
                return
            held = left & self._applies(row)
            left ^= held
            for weld in numbers(held):
                self._found[weld] = (row, amount)

    def _varying(self, row: Limit, formula: Formula) -> _Varying:
        exact, group_of = self._cases.numbers(formula)
        near = [self.sign * _float(above, below) if below else _NONE for above, below in exact]
        return _Varying(row, formula, near, exact, group_of)

    def _take_varying(self, rows: list[_Varying]) -> None:
        if not self.welds:
            return
        amounts: dict[tuple[str, int], Amount | None] = {}
        figures = [self._figures(each) for each in rows]
        for weld, asked in enumerate(zip(*figures, strict=True)):
            most = max(asked)
            if most == _NONE:
                continue
            place = asked.index(most)
            if asked.count(most) > 1:
                place = self._first([n for n, each in enumerate(asked) if each == most], rows, weld)
            row, formula, _, _, group_of = rows[place]
            key = formula.text, group_of[weld]
            if key not in amounts:
                amounts[key] = value(formula, self.welds[weld])
            found, before = amounts[key], self._found[weld]
            if found is not None and (
                before is None or self.sign * size(found) > self.sign * size(before[1])
            ):
                self._found[weld] = (row, found)

    def _figures(self, each: _Varying) -> list[float]:
        """What a row asks for in each weld, the larger the stricter."""
        holds = f"{self._applies(each.row):0{len(self.welds)}b}"[::-1]
        near = each.near
        return [
            near[group] if held == "1" else _NONE
            for held, group in zip(holds, each.group_of, strict=True)
        ]

    def _first(self, places: Sequence[int], rows: Sequence[_Varying], weld: int) -> int:
        """Of rows whose figures are the same float the first of those that exactly ask for most."""
        best, (most, least) = places[0], (0, 0)
        for place in places:
            _, _, _, exact, group_of = rows[place]
            above, below = exact[group_of[weld]]
            if not least or self.sign * (above * least - most * below) > 0:
                best, most, least = place, above, below
        return best


def _float(above: int, below: int) -> float:
    """The nearest float: of two numbers the larger never has the smaller one."""
    try:
        return above / below
    except OverflowError:
        return float_info.max if above > 0 else -float_info.max
