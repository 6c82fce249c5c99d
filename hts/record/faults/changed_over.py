"""Two channels changed over, told by a third that sits where one of them should be: the spare of a
place, or those that are held as hot as it.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import combinations

import numpy as np

from hts.record.faults.agreement import furthest_apart
from hts.record.faults.exchanged import apart_in_course
from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import EXCHANGED, HIGH, KEPT, LOW, MEDIUM
from hts.record.faults.signals import Chain, Mask, Signals
from hts.record.faults.stack import Stack, in_any
from hts.record.record import Floats

#: Part of the distance from its own spare that a chain may have from the other's, and K that its
#: own must be away at the least, for two zones to tell. Basis: practice, no source.
_NEARER, _TELLS = 0.35, 0.8
_BY_ROUNDING = 1e-6
#: Times that the rest of a zone must go better with its spare than with the other's, to say that
#: it is not the spares that are changed over. Basis: practice, no source.
_SURE = 1.25
#: Places outside the soak band, where the part is cooler than in it.
_COOLER = ("heated edge", "gradient edge")
#: K that one in the band reads low in the hold, to sit at an edge: an edge of the heated band is at
#: a half to nine tenths of the rise. Basis: practice, no source.
_LOW_BY = 40.0
#: Part of that by which it may differ from what the other edges read. Basis: practice, no source.
_LIKE_EDGE = 0.5
#: s of the way to the hold that show what comes late. Basis: practice, no source.
_ON_THE_WAY = 1800.0
#: Part of the highest rise that is the hold, and K of rise it takes. Basis: practice, ours.
_HOLD, _RISE = 0.97, 150.0


def with_spares(signals: Signals) -> list[Fault]:
    """Pairs of two zones, each of which goes with the spare of the other and not with its own."""
    found: list[Fault] = []
    taken: set[str] = set()
    kelvin = partial(signals.words.difference, places=1)
    pairs, spares = _with_spares(signals)
    from_own = {
        one.tag: apart_in_course(signals, one, spares[one.tag])
        for one in _may_be_apart(signals, pairs, spares)
    }
    apart = [one for one in pairs if from_own.get(one.tag, 0.0) >= _TELLS]
    for one, other in combinations(apart, 2):
        if one.zone == other.zone or {one.tag, other.tag} & taken:
            continue
        first, second = spares[one.tag], spares[other.tag]
        own = [from_own[one.tag], from_own[other.tag]]
        changed = [apart_in_course(signals, *two) for two in ((one, second), (other, first))]
        if not all(c <= _NEARER * o for c, o in zip(changed, own, strict=True)):
            continue
        sentence = (
            f"{one.tag} moves with {second.tag}, the spare of {other.tag}, to within "
            f"{kelvin(changed[0])}, and {other.tag} with {first.tag} to within "
            f"{kelvin(changed[1])}; their own spares differ by {kelvin(own[0])} and "
            f"{kelvin(own[1])}"
        )
        rest = _rest_of_zones(signals, (one, other), (first, second))
        named, their, confidence = one, other, HIGH
        if rest is not None and rest < 1 / _SURE:
            named, their = first, second
            sentence += "; the rest of their zones go with the thermocouples, not with the spares"
        elif rest is None or rest < _SURE:
            confidence = LOW
            sentence += f"; or it is {first.tag} and {second.tag}, which would show alike"
        taken |= {one.tag, other.tag}
        found.append(_fault(signals, named, their, sentence, confidence))
    return found


def may_go_with_other_spares(stack: Stack) -> Mask:
    """Those in which two and more may move so differently from their spares."""
    pairs, spares = _with_spares(stack.like)
    if len(pairs) < 2:
        return stack.none
    smooth = stack.of(stack.matrix.smooth)
    own, theirs = [one.row for one in pairs], [spares[one.tag].row for one in pairs]
    apart = (smooth[own] - smooth[theirs]).std(axis=2) >= _TELLS - _BY_ROUNDING
    return np.asarray(np.count_nonzero(apart, axis=0) >= 2)


def may_read_as_an_edge(stack: Stack) -> Mask:
    """Those in which one that must be in range is ever so low beside those that are held."""
    if not _edges(stack.like):
        return stack.none
    highest = stack.sampled[stack.rows(one.held for one in stack.chains)].max(axis=0)
    required = stack.sampled[stack.rows(one.required for one in stack.chains)]
    return in_any(highest - required >= _LOW_BY)


def _with_spares(signals: Signals) -> tuple[list[Chain], dict[str, Chain]]:
    """Those that must be in range and have a spare, and the spares by whose they are."""
    spares = {
        chain.watched.spare_of: chain
        for chain in signals.chains.values()
        if chain.watched is not None and chain.watched.spare_of and not signals.faulty(chain.tag)
    }
    pairs = [
        chain
        for chain in signals.chains.values()
        if chain.required and chain.tag in spares and not signals.faulty(chain.tag)
    ]
    return pairs, spares


def _edges(signals: Signals) -> list[Chain]:
    """Those at an edge, where it is cooler."""
    return [
        chain
        for chain in signals.chains.values()
        if chain.watched is not None
        and chain.watched.place in _COOLER
        and not signals.faulty(chain.tag)
    ]


def _may_be_apart(signals: Signals, pairs: list[Chain], spares: dict[str, Chain]) -> list[Chain]:
    """Those that may move so differently from their spare that it tells, all looked at together."""
    if not pairs or not signals.matrix.gapless:
        return pairs
    smooth = signals.matrix.smooth
    own, theirs = [one.row for one in pairs], [spares[one.tag].row for one in pairs]
    apart = (smooth[own] - smooth[theirs]).std(axis=1) >= _TELLS - _BY_ROUNDING
    return [one for one, far in zip(pairs, apart.tolist(), strict=True) if far]


def _rest_of_zones(
    signals: Signals, pair: tuple[Chain, Chain], spares: tuple[Chain, Chain]
) -> float | None:
    """How many times farther those in the zones are from the spare of the other zone than from
    their own; None where there are no others."""
    own, other = [], []
    for chain in signals.chains.values():
        if chain in pair or chain in spares or not chain.required or signals.faulty(chain.tag):
            continue
        for at in (0, 1):
            if chain.zone == pair[at].zone:
                own.append(apart_in_course(signals, chain, spares[at]))
                other.append(apart_in_course(signals, chain, spares[1 - at]))
    return float(np.sum(other) / max(float(np.sum(own)), 1e-9)) if own else None


def with_an_edge(signals: Signals) -> list[Fault]:
    """A thermocouple of the soak band that reads as an edge does, and one at an edge that reads as
    the band does where the first should."""
    edges = _edges(signals)
    found: list[Fault] = []
    taken: set[str] = set()
    for chain in signals.chains.values():
        if not edges or not chain.required or signals.faulty(chain.tag):
            continue
        should = _should(signals, chain)
        if should is None:
            continue
        hot = _hold(signals, should)
        low = _median((should - signals.sampled(chain))[hot])
        if not low >= _LOW_BY:
            continue
        fitting = list(_fitting(signals, chain, should, hot, low, edges))
        if not fitting:
            continue
        _, edge, sure = min(fitting, key=lambda one: one[0])
        if edge.tag in taken:
            continue
        taken.add(edge.tag)
        assert edge.watched is not None
        off = _median((should - signals.sampled(edge))[hot])
        sentence = (
            f"{chain.tag} reads {signals.kelvin(low)} below those in the band, as an edge does, "
            f"and {edge.tag}, {edge.watched.place}, is within {signals.kelvin(abs(off))} of them"
        )
        found.append(_fault(signals, chain, edge, sentence, HIGH if sure else MEDIUM))
    return found


def _should(signals: Signals, chain: Chain) -> Floats | None:
    """What a thermocouple should read on the coarse rows: its spare, or the rest of its zone, or
    that of all."""
    required = [one for one in signals.chains.values() if one.required and one is not chain]
    spare = [
        one
        for one in signals.chains.values()
        if one.watched is not None and one.watched.spare_of == chain.tag
    ]
    for group in (spare, [one for one in required if one.zone == chain.zone], required):
        sound = [one for one in group if not signals.faulty(one.tag)]
        if sound:
            return signals.middles(sound).of_all
    return None


def _hold(signals: Signals, should: Floats) -> Mask:
    air = signals.air()
    top = float(np.fmax.reduce(should))
    with np.errstate(invalid="ignore"):
        return np.asarray((should - air >= _HOLD * (top - air)) & (should - air >= _RISE))


def _heating(signals: Signals, should: Floats, hot: Mask) -> Mask:
    """The coarse rows of the last of the way to the hold."""
    times = signals.elapsed[signals.coarse]
    begins = float(times[np.argmax(hot)]) if hot.any() else 0.0
    with np.errstate(invalid="ignore"):
        warm = should - signals.air() >= _RISE
    return np.asarray(warm & (times < begins) & (times >= begins - _ON_THE_WAY))


def _fitting(
    signals: Signals,
    chain: Chain,
    should: Floats,
    hot: Mask,
    low: float,
    edges: list[Chain],
) -> Iterator[tuple[float, Chain, bool]]:
    """Edges that read what the chain should: how far from it, and whether another edge reads as
    the chain does."""
    heating = _heating(signals, should, hot)
    for edge in edges:
        apart = should - signals.sampled(edge)
        beside = apart[hot]
        off = _median(beside)
        most = float(furthest_apart(np.array([_median(should[hot])]))[0])
        # An edge that is as hot as the band in the hold comes there late.
        if not abs(off) <= most or abs(_median(apart[heating])) > most:
            continue
        assert edge.watched is not None
        others = [
            _median((should - signals.sampled(one))[hot])
            for one in edges
            if one is not edge and one.watched and one.watched.place == edge.watched.place
        ]
        alike = [abs(other - low) <= _LIKE_EDGE * low for other in others]
        if others and not any(alike):
            continue
        # Where the edges are hardly cooler than the band one that is as the band is no stranger.
        if others and abs(off) > _NEARER * float(np.nanmedian(others)):
            continue
        known = beside[np.isfinite(beside)]
        yield abs(off) + float(known.std()), edge, bool(others)


def _median(values: Floats) -> float:
    known = values[np.isfinite(values)]
    return float(np.median(known)) if len(known) else np.nan


def _fault(signals: Signals, one: Chain, other: Chain, sentence: str, confidence: str) -> Fault:
    end = signals.record.end
    return Fault(EXCHANGED.name, one.tag, (other.tag,), 0.0, end, sentence, confidence, KEPT)
