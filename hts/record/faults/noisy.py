"""Readings that jump to and fro, far more than those of the others: voltage of the mains gets into
them, or the junction touches a heater that is switched on and off."""

from __future__ import annotations

import numpy as np

from hts.record.faults.fault import Fault, Spell, fault
from hts.record.faults.fault_kinds import COARSE, HIGH, LEFT_OUT, MEDIUM, NEAR_HEATER, PICK_UP
from hts.record.faults.matrix import middle
from hts.record.faults.signals import Chain, Mask, Signals, runs
from hts.record.faults.stack import Stack, in_any
from hts.record.record import Floats

#: K, and times the noise of the others, from which noise is not that of a sound chain. Basis:
#: practice, no source: recorders average over a period of the mains, and show less than 1 K.
_LEAST, _TIMES = 2.5, 5.0
#: K above which there is no doubt. Basis: practice, ours.
_CLEAR = 5.0
#: Rows of a block that noise is measured in, and the rows that make a fault of it.
#: Basis: practice, ours.
_BLOCK, _ENOUGH = 20, 40
#: K, and times what it jumps by, that one at a heater reads above the others meanwhile, and K that
#: no heater makes of it; blocks in which it is still, and part of the highest rise that is warm.
#: Basis: practice, no source.
_ABOVE, _TIMES_ABOVE, _FAR_ABOVE, _STILL, _WARM = 5.0, 1.5, 200.0, 3, 0.2
#: K of a bend, where the noise is at its least (derived: the variance of a bend is six times that
#: of the noise, and a normal one is beyond 1 / 1.4826 of its standard deviation half the time).
_LARGE = _LEAST * np.sqrt(6) / 1.4826


def pick_up(signals: Signals) -> list[Fault]:
    """One fault for each thermocouple with a noise that is not its part's."""
    # A bend is two steps at the most.
    if not np.any(2 * signals.matrix.largest_steps >= _LARGE):
        return []
    if not np.any(_may_be_loud(signals.matrix.bends)):
        return []
    told = {one.tag for one in signals.found if one.kind == COARSE.name}
    noises = {tag: _noise(one.values) for tag, one in signals.chains.items() if tag not in told}
    quiet = [float(np.nanmedian(one)) for one in noises.values() if np.isfinite(one).any()]
    if not quiet:
        return []
    usual = float(np.median(quiet))
    found = []
    for tag, noise in noises.items():
        with np.errstate(invalid="ignore"):
            loud = noise > max(_LEAST, _TIMES * usual)
        blocks = runs(loud)
        if sum(last - first + 1 for first, last in blocks) * _BLOCK < _ENOUGH:
            continue
        times, last_row = signals.elapsed, len(signals.elapsed) - 1
        spells = tuple(
            Spell(float(times[a * _BLOCK]), float(times[min((b + 1) * _BLOCK, last_row)]))
            for a, b in blocks
        )
        typical = float(np.nanmedian(noise[loud]))
        sentence = (
            f"jumps to and fro by {signals.kelvin(2 * typical)}, the others by "
            f"{signals.words.difference(2 * usual, places=1)}"
        )
        kind, confidence = PICK_UP, HIGH if typical >= _CLEAR else MEDIUM
        above = _above_while_loud(signals, signals.chains[tag], loud)
        if max(_ABOVE, _TIMES_ABOVE * typical) <= above <= _FAR_ABOVE:
            kind, confidence = NEAR_HEATER, MEDIUM
            sentence += (
                f", and reads {signals.kelvin(above)} more than they do meanwhile, which goes when "
                "the heaters are off"
            )
        found.append(
            fault(
                kind, tag, spells[0].start, spells[-1].end, sentence, confidence, LEFT_OUT,
                spells,
            )
        )  # fmt: skip
    return found


def _above_while_loud(signals: Signals, chain: Chain, loud: Mask) -> float:
    """K that it reads more beside the others while it jumps than while it is still on a part that
    is yet warm; 0 where it is never still then. Voltage of the mains goes to and fro, and a heater
    is always hotter than the metal."""
    if not chain.on_part:
        return 0.0
    true = np.interp(signals.elapsed, signals.elapsed[signals.coarse], signals.reference(chain.tag))
    rows = slice(0, len(loud) * _BLOCK)
    beside = middle((chain.values - true)[rows].reshape(-1, _BLOCK).T)
    rise = middle(true[rows].reshape(-1, _BLOCK).T) - signals.air()
    with np.errstate(invalid="ignore"):
        still = ~loud & (rise >= _WARM * np.nanmax(rise))
    if np.count_nonzero(still & np.isfinite(beside)) < _STILL:
        return 0.0
    return float(np.nanmedian(beside[loud]) - np.nanmedian(beside[still]))


def _may_be_loud(bends: Floats) -> Mask:
    """Whether there are bends [chains, rows] enough for the rows of a fault, half of those of each
    block as large as its median must be: without them no noise need be measured."""
    with np.errstate(invalid="ignore"):
        large = np.abs(bends) > _LARGE
    # A block counts from half its rows on, and half of those are above the median.
    enough = _ENOUGH // _BLOCK * (_BLOCK // 4)
    return np.asarray(np.count_nonzero(large, axis=1) >= enough)


def may_pick_up(stack: Stack) -> Mask:
    """Those in which one may be loud."""
    found = stack.largest_bends > _LARGE
    found[found] = _may_be_loud(stack.bends[found])
    return in_any(found)


def _noise(values: Floats) -> Floats:
    """K, the standard deviation of the noise in each block of rows [blocks], NaN where unknown.

    By the median of the bends: a spike or a step is none of it."""
    count = max(1, (len(values) - 2) // _BLOCK)
    bends = np.abs(np.diff(values, 2))[: count * _BLOCK]
    if len(bends) < count * _BLOCK:
        return np.full(1, np.nan)
    blocks = bends.reshape(count, _BLOCK)
    finite = np.isfinite(blocks)
    if finite.all():
        return np.asarray(1.4826 * np.median(blocks, axis=1) / np.sqrt(6), dtype=np.float64)
    known = finite.sum(axis=1) * 2 > _BLOCK
    found = np.full(count, np.nan)
    if known.any():
        found[known] = 1.4826 * np.nanmedian(blocks[known], axis=1) / np.sqrt(6)
    return found
