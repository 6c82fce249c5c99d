"""Heaters that fail while the run goes on: a zone loses its heat, the others keep theirs.

All thermocouples of the zone go together, so it is the part that grows cold and no chain that
reads wrong: their readings stay what they are.
"""

from __future__ import annotations

import numpy as np

from hts.language.vocabulary.interruptions import HeaterLoss
from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import HEATER_LOSS, HIGH, KEPT, MEDIUM
from hts.record.faults.matrix import Middles
from hts.record.faults.signals import Chain, Mask, Rows, Signals, runs
from hts.record.faults.stack import Stack, in_any
from hts.record.plan import CONTROLS
from hts.record.record import Floats

#: s. Time constant of the loss of a zone without heat, at the most: a thick wall, well lagged, its
#: neighbours helping. A zone that falls slower may get some. Basis: practice, no source.
_SLOWEST = 25 * 3600.0
#: s over which a fall is taken. Basis: practice, ours.
_OVER = 600.0
#: Part of the fall of the zone that each of its thermocouples goes with at the least, and that the
#: others fall with it at the most: a run that cools as a whole has lost nothing.
#: Basis: practice, ours.
_WITH, _ALONE = 0.4, 0.3
#: K that the zone falls in all, and that it is then below the others. Basis: practice, no source.
_FALLS, _BELOW = 12.0, 15.0
#: K above the air from which a fall tells anything, and part of its lack that a zone which has its
#: heat again still has at the most. Basis: practice, ours.
_WARM, _LEFT = 60.0, 0.25
#: s. What is back sooner was no heater that failed. Basis: practice, ours.
_LASTS = 45 * 60.0
#: Part of what it would lose at its first rate that a zone without heat loses at the least. One
#: that falls less gets some, from what is left of its heaters, and must fall by so many K: a
#: zone that is set a little lower stands there, too. Basis: practice, ours.
_FREELY, _STANDS = 0.5, 25.0
#: Thermocouples of a zone it takes: one alone may be off the part.
_ENOUGH = 2


def heater_losses(signals: Signals) -> list[Fault]:
    """A fault for each zone that lost its heat, once for each time it did."""
    zones = _zones(signals)
    if len(zones) < 2 or len(signals.coarse) < 8:
        return []
    groups = [signals.middles(its) for its in zones.values()]
    levels = np.array([group.of_all for group in groups])
    others = Middles(levels).without_each
    # In each zone one may fall while the others do not: most run without that.
    times = signals.elapsed[signals.coarse]
    after = np.searchsorted(times, times + _OVER)
    rows = np.flatnonzero(after < len(times))
    falls = _alone(times, signals.air(), levels, others, rows, after[rows])
    found = []
    for at in np.flatnonzero(falls.any(axis=1)).tolist():
        name, its = list(zones.items())[at]
        if len(its) >= _ENOUGH and any(_controls(one) for one in its):
            course = groups[at].courses
            found += _of(signals, name, course, levels[at], others[at], falls[at])
    return found


def may_lose_heat(stack: Stack) -> Mask:
    """Those in which a zone ever falls by itself."""
    zones = list(_zones(stack.like).values())
    if len(zones) < 2:
        return stack.none
    levels = np.array([stack.middles(its).of_all for its in zones])
    times = stack.like.elapsed[stack.like.coarse]
    after = np.searchsorted(times, times + _OVER)
    rows = np.flatnonzero(after < len(times))
    # Warm as it is, the least that one without heat falls by in that time: where none does, in
    # most of a record, the others need not be looked at.
    least = _WARM * (times[after[rows]] - times[rows]) / _SLOWEST
    rows = rows[np.any(levels[..., after[rows]] - levels[..., rows] <= -least, axis=(0, 1))]
    if not len(rows):
        return stack.none
    others = Middles(levels.reshape(len(zones), -1)).without_each.reshape(levels.shape)
    return in_any(_alone(times, stack.air[:, None], levels, others, rows, after[rows]))


def _alone(
    times: Floats, air: float | Floats, levels: Floats, others: Floats, rows: Rows, ahead: Rows
) -> Mask:
    """Whether each zone falls from a coarse row to the one ahead as one without heat does, and the
    others do not [zones, .., rows]; `levels` and `others` degC [zones, .., coarse rows]."""
    own, theirs = levels[..., ahead] - levels[..., rows], others[..., ahead] - others[..., rows]
    warm = levels[..., rows] - air
    least = warm * (times[ahead] - times[rows]) / _SLOWEST
    with np.errstate(invalid="ignore"):
        return np.asarray((own <= -least) & (warm >= _WARM) & (theirs >= _ALONE * own))


def _zones(signals: Signals) -> dict[str, list[Chain]]:
    """Those of the plan, and who sits in each."""
    members = _members(signals)
    names = () if signals.plan is None else signals.plan.zones
    return {name: members[name] for name in names if name in members}


def _members(signals: Signals) -> dict[str, list[Chain]]:
    """By zone, the sound ones that sit where it is held."""
    zones: dict[str, list[Chain]] = {}
    for chain in signals.chains.values():
        if not chain.held or not chain.on_part or signals.faulty(chain.tag):
            continue
        if not signals.exchanged(chain.tag):
            zones.setdefault(chain.zone, []).append(chain)
    return zones


def _controls(chain: Chain) -> bool:
    return chain.watched is not None and chain.watched.duty == CONTROLS


def _of(
    signals: Signals, zone: str, course: Floats, level: Floats, others: Floats, alone: Mask
) -> list[Fault]:
    """`course` [thermocouples, coarse rows], `level` the middle of it, `others` that of the other
    zones, all degC; `alone` the rows it falls at by itself."""
    times = signals.elapsed[signals.coarse]
    after = np.searchsorted(times, times + _OVER)
    rows = np.flatnonzero(after < len(times))
    ahead = after[rows]
    took = times[ahead] - times[rows]
    own, theirs = level[ahead] - level[rows], others[ahead] - others[rows]
    each = course[:, ahead] - course[:, rows]
    with np.errstate(invalid="ignore"):
        falls = alone & np.all(np.isnan(each) | (each <= _WITH * own), axis=0)
        cooling = theirs <= -(others[rows] - signals.air()) * took / _SLOWEST
    found: list[Fault] = []
    done = -1
    for first, _ in runs(falls):
        # The fall may begin at any time within that over which it was taken.
        row = int(rows[first])
        row += int(np.nanargmax(level[row : int(after[row]) + 1]))
        if row <= done:
            continue
        stop, back = _until(level, others, row, rows[cooling])
        fault = _lost(signals, zone, level, others, (row, stop), back)
        if fault is not None:
            done = stop
            found.append(fault)
    return found


def _until(level: Floats, others: Floats, row: int, cooling: np.ndarray) -> tuple[int, bool]:
    """The coarse row at which the zone is back with the others, or at which those cool and nothing
    more can be told; whether it is back."""
    below = others - level
    low = np.flatnonzero(below[row:] - below[row] >= _FALLS)
    begun = row + int(low[0]) if len(low) else row
    lack = below[begun:] - below[row]
    with np.errstate(invalid="ignore"):
        regained = lack <= np.maximum(_FALLS / 2, _LEFT * np.fmax.accumulate(lack))
    again = np.flatnonzero(regained)
    again = again[again > 0]
    back = begun + int(again[0]) if len(again) else len(level)
    ends = cooling[cooling > row]
    stop = int(ends[0]) if len(ends) else len(level) - 1
    return (back, True) if back <= stop else (stop, False)


def _lost(
    signals: Signals,
    zone: str,
    level: Floats,
    others: Floats,
    between: tuple[int, int],
    back: bool,
) -> Fault | None:
    row, stop = between
    times = signals.elapsed[signals.coarse]
    here = slice(row, stop + 1)
    fallen = level[row] - np.fmin.reduce(level[here])
    below = np.fmax.reduce(others[here] - level[here])
    if not (fallen >= _FALLS and below >= _BELOW):
        return None
    start, end = float(times[row]), float(times[stop])
    goes_on = not back and stop == len(level) - 1
    lacks = others[here] - level[here] - (others[row] - level[row]) >= _FALLS / 2
    lacked = float(np.sum(np.diff(times[here])[lacks[1:]]))
    if lacked < _LASTS and not goes_on:
        return None
    soon = min(stop, max(row + 1, int(np.searchsorted(times, start + 2 * _OVER))))
    soon = row + int(np.flatnonzero(np.isfinite(level[row : soon + 1]))[-1])
    if soon == row:
        return None
    rate = float(level[row] - level[soon]) / (float(times[soon]) - start)
    stands = fallen < _FREELY * rate * (end - start)
    if stands and fallen < _STANDS:
        return None
    sentence = (
        f"falls by {signals.kelvin(fallen)} from {signals.degrees(level[row])}, at first by "
        f"{signals.rate(rate * 3600)}{', then no more' if stands else ''}, all its thermocouples "
        f"together, while the other zones are at "
        f"{signals.degrees(float(np.nanmedian(others[here])))}"
    )
    assert signals.plan is not None
    rule = signals.plan.stated("heater_loss")
    if isinstance(rule, HeaterLoss):
        sentence += f"; the sheet says: {rule.action}"
    confidence = HIGH if lacked >= _LASTS and not stands else MEDIUM
    return Fault(
        HEATER_LOSS.name, "", (), start, end, sentence, confidence, KEPT, zone=zone, over=back
    )
