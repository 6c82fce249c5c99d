"""Whether a recorder hung where all readings stand still together: by what the metal did right
before, by what comes and goes beside, and by how readings go on."""

from __future__ import annotations

import numpy as np

from hts.record.faults.signals import Mask, Signals
from hts.record.record import Floats

#: Last digits by which chains jump when a recorder that hung goes on. Basis: practice, ours.
_JUMP = 5.0
#: s before all stand still in which most of them moved, K and last digits by which, and the part of
#: that they went in the latter half; what they would have gone on by, K and last digits. Metal that
#: is heated does not stop at once everywhere. Basis: practice, no source.
_BEFORE, _MOVED, _LATTER, _ON = 900.0, 5.0, 0.3, 20.0
#: K, K/h and share of rows: what is at the same level, held, and alive there; and times the next
#: longest that one must be which lasts to the end of the record. Basis: practice, ours.
_BESIDE, _LEVEL, _SOMETIMES, _TO_THE_END = 8.0, 30.0, 0.8, 4
#: Rows it takes to tell that. Basis: practice, ours.
_ENOUGH = 20
#: Times the next longest stretch that one must be, and how likely it may be then that all come and
#: go so soon before and after it; and how much sooner one of them does than by its own length.
#: Basis: practice, ours.
_CUT_OUT, _SPREAD = ((2.0, 1e-6), (5.0, 1e-4), (10.0, 1e-3)), 2.0


def hangs(
    signals: Signals, values: Floats, same: Mask, long: Mask, stretch: tuple[int, int, int]
) -> bool:
    """Whether all stand still from a row to another in a way that no metal does by itself; the
    third of `stretch` is how many rows the next longest stretch has."""
    first, last, second = stretch
    count = last - first + 1
    lasts = float(signals.elapsed[last + 1] - signals.elapsed[first])
    if _stopped_at_once(signals, values, first, lasts):
        return True
    if last + 2 >= values.shape[1]:
        return _TO_THE_END * second <= count and _alive_beside(signals, values, same, long, first)
    if 2 * second <= count and np.count_nonzero(jumped(signals, values, last + 1)) > 1:
        return True
    return any(
        longer * second <= count and _cut_out(values, first, last + 1, chance)
        for longer, chance in _CUT_OUT
    )


def _alive_beside(signals: Signals, values: Floats, same: Mask, long: Mask, first: int) -> bool:
    """Whether readings came and went at this temperature before, so often that they cannot stand
    still that long."""
    middle = np.median(values, axis=0)
    reach = min(10, (len(middle) - 1) // 2)
    slope = np.abs(np.roll(middle, -reach) - np.roll(middle, reach))
    slope = slope / np.maximum(
        np.roll(signals.elapsed, -reach) - np.roll(signals.elapsed, reach), 1
    )
    beside = np.abs(middle - middle[first]) <= _BESIDE
    beside &= slope * 3600 <= _LEVEL
    steps = beside[1:] & ~long
    if np.count_nonzero(steps) < _ENOUGH:
        return False
    return float(np.mean(same[steps])) < _SOMETIMES


def _cut_out(values: Floats, first: int, last: int, chance: float) -> bool:
    """Whether too many readings come and go by a digit right up to row `first` and right after
    `last`. Of one that stands still by itself, for recorders of whole degrees, that begins and
    ends somewhere about a time of the length it stands for; of all together, hardly at once."""
    count = last - first
    lasts = [
        max(_comes_and_goes(its[: first + 1][::-1], count), _comes_and_goes(its[last:], count))
        for its in values
    ]
    likely = np.minimum(_SPREAD * np.array(lasts) / count, 1.0)
    return bool(2 * np.sum(np.log(likely)) <= np.log(chance))


def _comes_and_goes(values: Floats, most: int) -> int:
    """Rows from the first of these until a reading has gone up and down again, or down and up,
    by no more than two digits in all; `most` where it does not in so many."""
    part = values[: most + 1]
    steps = np.diff(part)
    moves = np.flatnonzero(np.abs(steps) > 1e-9)
    turns = np.flatnonzero(steps[moves[1:]] * steps[moves[:-1]] < 0)
    if not len(turns):
        return most
    row = int(moves[turns[0] + 1]) + 1
    went = np.abs(part[: row + 1] - part[0])
    return row if went.max() <= 2 * np.abs(steps[moves[turns[0]]]) + 1e-9 else most


def _stopped_at_once(signals: Signals, values: Floats, first: int, lasts: float) -> bool:
    """Whether most moved right up to the row at which all stand still for `lasts` s, away from any
    hold: a part that is kept may well stand still for a recorder of whole degrees."""
    elapsed = signals.elapsed
    begins = int(np.searchsorted(elapsed, elapsed[first] - _BEFORE))
    before = float(elapsed[first] - elapsed[begins])
    half = int(np.searchsorted(elapsed, elapsed[first] - before / 2))
    if begins == first or before < _BEFORE / 3 or _near_a_hold(signals, first):
        return False
    went = values[:, first] - values[:, begins]
    latter = values[:, first] - values[:, half]
    digits = np.array(
        [one.resolution for one in signals.chains.values() if np.isfinite(one.values).any()]
    )
    moved = np.abs(went) >= _MOVED * np.maximum(digits, 1.0) * before / _BEFORE
    moved &= latter * np.sign(went) >= _LATTER * np.abs(went)
    further = np.abs(went) * lasts / before >= _ON * np.maximum(digits, 1.0)
    return bool(np.mean(moved & further) > 0.5)


def _near_a_hold(signals: Signals, row: int) -> bool:
    """Whether the part stands there where it is to be held; without a plan it may be anywhere."""
    if signals.plan is None:
        return True
    required = [one.values[row] for one in signals.chains.values() if one.required]
    at = float(np.nanmedian(required)) if np.isfinite(required).any() else float("nan")
    return not all(
        at < span.low - _BESIDE or at > span.high + _BESIDE
        for span in signals.plan.spans
        if span.low is not None and span.high is not None
    )


def jumped(signals: Signals, values: Floats, row: int) -> Mask:
    """Which chains jump from a row to the next, as they do not elsewhere."""
    if row + 1 >= values.shape[1]:
        return np.zeros(len(values), dtype=np.bool_)
    steps = np.abs(np.diff(values, axis=1))
    usual = np.percentile(steps, 95, axis=1)
    digits = [one.resolution for one in signals.chains.values() if np.isfinite(one.values).any()]
    return np.asarray(steps[:, row] > _JUMP * np.maximum(digits, usual))
