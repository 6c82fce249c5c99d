"""Rows that nobody read: worked out afterwards on straight lines between two readings, as a logger
or an export does to close a gap.

All go by noise: for a while every channel runs straight to the last digit, and right before and
after they do not. Where the last digit is coarser than the noise, a channel that goes from one to
the next goes to and fro between them for a time; on a drawn line it never does.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import erf, log, sqrt

import numpy as np

from hts.record.faults.fault import Fault, Spell, fault_of_all
from hts.record.faults.fault_kinds import FILLED_IN
from hts.record.faults.matrix import spread
from hts.record.faults.noise import noises
from hts.record.faults.signals import Mask, Signals, runs
from hts.record.faults.stack import Stack, lasting
from hts.record.judging.words import time
from hts.record.record import Floats

#: Standard deviation of the noise over the last digit from which a channel tells. A straight line
#: rounded to digits has one of 0.29, at the most 0.5 (derived). Basis: practice, ours.
_TELLS = 0.75
#: Channels that must tell, and the part of them that must run straight. Basis: practice, ours.
_ENOUGH, _MOST = 2, 0.9
#: Steps of a line, and s it lasts at the least. Basis: practice, no source.
_STEPS, _LASTS = 8, 300.0
#: Last digits that twice a reading may be off the line between those beside it, and a reading off
#: the line from end to end: each is rounded by a half. Derived.
_BENT, _OFF = 2.0, 1.0
#: Rows before and after that must be alive, and how many it takes. Basis: practice, ours.
_BESIDE, _ALIVE = 60, 20
#: How likely it may be by chance, in a whole record. Basis: practice, ours.
_CHANCE = 1e-3
#: Part that is put down to floats.
_FLOATS = 1 + 1e-6
#: Goings to and fro of a record from which it can be told that there are none, parts of rows that
#: must show what is usual, digits a line goes by, the part of its length before and after that must
#: have some, and s it lasts. Basis: practice, ours.
_OFTEN, _PARTS, _GOES, _BEFORE, _LASTS_THEN = 20, 20, 3, 0.5, 900.0


def filled_in(signals: Signals) -> list[Fault]:
    """Times in which every channel that has noise runs straight."""
    chains = [one for one in signals.chains.values() if one.on_part and one.resolution]
    chains = [one for one in chains if not signals.faulty(one.tag)]
    if len(chains) < _ENOUGH or len(signals.elapsed) < 4 * _STEPS:
        return []
    digits = np.array([one.resolution for one in chains])
    noise = noises(signals, chains)
    tells = noise >= _TELLS * digits
    if np.count_nonzero(tells) < _ENOUGH:
        return []
    rows = np.array([one.row for one in chains])[tells]
    likely = _likely(noise[tells] / digits[tells])
    digits = digits[tells]
    # So many may run otherwise, and of a few more all but those must run straight, too.
    others = _others(len(rows))
    few = rows[: 2 * others + 3]
    values = signals.matrix.values[few]
    straight = _straight(values, signals.elapsed, digits[: len(few)])
    if not runs(np.count_nonzero(straight, axis=0) >= len(few) - others, _STEPS - 1):
        return []
    if len(few) < len(rows):
        values = signals.matrix.values[rows]
        straight = _straight(values, signals.elapsed, digits)
    together = np.mean(straight, axis=0) >= _MOST
    found = runs(together, _STEPS - 1)
    lines = [
        line
        for first, last in found
        for line in _lines(values, signals.elapsed, digits, first, last + 2)
    ]
    lively = np.ones(len(signals.elapsed), dtype=np.bool_)
    for first, last in lines:
        lively[first : last + 1] = False
    spells = [
        Spell(float(signals.elapsed[first + 1]), float(signals.elapsed[last - 1]))
        for first, last in lines
        if (last - first - 1) * likely + np.log(len(signals.elapsed)) <= np.log(_CHANCE)
        and _alive_beside(values, digits, lively, first, last)
    ]
    if not spells:
        return []
    lost = sum(spell.end - spell.start for spell in spells)
    said = f"all {len(rows)} channels with noise run straight for {time(lost)}"
    if len(spells) > 1:
        said += f", on {len(spells)} lines"
    return [fault_of_all(FILLED_IN, said, spells)]


def may_be_filled_in(stack: Stack) -> Mask:
    """Those in which enough of the first channels that tell run straight for long enough."""
    on_part = stack.rows(one.on_part for one in stack.chains)
    digits = stack.digits[on_part]
    tells = stack.noise[on_part] >= _TELLS * digits
    counts = np.count_nonzero(tells, axis=0)
    others = np.array([_others(count) for count in counts.tolist()])
    # The first so many of each record, where it has them; the rest count for nothing.
    few = np.minimum(2 * others + 3, counts)
    order = np.argsort(~tells, axis=0, kind="stable")[: few.max(initial=1)]
    at = np.arange(len(stack))
    its, digits = on_part[order], digits[order, at]
    if stack.even:
        straight = stack.far[its, at] <= (_BENT * digits * _FLOATS**2)[:, :, None]
    else:
        straight = _straight(stack.values[its, at], stack.like.elapsed, digits)
    straight &= (np.arange(len(order))[:, None] < few)[:, :, None]
    enough = np.count_nonzero(straight, axis=0) >= (few - others)[:, None]
    return np.asarray((counts >= _ENOUGH) & lasting(enough, _STEPS - 1).any(axis=1))


def _others(count: int) -> int:
    """How many of so many channels may run otherwise."""
    return sum(part / count >= _MOST for part in range(count))


def never_to_and_fro(signals: Signals) -> list[Fault]:
    """Times in which every channel runs straight and goes from digit to digit without ever going
    back, where all do before and after."""
    chains = [one for one in signals.chains.values() if one.on_part and one.resolution]
    chains = [one for one in chains if not signals.faulty(one.tag)]
    if len(chains) < _ENOUGH or len(signals.elapsed) < 4 * _STEPS:
        return []
    digits = np.array([one.resolution for one in chains])
    if np.count_nonzero(noises(signals, chains) >= _TELLS * digits) >= _ENOUGH:
        return []  # noise itself tells, above
    steps = signals.rows(signals.matrix.steps, chains)
    with np.errstate(invalid="ignore"):
        back = steps[:, 1:] * steps[:, :-1] < 0
    rows = np.flatnonzero(back.any(axis=0)) + 1
    if len(rows) < _OFTEN:
        return []
    long = (np.diff(rows) > _STEPS) & (np.diff(signals.elapsed[rows]) >= _LASTS_THEN)
    if not long.any():
        return []
    values = signals.rows(signals.matrix.values, chains)
    found = [(int(rows[at]), int(rows[at + 1])) for at in np.flatnonzero(long).tolist()]
    spells = [
        Spell(float(signals.elapsed[first + 1]), float(signals.elapsed[last - 1]))
        for first, last in found
        if _back_beside(back, first, last)
        and any(
            not _usual(values, digits, back, *line)
            for line in _lines(values, signals.elapsed, digits, first, last)
            if line[1] - line[0] >= _BEFORE * (last - first)
        )
    ]
    if not spells:
        return []
    lost = sum(spell.end - spell.start for spell in spells)
    said = f"all {len(chains)} channels run straight for {time(lost)}, and none ever goes to and "
    said += "fro between two digits, as all do before and after"
    return [fault_of_all(FILLED_IN, said, spells)]


def may_never_go_to_and_fro(stack: Stack) -> Mask:
    """Those without enough channels that tell, in which none goes to and fro for so long."""
    on_part = stack.rows(one.on_part for one in stack.chains)
    tells = np.count_nonzero(stack.noise[on_part] >= _TELLS * stack.digits[on_part], axis=0)
    found = tells < _ENOUGH
    if len(on_part) < _ENOUGH or not found.any():
        return stack.none
    steps = stack.steps[on_part][:, found]
    back = np.any(steps[:, :, 1:] * steps[:, :, :-1] < 0, axis=0)
    # Between two that do alone.
    since, until = (np.logical_or.accumulate(one, axis=1) for one in (back, back[:, ::-1]))
    longest = float(np.diff(stack.like.elapsed).max())
    never = lasting(~back & since & until[:, ::-1], max(_STEPS, int(_LASTS_THEN / longest) - 1))
    found[found] = (np.count_nonzero(back, axis=1) >= _OFTEN) & never.any(axis=1)
    return np.asarray(found)


def _usual(values: Floats, digits: Floats, back: Mask, first: int, last: int) -> bool:
    """Whether that none goes back from one row to the other may be by chance: by how often what
    goes on by a digit, and no slower, does so without elsewhere. As parts of a course hang
    together, as if there were half of them."""
    by_row = float(np.mean(np.abs(values[:, last] - values[:, first]) / digits)) / (last - first)
    width = int(np.ceil(1 / max(by_row, 1e-9)))
    if width * _GOES > last - first:
        return True
    edges = np.arange(0, back.shape[1], width)
    went = np.abs(np.diff(values[:, edges], axis=1)) >= digits[:, None] * (2 - _FLOATS)
    straight = np.add.reduceat(back, edges, axis=1, dtype=np.intp)[:, :-1] == 0
    inside = (edges[:-1] >= first) & (edges[1:] <= last)
    elsewhere = went & ~inside & ((edges[1:] <= first) | (edges[:-1] >= last))
    count = int(np.count_nonzero(elsewhere))
    if count < _PARTS:
        return True
    chance = (np.count_nonzero(elsewhere & straight) + 1) / (count + 2)
    told = 0.5 * np.count_nonzero(went[:, inside]) * log(chance)
    return bool(told + log(back.shape[1]) > log(_CHANCE))


def _back_beside(back: Mask, first: int, last: int) -> bool:
    """Whether most channels go to and fro right before, and right after."""
    beside = int(_BEFORE * (last - first))
    sides = back[:, max(0, first - 1 - beside) : first], back[:, last - 1 : last - 1 + beside]
    return all(float(np.mean(side.any(axis=1))) >= _MOST for side in sides)


def _likely(noise: Floats) -> float:
    """Log of how likely it is that most readings of a row are as near to a line by chance, noise in
    last digits (derived, for a normal distribution)."""
    near = [log(erf(_OFF / (one * sqrt(2)))) for one in noise]
    return _MOST * sum(near)


def _straight(values: Floats, elapsed: Floats, digits: Floats) -> Mask:
    """Whether each reading is as near to the line between those beside it as rounding allows
    [.., chains, rows - 2]: rows may come at unlike intervals."""
    steps, times = np.diff(values), np.diff(elapsed)
    before, after = times[:-1], times[1:]
    bends = (steps[..., 1:] * before - steps[..., :-1] * after) / (before + after)
    return np.asarray(2 * np.abs(bends) <= _BENT * digits[..., None] * _FLOATS)


def _lines(
    values: Floats, elapsed: Floats, digits: Floats, first: int, last: int
) -> Iterator[tuple[int, int]]:
    """First and last row of the straight lines from one row to another, each as long as it goes."""
    while last - first >= _STEPS:
        end = first + _STEPS
        if not _on_a_line(values, elapsed, digits, first, end):
            first += 1
            continue
        while end < last and _on_a_line(values, elapsed, digits, first, end + 1):
            end += 1
        if elapsed[end] - elapsed[first] >= _LASTS:
            yield first, end
        first = end


def _on_a_line(values: Floats, elapsed: Floats, digits: Floats, first: int, last: int) -> bool:
    part = values[:, first : last + 1]
    way = (elapsed[first : last + 1] - elapsed[first]) / (elapsed[last] - elapsed[first])
    off = np.abs(part - part[:, :1] - way * (part[:, -1:] - part[:, :1]))
    return float(np.mean(np.all(off <= _OFF * digits[:, None] * _FLOATS, axis=1))) >= _MOST


def _alive_beside(values: Floats, digits: Floats, lively: Mask, first: int, last: int) -> bool:
    """Whether most channels have their noise right before and right after, where there are rows."""
    sides = (slice(max(0, first - _BESIDE), first), slice(last + 1, last + 1 + _BESIDE))
    seen = False
    for side in sides:
        bends = np.abs(np.diff(values[:, side], 2))
        own = lively[side]
        bends = bends[:, own[2:] & own[1:-1] & own[:-2]]
        if bends.shape[1] < _ALIVE:
            continue
        noise = np.array([spread(its[np.isfinite(its)], 0.0) for its in bends])
        if np.mean(noise >= _TELLS * digits) <= 0.5:
            return False
        seen = True
    return seen
