"""A channel that is recorded in far coarser digits than the others: a range or a number of digits
that was set for it alone. What the metal did between two of them is not in the record."""

from __future__ import annotations

import numpy as np

from hts.record.faults.fault import Fault, fault
from hts.record.faults.fault_kinds import COARSE, HIGH, KEPT
from hts.record.faults.signals import Mask, Signals
from hts.record.faults.stack import Stack, in_any

#: K, and times the last digit of the others, from which a digit is coarse; values it takes to tell.
#: Basis: practice, ours.
_LEAST, _TIMES, _VALUES = 2.0, 2.0, 12
#: Times the others' span of readings that its own is at the most: what goes farther is read on
#: another scale. Basis: practice, ours.
_SPAN = 1.5


def coarse(signals: Signals) -> list[Fault]:
    """One fault for each thermocouple recorded so, where most are not."""
    chains = [one for one in signals.chains.values() if one.resolution]
    digits = np.array([one.resolution for one in chains])
    if len(chains) < 3 or digits.max() < _LEAST * (1 - 1e-9):
        return []
    spans = np.array([one.extremes[1] - one.extremes[0] for one in chains])
    usual = float(np.median(digits))
    found = []
    for at in np.flatnonzero(digits >= max(_LEAST, _TIMES * usual) * (1 - 1e-9)).tolist():
        chain = chains[at]
        values = np.unique(chain.values[np.isfinite(chain.values)])
        if len(values) < _VALUES or spans[at] > _SPAN * np.median(spans):
            continue
        said = f"goes by {signals.kelvin(digits[at])} at a time, the others by "
        said += signals.words.difference(usual, places=1)
        found.append(fault(COARSE, chain.tag, 0.0, signals.record.end, said, HIGH, KEPT))
    return found


def may_be_coarse(stack: Stack) -> Mask:
    """Those in which one has a coarse digit."""
    return in_any(stack.digits >= _LEAST * (1 - 1e-9))
