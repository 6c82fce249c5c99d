"""Several records looked at together: most of an archive has none of most faults, and what tells
so of one record tells it of many in hardly more time.

Beside each detector stands its screen: which records of a stack the detector has to look at in
full. It goes by the figures the detector itself goes by. In those it leaves out the detector would
find nothing, as long as no other has found a fault (tests/record/faults/test_stack.py).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property

import numpy as np

from hts.record.faults.beside_its_own import beside_its_own
from hts.record.faults.digits import last_digits
from hts.record.faults.matrix import Mask, Matrix, Middles, Rows, beside_steps
from hts.record.faults.row_numbers import check_numbers_in
from hts.record.faults.signals import AIR, COOL, Chain, Signals
from hts.record.plan import Plan
from hts.record.reading.stamps import COUNTS
from hts.record.record import Floats, Record

#: Readings that are looked at together: they lie in the near memory of the processor.
#: Basis: practice, ours.
_TOGETHER = 240_000
#: Rows and chains that a record has at the least: smaller ones cost little one by one.
#: Basis: practice, ours.
_ROWS, _CHAINS = 100, 2


class Stack:
    """Records of one plan, of the same columns read at the same times, complete, without events,
    gaps and jumps of the clock. `like` is the first of them before any fault is found: what hangs
    on plan and times alone is the same in all.

    Arrays are [chains, records] and, where they hold courses, [chains, records, rows].
    """

    def __init__(self, like: Signals, values: Floats) -> None:
        self.like = like
        self.values = values
        self.chains = list(like.chains.values())
        rows = values.reshape(-1, values.shape[2])
        self.matrix = Matrix(rows, like.coarse, last_digits(rows))
        #: Whether all rows come at one interval.
        self.even = bool(np.ptp(np.diff(like.elapsed)) == 0)
        self._middles: dict[tuple[int, ...], _StackMiddles] = {}
        self._steps_together: dict[float, Mask] = {}

    def __len__(self) -> int:
        return int(self.values.shape[1])

    def of(self, array: Floats) -> Floats:
        """What the matrix of all has of each [chains * records, ..], by chain and record."""
        return array.reshape(*self.values.shape[:2], *array.shape[1:])

    @property
    def none(self) -> Mask:
        return np.zeros(len(self), dtype=np.bool_)

    @property
    def steps(self) -> Floats:
        return self.of(self.matrix.steps)

    @cached_property
    def step_numbers(self) -> Floats:
        """Check numbers of the steps, of all chains together [records, rows - 1]."""
        return check_numbers_in(self.steps)

    @property
    def bends(self) -> Floats:
        return self.of(self.matrix.bends)

    @property
    def sampled(self) -> Floats:
        return self.of(self.matrix.sampled)

    @property
    def digits(self) -> Floats:
        return self.of(self.matrix.digits)

    @property
    def noise(self) -> Floats:
        return self.of(self.matrix.noise)

    @property
    def largest_steps(self) -> Floats:
        return self.of(self.matrix.largest_steps)

    @cached_property
    def lowest(self) -> Floats:
        return np.asarray(self.values.min(axis=2))

    @cached_property
    def highest(self) -> Floats:
        return np.asarray(self.values.max(axis=2))

    @cached_property
    def far(self) -> Floats:
        """K of the bends, up or down [chains, records, rows - 2]."""
        return np.abs(self.bends)

    @cached_property
    def largest_bends(self) -> Floats:
        """K."""
        return np.asarray(self.far.max(axis=2))

    @cached_property
    def same(self) -> Mask:
        """Whether each reading is the one before once more."""
        return np.asarray(self.steps == 0)

    @cached_property
    def air(self) -> Floats:
        """degC of the air round the part [records]."""
        for chain in self.chains:
            if chain.watched is not None and chain.watched.place == "ambient":
                return np.asarray(np.median(self.values[chain.row], axis=1))
        on_part = self.rows(one.on_part for one in self.chains)
        if not len(on_part):
            return np.full(len(self), AIR)
        start = np.median(self.values[on_part, :, 0], axis=0)
        return np.where(start <= COOL, start, AIR)

    def rows(self, which: Iterable[bool]) -> Rows:
        """Those of the chains for which it is so."""
        return np.flatnonzero(np.fromiter(which, dtype=np.bool_, count=len(self.chains)))

    def middles(self, chains: Sequence[Chain]) -> _StackMiddles:
        """Medians of these on the coarse rows."""
        rows = tuple(one.row for one in chains)
        if rows not in self._middles:
            self._middles[rows] = _StackMiddles(self.sampled[list(rows)])
        return self._middles[rows]

    @cached_property
    def references(self) -> Floats:
        """Medians of the peers of each on the coarse rows, degC; NaN where it has none."""
        found = np.full_like(self.sampled, np.nan)
        for chain in self.chains:
            group = self.like.with_peers(chain.tag)
            if chain not in group and group:
                found[chain.row] = self.middles(group).of_all
            elif len(group) > 1:
                found[chain.row] = self.middles(group).without_each[group.index(chain)]
        return found

    @cached_property
    def behind(self) -> Floats:
        """K that each is below its reference at the most, on the coarse rows."""
        return np.asarray((self.references - self.sampled).max(axis=2))

    def step_together(self, least: float) -> Mask:
        """Whether two and more go by so many K in one row beside the steps around it [records]."""
        if least not in self._steps_together:
            # A step is off those around by twice the largest at the most.
            large = 2 * self.largest_steps >= least
            found = np.count_nonzero(large, axis=0) >= 2
            off = np.abs(beside_steps(self.steps[:, found])) >= least
            found[found] = _two_in_a_row(off).any(axis=1)
            self._steps_together[least] = found
        return self._steps_together[least]


class _StackMiddles:
    """Medians of several courses [chains, records, rows], of all and of all but one."""

    def __init__(self, courses: Floats) -> None:
        self._shape = courses.shape
        self._of = Middles(courses.reshape(len(courses), -1))

    @property
    def of_all(self) -> Floats:
        return self._of.of_all.reshape(self._shape[1:])

    @cached_property
    def without_each(self) -> Floats:
        return self._of.without_each.reshape(self._shape)

    @cached_property
    def farthest(self) -> Floats:
        """K, how far each is from the median of the others at the most [chains, records]."""
        courses = self._of.courses.reshape(self._shape)
        return np.asarray(np.abs(courses - self.without_each).max(axis=2))


def in_any(of: Mask) -> Mask:
    """In which records it is so of any chain, in any row where it is told by row [records]."""
    return np.asarray(of.any(axis=(0, *range(2, of.ndim))))


def lasting(mask: Mask, least: int) -> Mask:
    """Where so many on end begin, along the last axis, by fewer steps than one at a time."""
    long = 1
    while 2 * long <= least:
        mask = mask[..., long:] & mask[..., :-long]
        long *= 2
    rest = least - long
    return mask[..., rest:] & mask[..., :-rest] if rest else mask


def _two_in_a_row(of: Mask) -> Mask:
    """Whether it is so of two chains and more in a row of a record [records, rows]."""
    one = np.zeros(of.shape[1:], dtype=np.bool_)
    two = one.copy()
    for its in of:
        two |= one & its
        one |= its
    return two


def stacks(records: Sequence[Record], plan: Plan) -> Iterator[tuple[list[int], Stack]]:
    """Those of the records that stand in stacks, by their numbers."""
    alike: dict[object, list[int]] = {}
    for at, record in enumerate(records):
        if _suits(record):
            key = (tuple(record.series), record.interval, record.elapsed.tobytes())
            alike.setdefault(key, []).append(at)
    for its in alike.values():
        first = records[its[0]]
        most = max(1, _TOGETHER // (len(first.elapsed) * max(1, len(first.series))))
        for begin in range(0, len(its), most):
            yield from _stack(records, its[begin : begin + most], plan)


def _suits(record: Record) -> bool:
    if len(record.elapsed) < _ROWS or record.events or record.gaps or record.jumps:
        return False
    if any(one.column.casefold() in COUNTS for one in record.unmapped.values()):
        return False  # a time is counted beside the clock
    if record.unmapped and beside_its_own(record):
        return False  # some have a second column
    return all(one.rows is None for one in record.series.values())


def _stack(
    records: Sequence[Record], numbers: list[int], plan: Plan
) -> Iterator[tuple[list[int], Stack]]:
    like = Signals(records[numbers[0]], plan)
    tags = list(like.chains)
    if len(tags) < _CHAINS:
        return
    values = np.empty((len(tags), len(numbers), len(like.elapsed)))
    for at, number in enumerate(numbers):
        series = records[number].series
        for row, tag in enumerate(tags):
            values[row, at] = series[tag].values
    stack = Stack(like, values)
    whole = np.isfinite(values.sum(axis=2)).all(axis=0) & (stack.digits > 0).all(axis=0)
    if not whole.all():
        numbers = [number for number, its in zip(numbers, whole.tolist(), strict=True) if its]
        stack = Stack(like, values[:, whole])
    if numbers:
        yield numbers, stack
