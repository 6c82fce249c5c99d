"""Junctions that came off the metal in the run, alone or with the spare beside them, and were put
back or not.

A junction off the metal cools faster than the part can, while those about it stay as hot; one that
is put back is as hot as they are within minutes, as no metal is.
"""

from __future__ import annotations

import numpy as np

from hts.record.faults.agreement import furthest_apart
from hts.record.faults.fault import Fault, Spell, fault
from hts.record.faults.fault_kinds import AMBIENT, DETACHED, HIGH, LEFT_OUT
from hts.record.faults.signals import Chain, Mask, Signals, runs
from hts.record.faults.stack import Stack, in_any
from hts.record.record import REPLACED, Floats

#: K that one falls behind by, at the least; s within which it is told how fast, and shorter than
#: which nothing came off. Basis: practice, no source.
_FAR, _WITHIN, _LASTS = 60.0, 180.0, 600.0
#: K that a place of another kind may differ by. Basis: practice, no source.
_ELSEWHERE = 10.0
#: K, and part of all it falls behind by, from which it has begun to. Basis: practice, ours.
_BEGINS, _BEGINS_PART = 3.0, 0.03
#: Part of that by which one about it may be behind as well: more, and it is the part that cools.
#: Basis: practice, no source.
_WITH_IT = 0.2
#: Rows before and after whose level counts, and part of them that must be sound.
#: Basis: practice, ours.
_ROWS, _SOUND = 20, 0.8
#: Part of all it falls by that no junction cools by in two rows; part of it, and s, in which a
#: recorder that smooths by 30 s has come so far (derived: 1 - exp(-45 / 30)). Basis: practice.
_SUDDEN, _SOON, _SMOOTHED = 0.5, 0.7, 45.0
#: Share of the rise that is the air, or K from it. Basis: practice, no source.
_AIR_SHARE, _AIR_NEAR = 0.08, 15.0


def came_off(signals: Signals) -> list[Fault]:
    """One fault for each that came off; where it was put back, what it reads after that is kept."""
    replaced = {event.tag for event in signals.record.events if event.kind == REPLACED}
    found = []
    for chain in signals.chains.values():
        if not chain.held or chain.tag in replaced or signals.unheated(chain):
            continue
        if signals.faulty(chain.tag) or signals.explained(chain.tag):
            continue
        if signals.behind(chain) >= _FAR:
            found += _of(signals, chain)
    return found


def may_come_off(stack: Stack) -> Mask:
    """Those in which one that is held falls far behind."""
    held = stack.rows(one.held for one in stack.chains)
    return in_any(stack.behind[held] >= _FAR)


def _of(signals: Signals, chain: Chain) -> list[Fault]:
    times = signals.elapsed
    true = np.interp(times, times[signals.coarse], signals.reference(chain.tag))
    behind = true - chain.values
    allowed = furthest_apart(true) + _ELSEWHERE
    low = behind > allowed
    spells: list[tuple[int, int]] = []
    for first, last in runs(low | ~np.isfinite(behind)):
        if spells and first <= spells[-1][1]:
            continue  # from one that was not put back on nothing counts
        if not low[first : last + 1].any() or times[last] - times[first] < _LASTS:
            continue
        spell = _spell(signals, chain, behind, low, first, last)
        if spell is None:
            return []
        spells.append(spell)
    if not spells:
        return []
    return [_fault(signals, chain, spells, true)]


def _spell(
    signals: Signals, chain: Chain, behind: Floats, low: Mask, first: int, last: int
) -> tuple[int, int] | None:
    """The rows from the first at which it falls behind to the last before it is put back."""
    times = signals.elapsed
    deepest = float(np.nanmax(behind[first : last + 1]))
    before = behind[max(0, first - _ROWS - 1) : first]
    if deepest < _FAR or not len(before) or not np.isfinite(before).any():
        return None
    usual = float(np.nanmedian(before))
    begins = usual + max(_BEGINS, _BEGINS_PART * deepest)
    while first > 0 and behind[first - 1] > begins:
        first -= 1
    sound = ~low[max(0, first - _ROWS) : first]
    if not len(sound) or np.mean(sound) < _SOUND or not _at_once(signals, behind, first, +1):
        return None
    # One that falls in two rows, or as a recorder smooths, is shorted: a junction cools by and by.
    then = behind[first : int(np.searchsorted(times, times[first] + _LASTS))]
    if electrical(times, behind, first, float(np.nanmax(then))):
        return None
    if not _alone(signals, chain, behind, first, last, deepest):
        return None
    if last + 1 >= len(times) or not _at_once(signals, behind, last, -1):
        return first, len(times) - 1
    return first, last


def electrical(times: Floats, behind: Floats, row: int, by: float) -> bool:
    """Whether it falls behind by so many K from the row before this one on as no junction cools."""
    before = behind[max(row - 1, 0)]
    two = behind[min(row + 1, len(behind) - 1)] - before
    soon = np.interp(times[max(row - 1, 0)] + _SMOOTHED, times, behind) - before
    return bool(two >= _SUDDEN * by or soon >= _SOON * by)


def _at_once(signals: Signals, behind: Floats, row: int, sign: int) -> bool:
    """Whether it falls behind, or comes back, faster than metal near `row`."""
    times = signals.elapsed
    about = np.arange(
        np.searchsorted(times, times[row] - _WITHIN), np.searchsorted(times, times[row] + _WITHIN)
    )
    # No row is long enough for metal to go so far.
    later = np.minimum(np.searchsorted(times, times[about] + _WITHIN), len(times) - 1)
    span = np.maximum(times[later] - times[about], _WITHIN)
    with np.errstate(invalid="ignore"):
        return bool(np.any(sign * (behind[later] - behind[about]) >= signals.quick() * span))


def _alone(
    signals: Signals, chain: Chain, behind: Floats, first: int, last: int, deepest: float
) -> bool:
    """Whether those of its zone stay as hot, the one beside it aside: that may be off as well."""
    assert chain.watched is not None
    place = chain.watched.spare_of or chain.tag
    zone = [
        one
        for one in signals.chains.values()
        if one.held and one.watched is not None and one.zone == chain.zone
        and place not in (one.tag, one.watched.spare_of) and not signals.faulty(one.tag)
    ]  # fmt: skip
    worst = first + int(np.nanargmax(behind[first : last + 1]))
    true = behind[worst] + chain.values[worst]
    its = [true - one.values[worst] for one in zone]
    its = [one for one in its if np.isfinite(one)]
    return bool(its) and max(its) <= _WITH_IT * deepest


def _fault(signals: Signals, chain: Chain, spells: list[tuple[int, int]], true: Floats) -> Fault:
    times, clock = signals.elapsed, signals.record.clock
    first, last = spells[0]
    worst = first + int(np.nanargmax((true - chain.values)[first : last + 1]))
    lowest, air = float(chain.values[worst]), signals.air()
    like_air = lowest - air <= max(_AIR_NEAR, _AIR_SHARE * (float(true[worst]) - air))
    sentence = (
        f"falls from {clock(times[first])} on faster than the part can, to "
        f"{signals.degrees(lowest)}{', like the air,' if like_air else ''} where the others read "
        f"{signals.degrees(float(true[worst]))}"
    )
    if spells[-1][1] < len(times) - 1:
        sentence += f", and is with them again at {clock(times[spells[-1][1] + 1])}, as quickly"
    if len(spells) > 1:
        sentence += f", {len(spells)} times in all"
    kind = AMBIENT if like_air else DETACHED
    wrong = tuple(Spell(float(times[a]), float(times[b])) for a, b in spells)
    start, end = wrong[0].start, wrong[-1].end
    spells_of_it = wrong if len(wrong) > 1 else ()
    return fault(kind, chain.tag, start, end, sentence, HIGH, LEFT_OUT, spells_of_it)
