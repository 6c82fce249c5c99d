"""Columns that no thermocouple measured: worked out of the others, as their mean.

The noise of a thermocouple is its own. That of a column worked out of others is theirs, so they
explain it (least squares), and nothing explains them.
"""

from __future__ import annotations

import numpy as np

from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import HIGH, KEPT, WORKED_OUT
from hts.record.faults.signals import Chain, Signals
from hts.record.record import Floats

#: Part of its noise that the others explain, at the least, and part that they explain of each other
#: without it, at the most: noise that a recorder puts on all of them explains all alike. Rounding
#: is nobody else's noise. Basis: practice, ours.
_EXPLAINED, _OTHERWISE = 0.5, 0.3
#: Part of the greatest share that one it is made of has, the sum of their shares, and K or last
#: digits that it may lie off what they make of it. Basis: practice, ours.
_PART, _SUM, _OFF, _DIGITS = 0.35, (0.8, 1.2), 0.3, 0.75
#: Columns it takes, and how small a part of the noise may be its own.
_ENOUGH, _LEAST = 4, 1e-6


def worked_out(signals: Signals, chains: list[Chain], products: Floats) -> list[Fault]:
    """A fault for each such column; `products` [chains, chains] K2 are those of the bends of their
    readings, of no two the same, with a mean of 0."""
    if len(chains) < _ENOUGH:
        return []
    sizes = np.sqrt(np.diagonal(products))
    if not np.all(sizes > 0):
        return []
    alike = products / np.outer(sizes, sizes)
    if not _may_be_explained(alike):
        return []
    inverse = _inverse(alike)
    found = []
    for at in np.flatnonzero(_explained(inverse) >= _EXPLAINED).tolist():
        shares = -inverse[at] / inverse[at, at] * sizes[at] / sizes
        shares[at] = 0.0
        most = float(shares.max())
        parts = np.flatnonzero(shares >= _PART * most)
        if len(parts) < 2 or most <= 0 or not _SUM[0] <= float(shares[parts].sum()) <= _SUM[1]:
            continue
        rest = np.delete(np.arange(len(chains)), at)
        if np.median(_explained(_inverse(alike[np.ix_(rest, rest)]))) > _OTHERWISE:
            continue
        of = [chains[part] for part in parts.tolist()]
        if not _follows(chains[at], of):
            continue
        tags = [one.tag for one in of]
        said = f"is the mean of {', '.join(tags[:-1])} and {tags[-1]}, noise and all"
        end = signals.record.end
        found.append(Fault(WORKED_OUT.name, chains[at].tag, (), 0.0, end, said, HIGH, KEPT))
    return found


def _may_be_explained(alike: Floats) -> bool:
    """Whether any may be: of correlations whose sum for each is small the least eigenvalue is so
    much below 1 at the most (Gershgorin), and no more of each is explained (derived)."""
    return bool(np.max(np.sum(np.abs(alike), axis=1)) - 1 >= _EXPLAINED - _LEAST)


def _inverse(alike: Floats) -> Floats:
    return np.asarray(np.linalg.inv(alike + _LEAST * np.eye(len(alike))), dtype=np.float64)


def _explained(inverse: Floats) -> Floats:
    """The part of each that the others explain, by the inverse of their correlations."""
    return np.asarray(1 - 1 / np.diagonal(inverse), dtype=np.float64)


def _follows(chain: Chain, of: list[Chain]) -> bool:
    """Whether it is their mean all the time, but for a constant."""
    off = chain.values - np.mean([one.values for one in of], axis=0)
    off = np.abs(off - np.nanmedian(off))
    digit = max(one.resolution for one in (chain, *of))
    return bool(np.nanpercentile(off, 95) <= max(_OFF, _DIGITS * digit))
