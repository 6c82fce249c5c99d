"""Thermocouples that move, but not with the part: reversed, fallen off, shorted, reading low.

All go by the share k = (reading - air) / (peers - air), which for a sound chain at one place hardly
changes, where the peers are well above the air.
"""

from __future__ import annotations

import numpy as np

from hts.record.faults.came_off import electrical
from hts.record.faults.fault import Fault, fault
from hts.record.faults.fault_kinds import (
    AMBIENT,
    DRIFT,
    EXTENSION_REVERSED,
    HIGH,
    KEPT,
    LEFT_OUT,
    LOW,
    MEDIUM,
    REVERSED,
    SHORTED,
)
from hts.record.faults.signals import Chain, Mask, Signals
from hts.record.faults.slid import heat_lies_aside
from hts.record.faults.stack import Stack, in_any
from hts.record.record import Floats

#: K above the air from which a share is worth anything: at a place that is to be as hot as the
#: peers, and at another. Basis: practice, no source.
_WARM_SAME, _WARM = 40.0, 80.0
#: A reversed pair falls about as much as the part rises (derived: E is nearly straight below 200
#: degC, so inv(2 E(instrument) - E(T)) is about 2 x instrument - T); half of it is enough to tell.
_FALLS, _FALLEN = 0.5, 20.0
#: K that a reversed pair falls by for each K that a hot part rises, at most: from -200 to -250 degC
#: the E of type K falls by 0.51 mV, that of a part rises by as much in 12 K (derived from the
#: reference function of IEC 60584-1), which is 4.1.
_STEEPEST = 5.0
#: K. So near to its lowest reading a chain may be at the bottom of its scale.
#: Basis: practice, ours.
_BOTTOM = 2.0
#: Share left of one that fell off, or K from the air. Basis: practice, no source.
_AIR_SHARE, _AIR_NEAR = 0.08, 15.0
#: Share of its own former share at and under which a sudden loss is another place; share of a place
#: that must be in range under which it reads another from the start. Basis: practice, no source.
_LOST, _NEVER = 0.85, 0.6
#: K that must go at once, and the share of all that goes, for a loss to be sudden.
#: Basis: practice, ours.
_AT_ONCE, _SUDDEN = 25.0, 0.5
#: K low in the hold, and how often the spread of the peers, from which a chain reads low. Twice a
#: head 12 K warmer than the instrument makes 25 K (derived: error = -2 [E(head) - E(instrument)]).
_LOW_BY, _SPREADS = 25.0, 4.0
#: Part of what it is low by that it grows by in the hold, as a drift. Basis: practice, no source.
_GROWS = 0.4
#: K. Most that a reversed extension costs: its head is 80 K warmer than the instrument (derived).
_MOST = 160.0
#: Share of its own former share that an extension reversed in the run leaves at the least: wires
#: that touch so near the part are bare by a few mm alone. Basis: practice, no source.
_JOINED = 0.75
#: A head is much cooler than the part it leads to; more than half of the rise it cannot cost.
#: Basis: practice, ours.
_MOST_SHARE = 0.5


def reversed_pairs(signals: Signals) -> list[Fault]:
    """Thermocouples that fall as the others rise, and rise as they fall, below the air."""
    air = signals.air()
    found = []
    for chain in signals.chains.values():
        if not chain.on_part or not chain.extremes[0] < air - _FALLEN:
            continue
        if not np.any(chain.values < air - _FALLEN):
            continue
        times = signals.elapsed[signals.coarse]
        reference = np.interp(signals.elapsed, times, signals.reference(chain.tag))
        both = np.isfinite(reference) & np.isfinite(chain.values)
        if both.sum() < 8:
            continue
        others, own = reference[both], chain.values[both]
        if np.mean(own[others > air + 3 * _FALLEN] < air) < 0.95:
            continue
        if not (_mirrored(own, others) or _sunk(own, others, air)):
            continue
        lowest = int(np.argmin(own))
        sentence = (
            f"goes from {signals.degrees(own[0])} to {signals.degrees(own[lowest])} while the "
            f"others go from {signals.degrees(others[0])} to {signals.degrees(others[lowest])}"
        )
        found.append(fault(REVERSED, chain.tag, 0.0, signals.record.end, sentence, HIGH, LEFT_OUT))
    return found


def may_be_reversed(stack: Stack) -> Mask:
    """Those in which one on the part falls well below the air."""
    on_part = stack.rows(one.on_part for one in stack.chains)
    return in_any(stack.lowest[on_part] < stack.air - _FALLEN)


def _mirrored(own: Floats, others: Floats) -> bool:
    """Whether it falls as the others rise, and rises as they fall."""
    # At the bottom of the scale it can fall no farther, and stands still.
    free = (own > own.min() + _BOTTOM) & (np.diff(own, prepend=np.nan) != 0)
    if free.sum() < 8 or np.ptp(others[free]) < 1.5 * _FALLEN:
        return False
    slope = float(np.polyfit(others[free], own[free], 1)[0])
    return slope <= -_FALLS and bool(np.corrcoef(own[free], others[free])[0, 1] <= -0.8)


def _sunk(own: Floats, others: Floats, air: float) -> bool:
    """Whether, on a part that was hot from the first row, it falls with the rise of the others
    to the bottom of the scale; an open circuit goes there at once."""
    way = slice(0, int(np.argmax(own <= own.min() + _BOTTOM)) + 1)
    fallen, risen = own[0] - own[way][-1], others[way][-1] - others[0]
    if own[0] >= air - _FALLEN or fallen < _FALLEN / 2 or risen < fallen / _STEEPEST:
        return False
    return way.stop >= 4 and bool(np.corrcoef(own[way], others[way])[0, 1] <= -0.8)


def lost_places(signals: Signals) -> list[Fault]:
    """Thermocouples that fell off, and those whose lead is shorted on the way."""
    air = signals.air()
    chains = [
        one
        for one in signals.chains.values()
        if one.on_part and not signals.faulty(one.tag) and not signals.explained(one.tag)
    ]
    found = []
    for chain in _may_have_lost(signals, chains, air):
        share, warm, reference = _share(signals, chain, air)
        if np.count_nonzero(warm) < 8:
            continue
        one = _sudden(signals, chain, share, warm, reference, air)
        if one is None and chain.required and not signals.unheated(chain):
            one = _never(signals, chain, share, warm, reference)
        if one is not None:
            found.append(one)
    return found


def _may_have_lost(signals: Signals, chains: list[Chain], air: float) -> list[Chain]:
    """Those whose share ever falls so far, or is as low as of one that never had its place, all
    looked at together."""
    if not chains:
        return chains
    values = signals.rows(signals.matrix.sampled, chains)
    reference = np.array([signals.reference(one.tag) for one in chains])
    lost = _shares_lost(chains, values, reference, air)
    return [one for one, may in zip(chains, lost.tolist(), strict=True) if may]


def _shares_lost(
    chains: list[Chain], values: Floats, reference: Floats, air: float | Floats
) -> Mask:
    """The same of what chains and their peers read on coarse rows, degC [chains, .., rows]."""
    enough = np.array([_WARM_SAME if one.required else _WARM for one in chains])
    rise = reference - air
    with np.errstate(invalid="ignore", divide="ignore"):
        warm = (rise >= enough.reshape(-1, *[1] * (rise.ndim - 1))) & np.isfinite(values)
        share = (values - air) / rise
    most = np.maximum.accumulate(np.where(warm, share, -np.inf), axis=-1)
    falls = np.any(warm & (share <= _LOST * most), axis=-1)
    seldom = 2 * np.count_nonzero(warm & (share > _NEVER), axis=-1) <= warm.sum(axis=-1)
    return np.asarray(falls | seldom)


def may_have_lost_places(stack: Stack) -> Mask:
    """Those in which the share of one ever falls so far, or was as low from the start."""
    found, air = stack.none, stack.air[:, None]
    for chain in [one for one in stack.chains if one.on_part]:
        its, reference = stack.sampled[chain.row], stack.references[chain.row]
        rise = reference - air
        with np.errstate(invalid="ignore", divide="ignore"):
            warm = rise >= (_WARM_SAME if chain.required else _WARM)
            share = np.where(warm, (its - air) / rise, 1.0)
        # Whose share keeps within these limits falls nowhere, and was never so low.
        least = share.min(axis=1)
        open_ = ~(least > np.maximum(_NEVER, _LOST * share.max(axis=1)))
        if open_.any():
            found[open_] |= _shares_lost(
                [chain], its[None, open_], reference[None, open_], air[open_]
            )[0]
    return found


def may_read_low(stack: Stack) -> Mask:
    """Those in which one that must be in range is ever so far below its peers."""
    required = stack.rows(one.required for one in stack.chains)
    return in_any(stack.behind[required] >= _LOW_BY)


def reading_low(signals: Signals) -> list[Fault]:
    """Thermocouples that read low in proportion, as with a reversed extension."""
    air = signals.air()
    found = []
    for chain in signals.chains.values():
        peers = signals.peers(chain.tag)
        if not chain.required or signals.explained(chain.tag) or len(peers) < 2:
            continue
        if signals.unheated(chain) or (chain.watched is not None and signals.misled(chain)):
            continue
        values = signals.sampled(chain)
        if signals.behind(chain) < _LOW_BY:
            continue
        share, warm, reference = _share(signals, chain, air)
        if np.count_nonzero(warm) < 8:
            continue
        hot = warm & (reference - air >= 0.9 * (np.nanmax(reference) - air))
        heating = warm & (np.arange(len(warm)) < np.flatnonzero(hot)[0]) if hot.any() else hot
        if hot.sum() < 3:
            continue
        low = float(np.median((reference - values)[hot]))
        if low < _LOW_BY:
            continue
        rows = signals.coarse[hot]
        levels = np.array([np.nanmedian(peer.values[rows]) for peer in peers
                           if np.isfinite(peer.values[rows]).any()])  # fmt: skip
        spread = float(np.median(np.abs(levels - np.median(levels)))) if len(levels) else 0.0
        missing = 1 - float(np.median(share[hot]))
        if _zone_is_low(signals, chain, reference, hot, low):
            continue
        if heat_lies_aside(signals, chain, reference, hot):
            continue
        if low < _SPREADS * 1.5 * spread or low > _MOST or missing > _MOST_SHARE:
            continue
        before = 1 - float(np.median(share[heating])) if heating.sum() >= 3 else np.nan
        steady = bool(abs(before - missing) <= 0.4 * missing)
        below = signals.kelvin(low)
        sentence = f"reads {below} below the others in the hold, {missing:.0%} of their rise"
        if steady:
            sentence += f", and {before:.0%} while heating"
        heavy = chain.watched is not None and chain.watched.place == "heavy section"
        if not steady and _grows(low_by := (reference - values)[hot], low):
            most = signals.kelvin(float(np.max(low_by)))
            sentence += f", more and more, up to {most}"
            found.append(fault(DRIFT, chain.tag, 0.0, signals.record.end, sentence, MEDIUM, KEPT))
            continue
        confidence = MEDIUM if steady and len(peers) > 2 and not heavy else LOW
        found.append(
            fault(
                EXTENSION_REVERSED, chain.tag, 0.0, signals.record.end, sentence, confidence, KEPT
            )
        )
    return found


def _grows(low_by: Floats, low: float) -> bool:
    """Whether what it is low by, K on the rows at the most heat, grows by half from the first third
    of them to the last: an extension costs what it costs, and a wire that changes more and more."""
    third = max(3, len(low_by) // 3)
    first, last = float(np.median(low_by[:third])), float(np.median(low_by[-third:]))
    return last - first >= _GROWS * low


def _zone_is_low(signals: Signals, chain: Chain, reference: Floats, hot: Mask, low: float) -> bool:
    """Whether one that sits in its zone reads as low: then it is the zone, and no chain."""
    for other in signals.chains.values():
        if other is chain or not chain.zone or other.zone != chain.zone or not other.on_part:
            continue
        if signals.faulty(other.tag) or not other.held:
            continue
        its = (reference - signals.sampled(other))[hot]
        if np.isfinite(its).any() and float(np.nanmedian(its)) >= 0.5 * low:
            return True
    return False


def _share(signals: Signals, chain: Chain, air: float) -> tuple[Floats, Mask, Floats]:
    """Share k on the coarse rows, where it is worth anything, and what the peers read, degC."""
    reference = signals.reference(chain.tag)
    values = signals.sampled(chain)
    with np.errstate(invalid="ignore"):
        enough = _WARM_SAME if chain.required else _WARM
        warm = (reference - air >= enough) & np.isfinite(values)
    share = np.full(len(values), np.nan)
    share[warm] = (values[warm] - air) / (reference[warm] - air)
    return share, warm, reference


def _sudden(
    signals: Signals, chain: Chain, share: Floats, warm: Mask, reference: Floats, air: float
) -> Fault | None:
    rows = np.flatnonzero(warm)
    k = share[rows]
    width = max(3, min(12, len(k) // 4))
    if len(k) < 2 * width + 2 or not _falls(k, width):
        return None
    windows = np.lib.stride_tricks.sliding_window_view(k, width)
    levels = np.median(windows, axis=1)
    falls = levels[: -width - 1] - levels[width + 1 :]
    at = int(np.argmax(falls))
    before, after = float(levels[at]), float(levels[at + width + 1])
    if before < 0.2 or after > _LOST * before:
        return None
    # The fall itself, between the last row at the old level and the first at the new.
    first = at + int(np.flatnonzero(k[at : at + 2 * width + 1] < (before + after) / 2)[0])
    row = int(signals.coarse[rows[first]])
    peers = float(reference[rows[first]])
    drop = (before - after) * (peers - air)
    start = _beginning(signals, chain, row, drop)
    back = np.flatnonzero(k[first:] > 0.9 * before)
    stop = rows[first + max(0, back[0] - 1)] if len(back) > 2 else len(signals.coarse) - 1
    begin, end = float(signals.elapsed[start]), float(signals.elapsed[signals.coarse[stop]])
    level = float(np.median(k[first:][: max(1, len(k[first:]) // 2)]))
    lower = float(np.nanmedian(chain.values[signals.coarse[rows[first] : stop + 1]]))
    if level < _AIR_SHARE or abs(lower - air) <= _AIR_NEAR:
        sentence = f"falls to {signals.degrees(lower)}, like the air, while the others read "
        sentence += signals.degrees(peers)
        return fault(AMBIENT, chain.tag, begin, end, sentence, HIGH, LEFT_OUT)
    if not _at_once(signals, chain, start, drop) or _all_fall(signals, chain, start, drop):
        return None
    sentence = (
        f"falls by {signals.kelvin(drop)} at once while the others read {signals.degrees(peers)}, "
        f"then follows them with {level:.0%} of their rise instead of {before:.0%}"
    )
    lost = (before - level) * (float(np.nanmax(reference[rows[first:]])) - air)
    if level >= _JOINED * before and lost <= _MOST:
        sentence += ": as with a plug joined again the wrong way round, or wires that touch near it"
        return fault(EXTENSION_REVERSED, chain.tag, begin, end, sentence, MEDIUM, LEFT_OUT)
    return fault(SHORTED, chain.tag, begin, end, sentence, HIGH, LEFT_OUT)


def _falls(k: Floats, width: int) -> bool:
    """Whether any share is so much under one before it that the medians of two windows, which lie
    between the least and the most in them, can be so far apart."""
    most = np.maximum.accumulate(k)[width - 1 : -width - 1]
    least = np.minimum.accumulate(k[::-1])[::-1][width + 1 :]
    return bool(np.any(least[: len(most)] <= _LOST * most))


def _beginning(signals: Signals, chain: Chain, row: int, drop: float) -> int:
    """The row after the largest step down near `row`; `drop` K is what it falls in all."""
    step = int(signals.coarse[1] - signals.coarse[0]) if len(signals.coarse) > 1 else 1
    first, last = max(1, row - 3 * step - 3), min(len(signals.elapsed), row + step + 2)
    values = chain.values[first - 1 : last]
    steps = np.diff(values)
    large = np.flatnonzero(np.nan_to_num(steps) < -max(_AT_ONCE / 2, 0.1 * drop))
    return first + int(large[0]) if len(large) else row


def _at_once(signals: Signals, chain: Chain, row: int, drop: float) -> bool:
    """Whether most of the fall is in two rows, or as quick as a recorder smooths."""
    before, after = chain.values[max(0, row - 1)], chain.values[min(row + 1, len(chain.values) - 1)]
    if drop >= _AT_ONCE and electrical(signals.elapsed, -chain.values, row, drop):
        return True
    return bool(before - after >= max(_AT_ONCE, _SUDDEN * drop))


def _all_fall(signals: Signals, chain: Chain, row: int, drop: float) -> bool:
    """Whether several others fall with it: then something has cooled the part."""
    about = slice(max(0, row - 4), row + 5)
    falls = []
    for peer in signals.peers(chain.tag):
        values = peer.values[about][np.isfinite(peer.values[about])]
        falls.append(len(values) > 1 and float(values[0] - values.min()) > 0.2 * drop)
    return sum(falls) * 4 > len(falls)


def _never(
    signals: Signals, chain: Chain, share: Floats, warm: Mask, reference: Floats
) -> Fault | None:
    """A place that must be in range and reads far less than the others from the start."""
    known = share[warm]
    if np.count_nonzero(known > _NEVER) * 2 > len(known):
        return None
    level = float(np.median(known))
    if level > _NEVER:
        return None
    sentence = f"follows the others with {level:.0%} of their rise"
    end = signals.record.end
    if abs(level) < _AIR_SHARE:
        return fault(AMBIENT, chain.tag, 0.0, end, sentence, MEDIUM, LEFT_OUT)
    missing = float(np.nanmax((reference - signals.sampled(chain))[warm]))
    if missing <= _MOST and level >= 1 - _MOST_SHARE:
        return None  # an extension reversed costs as much
    return fault(SHORTED, chain.tag, 0.0, end, sentence, MEDIUM, KEPT)
