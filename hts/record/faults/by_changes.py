"""Channels that are recorded only when they have changed: they stand in between, and then leap."""

from __future__ import annotations

import numpy as np

from hts.record.faults.signals import Chain

#: Last digits of a usual leap, and the part of the rows that hold no leap. A slow course in whole
#: degrees stands as often, and goes on by one of them. Basis: practice, ours.
_DIGITS, _STANDS = 4.0, 0.6


def by_changes(chain: Chain) -> bool:
    """Whether it is recorded so: that it stands, and by how much it then leaps, tells nothing."""
    steps = np.abs(np.diff(chain.values[np.isfinite(chain.values)]))
    leaps = steps[steps > 0]
    if len(leaps) < 2 or len(leaps) > (1 - _STANDS) * len(steps):
        return False
    return bool(np.median(leaps) >= _DIGITS * chain.resolution)
