"""Readings that were not measured: a recorder that hangs, rows repeated, columns copied.

All go by noise. The noise of two thermocouples is never the same, nor that of one at two times; a
record without any, as a computed one, tells nothing of that and is left alone.
"""

from __future__ import annotations

from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from hts.record.faults.fault import Fault, Spell
from hts.record.faults.fault_kinds import COPIED, FROZEN, HIGH, KEPT, LEFT_OUT, REPEATED
from hts.record.faults.signals import Chain, Mask, Rows, Signals, runs
from hts.record.faults.worked_out import worked_out
from hts.record.judging.words import time
from hts.record.record import Floats

#: Standard deviation of the noise over the last digit from which a chain cannot stand still for
#: long. Rounding a smooth course makes 0.29 (derived).
_LIVELY = 0.45
#: Rows that all chains must stand still for, and how likely that may be by chance in a whole
#: record. Basis: practice, no source.
_STILL, _CHANCE = 5, 1e-3
#: Least likelihood that all chains show the same in two rows that is counted with.
#: Basis: practice, ours.
_SELDOM = 0.02
#: Last digits by which most chains jump when a recorder that hung goes on. Basis: practice, ours.
_JUMP = 5.0
#: K, K/h and share of rows: what is at the same level, held, and alive there. Basis: practice.
_BESIDE, _LEVEL, _SOMETIMES = 8.0, 30.0, 0.8
#: s. What is to pass for hung by its length alone, four times that of any other. Basis: practice.
_HUNG = 600.0
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
#: s. In less than that metal that is kept stands still for a recorder of tenths. Basis: practice,
#: and an open log of a fire test, read each second (tests/record/open_logs), before it is lit.
_SHORT = 60.0
#: Rows that must repeat one after the other. Basis: practice, ours.
_BLOCK = 10
#: Correlation of the noise of two chains from which it is one and the same noise; that of two
#: sound ones is 0 to within 0.1 in a thousand rows (derived: 1 / sqrt(rows)).
_SAME_NOISE = 0.97
#: Standard deviations at which a bend is cut off: steps that all share are no noise.
#: Basis: practice, ours.
_CUT = 4.0
#: Rows it takes to tell, and those looked at first. Basis: practice, ours.
_ENOUGH, _FIRST = 60, 160


def frozen(signals: Signals) -> list[Fault]:
    """Times in which every reading repeats itself: the recorder or its link hung."""
    values = _matrix(signals)
    if values is None:
        return []
    same = _same_as_before(values)
    stretches = runs(same, _STILL)
    if not stretches:
        return []
    long = np.zeros(len(same), dtype=bool)
    for first, last in stretches:
        long[first : last + 1] = True
    lively = _lively(signals, long)
    chance = max(_SELDOM, float(np.mean(same[~long])) if (~long).any() else 1.0)
    least = max(_SHORT, signals.record.interval * 3)
    spells = []
    for first, last in stretches:
        count = last - first + 1
        second = max((b - a + 1 for a, b in stretches if a != first), default=1)
        start, end = float(signals.elapsed[first]), float(signals.elapsed[last + 1])
        if end - start <= least:
            continue
        by_chance = chance**count * len(same)
        if (
            (lively and by_chance < _CHANCE)
            or (
                end - start >= _HUNG
                and 4 * second <= count
                and _alive_beside(signals, values, same, long, first)
            )
            or _jumps(signals, values, last + 1)
        ):
            spells.append(Spell(float(signals.elapsed[first + 1]), end))
    if not spells:
        return []
    lost = sum(spell.end - spell.start for spell in spells)
    said = f"all {len(values)} thermocouples repeat their readings for {time(lost)}"
    if len(spells) > 1:
        said += f", in {len(spells)} stretches"
    return [
        Fault(
            FROZEN.name, "", (), spells[0].start, spells[-1].end, said, HIGH, LEFT_OUT,
            tuple(spells),
        )
    ]  # fmt: skip


def _alive_beside(signals: Signals, values: Floats, same: Mask, long: Mask, first: int) -> bool:
    """Whether readings came and went at this temperature before and after, so often that they
    cannot stand still that long: for recorders of whole degrees, whose noise is in rounding."""
    middle = np.median(values, axis=0)
    reach = min(10, (len(middle) - 1) // 2)
    slope = np.abs(np.roll(middle, -reach) - np.roll(middle, reach))
    slope = slope / np.maximum(
        np.roll(signals.elapsed, -reach) - np.roll(signals.elapsed, reach), 1
    )
    beside = np.abs(middle - middle[first]) <= _BESIDE
    beside &= slope * 3600 <= _LEVEL
    steps = beside[1:] & ~long
    if np.count_nonzero(steps) < 2 * _BLOCK:
        return False
    return float(np.mean(same[steps])) < _SOMETIMES


def repeated(signals: Signals) -> list[Fault]:
    """Blocks of rows that stand in the record a second time, with other times."""
    values = _matrix(signals)
    if values is None or values.shape[0] < 2 or values.shape[1] < 3 * _BLOCK:
        return []
    if not _any_again(values):
        return []
    rows = np.ascontiguousarray(np.round(values, 4).T)
    _, number = np.unique(rows.view([("", rows.dtype)] * rows.shape[1]), return_inverse=True)
    number = number.reshape(-1)
    blocks = np.lib.stride_tricks.sliding_window_view(number, _BLOCK)
    moving = np.any(blocks != blocks[:, :1], axis=1)
    plain = np.ascontiguousarray(blocks)
    _, first, which = np.unique(
        plain.view([("", plain.dtype)] * _BLOCK), return_index=True, return_inverse=True
    )
    source = first[which.reshape(-1)]
    level = np.median(values, axis=0)
    lively = _lively(signals, np.zeros(values.shape[1] - 1, dtype=bool))
    again = moving & (np.arange(len(source)) - source >= _BLOCK)
    found = []
    for start, end in runs(again):
        last = end + _BLOCK - 1
        lasts = float(signals.elapsed[last] - signals.elapsed[start])
        if _by_chance(number, level, slice(start, last + 1)) or (not lively and lasts < _HUNG):
            continue
        one, two = (float(signals.elapsed[row]) for row in (start, last))
        began = signals.record.clock(float(signals.elapsed[source[start]]))
        said = f"{last - start + 1} rows repeat, digit for digit, those from {began} on"
        found.append(Fault(REPEATED.name, "", (), one, two, said, HIGH, LEFT_OUT))
    return found


def _any_again(values: Floats) -> bool:
    """Whether as many rows on end as make a block each stand in the record a second time; two of
    one check number may yet be unlike."""
    factors = np.arange(1, len(values) + 1, dtype=np.int64) * 0x9E3779B97F4A7C1 | 1
    number = np.zeros(values.shape[1], dtype=np.int64)
    for one, factor in zip(values, factors, strict=True):
        number += np.rint(one * 1e4).astype(np.int64) * factor
    _, which, count = np.unique(number, return_inverse=True, return_counts=True)
    return bool(runs(count[which.reshape(-1)] > 1, _BLOCK))


def _by_chance(number: Rows, level: Floats, rows: slice) -> bool:
    """Whether rows may come again by chance: by how often each does at its level, and, as one row
    hangs on the one before, as if there were half of them."""
    beside = int(np.count_nonzero(np.abs(level - np.median(level[rows])) <= _BESIDE))
    counts = np.bincount(number)[number[rows]]
    likely = 0.5 * float(np.sum(np.log(np.minimum(counts / max(beside, 1), 1.0))))
    return bool(likely + 2 * np.log(len(number)) > np.log(_CHANCE))


def copied(signals: Signals) -> list[Fault]:
    """Pairs of columns with one and the same noise: one is made of the other. And those that are
    made of several."""
    chains = [
        one for one in signals.chains.values() if _usable(one) and not signals.faulty(one.tag)
    ]
    noises = {one.tag: _noise(one) for one in chains}
    turned = {one.tag: _turned(one.values) for one in chains}
    found = _to_the_digit(signals, chains, turned)
    told = {frozenset((fault.tag, *fault.others)) for fault in found}
    least = max(_TURNS, _TURNS_SHARE * len(signals.elapsed))
    chains = [one for one in chains if noises[one.tag] > 0 and turned[one.tag] >= least]
    if len(chains) < 2:
        return found
    bends = np.array([_cut(np.diff(one.values, 2), noises[one.tag]) for one in chains])
    known = np.isfinite(bends).all(axis=0)
    bends = bends[:, known]
    if bends.shape[1] < _ENOUGH:
        return found
    bends = bends - bends.mean(axis=1, keepdims=True)
    sizes = np.sqrt(np.einsum("ij,ij->i", bends, bends))
    together = bends @ bends.T
    alike = together >= _SAME_NOISE * np.outer(sizes, sizes)
    for i, j in np.argwhere(np.triu(alike, 1)).tolist():
        one, other = chains[i], chains[j]
        if sizes[i] * sizes[j] > 0 and frozenset((one.tag, other.tag)) not in told:
            found.append(_copy(signals, one, other, "have one and the same noise"))
    doubles = {tag for fault in found for tag in fault.others}
    single = [at for at, one in enumerate(chains) if one.tag not in doubles]
    return found + worked_out(signals, [chains[at] for at in single], bends[single])


def _to_the_digit(signals: Signals, chains: list[Chain], turned: dict[str, int]) -> list[Fault]:
    """Pairs that keep one distance to the last digit while both move: two that are rounded each by
    itself do not, where there is any noise. `turned` tells how often each rises and falls in turn.
    """
    found = []
    noisy = [one for one in chains if turned[one.tag] >= _SOME]
    if any(turned[one.tag] >= _TURNS for one in noisy):
        found = _equal_throughout(signals, [one for one in chains if one not in noisy])
    chains = noisy
    steps = [np.diff(one.values) for one in chains]
    for (one, its), (other, theirs) in combinations(zip(chains, steps, strict=True), 2):
        # Each row that is off the one distance makes two unlike steps at the most; the first of
        # them tell of most pairs.
        most = 2 * (1 - _ALWAYS) * len(one.values) + 1
        for part in (slice(0, _FIRST), slice(None)):
            unlike = np.count_nonzero(np.abs(its[part] - theirs[part]) > 1e-5)
            if unlike > most:
                break
        if unlike > most:
            continue
        apart = other.values - one.values
        apart = apart[np.isfinite(apart)]
        if len(apart) < _ENOUGH or np.ptp(one.values[np.isfinite(one.values)]) < _MOVES:
            continue
        if np.mean(np.abs(apart - np.median(apart)) < 1e-6) >= _ALWAYS:
            found.append(_copy(signals, one, other, "go on by the same to the last digit"))
    return found


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


def _copy(signals: Signals, one: Chain, other: Chain, how: str) -> Fault:
    off = float(np.nanmedian(other.values - one.values))
    by = "" if abs(off) < one.resolution / 2 else f", {signals.kelvin(abs(off))} apart"
    sentence = f"{one.tag} and {other.tag} {how}{by}: one is a copy"
    about, beside = (one, other) if one.required or not other.required else (other, one)
    end = signals.record.end
    return Fault(COPIED.name, about.tag, (beside.tag,), 0.0, end, sentence, HIGH, KEPT)


def _turned(values: Floats) -> int:
    """How often it rises and falls in turn, as noise makes it and no computed course does."""
    steps = np.diff(values[np.isfinite(values)])
    steps = np.sign(steps[steps != 0])
    return int(np.count_nonzero(steps[1:] != steps[:-1]))


def _usable(chain: Chain) -> bool:
    return int(np.isfinite(chain.values).sum()) >= _ENOUGH


def _matrix(signals: Signals) -> Floats | None:
    """What every thermocouple reads, [chains, rows], blanks as 0 K; None where too little is."""
    chains = [one.values for one in signals.chains.values() if np.isfinite(one.values).any()]
    if len(chains) < 2 or len(signals.elapsed) < 2 * _STILL:
        return None
    return np.nan_to_num(np.array(chains), nan=-273.15)


def _same_as_before(values: Floats) -> Mask:
    """Whether each row after the first is as the one before."""
    same: Mask = np.all(np.abs(np.diff(values, axis=1)) < 1e-9, axis=0)
    return same


def _lively(signals: Signals, but: NDArray[np.bool_]) -> bool:
    """Whether the readings have more noise than rounding, but for the steps named."""
    shares = []
    for chain in signals.chains.values():
        if not np.isfinite(chain.values).any() or not chain.resolution:
            continue
        bends = np.diff(chain.values, 2)
        bends = bends[~(but[1:] | but[:-1]) & np.isfinite(bends)]
        if len(bends) >= _ENOUGH // 2:
            shares.append(_spread(np.abs(bends), 0.0) / chain.resolution)
    return bool(shares) and float(np.median(shares)) >= _LIVELY


def _noise(chain: Chain) -> float:
    """K, the standard deviation of the noise, from the bends; wild ones are cut off."""
    bends = np.abs(np.diff(chain.values, 2))
    return _spread(bends[np.isfinite(bends)], 3 * chain.resolution)


def _spread(bends: Floats, least: float) -> float:
    """The same of bends, those cut off that are larger than `least` K and than all but a few."""
    if not len(bends):
        return 0.0
    # The variance of a second difference of noise is six times its own.
    most = max(least, _CUT * 1.4826 * float(np.median(bends)))
    return float(np.sqrt(np.mean(np.minimum(bends, most) ** 2) / 6))


def _cut(bends: Floats, noise: float) -> Floats:
    most = _CUT * noise * np.sqrt(6)
    return np.asarray(np.clip(bends, -most, most), dtype=np.float64)


def _jumps(signals: Signals, values: Floats, row: int) -> bool:
    """Whether most chains jump from a row to the next, as none does elsewhere."""
    if row + 1 >= values.shape[1]:
        return False
    steps = np.abs(np.diff(values, axis=1))
    usual = np.percentile(steps, 95, axis=1)
    digits = np.array(
        [one.resolution for one in signals.chains.values() if np.isfinite(one.values).any()]
    )
    jumped = steps[:, row] > np.maximum(_JUMP * digits, _JUMP * usual)
    return bool(jumped.mean() > 0.5)
