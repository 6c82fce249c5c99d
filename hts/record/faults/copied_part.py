"""A column that is a copy of another for a part of the run: a channel that was bridged to its
neighbour when it failed, a file that was filled up afterwards."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from hts.record.faults.fault import Fault, Spell
from hts.record.faults.fault_kinds import COPIED, HIGH, KEPT
from hts.record.faults.signals import Chain, Mask, Rows, Signals, ends_of_runs
from hts.record.faults.stack import Stack, in_any
from hts.record.record import REPLACED, Floats

#: Rows of a block; what is alike for twice as long has a whole one. Basis: practice, ours.
_BLOCK = 10
#: Steps that are counted at once, for so few stay where they are quickly had.
_AT_ONCE = 400 * _BLOCK
#: What the steps of a block are weighted by. Basis: practice, ours.
_WEIGHTS = np.random.RandomState(1).randint(1, 2**20, _BLOCK).astype(np.float64)
#: K. Steps are told apart by this. Basis: practice, ours.
_STEP = 1e-4
#: How likely it may be by chance, in a whole record. Basis: practice, ours.
_CHANCE = 1e-4
#: Least and most likely that two that are no copies change by the same, where one changes at all;
#: the most is that of places side by side in whole degrees. Basis: practice, ours.
_SELDOM, _OFTEN = 0.3, 0.95
#: s it lasts at the least, and times it turns from rising to falling or back: what has no noise, as
#: a computed course, goes on like any other. Basis: practice, ours.
_LASTS, _TURNS = 600.0, 10
#: Rows that tell how often they do by chance, and turns that do.
_ENOUGH, _TURNED = 60, 30


def copied_for_a_time(signals: Signals) -> list[Fault]:
    """Pairs that go on by the same, to the last digit, for longer than chance makes."""
    told = {frozenset((one.tag, *one.others)) for one in signals.found if one.kind == COPIED.name}
    chains = [one for one in signals.chains.values() if not signals.faulty(one.tag)]
    blocks = (len(signals.elapsed) - 1) // _BLOCK
    if len(chains) < 2 or blocks < 2:
        return []
    steps = signals.rows(signals.matrix.steps, chains)
    # Blocks are alike where a sum of their steps with odd weights is, hardly ever otherwise; and
    # one without a change tells nothing. Whole numbers below 2^53, so the floats are exact.
    ends = range(0, blocks * _BLOCK, _AT_ONCE)
    sums = np.concatenate(
        [_sums(steps[:, at : min(at + _AT_ONCE, blocks * _BLOCK)]) for at in ends], axis=1
    )
    counts: Floats | None = None
    found: list[Fault] = []
    for i, j, mine in _alike(sums):
        one, other = chains[i], chains[j]
        if frozenset((one.tag, other.tag)) in told or _stands_in(signals, one, other):
            continue
        # Blocks alike one after the other, and the rows beside them, last long enough together.
        if not np.any(_at_most(signals, *ends_of_runs(sums[i] == sums[j])) >= _LASTS):
            continue
        counts = _counts(steps) if counts is None else counts
        same = (counts[i] == counts[j]) & np.isfinite(steps[i]) & np.isfinite(steps[j])
        spells = _spells(signals, same, counts[i], mine, len(chains))
        if spells:
            found.append(_copy(signals, one, other, spells))
    return found


def may_be_copied_for_a_time(stack: Stack) -> Mask:
    """Those in which a block of two is alike."""
    steps = stack.steps
    blocks = steps.shape[2] // _BLOCK
    sums = np.stack([_sums(its[:, : blocks * _BLOCK]) for its in steps])
    sums.sort(axis=0)
    return in_any((sums[1:] == sums[:-1]) & (sums[1:] != 0))


def _counts(steps: Floats) -> Floats:
    """Whole numbers, those that are not known as 0."""
    counts = steps / _STEP
    np.rint(counts, out=counts)
    counts[np.isnan(counts)] = 0.0
    return counts


def _sums(steps: Floats) -> Floats:
    """Of each block of some steps [chains, blocks]."""
    blocks: Floats = _counts(steps).reshape(len(steps), -1, _BLOCK)
    return np.asarray(blocks @ _WEIGHTS, dtype=np.float64)


def _alike(sums: Floats) -> Iterator[tuple[int, int, Rows]]:
    """Pairs of chains that stand beside each other in the order of a block's `sums` [chains,
    blocks] with the same one, and not 0; and the blocks of each pair."""
    by_block = np.ascontiguousarray(sums.T)
    in_order = np.sort(by_block, axis=1)
    alike = (in_order[:, 1:] == in_order[:, :-1]) & (in_order[:, 1:] != 0)
    if not alike.any():
        return
    order = np.argsort(by_block, axis=1, kind="stable")
    blocks, at = np.nonzero(alike)
    two = np.sort(np.stack((order[blocks, at], order[blocks, at + 1])), axis=0)
    pairs = two[0] * len(sums) + two[1]
    by_pair = np.lexsort((blocks, pairs))
    pairs, blocks = pairs[by_pair], blocks[by_pair]
    begins = np.flatnonzero(np.diff(pairs, prepend=-1))
    for pair, mine in zip(pairs[begins].tolist(), np.split(blocks, begins[1:]), strict=True):
        yield pair // len(sums), pair % len(sums), mine


def _at_most(signals: Signals, first: Rows, last: Rows) -> Floats:
    """s that two go on by the same at the most, where the blocks from each `first` to its `last`
    are alike and those beside them are not."""
    after = np.minimum((last + 2) * _BLOCK, len(signals.elapsed) - 1)
    return signals.elapsed[after] - signals.elapsed[np.maximum(0, (first - 1) * _BLOCK)]


def _spells(signals: Signals, same: Mask, steps: Floats, blocks: Rows, chains: int) -> list[Spell]:
    """When two are alike for longer than chance makes; `steps` are those of one, and `same` tells
    whether the other makes them, too. `blocks` are those that may be alike, in order."""
    changes = steps != 0
    turns = _turns(steps)
    spells: list[Spell] = []
    starts = blocks * _BLOCK
    firsts, lasts = ends_of_runs(same, _BLOCK)
    long = signals.elapsed[lasts + 1] - signals.elapsed[firsts] >= _LASTS
    for first, after in zip(firsts[long].tolist(), (lasts[long] + 1).tolist(), strict=True):
        inside = int(np.searchsorted(starts, first))
        if inside == len(starts) or starts[inside] + _BLOCK > after:
            continue
        ways = np.sign(steps[first:after][changes[first:after]])
        if np.count_nonzero(np.diff(ways)) < _TURNS:
            continue
        # In a ramp both change all the time; where one turns it is noise, in coarse digits as well.
        likely = min(
            _likely(some, same, slice(first, after), enough)
            for some, enough in ((changes, _ENOUGH), (turns, _TURNED))
        )
        if likely + np.log(len(same) * chains**2) < np.log(_CHANCE):
            spells.append(Spell(float(signals.elapsed[first]), float(signals.elapsed[after])))
    return spells


def _turns(steps: Floats) -> Mask:
    """In which rows one goes down that went up before, or up that went down."""
    moved = np.flatnonzero(steps)
    turned = np.zeros(len(steps), dtype=np.bool_)
    turned[moved[1:][steps[moved[1:]] * steps[moved[:-1]] < 0]] = True
    return turned


def _likely(some: Mask, same: Mask, rows: slice, enough: int) -> float:
    """Log of how likely it is by chance that the other does as one in `some` of these rows, by how
    often it does in such rows elsewhere."""
    outside = some.copy()
    outside[rows] = False
    by_chance = float(np.mean(same[outside])) if outside.sum() >= enough else _OFTEN
    return float(np.count_nonzero(some[rows]) * np.log(np.clip(1.5 * by_chance, _SELDOM, _OFTEN)))


def _stands_in(signals: Signals, one: Chain, other: Chain) -> bool:
    """Whether one was noted to stand in for the other: then both channels may be its."""
    pair = {one.tag, other.tag}
    return any(e.kind == REPLACED and {e.tag, e.by} == pair for e in signals.record.events)


def _copy(signals: Signals, one: Chain, other: Chain, spells: list[Spell]) -> Fault:
    clock = signals.record.clock
    longest = max(spells, key=lambda spell: spell.end - spell.start)
    sentence = (
        f"{one.tag} and {other.tag} go on by the same, to the last digit, from "
        f"{clock(longest.start)} to {clock(longest.end)}, and do not at other times: one is a copy"
    )
    about, beside = (one, other) if one.required or not other.required else (other, one)
    return Fault(
        COPIED.name, about.tag, (beside.tag,), spells[0].start, spells[-1].end, sentence, HIGH,
        KEPT, tuple(spells),
    )  # fmt: skip
