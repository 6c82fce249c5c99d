"""A thermocouple that steps by some kelvin at once and stays there, while no other does."""

from __future__ import annotations

import numpy as np

from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import EXTENSION_REVERSED, KEPT, LEFT_OUT, MEDIUM, OFFSET
from hts.record.faults.matrix import middle
from hts.record.faults.signals import Chain, Mask, Signals
from hts.record.faults.stack import Stack, in_any
from hts.record.plan import SPARE
from hts.record.record import Floats

#: K that a step is at the least and at the most: less is an error sound chains have, more another
#: place or an open circuit. Basis: practice, no source.
_LEAST, _MOST = 7.0, 45.0
#: K, and share of the rise, that an extension reversed in the run costs at the most (derived); K of
#: rise from which a share tells; part of its unevenness that a share may have beside one amount.
#: Basis: practice, ours.
_MOST_JOINED, _MOST_SHARE, _WARM, _EVENER = 160.0, 0.25, 60.0, 0.6
#: Part of a loss that lasts, and of the time after it. Basis: practice, ours.
_STAYS, _MOSTLY = 0.5, 0.9
#: Times the usual step from row to row, and part of it that must last. Basis: practice, ours.
_TIMES, _LASTS = 8.0, 0.7
#: Rows either side whose level is compared, and Intervals between rows that count.
#: Basis: practice, ours.
_ROWS, _REGULAR = 12, 1.5


def steps(signals: Signals) -> list[Fault]:
    """One fault for each required thermocouple, or spare of one, that stepped."""
    chains = [one for one in signals.chains.values() if one.on_part and one.watched is not None]
    chains = [one for one in chains if not signals.faulty(one.tag)]
    if len(chains) < 3:
        return []
    # What goes by less than all could go against it has no step.
    if 2 * np.max(signals.matrix.largest_steps) < _LEAST:
        return []
    changes = {one.tag: signals.matrix.steps[one.row] for one in chains}
    most = np.fmax.reduce([np.abs(one) for one in changes.values()])
    found = []
    for chain in chains:
        if not chain.held or signals.explained(chain.tag):
            continue
        others = np.array([changes[one.tag] for one in chains if one is not chain])
        rows = np.flatnonzero(np.abs(changes[chain.tag]) + most >= _LEAST)
        own = changes[chain.tag][rows] - middle(others[:, rows])
        if not np.any(np.abs(own) >= _LEAST):
            continue
        fault = _of(signals, chain, changes[chain.tag], others)
        if fault is not None:
            found.append(fault)
    return found


def may_step(stack: Stack) -> Mask:
    """Those in which one goes by so much that it steps where all go against it."""
    return in_any(2 * stack.largest_steps >= _LEAST)


def _of(signals: Signals, chain: Chain, change: Floats, others: Floats) -> Fault | None:
    beside_all = middle(others)
    own = change - beside_all
    usual = float(np.nanpercentile(np.abs(own), 90)) if np.isfinite(own).any() else 0.0
    large = np.flatnonzero(np.abs(own) >= max(_LEAST, _TIMES * usual))
    for row in large.tolist():
        if not _ROWS <= row < len(change) - _ROWS:
            continue
        span = np.diff(signals.elapsed[row - 1 : row + 3])
        if np.any(span > _REGULAR * signals.record.interval):
            continue
        beside = np.abs(others[:, row])
        if np.isfinite(beside).any() and float(np.nanmax(beside)) > 0.5 * abs(own[row]):
            continue
        # How it goes on beside the others: what comes back at once is a spike.
        rest = np.nancumsum(own[row - _ROWS : row + _ROWS + 1])
        level = float(np.median(rest[_ROWS:]) - np.median(rest[:_ROWS]))
        joined = _as_joined_again(signals, chain, row, level)
        if not _LEAST <= abs(level) <= (_MOST_JOINED if joined else _MOST):
            continue
        if abs(level) < _LASTS * abs(own[row]):
            continue
        since = float(signals.elapsed[row + 1])
        sentence = (
            f"steps {'up' if level > 0 else 'down'} by {signals.kelvin(abs(level))} at once at "
            f"{signals.record.clock(since)}, and no other does"
        )
        assert chain.watched is not None
        spare = chain.watched.duty == SPARE
        others_of = (chain.watched.spare_of,) if spare else ()
        treatment, end = KEPT if spare else LEFT_OUT, signals.record.end
        kind = OFFSET
        if joined:
            kind = EXTENSION_REVERSED
            sentence += (
                ", and is low by that share of the rise from then on: as with a plug joined "
            )
            sentence += "again the wrong way round"
        return Fault(kind.name, chain.tag, others_of, since, end, sentence, MEDIUM, treatment)
    return None


def _as_joined_again(signals: Signals, chain: Chain, row: int, level: float) -> bool:
    """Whether what it loses goes with the rise of the others from then on, as it does with an
    extension reversed, where their rise changes enough to tell; more than an error of a channel is
    it at any rate."""
    off = signals.sampled(chain) - signals.reference(chain.tag)
    rise = signals.reference(chain.tag) - signals.air()
    after = (signals.coarse > row + _ROWS) & (rise >= _WARM) & np.isfinite(off)
    before = (signals.coarse < row - _ROWS) & (rise >= _WARM) & np.isfinite(off)
    if level >= 0 or np.count_nonzero(after) < _ROWS or not before.any():
        return False
    lost = off[after] - float(np.median(off[before][-_ROWS:]))
    share = lost / rise[after]
    at_first = level / float(rise[before][-1])
    stays = float(np.mean(share <= _STAYS * at_first)) >= _MOSTLY
    if not stays or not -_MOST_SHARE <= float(np.median(share)) < 0:
        return False
    if abs(level) > _MOST:
        return True
    # In times of their means: by a share it is off as the rise, by one amount as the one over it.
    uneven = [float(np.std(its) / abs(np.mean(its))) for its in (share, lost)]
    return uneven[0] < _EVENER * uneven[1]
