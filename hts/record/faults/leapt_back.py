"""Thermocouples that leap by one amount and, some time later, back by as much: readings that were
lifted or lowered for a part of the run, or a channel that was off for a time.

No metal goes so far in a row, neither the one way nor the other; whether what lies between is wrong
or what lies about it, the others need not tell.
"""

from __future__ import annotations

import numpy as np

from hts.record.faults.fault import Fault, Spell, fault
from hts.record.faults.fault_kinds import HIGH, LEFT_OUT, OFFSET
from hts.record.faults.for_a_part import leaps_of
from hts.record.faults.signals import Chain, Signals
from hts.record.judging.words import time

#: K, and part of the leap, by which that back may be unlike it, and s between the two at the least.
#: Basis: practice, no source.
_UNLIKE_BY, _UNLIKE, _LASTS = 5.0, 0.25, 600.0
#: Rows from which and to which a leap is taken.
_BESIDE = 3


def leapt_back(signals: Signals) -> list[Fault]:
    """One fault for each that leaps so and that nothing else explains."""
    found = []
    for tag, rows in leaps_of(signals).items():
        chain = signals.chains[tag]
        if len(rows) != 2 or not chain.held or signals.explained(tag):
            continue
        there, back = (_by(chain, row) for row in rows)
        start, end = (float(signals.elapsed[at]) for at in (rows[0], rows[1] - 1))
        alike = abs(there + back) <= max(_UNLIKE_BY, _UNLIKE * abs(there))
        if not alike or end - start < _LASTS:
            continue
        way, other = ("up", "down") if there > 0 else ("down", "up")
        said = f"leaps {way} by {signals.kelvin(abs(there))} and {time(end - start)} later "
        said += f"{other} by {signals.kelvin(abs(back))}, each in one row, as no metal does"
        found.append(fault(OFFSET, tag, start, end, said, HIGH, LEFT_OUT, (Spell(start, end),)))
    return found


def _by(chain: Chain, row: int) -> float:
    before = np.nanmedian(chain.values[max(0, row - _BESIDE) : row])
    return float(np.nanmedian(chain.values[row + 1 : row + 1 + _BESIDE]) - before)
