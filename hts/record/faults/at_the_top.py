"""A thermocouple that stands at its highest value to the last digit while the others rise above
that and come back: the channel, or its range, ends there, and how hot the metal was is not known.

It goes with the others up to that value and from it on again. Metal that is only a little colder
does not stop at once on its way up, nor wait on its way down until the others have come to it.

Where a range ends for several, none is left to rise: the readings of each pile up at one and the
same figure. Noise reads its highest figure seldom, and the one below it far more often.
"""

from __future__ import annotations

import numpy as np

from hts.record.faults.fault import Fault, fault
from hts.record.faults.fault_kinds import CUT_OFF, LEFT_OUT, MEDIUM
from hts.record.faults.matrix import middle
from hts.record.faults.noise import noises
from hts.record.faults.signals import Chain, Mask, Rows, Signals, ends_of_runs
from hts.record.faults.stack import Stack, in_any
from hts.record.judging.words import time
from hts.record.record import Floats

#: Equal readings on end that count, and s from the first to the last of them at the least.
#: Basis: practice, no source.
_REPEATS, _LASTS = 5, 600.0
#: Part of the rows in between that must have the very value. Basis: practice, ours.
_STANDS = 0.95
#: K, and last digits, that the others must rise after it stops, and fall before it goes on.
#: Basis: practice, no source.
_LEAST, _DIGITS = 3.5, 3.5
#: Rows that the others are taken from at each end, and in between.
_ENDS, _BETWEEN = 3, 64
#: Readings that make a pile, times those that are one digit lower, chains that make it together,
#: and how many readings it then takes of all. Basis: practice, ours.
_PILE, _TIMES, _MANY, _TOGETHER = 30, 2.0, 5, 60
#: Standard deviation of the noise over the last digit from which a highest figure without any above
#: it is seldom read: at 0.45 it is one in five, and the one below it two in three (derived, for a
#: thousand readings of a normal distribution).
_ALIVE = 0.45
#: Where noise is less: chains that must stop dead, s before and after, last digits that they rise
#: by in that time, and part of the rows after in which they stand. Basis: practice, ours.
_DEAD, _BESIDE, _RISES, _STAYS = 3, 300.0, 2.9, 0.7
#: Last digits, and K, that it may go by in the row after: what leaps has caught up.
#: Basis: practice, ours.
_GOES_ON = 4.0


def at_the_top(signals: Signals) -> list[Fault]:
    """One fault for each thermocouple that is cut off so."""
    same = signals.matrix.steps == 0
    often = same
    for _ in range(_REPEATS - 2):
        often = often[:, 1:] & often[:, :-1]
    suspects = often.any(axis=1)
    held = [one for one in signals.chains.values() if one.held and not signals.faulty(one.tag)]
    found = []
    for chain in held:
        if not suspects[chain.row] or signals.explained(chain.tag) or not chain.resolution:
            continue
        others = [one for one in held if one is not chain]
        # Zones move on their own: those of its own tell best.
        others = [one for one in others if one.zone == chain.zone] or others
        one = _of(signals, chain, others) if others else None
        if one is not None:
            found.append(one)
    told = {one.tag for one in found}
    return found + [one for one in _piled_up(signals, held) if one.tag not in told]


def may_be_cut_off(stack: Stack) -> Mask:
    """Those in which one that is held stands at its highest value in enough rows."""
    held = stack.rows(one.held for one in stack.chains)
    longest = float(np.diff(stack.like.elapsed).max())
    at_top = stack.values[held] == stack.highest[held][:, :, None]
    count = np.count_nonzero(at_top, axis=2)
    return in_any(count >= max(_REPEATS, _STANDS * (_LASTS / longest)))


def _of(signals: Signals, chain: Chain, others: list[Chain]) -> Fault | None:
    top = chain.extremes[1]
    at_top = chain.values == top
    first_of, last_of = ends_of_runs(at_top, _REPEATS)
    if not len(first_of):
        return None
    first, last = int(first_of[0]), int(last_of[-1])
    lasts = float(signals.elapsed[last] - signals.elapsed[first])
    if lasts < _LASTS or float(np.mean(at_top[first : last + 1])) < _STANDS:
        return None
    if first < _ENDS or last + _ENDS >= len(at_top):
        return None
    least = max(_LEAST, _DIGITS * chain.resolution)
    after = chain.values[last + 1 : last + 2]
    if not np.all(np.abs(after - top) <= max(_GOES_ON, _GOES_ON * chain.resolution)):
        return None
    between = np.unique(np.linspace(first, last, _BETWEEN).astype(np.intp))
    courses = np.array([one.values for one in others])
    level = _level(courses[:, between])
    rose = level - _level(courses[:, first - _ENDS + 1 : first + _ENDS])
    fell = level - _level(courses[:, last - _ENDS + 1 : last + _ENDS])
    if not min(rose, fell) >= least:
        return None
    value = signals.words.temperature(top)
    sentence = (
        f"never reads more than {value}, and stands at that for {time(lasts)} while the others "
        f"rise by {signals.kelvin(rose)} and fall again: it may be hotter"
    )
    start, end = float(signals.elapsed[first]), float(signals.elapsed[last])
    return fault(CUT_OFF, chain.tag, start, end, sentence, MEDIUM, LEFT_OUT)


def _piled_up(signals: Signals, held: list[Chain]) -> list[Fault]:
    """One fault for each of several that pile up at the highest figure of the record."""
    top = max((chain.extremes[1] for chain in held), default=float("nan"))
    least = max(_REPEATS, _LASTS / signals.record.interval)
    piles = [
        (chain, rows)
        for chain in held
        if chain.extremes[1] == top
        and not signals.explained(chain.tag)
        and len(rows := np.flatnonzero(chain.values == top)) >= least
        and _is_pile(chain, len(rows))
    ]
    if len(piles) < _MANY or sum(len(rows) for _, rows in piles) < _TOGETHER:
        piles = [one for one in piles if len(one[1]) >= _PILE]
    chains = [chain for chain, _ in piles]
    if len(chains) < 2:
        return []
    digits = np.array([chain.resolution for chain in chains])
    why = "its noise is larger than its last digit allows"
    if not np.all(noises(signals, chains) >= _ALIVE * digits):
        piles = [one for one in piles if _stops_dead(signals, *one)]
        if len(piles) < _DEAD:
            return []
        why = "it comes to that at once, as metal does not"
    found = []
    for chain, rows in piles:
        start, end = float(signals.elapsed[rows[0]]), float(signals.elapsed[rows[-1]])
        sentence = (
            f"never reads more than {signals.words.temperature(top)}, and {len(rows)} times that, "
            f"as {len(piles) - 1} more do, though {why}: it may be hotter"
        )
        found.append(fault(CUT_OFF, chain.tag, start, end, sentence, MEDIUM, LEFT_OUT))
    return found


def _stops_dead(signals: Signals, chain: Chain, rows: Rows) -> bool:
    """Whether it rises to its highest figure and stays there from the first row on: metal comes to
    where it is kept more and more slowly. That it falls from there at once tells nothing."""
    width = max(_ENDS, int(_BESIDE / signals.record.interval))
    first, top = int(rows[0]), chain.extremes[1]
    rises = top - chain.values[max(0, first - width)] >= _RISES * chain.resolution
    return bool(rises and np.mean(chain.values[first : first + width] == top) >= _STAYS)


def _is_pile(chain: Chain, count: int) -> bool:
    """Whether so many at the highest figure are far more than those one digit lower."""
    digit, top = chain.resolution, chain.extremes[1]
    below = np.abs(chain.values - (top - digit)) < digit / 2
    return bool(digit) and count >= _TIMES * float(np.count_nonzero(below))


def _level(courses: Floats) -> float:
    """degC, what most read in these rows; NaN where none does."""
    known = middle(courses)
    known = known[np.isfinite(known)]
    return float(np.median(known)) if len(known) else float("nan")
