"""Two channels changed over: each moves with the zone of the other."""

from __future__ import annotations

from itertools import combinations
from typing import NamedTuple

import numpy as np

from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import EXCHANGED, EXTENSION_REVERSED, HIGH, KEPT, LOW, MEDIUM
from hts.record.faults.matrix import Matrix
from hts.record.faults.signals import Chain, Mask, Signals
from hts.record.faults.stack import Stack
from hts.record.record import Floats

#: How much better a chain goes with the other zone than with its own, and how well. A difference
#: of zones of less than _TELLS K says nothing. Basis: practice, no source.
_BETTER, _WELL, _TELLS = 0.7, 0.75, 0.4
_BY_ROUNDING = 1e-6
#: Correlation from which there is no doubt. Basis: practice, no source.
_CLEAR = 0.9
#: Part of the distance to one spare that the other is at most away where the spares tell, and mm
#: along the pipe that are one place. Basis: practice, no source.
_NEARER, _STATION = 0.5, 20.0
#: Correlation with its own zone that is a mirror of it. Basis: practice, no source.
_MIRRORED = 0.6


class Fit(NamedTuple):
    """How well a chain goes with the rest of its own zone, and with the rest of the zone of the
    one it may have been changed over with."""

    own: float
    other: float

    @property
    def changed(self) -> bool:
        return self.other >= _WELL and self.other - self.own >= _BETTER

    @property
    def sentence(self) -> str:
        return f"correlation {self.other:.2f}, with its own {self.own:.2f}"


def exchanged(signals: Signals) -> list[Fault]:
    """Further pairs of thermocouples of two zones, each going with the rest of the other's zone.

    It takes two thermocouples that must be in range in each zone, and zones that do not move as
    one.
    """
    chains = [
        chain
        for chain in signals.chains.values()
        if chain.required and chain.zone and not signals.faulty(chain.tag)
    ]
    if any(signals.exchanged(chain.tag) for chain in chains):
        return []  # with two changed over, the rest of their zones are no measure
    if len({chain.zone for chain in chains}) < 2 or len(chains) < 4:
        return []
    beside = _residuals(signals, chains)
    together = _together(beside)
    found: list[Fault] = []
    taken: set[str] = set()
    reversed_at_both_ends = {
        one.tag for one in signals.found if one.kind == EXTENSION_REVERSED.name
    }
    # One that goes well with its own zone cannot go much better with another.
    doubtful = [
        i
        for i in _hardly_with_their_own(together, chains)
        if _own(together, chains, i) < 1 - _BETTER
        and chains[i].tag not in reversed_at_both_ends
        and np.percentile(np.abs(beside[i]), 95) >= _TELLS
    ]
    for i, j in combinations(doubtful, 2):
        one, other = chains[i], chains[j]
        if one.zone == other.zone or {one.tag, other.tag} & taken:
            continue
        first, second = _fit(together, chains, i, j), _fit(together, chains, j, i)
        if not (first.changed and second.changed):
            continue
        spares = _spares_say(signals, one, other)
        if spares is False:
            continue
        rest = [c for c in chains if c.zone in (one.zone, other.zone)]
        rest = [chain for chain in rest if chain not in (one, other)]
        clear = min(first.other, second.other) >= _CLEAR
        confidence = HIGH if clear else MEDIUM
        if spares is None and not _level(one, other) and _mirrored(first, second):
            continue
        others: tuple[str, ...] = (other.tag,)
        sentence = (
            f"{one.tag} moves with zone {other.zone} ({first.sentence}) and {other.tag} with zone "
            f"{one.zone} ({second.sentence})"
        )
        if spares:
            sentence += ", and each with the spare of the other"
        elif len(rest) == 2:
            # With two thermocouples in each zone, the other two changed over would look the same.
            theirs = _spares_say(signals, *rest)
            if theirs or not clear:
                continue
            # So do two that sit on unlike stretches of the pipe, with nothing changed over.
            if not _level(one, other) and (
                theirs is False or _each_with_its_kind(one, other, rest)
            ):
                continue
            if theirs is None:
                others += tuple(chain.tag for chain in rest)
                sentence += f"; or it is {rest[0].tag} and {rest[1].tag}, which would show alike"
                confidence = LOW
        taken |= {one.tag, *others}
        end = signals.record.end
        found.append(Fault(EXCHANGED.name, one.tag, others, 0.0, end, sentence, confidence, KEPT))
    return found


def may_be_exchanged(stack: Stack) -> Mask:
    """Those in which two and more may go badly with their zone."""
    chains = [one for one in stack.chains if one.required and one.zone]
    if len({one.zone for one in chains}) < 2 or len(chains) < 4:
        return stack.none
    smooth = stack.of(stack.matrix.smooth)[[one.row for one in chains]]
    beside = _beside_mean(smooth).transpose(1, 0, 2)
    large = np.abs(beside).max(axis=2) >= _TELLS - _BY_ROUNDING
    badly = _fits_badly(_correlations(beside @ beside.transpose(0, 2, 1)), chains)
    return np.asarray(np.count_nonzero(large & badly, axis=1) >= 2)


def _spares_say(signals: Signals, one: Chain, other: Chain) -> bool | None:
    """Whether the spares of the two go with the other one rather than with their own: a spare is
    beside its place, whatever the zones do. None where they do not tell; one that goes with its own
    is enough for no."""
    told = set()
    for chain, its_other in ((one, other), (other, one)):
        for spare in signals.chains.values():
            if spare.watched is None or spare.watched.spare_of != chain.tag:
                continue
            own, theirs = (apart_in_course(signals, its, spare) for its in (chain, its_other))
            near, far = sorted((own, theirs))
            told.add(theirs < own if near <= _NEARER * far else None)
    if False in told:
        return False
    return True if told == {True} else None


def apart_in_course(signals: Signals, one: Chain, other: Chain) -> float:
    """K, how differently the two move: noise averaged out, what one is always higher by aside."""
    apart = (one.values - other.values)[None, :]
    between = Matrix(apart, signals.coarse, np.zeros(1)).smooth[0]
    between = between[np.isfinite(between)]
    return float(between.std()) if len(between) else np.inf


def _level(one: Chain, other: Chain) -> bool:
    """Whether both sit at one distance along the pipe, as far as it is known."""
    places = [chain.watched.axial for chain in (one, other) if chain.watched is not None]
    known = [place for place in places if place is not None]
    return len(known) < 2 or abs(known[0] - known[1]) <= _STATION


def _mirrored(first: Fit, second: Fit) -> bool:
    """Whether both go against their own zone: one that is late beside a zone that is kept well does
    so, and so does the zone beside it, each in its place."""
    return max(first.own, second.own) <= -_MIRRORED


def _each_with_its_kind(one: Chain, other: Chain, rest: list[Chain]) -> bool:
    """Whether each goes with one of its own kind of place, and not with the other kind: so the
    weld does, beside the edges of the band, with nothing changed over."""
    place = {chain.tag: chain.watched and chain.watched.place for chain in (one, other, *rest)}
    if place[one.tag] == place[other.tag]:
        return False
    beside = {chain.zone: place[chain.tag] for chain in rest}
    return beside[other.zone] == place[one.tag] and beside[one.zone] == place[other.tag]


def _fit(together: Floats, chains: list[Chain], i: int, j: int) -> Fit:
    its = [k for k, chain in enumerate(chains) if chain.zone == chains[j].zone and k != j]
    return Fit(_own(together, chains, i), float(np.mean(together[i, its])))


def _own(together: Floats, chains: list[Chain], i: int) -> float:
    """How well a chain goes with the rest of its zone; 1 where it is the only one."""
    own = [k for k, chain in enumerate(chains) if chain.zone == chains[i].zone and k != i]
    return float(np.mean(together[i, own])) if own else 1.0


def _hardly_with_their_own(together: Floats, chains: list[Chain]) -> list[int]:
    """Those that may go with the rest of their zone so badly, all looked at together."""
    return np.flatnonzero(_fits_badly(together, chains)).tolist()


def _fits_badly(together: Floats, chains: list[Chain]) -> Mask:
    """Whether each does, by its correlations [.., chains, chains]."""
    zones = {zone: number for number, zone in enumerate({chain.zone for chain in chains})}
    zone = np.array([zones[chain.zone] for chain in chains])
    own = (zone[:, None] == zone) & ~np.eye(len(chains), dtype=np.bool_)
    counts = own.sum(axis=1)
    fits = (together * own).sum(axis=-1) / np.maximum(counts, 1)
    return np.asarray((counts > 0) & (fits < 1 - _BETTER + _BY_ROUNDING))


def _residuals(signals: Signals, chains: list[Chain]) -> Floats:
    """What each does beside the mean of all, [chains, rows], K: without its constant share, the
    line that fits it best; its own mean is 0."""
    values = signals.rows(signals.matrix.smooth, chains)
    if not signals.matrix.gapless:
        values = values[:, np.isfinite(values).all(axis=0)]
    if values.shape[1] < 20:
        return np.zeros((len(chains), 2))
    return _beside_mean(values)


def _beside_mean(values: Floats) -> Floats:
    """The same of means over coarse rows [chains, .., rows]."""
    mean = values.mean(axis=0)
    rest = values - mean
    rest -= rest.mean(axis=-1, keepdims=True)
    mean -= mean.mean(axis=-1, keepdims=True)
    moved = np.sum(mean * mean, axis=-1)
    shares = np.sum(rest * mean, axis=-1) / np.where(moved > 0, moved, np.inf)
    return np.asarray(rest - shares[..., None] * mean, dtype=np.float64)


def _together(own: Floats) -> Floats:
    """How well each goes with each, the coefficients of correlation, [chains, chains]; 0 for one
    that does nothing beside the mean."""
    return _correlations(np.einsum("ik,jk->ij", own, own))


def _correlations(products: Floats) -> Floats:
    """The same of products of what each does with each [.., chains, chains]."""
    sizes = np.sqrt(np.diagonal(products, axis1=-2, axis2=-1))
    sizes = np.where(sizes > 0, sizes, np.inf)
    return np.asarray(products / (sizes[..., :, None] * sizes[..., None, :]), dtype=np.float64)
