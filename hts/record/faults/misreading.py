"""Thermocouples that read what those beside them do not: which one, why, and since when.

One is only named where the others agree among themselves and tell which it is; where just two
stand against each other, both are in doubt (hts.record.faults.agreement).
"""

from __future__ import annotations

import numpy as np

from hts.record.faults.agreement import ALWAYS_ALLOWED, furthest_apart
from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import (
    DETACHED,
    DRIFT,
    EXTENSION_REVERSED,
    HIGH,
    KEPT,
    LEFT_OUT,
    MEDIUM,
    NEAR_HEATER,
    OFFSET,
    SHORTED,
)
from hts.record.faults.matrix import middle
from hts.record.faults.signals import Chain, Mask, Signals, runs
from hts.record.faults.signatures import SETTINGS, Look, Signature, signature
from hts.record.faults.slid import heat_lies_aside
from hts.record.faults.stack import Stack, in_any
from hts.record.plan import SPARE
from hts.record.record import Floats

#: Coarse rows it takes to fit a course. Basis: practice, ours.
_ENOUGH = 24
#: The others must agree to within this part of what one is off by. Basis: practice, no source.
_TIGHT = 0.4
#: K more that another place than beside the weld may differ. Basis: practice, no source.
_ELSEWHERE = 10.0
#: Part of what one is off by that it may vary by and the others be apart at first, part of the
#: whole rise they may have then, and K they rise by: cold metal is alike everywhere, and how metal
#: differs goes with the heat it is given. Basis: practice, no source.
_EVEN, _COLD_YET, _RISES = 0.25, 0.2, 200.0
#: Coarse rows that are the first. Basis: practice, ours.
_FIRST = 3
#: s. Shorter is none of these faults. Basis: practice, no source.
_LASTS = 600.0
#: s before it is seen on the rows for slow changes, in which it may have begun. Basis: practice.
_BEGAN = 600.0
#: Share of the rise under which a junction is off the part altogether. Basis: practice, ours.
_OFF = 0.15
#: Share of the rise of the others that a place may have while all cool, each in its own way.
#: Basis: practice, no source.
_COOLS_ALONE = 0.75
#: Explained part it takes to blame one of the two at a place. Basis: practice, no source.
_SURE = {DRIFT: 0.98, EXTENSION_REVERSED: 0.95}
#: Explained part from which a setting of the recorder is behind what a spare reads beside the other
#: zones, while its partner goes with them. Basis: practice, no source.
_SETTING = 0.99
#: Explained part from which there is no doubt. Basis: practice, no source.
_CLEAR = 0.95


def misreading(signals: Signals) -> list[Fault]:
    """One fault for each thermocouple the others show to be wrong, where its course tells why."""
    placed = [one for one in signals.chains.values() if one.held]
    placed = [one for one in placed if _at_its_place(signals, one) and not signals.misled(one)]
    # A control that has come off the metal has been named already.
    off = {fault.tag for fault in signals.found if fault.kind == DETACHED.name}
    placed = [one for one in placed if one.tag not in off]
    held = [one for one in placed if not signals.faulty(one.tag)]
    zones = _by_zone(held)
    found = []
    for chain in placed:
        fault = _of(signals, chain, held, zones.get(chain.zone, []))
        if fault is not None:
            found.append(fault)
    # Who is wrong himself shows nothing of the others: the worst of a group counts.
    return found


def may_misread(stack: Stack) -> Mask:
    """Those in which one that is held is ever so far from its group as may be too far."""
    held = [one for one in stack.chains if one.held]
    found = stack.none
    for zone in _by_zone(held).values():
        group = zone if len(zone) > 2 else held
        if len(group) <= 2:
            continue
        # None is farther from the middle of the others than from the farthest of them.
        its, all_of = (stack.sampled[[one.row for one in some]] for some in (zone, group))
        apart = np.maximum(all_of.max(axis=0) - its, its - all_of.min(axis=0)).max(axis=2)
        if np.any(apart > ALWAYS_ALLOWED):
            farthest = stack.middles(group).farthest
            found |= in_any(farthest[[group.index(one) for one in zone]] > ALWAYS_ALLOWED)
    return found


def held_by_zone(signals: Signals) -> list[list[Chain]]:
    """The sound ones that sit where the part is held, zone by zone."""
    held = [one for one in signals.chains.values() if one.held]
    sound = [one for one in held if not signals.faulty(one.tag) and _at_its_place(signals, one)]
    return list(_by_zone(sound).values())


def _at_its_place(signals: Signals, chain: Chain) -> bool:
    return not signals.exchanged(chain.tag) and not signals.copied(chain.tag)


def _by_zone(chains: list[Chain]) -> dict[str, list[Chain]]:
    zones: dict[str, list[Chain]] = {}
    for chain in chains:
        zones.setdefault(chain.zone, []).append(chain)
    return zones


def _of(signals: Signals, chain: Chain, held: list[Chain], zone: list[Chain]) -> Fault | None:
    """`held` are all that sit where the part is held, `zone` those of its own zone."""
    assert chain.watched is not None
    sound = not signals.faulty(chain.tag)
    own = len(zone) - sound >= 2
    spare = chain.watched.duty == SPARE
    # Against the other zones, unless its own goes with it: a zone can be hotter than the rest.
    if not own and len(held) - sound < 2:
        return None
    group = zone if own else held
    if sound and not signals.middles(group).farthest[group.index(chain)] > ALWAYS_ALLOWED:
        return None
    beside = [one for one in zone if one is not chain]
    if not own:
        others = [one for one in held if one is not chain]
        if any(_alike(signals, chain, one, others) for one in beside):
            return None
        beside = others
    values = signals.sampled(chain)
    around = np.array([signals.sampled(one) for one in beside])
    true = middle(around)
    even = _off_evenly(values, true, around, signals.air())
    allowed = furthest_apart(np.zeros(len(true)) if even else true)
    if not even and any(one.watched and one.watched.place != chain.watched.place for one in beside):
        allowed = allowed + _ELSEWHERE
    with np.errstate(invalid="ignore"):
        off = np.abs(values - true) > allowed
    times = signals.elapsed[signals.coarse]
    long = [
        (first, last) for first, last in runs(off) if float(times[last] - times[first]) >= _LASTS
    ]
    if not long:
        return None
    rows = np.concatenate([np.arange(first, last + 1) for first, last in long])
    error = float(np.nanmedian(np.abs(values[rows] - true[rows])))
    spread = float(np.nanmedian(np.nanmax(around[:, rows], 0) - np.nanmin(around[:, rows], 0)))
    if not spread <= _TIGHT * error:
        return None
    known = np.isfinite(values) & np.isfinite(true) & ~signals.zone_cold
    if np.count_nonzero(known) < _ENOUGH:
        return None
    look = Look(times[known], true[known], values[known], signals.air(), type_of_wire(signals), own)
    best = signature(look)
    if best is not None and signals.faulty(chain.tag) and best.kind not in SETTINGS:
        return None  # what the rest of its readings is like tells nothing else
    if (
        spare
        and not own
        and not (best is not None and best.kind in SETTINGS and best.explains >= _SETTING)
    ):
        return None  # a control that reads wrong makes its zone hotter than its spare, too
    if best is None or best.kind is SHORTED or (best.kind is DETACHED and best.share < _OFF):
        return None
    cools_alone = best.kind is DRIFT or (best.kind is DETACHED and best.share >= _COOLS_ALONE)
    if cools_alone and best.since >= look.held_until - _LASTS:
        return None  # what comes apart as the part cools may well be so
    if _partner(signals, chain) is not None:
        # As well its partner that is off, and the part with it, unless the course leaves no doubt,
        # or it was off while all were cold.
        throughout = best.since <= look.times[0]
        if (best.kind is OFFSET and throughout and not even) or (
            spare and best.kind is EXTENSION_REVERSED
        ):
            return None
        if best.explains < _SURE.get(best.kind, 0.0):
            return None
    hot = rows[true[rows] >= 0.9 * np.nanmax(true[rows])]
    low = best.kind is EXTENSION_REVERSED or (best.kind is NEAR_HEATER and best.figure[:3] == "low")
    if not even and (low or best.kind is OFFSET):
        where = np.zeros(len(true), dtype=np.bool_)
        where[hot] = True
        if heat_lies_aside(signals, chain, true, where):
            return None
    return _fault(signals, chain, best, float(np.nanmedian((values - true)[hot])))


def _off_evenly(values: Floats, true: Floats, around: Floats, air: float) -> bool:
    """Whether it is off the others by one amount, from when all are cold and stand together on and
    however hot the part gets: then no metal is, and no partner."""
    known = np.isfinite(values) & np.isfinite(true)
    if np.count_nonzero(known) < _ENOUGH:
        return False
    off, rise = (values - true)[known], true[known] - air
    by = float(np.median(off))
    most = float(rise.max())
    apart = np.ptp(around[:, known][:, :_FIRST], axis=0).max()
    return bool(
        most >= _RISES
        and rise[0] <= _COLD_YET * most
        and apart <= _EVEN * abs(by)
        and np.all(np.abs(off[:_FIRST] - by) <= _EVEN * abs(by))
        and np.all(np.abs(np.percentile(off, (2, 98)) - by) <= _EVEN * abs(by))
    )


def _partner(signals: Signals, chain: Chain) -> Chain | None:
    """The other one at its place: its spare, or the one it is the spare of."""
    assert chain.watched is not None
    for one in signals.chains.values():
        if one.watched is None or signals.faulty(one.tag):
            continue
        if chain.tag == one.watched.spare_of or one.tag == chain.watched.spare_of:
            return one
    return None


def _alike(signals: Signals, chain: Chain, partner: Chain, others: list[Chain]) -> bool:
    """Whether one beside it is off in the same way."""
    rest = [signals.sampled(one) for one in others if one is not partner]
    if len(rest) < 2:
        return True
    true = middle(np.array(rest))
    own, its = (_median(signals.sampled(one) - true) for one in (chain, partner))
    return own * its > 0 and abs(own - its) <= 0.5 * abs(own)


def _median(values: Floats) -> float:
    known = values[np.isfinite(values)]
    top = np.percentile(np.abs(known), 75) if len(known) else 0.0
    strong = known[np.abs(known) >= top]
    return float(np.median(strong)) if len(strong) else 0.0


def _began(signals: Signals, chain: Chain, since: float) -> float:
    """s, when it began to leave the others: the rows that slow changes are looked at on lie minutes
    apart, and what falls until the next of them is none of the metal."""
    times = signals.elapsed
    rows = np.flatnonzero((times >= since - _BEGAN) & (times <= since))
    before = np.flatnonzero((times >= since - 3 * _BEGAN) & (times < since - _BEGAN))
    true = np.interp(times, times[signals.coarse], signals.reference(chain.tag))
    off = chain.values - true
    usual = off[before][np.isfinite(off[before])]
    if len(usual) < _FIRST or len(rows) < 2:
        return since
    level, noise = float(np.median(usual)), float(np.std(usual))
    near = np.abs(off[rows] - level) <= max(3 * noise, 2 * chain.resolution)
    last = np.flatnonzero(near)
    return float(times[rows[min(int(last[-1]) + 1, len(rows) - 1)]]) if len(last) else since


def _fault(signals: Signals, chain: Chain, best: Signature, error: float) -> Fault:
    sentence = (
        f"reads {signals.kelvin(abs(error))} {'above' if error > 0 else 'below'} those beside it: "
        f"{best.figure}, which explains {best.explains:.0%} of it"
    )
    assert chain.watched is not None
    kept = chain.watched.duty == SPARE or best.kind is EXTENSION_REVERSED
    end = signals.record.end if best.until is None else best.until
    others = (chain.watched.spare_of,) if chain.watched.duty == SPARE else ()
    confidence = HIGH if best.explains >= _CLEAR else MEDIUM
    treatment = KEPT if kept else LEFT_OUT
    since = best.since
    if since > 0 and best.kind in (OFFSET, DETACHED):
        since = _began(signals, chain, since)
    return Fault(best.kind.name, chain.tag, others, since, end, sentence, confidence, treatment)


def type_of_wire(signals: Signals) -> str:
    """Its letter, as the text says."""
    plan = signals.plan
    block = plan.sheet.joint.entry.thermocouples if plan is not None else None
    return (block.type if block is not None else None) or "K"
