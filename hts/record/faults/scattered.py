"""Readings that for a time scatter far more than the same channel does before and after: written
over by hand or by a program, or something gets into them.

The noise of a channel comes of its wire, its input and its filter, and those stay as they are. What
control does to the metal is none of it: that goes on from row to row, as a course does, and noise
does not. Where all scatter so in the very same rows, they are held against the rows before: an
outage is hidden by rows that stand there already, a digit more or less on each.
"""

from __future__ import annotations

import numpy as np

from hts.record.faults.by_changes import by_changes
from hts.record.faults.fault import Fault, Spell, fault_of_all
from hts.record.faults.fault_kinds import REPEATED
from hts.record.faults.matrix import spread
from hts.record.faults.noise import noises
from hts.record.faults.signals import Chain, Mask, Signals
from hts.record.faults.stack import Stack, in_any
from hts.record.faults.written_over import written_over
from hts.record.judging.words import time
from hts.record.record import Floats

#: Last digits, and times what bends of its noise measure, from which a bend is wild. Noise smaller
#: than its last digit goes to and fro by one: a bend of two digits. Basis: derived; practice, ours.
_DIGITS, _TIMES = 2.5, 4.0
#: Wild bends of a stretch, rows between two of them, rows and s from the first to the last, and the
#: part of them that is wild. Basis: practice, ours.
_WILD, _APART, _ROWS, _LASTS, _PART = 8, 40, 16, 240.0, 0.08
#: Times that, that the wildest bend of a stretch is at the least. One just wild comes by chance in
#: every fifth sound record (derived).
_WILDEST = 1.25
#: Rows before and after that must be known, of how many, and times that they have fewer of such
#: bends. Basis: practice, ours.
_BESIDE, _KNOWN, _FEWER = 120, 30, 8.0
#: Part of its noise by bends that it has by bends of bends: all where every reading scatters by
#: itself, little where a course goes to and fro (derived); rows of which every other one
#: tells that as well. Basis: practice, ours.
_BY_ITSELF, _MANY = 0.8, 200
#: Rows that the blocks of the noise have, and the percentile of them that is its own where it is
#: not written over. Basis: practice, ours.
_BLOCK, _OWN = 20, 30
#: K off the others, three times in four: what is written over is to look right, and what leaks or
#: comes off the metal reads so and scatters as well. Basis: practice, no source.
_FARTHEST = 60.0
#: Part of the chains that scatter in the same rows, and rows they may begin and end apart.
#: Basis: practice, ours.
_MOST, _EDGES = 0.6, 30
#: Times the noise of the stretch that readings may lie off the rows before that they were made of:
#: of noise alone one in ten lies farther off (derived). Basis: practice, ours.
_OFF = 1.6


def scattered(signals: Signals) -> list[Fault]:
    """One fault for each thermocouple with such stretches, or one for all."""
    found: dict[str, list[tuple[int, int]]] = {}
    for chain in _looked_at(signals):
        stretches = [one for one in _stretches(signals, chain) if _is_near(signals, chain, one)]
        if stretches and not by_changes(chain):
            found[chain.tag] = stretches
    again = _rows_again(signals, list(found.values()))
    if again is not None:
        return [again]
    return [_fault(signals, signals.chains[tag], its) for tag, its in found.items()]


def may_scatter(stack: Stack) -> Mask:
    """Those in which one that is held has a bend that is wild."""
    held = stack.rows(one.held for one in stack.chains)
    wild = _wild(stack.digits[held], stack.noise[held])
    return in_any(stack.largest_bends[held] > _WILDEST * wild)


def _looked_at(signals: Signals) -> list[Chain]:
    held = [one for one in signals.chains.values() if one.held and one.resolution]
    held = [one for one in held if not signals.explained(one.tag)]
    if signals.arc_heats or not held or signals.matrix.bends.shape[1] < _ROWS:
        return []
    wild = _wild(np.array([one.resolution for one in held]), noises(signals, held))
    bends = np.abs(signals.rows(signals.matrix.bends, held))
    with np.errstate(invalid="ignore"):
        may = np.any(bends > _WILDEST * wild[:, None], axis=1)
    return [held[at] for at in np.flatnonzero(may).tolist()]


def _wild(digits: Floats, noise: Floats) -> Floats:
    """K, from which a bend is."""
    return np.asarray(np.maximum(_DIGITS * digits, _TIMES * np.sqrt(6) * noise))


def _stretches(signals: Signals, chain: Chain) -> list[tuple[int, int]]:
    bends = np.abs(signals.matrix.bends[chain.row])
    with np.errstate(invalid="ignore"):
        wild = bends > _wild(np.array(chain.resolution), np.array(_own_noise(bends)))
    rows = np.flatnonzero(wild)
    if len(rows) < _WILD:
        return []
    breaks = np.flatnonzero(np.diff(rows) > _APART)
    firsts, lasts = rows[np.append(0, breaks + 1)], rows[np.append(breaks, len(rows) - 1)]
    found = []
    for first, last in zip(firsts.tolist(), lasts.tolist(), strict=True):
        count, length = int(np.count_nonzero(wild[first : last + 1])), last - first + 1
        lasts_s = float(signals.elapsed[last + 1] - signals.elapsed[first + 1])
        if (
            count >= max(_WILD, _PART * length)
            and length >= _ROWS
            and lasts_s >= _LASTS
            and all(
                len(side) >= _KNOWN and np.mean(side) * _FEWER <= count / length
                for side in (
                    wild[max(0, first - 2 - _BESIDE) : max(0, first - 2)],
                    wild[last + 3 : last + 3 + _BESIDE],
                )
            )
            and _by_itself(chain.values[first : last + 3])
        ):
            found.append((first + 1, last + 1))
    return found


def _is_near(signals: Signals, chain: Chain, stretch: tuple[int, int]) -> bool:
    """Whether it reads then about as the others do."""
    rows = (signals.coarse >= stretch[0]) & (signals.coarse <= stretch[1])
    off = np.abs(signals.sampled(chain) - signals.reference(chain.tag))[rows]
    off = off[np.isfinite(off)]
    return not len(off) or float(np.percentile(off, 75)) <= _FARTHEST


def _own_noise(bends: Floats) -> float:
    """K, the noise of most of its blocks."""
    count = len(bends) // _BLOCK
    blocks = bends[: count * _BLOCK].reshape(count, _BLOCK)
    blocks = blocks[np.isfinite(blocks).all(axis=1)]
    if not len(blocks):
        return spread(bends[np.isfinite(bends)], 0.0)
    noise = np.sqrt(np.mean(np.square(blocks), axis=1) / 6)
    return float(np.percentile(noise, _OWN))


def _by_itself(values: Floats) -> bool:
    """Whether each reading scatters by itself, or every other one of many: rows may be read more
    often than what was written over them (the variance of a fourth difference of noise is seventy
    times its own, that of a second one six times)."""
    every_other = (values[::2], values[1::2]) if len(values) >= _MANY else ()
    return any(_part_by_itself(its) >= _BY_ITSELF for its in (values, *every_other))


def _part_by_itself(values: Floats) -> float:
    by_two = float(np.nanmean(np.square(np.diff(values, 2)))) / 6
    by_four = float(np.nanmean(np.square(np.diff(values, 4)))) / 70
    return float(np.sqrt(by_four / max(by_two, 1e-12)))


def _rows_again(signals: Signals, stretches: list[list[tuple[int, int]]]) -> Fault | None:
    """The fault of all where they scatter in the same rows, and these are others, a little more or
    less on each."""
    held = [one for one in signals.chains.values() if one.held and not signals.faulty(one.tag)]
    if len(stretches) < max(2.0, _MOST * len(held)):
        return None
    firsts, lasts = (
        np.array([pick(its, key=lambda one: one[1] - one[0])[side] for its in stretches])
        for pick, side in ((max, 0), (max, 1))
    )
    first, last = int(np.median(firsts)), int(np.median(lasts))
    if np.mean((np.abs(firsts - first) <= _EDGES) & (np.abs(lasts - last) <= _EDGES)) < _MOST:
        return None
    # A bend reaches a row farther either way.
    first, last = first + 2, last - 2
    values = signals.rows(signals.matrix.values, held)
    part = values[:, first : last + 1]
    noise = np.sqrt(np.mean(np.square(np.diff(part, 2)), axis=1) / 6)
    for begin in range(first - 1 - (last - first), -1, -1):
        off = np.abs(values[:, begin : begin + last - first + 1] - part).max(axis=1)
        if np.mean(off <= _OFF * noise) >= _MOST:
            times = signals.elapsed
            ago = time(float(times[first] - times[begin]))
            said = (
                f"the rows of {time(float(times[last] - times[first]))} are those of {ago} before, "
                f"each reading a little more or less"
            )
            return fault_of_all(REPEATED, said, [Spell(float(times[first]), float(times[last]))])
    return None


def _fault(signals: Signals, chain: Chain, stretches: list[tuple[int, int]]) -> Fault:
    times, words = signals.elapsed, signals.words
    spells = tuple(Spell(float(times[first]), float(times[last])) for first, last in stretches)
    bends = np.abs(signals.matrix.bends[chain.row])
    first, last = max(stretches, key=lambda one: one[1] - one[0])
    inside = bends[first - 1 : last]
    now = spread(inside[np.isfinite(inside)], float(inside.max()))
    lasts = sum(spell.end - spell.start for spell in spells)
    sentence = (
        f"for {time(lasts)} goes to and fro by {words.difference(2 * now, places=1)} from row to "
        f"row, before and after by {words.difference(2 * _own_noise(bends), places=1)}"
    )
    return written_over(chain, sentence, spells)
