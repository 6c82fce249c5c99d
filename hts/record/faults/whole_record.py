"""Faults of all channels at once: the unit, the decimal point, the type, the cold junction of the
recorder."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from statistics import median
from typing import Any, NamedTuple

import numpy as np

from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import (
    COLD_JUNCTION,
    HIGH,
    KEPT,
    MEDIUM,
    WRONG_SCALE,
    WRONG_TYPE,
    WRONG_UNIT,
    FaultKind,
)
from hts.record.faults.matrix import beside_steps, middle
from hts.record.faults.signals import Chain, Mask, Signals
from hts.record.faults.signatures import settings
from hts.record.faults.stack import Stack, in_any
from hts.record.plan import HOLD, Span
from hts.record.record import Floats, Record

#: K. The level of the hold may be so far from where a wrong setting would show it, and must be so
#: far from its range. Basis: practice, no source.
_NEAR, _FAR = 12.0, 15.0
#: degC that no part is heated to by what heats welds. Basis: practice, no source.
_NEVER = 1100.0
#: K by which a hold may have missed its range; degC of the air a run begins with; s from the start
#: and K within which its readings are alike then. Basis: practice, no source.
_MISSED, _AIR, _BEGINNING, _TOGETHER = 45.0, (5.0, 45.0), 300.0, 8.0
#: s near one level that tell a hold from a ramp: at 100 K/h a ramp crosses the band in a quarter of
#: an hour. Basis: practice, no source.
_STANDS = 20 * 60.0
#: K that all must step by from one row to the next, part of them that must, and how alike the
#: steps are, K. No metal does that at every place alike. Basis: practice, no source.
_STEP, _MOST, _ALIKE = 4.0, 0.8, 3.0
_BY_ROUNDING = 1e-6
#: Last digits, and K for each second between two rows, that a step of all must be greater than:
#: a program may bend by 120 K/h, and twice that. Basis: practice, ours.
_DIGITS, _BEND = 1.6, 0.066
#: degF in a kelvin.
_DEGREES = 1.8
#: Intervals. A step over a gap is none. Basis: practice, ours.
_REGULAR = 1.5
#: Part of a step that others of all go the same way, how many, and rows about it that belong to
#: it. A cold
#: junction steps once; contactors that close together step all time and again. Basis: practice.
_HALF, _SELDOM, _ABOUT = 0.5, 3, 4
#: Chains it takes for that. Basis: practice, ours.
_ENOUGH = 3


def settings_of_all(signals: Signals) -> list[Fault]:
    """All read in another unit, ten times too much or a tenth, or with the recorder set to another
    type: then the hold lies where that would show it, for every one that must be in range."""
    plan = signals.plan
    hottest, chains = _hottest(signals)
    if plan is None or hottest is None:
        return []
    target = plan.run.program.target
    assert target is not None and hottest.low is not None and hottest.high is not None
    if _all_within(signals, chains, hottest.low - _FAR, hottest.high + _FAR):
        return []
    levels = [_level(one) for one in chains]
    if np.isnan(levels).any():
        return []
    level = float(np.median(levels))
    if hottest.low - _FAR <= level <= hottest.high + _FAR:
        return []
    block = plan.sheet.joint.entry.thermocouples
    wire = (block.type if block is not None else None) or "K"
    aimed = float(target.value)
    # A run on its way, or one given up, has had no hold at all: nothing stands anywhere.
    stood = signals.record.interval * np.median([_rows_near(one, level) for one in chains])
    fitting: list[_Setting] = []
    if stood >= _STANDS:
        edges = np.array([hottest.low, aimed, hottest.high])
        fitting = [
            one
            for one in (*_settings(wire), *_points(signals.record))
            if one.shows(level, edges, signals)
        ]
    elif level > hottest.high + _FAR:
        # Ten times too much is far beyond what any run that got out of hand reaches.
        tried = (*_settings(wire), *(_points(signals.record) if level > _NEVER else ()))
        fitting = [one for one in tried if one.began_cold(level, hottest.high, signals)]
    if not fitting:
        return []
    best = min(fitting, key=lambda one: abs(level - one.of(aimed)))
    sentence = f"all stand at {signals.degrees(level)} in the hold at {signals.degrees(aimed)}: "
    sentence += f"{best.figure}, which makes {signals.degrees(best.of(aimed))} of it"
    if stood < _STANDS:
        sentence = f"all reach {signals.degrees(level)} and began at "
        sentence += f"{signals.degrees(_first(signals))}: {best.figure}"
    confidence = HIGH if best.kind is WRONG_UNIT and stood >= _STANDS else MEDIUM
    return [Fault(best.kind.name, "", (), 0.0, signals.record.end, sentence, confidence, KEPT)]


def may_be_set_wrong(stack: Stack) -> Mask:
    """Those whose levels are not all sure to lie near the hold."""
    hottest, required = _hottest(stack.like)
    if hottest is None:
        return stack.none
    assert hottest.low is not None and hottest.high is not None
    values = stack.values[[one.row for one in required]]
    return in_any(~_all_near(values, hottest.low - _FAR, hottest.high + _FAR))


def _hottest(signals: Signals) -> tuple[Span | None, list[Chain]]:
    """The hottest hold, and those that must be in range; None where these tell nothing."""
    plan = signals.plan
    holds = [] if plan is None else [span for span in plan.spans if span.action == HOLD]
    chains = [one for one in signals.chains.values() if one.required]
    if plan is None or not holds or plan.run.program.target is None or len(chains) < 2:
        return None, chains
    return max(holds, key=lambda span: span.high or 0.0), chains


class _Setting(NamedTuple):
    """A wrong setting of the recorder: what is read of a true temperature, NaN off its scale; and
    for units the true one of what is read."""

    kind: FaultKind
    figure: str
    reading: Callable[[Floats], Floats]
    true: Callable[[float], float] | None = None

    def of(self, celsius: float) -> float:
        return float(self.reading(np.array([celsius]))[0])

    def shows(self, level: float, edges: Floats, signals: Signals) -> bool:
        """Whether the hold would stand at this level: `edges` degC are the least, the aim and the
        most of it."""
        low, aim, high = self.reading(edges).tolist()
        near = _NEAR * (high - low) / float(edges[2] - edges[0]) if high > low else _NEAR
        if self.true is None:
            return bool(abs(level - aim) <= _NEAR)
        if low - near <= level <= high + near:
            return True
        # A hold that missed its range is told by how cold it began as well.
        missed = _MISSED * near / _NEAR
        known = level > _NEVER or self._is_air(_first(signals))
        return bool(low - missed <= level <= high + missed and known)

    def began_cold(self, level: float, most: float, signals: Signals) -> bool:
        """Whether a run that never held began with the air, and never went above its range."""
        first = _first(signals)
        return (
            self.true is not None
            and self.true(level) <= most + _FAR
            and self._is_air(first)
            and not _AIR[0] <= first <= _AIR[1]
        )

    def _is_air(self, first: float) -> bool:
        return self.true is not None and bool(_AIR[0] <= self.true(first) <= _AIR[1])


def _settings(wire: str) -> list[_Setting]:
    return [
        _Setting(
            WRONG_UNIT, "degF read as degC", lambda it: it * 1.8 + 32, lambda it: (it - 32) / 1.8
        ),
        _Setting(
            WRONG_UNIT, "degC read as degF", lambda it: (it - 32) / 1.8, lambda it: it * 1.8 + 32
        ),
        *(
            _Setting(WRONG_TYPE, f"as type {input} where the wire is {wire}", reading)
            for input, reading in settings(wire)
        ),
    ]


def _points(record: Record) -> Iterator[_Setting]:
    """The decimal point in the wrong place: in degC, and in the unit the file is written in."""
    fahrenheit = any(its.unit == "degF" for its in record.series.values())
    for zero in (0.0, -32 / 1.8) if fahrenheit else (0.0,):
        for figure, times in (("ten times too much", 10.0), ("a tenth", 0.1)):
            yield _Setting(
                WRONG_SCALE,
                f"{figure} of each reading",
                partial(_moved, zero=zero, times=times),
                partial(_moved, zero=zero, times=1 / times),
            )


def _moved(it: Any, *, zero: float, times: float) -> Any:
    """degC, so many times as far from the zero of a unit, in degC."""
    return zero + (it - zero) * times


def _first(signals: Signals) -> float:
    """degC, the middle one of the first readings; NaN where they are not alike."""
    rows = signals.record.between(0.0, _BEGINNING)
    first = [
        float(values[0])
        for one in signals.chains.values()
        if one.on_part and len(values := one.values[rows][np.isfinite(one.values[rows])])
    ]
    if len(first) < _ENOUGH or np.subtract(*np.percentile(first, (75, 25))) > _TOGETHER:
        return float("nan")
    return float(np.median(first))


def _level(chain: Chain) -> float:
    """degC, where its reading stood highest for long."""
    values = chain.values[np.isfinite(chain.values)]
    return float(np.percentile(values, 95)) if len(values) else float("nan")


def _all_within(signals: Signals, chains: list[Chain], low: float, high: float) -> bool:
    """Whether the level of each is sure to lie there: so many readings are above and below."""
    rows = [one.row for one in chains]
    if not signals.matrix.whole[rows].all():
        return False
    return bool(_all_near(signals.matrix.values[rows], low, high).all())


def _all_near(values: Floats, low: float, high: float) -> Mask:
    """The same of the readings of each [.., rows]."""
    # What 95 % of the readings are below lies between these two of all in order.
    last = values.shape[-1] - 1
    before = int(0.95 * last)
    under = np.count_nonzero(values < low, axis=-1)
    over = np.count_nonzero(values > high, axis=-1)
    return np.asarray((under <= before) & (over <= last - 1 - before))


def _rows_near(chain: Chain, level: float) -> int:
    with np.errstate(invalid="ignore"):
        return int(np.count_nonzero(np.abs(chain.values - level) <= _NEAR))


def cold_junction(signals: Signals) -> list[Fault]:
    """Every reading steps by the same from one row to the next: the recorder's own temperature,
    which it adds to all, was wrong before or after."""
    matrix = signals.matrix
    chains = list(signals.chains.values())
    if not matrix.gapless:
        chains = [one for one in chains if np.isfinite(one.values).any()]
    if len(chains) < _ENOUGH or len(signals.elapsed) < 8:
        return []
    # Readings in coarse digits step by one or two all at once, and between rows far apart the
    # program itself bends.
    least = max(
        _STEP,
        _DIGITS * median(one.resolution for one in chains),
        _BEND * signals.record.interval,
    )
    if any(fault.kind == WRONG_UNIT.name and not fault.tag for fault in signals.found):
        least *= _DEGREES  # all bend by so much more where degF is read as degC
    # Half of them step by so much; and a step is off those around by twice the largest at most.
    if not np.any(2 * matrix.largest_steps >= least):
        return []
    values, steps = (signals.rows(one, chains) for one in (matrix.values, matrix.steps))
    # Where nearly all step alike, one of the first few, and one more than may do otherwise, does:
    # by hardly less than the middle one.
    otherwise = int((1 - _MOST) * len(steps) + _BY_ROUNDING)
    part = steps[: otherwise + 1] if matrix.gapless else steps
    with np.errstate(invalid="ignore"):
        few = np.abs(beside_steps(part)) >= least - _ALIKE - _BY_ROUNDING
        rows = np.flatnonzero(few.any(axis=0))
        if not len(rows):
            return []
        off = steps[:, rows + 2] - (steps[:, rows] + steps[:, rows + 4]) / 2
        large = np.count_nonzero(np.abs(off) >= least, axis=0)
        half = 2 * large >= np.maximum(np.isfinite(off).sum(axis=0), 1)
        if not half.any():
            return []
        rows, off = rows[half], off[:, half]
        typical = np.nanmedian(off, axis=0)
        alike = np.mean(np.abs(off - typical) <= _ALIKE, axis=0)
    rows = rows[(np.abs(typical) >= least) & (alike >= _MOST)] + 2
    rows = rows[(rows >= 3) & (rows < steps.shape[1] - 3)]
    found = []
    for row in rows.tolist():
        after = float(signals.elapsed[row + 1])
        spans = np.diff(signals.elapsed[row - 2 : row + 4])
        if np.any(spans > _REGULAR * signals.record.interval):
            continue
        # What jumps and comes back at once is no step.
        level = float(np.nanmedian(values[:, row + 1 : row + 4].mean(axis=1)
                                   - values[:, row - 2 : row + 1].mean(axis=1)))  # fmt: skip
        if abs(level) < least or (level > 0 and signals.arc_heats):
            continue
        if _goes_so_often(steps, row):
            continue
        sentence = f"all step by {signals.kelvin(abs(level))} {'up' if level > 0 else 'down'} at "
        sentence += f"once at {signals.record.clock(after)}"
        end = signals.record.end
        found.append(Fault(COLD_JUNCTION.name, "", (), after, end, sentence, HIGH, KEPT))
    return found[:1]


def may_step_as_one(stack: Stack) -> Mask:
    """Those in which two and more step by so much in one row."""
    return stack.step_together(max(_STEP, _BEND * stack.like.record.interval))


def _goes_so_often(steps: Floats, row: int) -> bool:
    """Whether all step half as far the same way at other times as well, beside what they do around
    it."""
    off = middle(beside_steps(steps))
    others = np.flatnonzero(off / off[row - 2] >= _HALF) + 2
    return int(np.count_nonzero(np.abs(others - row) > _ABOUT)) > _SELDOM
