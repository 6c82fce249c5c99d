"""How much noise there is in what chains read, by the bends of their courses: a spike, a step or a
change of rate is none of it."""

from __future__ import annotations

import numpy as np

from hts.record.faults.matrix import spread
from hts.record.faults.signals import Chain, Mask, Signals
from hts.record.record import Floats

#: Standard deviation of the noise over the last digit from which a chain cannot stand still for
#: long. Rounding a smooth course makes 0.29 (derived).
_LIVELY = 0.45
#: Bends it takes to tell. Basis: practice, ours.
_ENOUGH = 30


def lively(signals: Signals, but: Mask) -> bool:
    """Whether the readings have more noise than rounding, but for the steps named."""
    shares = []
    for chain in signals.chains.values():
        if not np.isfinite(chain.values).any() or not chain.resolution:
            continue
        bends = np.diff(chain.values, 2)
        bends = bends[~(but[1:] | but[:-1]) & np.isfinite(bends)]
        if len(bends) >= _ENOUGH:
            shares.append(spread(np.abs(bends), 0.0) / chain.resolution)
    return bool(shares) and float(np.median(shares)) >= _LIVELY


def noises(signals: Signals, chains: list[Chain]) -> Floats:
    """K, the standard deviation of the noise of each."""
    return signals.rows(signals.matrix.noise, chains)
