"""Columns that were not measured: copied from another.

All go by noise. The noise of two thermocouples is never the same; a record without any, as a
computed one, tells nothing of that and is left alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

import numpy as np

from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import COPIED, HIGH, KEPT
from hts.record.faults.matrix import CUT
from hts.record.faults.noise import noises
from hts.record.faults.signals import Chain, Mask, Signals
from hts.record.faults.stack import Stack, in_any
from hts.record.faults.worked_out import may_be_worked_out, worked_out
from hts.record.record import Floats

#: How likely it may be by chance in a whole record. Basis: practice, no source.
_CHANCE = 1e-3
#: Times a chain turns from rising to falling or back, a part of its rows, from which it has noise.
#: Basis: practice, ours.
_TURNS, _TURNS_SHARE = 10, 0.02
#: Turns of one that has any noise; K it must move by; and part of the rows in which a copy keeps
#: its distance to the last digit. Basis: practice, no source.
_SOME, _MOVES, _ALWAYS = 4, 50.0, 0.995
#: Most likely that two that are not copies change to the same digit in a row, however coarse: the
#: noise of each and what their places differ by must fall between the same two digits. Side by side
#: in whole degrees, with a noise of 0.06 K, they do in 0.8 of the rows. Basis: practice, ours.
_SAME_DIGIT = 0.95
#: Correlation of the noise of two chains from which it is one and the same noise; that of two
#: sound ones is 0 to within 0.1 in a thousand rows (derived: 1 / sqrt(rows)).
_SAME_NOISE = 0.97
#: Last digits within which a copy, put to the level and scale of the other, lies in nearly all rows
#: (derived: each is rounded by a half, which makes two), and that part of them, per cent. Two that
#: are moved by one heater have that in common and still are not each other's to the last digit.
_WITHIN, _NEARLY = 2.6, 99.0
#: Rows it takes to tell. Basis: practice, ours.
_ENOUGH = 60
#: K by which two steps are unlike, how many readings of pairs are looked at at once, and the parts
#: of a record of which one tells how often nearly all turn. Basis: practice, ours.
_UNLIKE, _AT_ONCE, _PARTS = 1e-5, 2**19, 8
_BY_ROUNDING = 1e-6


def copied(signals: Signals) -> list[Fault]:
    """Pairs of columns with one and the same noise: one is made of the other. And those that are
    made of several."""
    chains = [one for one in signals.chains.values() if not signals.faulty(one.tag)]
    if not signals.matrix.gapless or len(signals.elapsed) < _ENOUGH:
        chains = [one for one in chains if _usable(one)]
    if len(chains) < 2:
        return []
    least = max(_TURNS, _TURNS_SHARE * len(signals.elapsed))
    turned = _turns(signals, chains, least)
    found = _to_the_digit(signals, chains, turned)
    told = {frozenset((fault.tag, *fault.others)) for fault in found}
    noise = noises(signals, chains)
    noisy = np.flatnonzero((noise > 0) & (turned >= least)).tolist()
    chains, noise = [chains[at] for at in noisy], noise[noisy]
    if len(chains) < 2:
        return found
    most = (CUT * noise * np.sqrt(6))[:, None]
    bends = np.maximum(np.minimum(signals.rows(signals.matrix.bends, chains), most), -most)
    if not signals.matrix.gapless:
        bends = bends[:, np.isfinite(bends).all(axis=0)]
    if bends.shape[1] < _ENOUGH:
        return found
    bends -= bends.mean(axis=1, keepdims=True)
    together = bends @ bends.T
    sizes = np.sqrt(np.diagonal(together))
    alike = together >= _SAME_NOISE * np.outer(sizes, sizes)
    for i, j in np.argwhere(alike).tolist():
        one, other = chains[i], chains[j]
        if i >= j or sizes[i] * sizes[j] <= 0 or frozenset((one.tag, other.tag)) in told:
            continue
        if _each_others(one, other):
            found.append(_copy(signals, one, other, "have one and the same noise"))
    doubles = {tag for fault in found for tag in fault.others}
    single = [at for at, one in enumerate(chains) if one.tag not in doubles]
    own = together[single][:, single]
    return found + worked_out(signals, [chains[at] for at in single], own)


def may_be_copied(stack: Stack) -> Mask:
    """Those in which one hardly turns, two keep their distance, or the noise of some hangs
    together so much that one may be made of the others."""
    steps = stack.steps
    chains, rows = len(steps), steps.shape[2]
    least = max(_TURNS, _TURNS_SHARE * (rows + 1))
    # Most of those that turn hardly ever in a ramp do so in the midst of the record.
    turns = _turns_at_once(steps[:, :, rows // 2 : rows // 2 + max(_ENOUGH, rows // _PARTS)])
    few = turns < least
    turns[few] = _turns_at_once(steps[few])
    found = in_any((turns < least) | (stack.noise <= 0))
    most = 2 * (1 - _ALWAYS) * (rows + 1) + 1
    some = np.ascontiguousarray(steps[:, :, :: max(1, rows // (int(3 * most) + 1))])
    for later in range(1, chains):
        apart = np.abs(some[later:] - some[:-later]) > _UNLIKE
        found |= in_any(np.count_nonzero(apart, axis=2) <= most)
    left = np.flatnonzero(~found)
    bends, most = stack.bends[:, left], CUT * np.sqrt(6) * stack.noise[:, left]
    if np.any(stack.largest_bends[:, left] > most):
        bends = np.clip(bends, -most[:, :, None], most[:, :, None])
    alike = _noise_alike(bends)
    others = np.abs(alike[:, ~np.eye(chains, dtype=np.bool_)])
    found[left] = (others.max(axis=1) >= _SAME_NOISE - _BY_ROUNDING) | may_be_worked_out(alike)
    return found


def _noise_alike(bends: Floats) -> Floats:
    """Correlations of the noise of all that have any [records, chains, chains], by their bends
    [chains, records, rows]."""
    its = (bends - bends.mean(axis=2, keepdims=True)).transpose(1, 0, 2)
    together = its @ its.transpose(0, 2, 1)
    sizes = np.sqrt(np.diagonal(together, axis1=1, axis2=2))
    return np.asarray(together / (sizes[:, :, None] * sizes[:, None]))


def _to_the_digit(signals: Signals, chains: list[Chain], turned: Floats) -> list[Fault]:
    """Pairs that keep one distance to the last digit while both move: two that are rounded each by
    itself do not, where there is any noise. `turned` tells how often each rises and falls in turn.
    """
    found = []
    noisy = [one for one, turns in zip(chains, turned, strict=True) if turns >= _SOME]
    if np.any(turned >= _TURNS):
        found = _equal_throughout(signals, [one for one in chains if one not in noisy])
    steps = signals.rows(signals.matrix.steps, noisy)
    # Each row that is off the one distance makes two unlike steps at the most.
    most = 2 * (1 - _ALWAYS) * len(signals.elapsed) + 1
    for i, j in _hardly_unlike(steps, most):
        one, other = noisy[i], noisy[j]
        apart = other.values - one.values
        apart = apart[np.isfinite(apart)]
        if len(apart) < _ENOUGH or np.ptp(one.values[np.isfinite(one.values)]) < _MOVES:
            continue
        if np.mean(np.abs(apart - np.median(apart)) < 1e-6) >= _ALWAYS:
            found.append(_copy(signals, one, other, "go on by the same to the last digit"))
    return found


def _hardly_unlike(steps: Floats, most: float) -> Iterator[tuple[int, int]]:
    """Pairs of which no more than so many `steps` [chains, rows] are unlike."""
    count = len(steps)
    # Some tell of nearly all pairs: of the whole record, for a ramp begins alike at all places.
    some = np.ascontiguousarray(steps[:, :: max(1, steps.shape[1] // (int(3 * most) + 1))])
    together = max(1, _AT_ONCE // max(some.size, 1))
    for begin in range(0, count, together):
        apart = np.abs(some[begin : begin + together, None] - some) > _UNLIKE
        for at, j in np.argwhere(np.count_nonzero(apart, axis=2) <= most).tolist():
            i = begin + at
            if i < j and np.count_nonzero(np.abs(steps[i] - steps[j]) > _UNLIKE) <= most:
                yield i, j


def _equal_throughout(signals: Signals, chains: list[Chain]) -> list[Fault]:
    """Pairs of a record with noise that are equal in every row, though their own noise hardly shows
    in digits that coarse: they changed so often, each time together, that chance does not make it.
    """
    found = []
    pairs = list(combinations(chains, 2))
    for one, other in pairs:
        both = np.isfinite(one.values) & np.isfinite(other.values)
        its, theirs = one.values[both], other.values[both]
        if np.any(np.abs(its - theirs) > 1e-6) or len(its) < _ENOUGH or np.ptp(its) < _MOVES:
            continue
        changes = int(np.count_nonzero(np.diff(its)))
        if len(pairs) * _SAME_DIGIT**changes < _CHANCE:
            how = f"change in {changes} rows, each time together and to the same digit"
            found.append(_copy(signals, one, other, how))
    return found


def _each_others(one: Chain, other: Chain) -> bool:
    """Whether one is the other to the last digit, but for level and scale."""
    known = np.isfinite(one.values) & np.isfinite(other.values)
    its, theirs = one.values[known], other.values[known]
    scale, level = np.polyfit(theirs, its, 1)
    off = np.percentile(its - level - scale * theirs, (50 - _NEARLY / 2, 50 + _NEARLY / 2))
    digit = max(one.resolution, abs(scale) * other.resolution)
    return bool(off[1] - off[0] <= _WITHIN * digit)


def _copy(signals: Signals, one: Chain, other: Chain, how: str) -> Fault:
    off = float(np.nanmedian(other.values - one.values))
    by = "" if abs(off) < one.resolution / 2 else f", {signals.kelvin(abs(off))} apart"
    sentence = f"{one.tag} and {other.tag} {how}{by}: one is a copy"
    about, beside = (one, other) if one.required or not other.required else (other, one)
    end = signals.record.end
    return Fault(COPIED.name, about.tag, (beside.tag,), 0.0, end, sentence, HIGH, KEPT)


def _turns(signals: Signals, chains: list[Chain], enough: float) -> Floats:
    """How often each rises and falls in turn, as noise makes it and no computed course does; for
    those that do more than `enough`, so often at the least."""
    steps = signals.rows(signals.matrix.steps, chains)
    # A part of the rows tells of many, all of them of nearly all; a ramp hardly turns.
    turns = _turns_at_once(steps[:, : max(_ENOUGH, steps.shape[1] // _PARTS)])
    few = turns < enough
    if few.any():
        turns[few] = _turns_at_once(steps[few])
    for at in np.flatnonzero(turns < enough).tolist():
        turns[at] = _turned(chains[at].values)
    return turns


def _turns_at_once(steps: Floats) -> Floats:
    """How often each turns from a row to the next [.., rows]. Not all: between the two it may
    have stood still."""
    turns = np.count_nonzero(steps[..., 1:] * steps[..., :-1] < 0, axis=-1)
    return np.asarray(turns, dtype=np.float64)


def _turned(values: Floats) -> int:
    steps = np.diff(values[np.isfinite(values)])
    steps = np.sign(steps[steps != 0])
    return int(np.count_nonzero(steps[1:] != steps[:-1]))


def _usable(chain: Chain) -> bool:
    return int(np.isfinite(chain.values).sum()) >= _ENOUGH
