"""A whole record of straight lines between readings that stand evenly apart: read every ten
minutes, say, and the rows between worked out, as a spreadsheet or an export does to look better.

Lines have corners where a reading was taken, and nowhere else. How far readings bend over a part
of the time between two of them tells where corners are; of metal they are anywhere.
"""

from __future__ import annotations

import numpy as np

from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import FILLED_IN, HIGH, KEPT
from hts.record.faults.noise import noises
from hts.record.faults.signals import Chain, Mask, Signals
from hts.record.faults.stack import Stack
from hts.record.judging.words import time
from hts.record.record import Floats

#: s between readings that are looked for, rows between two at the least, and readings of a record.
#: Basis: practice, no source.
_APART = (60.0, 120.0, 180.0, 240.0, 300.0, 600.0, 900.0, 1200.0, 1800.0, 3600.0)
_ROWS, _READINGS = 8, 20
#: Parts of the time between two that bends are taken over, and how many of the readings must show
#: a corner by them: that so many lie within two such parts of a reading by chance is one in a
#: thousand (derived).
_PARTS = ((8, 8), (4, 14))
#: Last digits that readings of a line bend by at the most (derived: each is rounded by a half).
_BENT = 2.01
#: Standard deviation of the noise over the last digit that lines do not have. Rounding makes 0.29,
#: at the most 0.5 (derived). Basis: practice, ours.
_NOISE = 0.75
#: Chains that are looked at first, those that move most.
_FIRST = 2
#: Part of the interval by which rows may come unevenly.
_EVEN = 0.02


def resampled(signals: Signals) -> list[Fault]:
    """The fault of the record, if it is one."""
    held = [one for one in signals.chains.values() if one.held and one.resolution]
    held = [one for one in held if not signals.faulty(one.tag)]
    interval = signals.record.interval
    if len(held) < 2 or np.abs(np.diff(signals.elapsed) - interval).max() > _EVEN * interval:
        return []
    digits = np.array([one.resolution for one in held])
    if not np.all(noises(signals, held) < _NOISE * digits):
        return []
    held = sorted(held, key=_moves)
    values = signals.rows(signals.matrix.values, held)
    digits = np.array([one.resolution for one in held])
    # Corners that are far apart are at some of those that would be nearer together.
    for apart in reversed(_APART):
        rows = round(apart / interval)
        if rows < _ROWS or abs(rows * interval - apart) > _EVEN * apart:
            continue
        if values.shape[1] < _READINGS * rows:
            continue
        if any(
            _corners(values[:_FIRST], digits[:_FIRST], rows, part) >= enough
            and _corners(values, digits, rows, part) >= enough
            for part, enough in _PARTS
        ):
            said = (
                f"all {len(held)} channels run straight from one reading to the next, every "
                f"{time(apart)}: the rows between were worked out"
            )
            end = signals.record.end
            return [Fault(FILLED_IN.name, "", (), 0.0, end, said, HIGH, KEPT)]
    return []


def may_be_resampled(stack: Stack) -> Mask:
    """Those without noise."""
    held = stack.rows(one.held for one in stack.chains)
    if len(held) < 2:
        return stack.none
    return np.asarray(np.all(stack.noise[held] < _NOISE * stack.digits[held], axis=0))


def _moves(chain: Chain) -> float:
    return chain.extremes[0] - chain.extremes[1]


def _corners(values: Floats, digits: Floats, rows: int, part: int) -> int:
    """At how many of the readings, so many rows apart, there is a corner; 0 where there are others
    than at these."""
    beside = rows // part
    bends = values[:, 2 * beside :] + values[:, : -2 * beside] - 2 * values[:, beside:-beside]
    with np.errstate(invalid="ignore"):
        bent = np.flatnonzero(np.any(np.abs(bends) > _BENT * digits[:, None], axis=0)) + beside
    if not len(bent):
        return 0
    after = np.unique(bent % rows)
    gaps = np.diff(after, append=after[0] + rows)
    widest = int(np.argmax(gaps))
    within = rows - int(gaps[widest])
    if within >= 2 * beside:
        return 0
    first = int(after[(widest + 1) % len(after)])
    return len(np.unique((bent - first) // rows))
