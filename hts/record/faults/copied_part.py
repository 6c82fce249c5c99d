"""A column that is a copy of another for a part of the run: a channel that was bridged to its
neighbour when it failed, a file that was filled up afterwards."""

from __future__ import annotations

import numpy as np

from hts.record.faults.fault import Fault, Spell
from hts.record.faults.fault_kinds import COPIED, HIGH, KEPT
from hts.record.faults.signals import Chain, Mask, Rows, Signals
from hts.record.record import REPLACED

#: Rows of a block; what is alike for twice as long has a whole one. Basis: practice, ours.
_BLOCK = 10
#: K. Steps are told apart by this.
_STEP = 1e-4
#: How likely it may be by chance, in a whole record. Basis: practice, ours.
_CHANCE = 1e-4
#: Least and most likely that two that are no copies change by the same, where one changes at all;
#: the most is that of places side by side in whole degrees. Basis: practice, ours.
_SELDOM, _OFTEN = 0.3, 0.95
#: s it lasts at the least, and times it turns from rising to falling or back: what has no noise, as
#: a computed course, goes on like any other. Basis: practice, ours.
_LASTS, _TURNS = 600.0, 10
#: Rows that tell how often they do by chance.
_ENOUGH = 60


def copied_for_a_time(signals: Signals) -> list[Fault]:
    """Pairs that go on by the same, to the last digit, for longer than chance makes."""
    told = {frozenset((one.tag, *one.others)) for one in signals.found if one.kind == COPIED.name}
    chains = [one for one in signals.chains.values() if not signals.faulty(one.tag)]
    blocks = (len(signals.elapsed) - 1) // _BLOCK
    if len(chains) < 2 or blocks < 2:
        return []
    steps = np.diff(np.array([one.values for one in chains]), axis=1)
    counts = np.rint(np.nan_to_num(steps, nan=0.0) / _STEP).astype(np.int64)
    # Blocks are alike where a sum of their steps with odd weights is, hardly ever otherwise; and
    # one without a change tells nothing.
    weights = np.random.RandomState(1).randint(1, 2**20, _BLOCK)
    parts = counts[:, : blocks * _BLOCK].reshape(len(chains), blocks, _BLOCK)
    sums = parts @ weights
    order = np.argsort(sums, axis=0, kind="stable")
    sorted_sums = np.take_along_axis(sums, order, axis=0)
    alike = (sorted_sums[1:] == sorted_sums[:-1]) & (sorted_sums[1:] != 0)
    hits = np.argwhere(alike)
    if not len(hits):
        return []
    pairs = {
        (min(a, b), max(a, b), int(block))
        for at, block in hits.tolist()
        for a, b in [(int(order[at, block]), int(order[at + 1, block]))]
    }
    found: list[Fault] = []
    known = np.isfinite(steps)
    for i, j in dict.fromkeys((a, b) for a, b, _ in sorted(pairs)):
        one, other = chains[i], chains[j]
        if frozenset((one.tag, other.tag)) in told or _stands_in(signals, one, other):
            continue
        same = (counts[i] == counts[j]) & known[i] & known[j]
        mine = sorted(block for a, b, block in pairs if (a, b) == (i, j))
        spells = _spells(signals, same, counts[i], mine, len(chains))
        if spells:
            found.append(_copy(signals, one, other, spells))
    return found


def _spells(
    signals: Signals, same: Mask, steps: Rows, blocks: list[int], chains: int
) -> list[Spell]:
    """When two are alike for longer than chance makes; `steps` are those of one, and `same` tells
    whether the other makes them, too."""
    changes = steps != 0
    spells: list[Spell] = []
    after = -1
    for block in blocks:
        middle = block * _BLOCK
        if middle < after or not same[middle : middle + _BLOCK].all():
            continue
        differ = np.flatnonzero(~same)
        at = int(np.searchsorted(differ, middle))
        first = int(differ[at - 1]) + 1 if at else 0
        after = int(differ[at]) if at < len(differ) else len(same)
        lasts = float(signals.elapsed[after] - signals.elapsed[first])
        ways = np.sign(steps[first:after][changes[first:after]])
        if lasts < _LASTS or np.count_nonzero(np.diff(ways)) < _TURNS:
            continue
        outside = changes.copy()
        outside[first:after] = False
        by_chance = float(np.mean(same[outside])) if outside.sum() >= _ENOUGH else _OFTEN
        likely = np.count_nonzero(changes[first:after]) * np.log(
            np.clip(1.5 * by_chance, _SELDOM, _OFTEN)
        )
        if likely + np.log(len(same) * chains**2) < np.log(_CHANCE):
            spells.append(Spell(float(signals.elapsed[first]), float(signals.elapsed[after])))
    return spells


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
