"""Columns that no thermocouple measured: worked out of the others, as their mean.

The noise of a thermocouple is its own. That of a column worked out of others is theirs, so they
explain it (least squares), and nothing explains them.
"""

from __future__ import annotations

import numpy as np

from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import HIGH, KEPT, WORKED_OUT
from hts.record.faults.signals import Chain, Mask, Signals
from hts.record.faults.stack import Stack
from hts.record.record import Floats

#: Part of its noise that the others explain, at the least, and part that they explain of each other
#: without it, at the most: noise that a recorder puts on all of them explains all alike. Rounding
#: is nobody else's noise. Basis: practice, ours.
_EXPLAINED, _OTHERWISE = 0.5, 0.3
#: Part of the greatest share that one it is made of has, the sum of their shares, and K or last
#: digits that it may lie off what they make of it. Basis: practice, ours.
_PART, _SUM, _OFF, _DIGITS = 0.35, (0.8, 1.2), 0.3, 0.75
#: K. A digit that hides noise; channels that are looked at, rows they are looked at in first, and
#: times that one changes while the two it lies between are apart. Basis: practice, ours.
_COARSE, _AT_MOST, _PROBES, _CHANGES = 0.45, 64, 24, 100
#: Percentiles of the gap between the two that have to be two digits apart. Basis: practice, ours.
_MOST_GAPS = (5, 95)
#: Part that is put down to floats.
_BY_FLOATS = 1 + 1e-6
#: Columns it takes, and how small a part of the noise may be its own.
_ENOUGH, _LEAST = 4, 1e-6
_BY_ROUNDING = 1e-6


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


def may_be_worked_out(alike: Floats) -> Mask:
    """Which of several records have one that the others may explain, by the correlations of each
    [records, chains, chains]."""
    found = np.abs(alike).sum(axis=2).max(axis=1) - 1 >= _EXPLAINED - _LEAST - _BY_ROUNDING
    found[found] = np.any(_explained(_inverse(alike[found])) >= _EXPLAINED - _BY_ROUNDING, axis=1)
    return np.asarray(found)


def may_be_means(stack: Stack) -> Mask:
    """Those with enough columns in digits so coarse."""
    return np.asarray(np.count_nonzero(stack.digits >= _COARSE, axis=0) >= 3)


def means_to_the_digit(signals: Signals) -> list[Fault]:
    """Columns that are the mean of two others to the last digit, in digits too coarse for noise to
    tell. Of a thermocouple in the midst of two rounding alone puts every sixth reading farther off
    (derived: the three are rounded each by itself)."""
    chains = [one for one in signals.chains.values() if one.resolution >= _COARSE]
    chains = [one for one in chains if not signals.faulty(one.tag)]
    if not 3 <= len(chains) <= _AT_MOST:
        return []
    values = signals.rows(signals.matrix.values, chains)
    values = values[:, np.isfinite(values).all(axis=0)]
    if values.shape[1] < _CHANGES:
        return []
    few = values[:, np.linspace(0, values.shape[1] - 1, _PROBES).astype(np.intp)]
    found = []
    for at, chain in enumerate(chains):
        apart = few - few[at]
        digits = np.array([max(one.resolution, chain.resolution) for one in chains]) * _BY_FLOATS
        off = np.abs(apart[:, None] + apart).max(axis=2)
        near = off <= np.maximum(digits[:, None], digits)
        for one, other in np.argwhere(near).tolist():
            if one < other and at not in (one, other) and _is_mean(values, at, one, other, digits):
                tags = f"{chains[one].tag} and {chains[other].tag}"
                said = f"is the mean of {tags}, to the last digit"
                end = signals.record.end
                found.append(Fault(WORKED_OUT.name, chain.tag, (), 0.0, end, said, HIGH, KEPT))
                break
    return found


def _is_mean(values: Floats, at: int, one: int, other: int, digits: Floats) -> bool:
    digit = max(digits[one], digits[other])
    off = np.abs(values[one] + values[other] - 2 * values[at])
    gap = (values[one] - values[other])[1:]
    changed = np.diff(values[at]) != 0
    tells = changed & (np.abs(gap) >= 0.9 * digit)
    if off.max() > digit or np.count_nonzero(tells) < _CHANGES:
        return False
    # Between two that go alike one in the midst stays there, as all three are rounded alike.
    least, most = np.percentile(gap[changed], _MOST_GAPS)
    return bool(most - least >= 1.9 * digit)


def _inverse(alike: Floats) -> Floats:
    return np.asarray(np.linalg.inv(alike + _LEAST * np.eye(alike.shape[-1])), dtype=np.float64)


def _explained(inverse: Floats) -> Floats:
    """The part of each that the others explain, by the inverse of their correlations."""
    return np.asarray(1 - 1 / np.diagonal(inverse, axis1=-2, axis2=-1), dtype=np.float64)


def _follows(chain: Chain, of: list[Chain]) -> bool:
    """Whether it is their mean all the time, but for a constant."""
    off = chain.values - np.mean([one.values for one in of], axis=0)
    off = np.abs(off - np.nanmedian(off))
    digit = max(one.resolution for one in (chain, *of))
    return bool(np.nanpercentile(off, 95) <= max(_OFF, _DIGITS * digit))
