"""Readings that stand still for longer than their own noise allows: a channel that holds its last
value for a while, and a recorder that cuts off what is above the top of its scale.

Neither the others nor the part need to move for that to show: a channel whose readings differ from
row to row before and after does not repeat one value twenty times by chance.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from hts.record.faults.fault import Fault, Spell
from hts.record.faults.fault_kinds import CUT_OFF, HIGH, LEFT_OUT, MEDIUM, STUCK
from hts.record.faults.noise import noises
from hts.record.faults.signals import Chain, Mask, Signals, ends_of_runs
from hts.record.faults.stack import Stack, in_any, lasting
from hts.record.judging.words import time
from hts.record.record import Floats

#: Equal readings on end from which it is looked at, and s they last at the least. Basis: practice.
_REPEATS, _LASTS = 10, 120.0
#: K. A value this near to the first is a place the heat has not reached. Basis: practice, ours.
_REACHED = 15.0
#: Rows beside a stretch that its noise is taken from, those it takes, and K by which they may lie
#: off it: noise while heating tells nothing of that in the hold. Basis: practice, ours.
_BESIDE, _ENOUGH, _LEVEL = 240, 30, 12.0
#: Standard deviation of the noise over the last digit from which a reading is alive. Rounding a
#: smooth course makes 0.29, and one that lies between two digits with hardly any noise 0.5
#: (derived). Basis: practice, ours.
_ALIVE = 0.75
#: How likely it may be by chance in a whole record, and times the next longest such stretch.
#: Basis: practice, ours.
_CHANCE, _LONGER = 1e-6, 2.5
#: K that a channel catches up by in one row, and last digits; rows it then stays there, and
#: intervals that are one row. Basis: practice, no source.
_LEAPS, _LEAP_DIGITS, _STAYS, _REGULAR = 8.0, 6.0, 3, 1.5


class Still(NamedTuple):
    """A stretch of one value: its first and last row, and the value, degC."""

    first: int
    last: int
    value: float


def too_still(signals: Signals) -> list[Fault]:
    """One fault for each thermocouple that stood still so."""
    same = signals.matrix.steps == 0
    often = same
    for _ in range(_REPEATS - 2):
        often = often[:, 1:] & often[:, :-1]
    if not often.size:
        return []
    suspects = often.any(axis=1)
    looked_at = [
        one
        for one in signals.chains.values()
        if suspects[one.row] and one.on_part and not signals.explained(one.tag)
    ]
    found: dict[str, list[Still]] = {}
    every = {one.tag: _stretches(signals, one, same[one.row]) for one in looked_at}
    top = _top_of_all(signals, looked_at, every)
    for chain in looked_at:
        inside = _rows_of(every[chain.tag], len(chain.values))
        stretches = [
            one
            for one in every[chain.tag]
            if one.value == top
            or _leap_after(signals, chain, one)
            or _by_no_chance(chain, one, inside)
        ]
        if stretches:
            found[chain.tag] = stretches
    tops = _tops(signals, found) | ({top} if top is not None else set())
    return [_fault(signals, tag, its, tops) for tag, its in found.items()]


def may_be_too_still(stack: Stack) -> Mask:
    """Those in which one on the part repeats a value often enough."""
    same = stack.same[stack.rows(one.on_part for one in stack.chains)]
    return in_any(lasting(same, _REPEATS - 1))


def _stretches(signals: Signals, chain: Chain, same: Mask) -> list[Still]:
    first, last = ends_of_runs(same, _REPEATS - 1)
    lasts = signals.elapsed[last + 1] - signals.elapsed[first] >= _LASTS
    known = chain.values[np.isfinite(chain.values)][:1]
    lasts &= np.abs(chain.values[first] - known) > _REACHED
    return [
        Still(a, b + 1, float(chain.values[a]))
        for a, b in zip(first[lasts].tolist(), last[lasts].tolist(), strict=True)
    ]


def _rows_of(stretches: list[Still], rows: int) -> Mask:
    inside = np.zeros(rows, dtype=np.bool_)
    for one in stretches:
        inside[one.first : one.last + 1] = True
    return inside


def _top_of_all(
    signals: Signals, looked_at: list[Chain], stretches: dict[str, list[Still]]
) -> float | None:
    """The highest value of the record, degC, where several that are otherwise alive stand still at
    it and none is higher; None where that is not so."""
    highest = max((one.extremes[1] for one in signals.chains.values()), default=float("nan"))
    at_top = [one for one in looked_at if any(its.value == highest for its in stretches[one.tag])]
    if len(at_top) < 2:
        return None
    noise = noises(signals, at_top)
    digits = np.array([one.resolution for one in at_top])
    return highest if bool(np.all(noise >= _ALIVE * digits)) else None


def _by_no_chance(chain: Chain, still: Still, inside: Mask) -> bool:
    """Whether the readings beside are alive, and never stand still for nearly as long."""
    rows = slice(max(0, still.first - _BESIDE), still.last + 1 + _BESIDE)
    values = chain.values[rows]
    beside = np.abs(values - still.value) <= _LEVEL
    beside &= ~inside[rows]
    steps = np.diff(values)[beside[1:] & beside[:-1]]
    bends = np.diff(values, 2)[beside[2:] & beside[1:-1] & beside[:-2]]
    if len(bends) < _ENOUGH:
        return False
    noise = float(
        np.sqrt(np.mean(np.minimum(np.abs(bends), 4 * np.median(np.abs(bends)) + 1e-9) ** 2) / 6)
    )
    if not chain.resolution or noise < _ALIVE * chain.resolution:
        return False
    count = still.last - still.first
    # Two readings of noise are rounded to one digit so often (derived, for a normal distribution).
    likely = chain.resolution / (2 * noise * np.sqrt(np.pi))
    likely = max(likely, (np.count_nonzero(steps == 0) + 1) / (len(steps) + 2))
    if likely >= 1 or count * np.log(likely) + np.log(len(chain.values)) > np.log(_CHANCE):
        return False
    lone, _ = ends_of_runs(steps == 0, 1)
    longest = int(np.max(_lengths(steps == 0), initial=0)) if len(lone) else 0
    return count >= _LONGER * (longest + 1)


def _leap_after(signals: Signals, chain: Chain, still: Still) -> float:
    """K that it catches up by in the row after it; 0 where metal may have gone as far."""
    if signals.arc_heats or still.last + 1 >= len(chain.values):
        return 0.0
    leap = float(chain.values[still.last + 1]) - still.value
    span = float(signals.elapsed[still.last + 1] - signals.elapsed[still.last])
    least = max(_LEAPS, signals.quick() * span, _LEAP_DIGITS * chain.resolution)
    if span > _REGULAR * signals.record.interval or not abs(leap) >= least:
        return 0.0
    # What stays there has caught up; what comes back was a spike.
    after = chain.values[still.last + 1 : still.last + 1 + _STAYS]
    return leap if bool(np.all(np.abs(after - still.value) >= abs(leap) / 2)) else 0.0


def _lengths(mask: Mask) -> Floats:
    first, last = ends_of_runs(mask, 1)
    return np.asarray(last - first + 1, dtype=np.float64)


def _tops(signals: Signals, found: dict[str, list[Still]]) -> frozenset[float]:
    """Values that are the top of a scale: the highest of a chain, at which it stands still more
    than once or together with another that never exceeds it either."""
    at_top: list[float] = []
    for tag, stretches in found.items():
        highest = signals.chains[tag].extremes[1]
        at_top += [one.value for one in stretches if one.value == highest]
    return frozenset(value for value in at_top if at_top.count(value) > 1)


def _fault(signals: Signals, tag: str, stretches: list[Still], tops: frozenset[float]) -> Fault:
    elapsed, words = signals.elapsed, signals.words
    cut = stretches[0].value in tops
    spells = tuple(Spell(float(elapsed[s.first]), float(elapsed[s.last])) for s in stretches)
    longest = max(stretches, key=lambda one: elapsed[one.last] - elapsed[one.first])
    lasts = time(float(elapsed[longest.last] - elapsed[longest.first]))
    value = words.temperature(longest.value)
    leap = _leap_after(signals, signals.chains[tag], longest)
    repeated = (
        f"reads {value} from row to row for {lasts}, {longest.last - longest.first + 1} times"
    )
    if cut:
        said = f"never reads more than {value}, and stands at that for {lasts}: it may be hotter"
    elif leap:
        said = f"{repeated}, then leaps by {signals.kelvin(abs(leap))}"
    else:
        said = f"{repeated}, though its readings differ before and after"
    kind, confidence = CUT_OFF if cut else STUCK, HIGH if cut or leap else MEDIUM
    return Fault(
        kind.name, tag, (), spells[0].start, spells[-1].end, said, confidence, LEFT_OUT, spells
    )
