"""How much noise there is in what chains read, by the bends of their courses: a spike, a step or a
change of rate is none of it."""

from __future__ import annotations

import numpy as np

from hts.record.faults.matrix import medians
from hts.record.faults.signals import Chain, Mask, Signals
from hts.record.record import Floats

#: Standard deviation of the noise over the last digit from which a chain cannot stand still for
#: long. Rounding a smooth course makes 0.29 (derived).
_LIVELY = 0.45
#: Standard deviations at which a bend is cut off: steps that all share are no noise.
#: Basis: practice, ours.
CUT = 4.0
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
    """K, the standard deviation of the noise of each, from the bends; wild ones are cut off."""
    bends = np.abs(signals.rows(signals.matrix.bends, chains))
    if not signals.matrix.gapless:
        return np.array(
            [
                spread(its[np.isfinite(its)], 3 * one.resolution)
                for one, its in zip(chains, bends, strict=True)
            ]
        )
    digits = np.array([one.resolution for one in chains])
    most = np.maximum(3 * digits, CUT * 1.4826 * medians(bends))
    cut = np.minimum(bends, most[:, None])
    return np.asarray(np.sqrt(np.mean(cut**2, axis=1) / 6), dtype=np.float64)


def spread(bends: Floats, least: float) -> float:
    """The same of bends, those cut off that are larger than `least` K and than all but a few."""
    if not len(bends):
        return 0.0
    # The variance of a second difference of noise is six times its own.
    most = max(least, CUT * 1.4826 * float(np.median(bends)))
    return float(np.sqrt(np.mean(np.minimum(bends, most) ** 2) / 6))
