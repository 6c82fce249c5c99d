"""Thermocouples away from the weld that are read in another unit than the rest.

Those that need not be in range have none beside them that must read alike, so their course alone
tells nothing. What is known of them: all are as cold as the air before heating; two at like places
of two zones are about as hot; and on one side of the weld it is hotter nearer to it.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import combinations, product

import numpy as np

from hts.record.faults.agreement import cold_start, furthest_apart
from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import KEPT, MEDIUM, WRONG_UNIT
from hts.record.faults.matrix import medians
from hts.record.faults.signals import Chain, Mask, Signals
from hts.record.faults.stack import Stack
from hts.record.record import Floats

#: How a reading came to be wrong, and the true one of it.
_UNITS: tuple[tuple[str, Callable[[Floats], Floats]], ...] = (
    ("degF read as degC", lambda read: (read - 32) / 1.8),
    ("degC read as degF", lambda read: read * 1.8 + 32),
)
#: K that the air may be off what is meant at a cold start: less is left for a constant error that
#: comes near it. Basis: practice, no source.
_AS_COLD = 3.5
#: K that two like places must be apart in the hold to ask for a reason, and part of the squared
#: difference that the other unit must explain. Basis: practice, no source.
_APART, _EXPLAINS = 60.0, 0.97
#: K by which a place may be hotter than one nearer to the weld, on its own side of it and on the
#: other; mm that it must be farther, and degrees round the pipe that heat alike.
#: Basis: practice, no source.
_HOTTER, _HOTTER_ACROSS, _FARTHER, _ROUND = 60.0, 90.0, 40.0, 90.0
#: Part of the highest rise that is hot, and coarse rows it takes. Basis: practice, ours.
_HOT, _ENOUGH = 0.9, 3


def before_heating(signals: Signals) -> list[Fault]:
    """A fault for each that reads, while all are as cold as the air, what that is in another
    unit."""
    cold = cold_start(signals)
    if cold is None:
        return []
    found = []
    for tag, value in cold.readings.items():
        if abs(value - cold.middle) <= cold.allowed or signals.chains[tag].required:
            continue
        for figure, true in _UNITS:
            meant = float(true(np.array(value)))
            if abs(meant - cold.middle) > _AS_COLD:
                continue
            found.append(
                _fault(
                    signals,
                    (tag,),
                    f"reads {signals.degrees(value)} at the start, when all are at "
                    f"{signals.degrees(cold.middle)}: {figure}, which is "
                    f"{signals.degrees(meant)}",
                )
            )
    return found


def _away(signals: Signals) -> list[Chain]:
    """Those on the part that neither must be in range nor stand in for one that must."""
    return [
        one
        for one in signals.chains.values()
        if one.watched is not None
        and one.on_part
        and not one.required
        and not one.watched.spare_of
        and not signals.explained(one.tag)
        and not signals.faulty(one.tag)
    ]


def at_like_places(signals: Signals) -> list[Fault]:
    """Two of which one reads as the other would in another unit, all the time."""
    found = []
    for one, other in combinations(_away(signals), 2):
        assert one.watched is not None and other.watched is not None
        if one.watched.place != other.watched.place:
            continue
        for low, high in ((one, other), (other, one)):
            its, theirs = signals.sampled(low), signals.sampled(high)
            known = np.isfinite(its) & np.isfinite(theirs)
            its, theirs = its[known], theirs[known]
            if len(its) < _ENOUGH or np.max(theirs - its) < _APART:
                continue
            apart, rest = theirs - its, theirs - (its * 1.8 + 32)
            explains = 1 - float(rest @ rest) / float(apart @ apart)
            if explains < _EXPLAINS or np.max(np.abs(rest)) > np.max(furthest_apart(theirs)) * 3:
                continue
            sentence = (
                f"{high.tag} reads what {low.tag} would in degF, both at a place like the other: "
                f"{explains:.0%} of the difference; {_which(signals, low, high)}"
            )
            found.append(_fault(signals, _order(signals, low, high), sentence))
    return found


def _order(signals: Signals, low: Chain, high: Chain) -> tuple[str, ...]:
    """The one that must be it first, and alone where that is sure."""
    return (high.tag,) if _impossible(signals, high) else (low.tag, high.tag)


def _which(signals: Signals, low: Chain, high: Chain) -> str:
    if _impossible(signals, high):
        return f"{high.tag} is hotter than the weld: degF read as degC"
    return "degC read as degF in the one, or degF read as degC in the other"


def _impossible(signals: Signals, chain: Chain) -> bool:
    """Whether a place away from the weld reads well above all at the weld."""
    return float(np.fmax.reduce(signals.sampled(chain) - signals.reference(chain.tag))) > _HOTTER


def along_the_pipe(signals: Signals) -> list[Fault]:
    """Those hotter than one nearer to the weld, or colder than one farther off, that would not be
    so in the other unit."""
    away = _away(signals)
    levels = _levels(signals) if away else {}
    # Where a zone lost its heat, the order is another one.
    if not levels or signals.zone_cold.any():
        return []
    found: list[tuple[str, str]] = []
    for chain in away:
        if chain.tag not in levels or not _out_of_order(signals, chain, levels):
            continue
        for figure, true in _UNITS:
            meant = float(true(np.array(levels[chain.tag])))
            if not _out_of_order(signals, chain, {**levels, chain.tag: meant}):
                found.append((chain.tag, figure))
    if not found:
        return []
    # Of two that contradict each other either may be it.
    (tag, figure), *rest = found
    sentence = f"reads {signals.degrees(levels[tag])} in the hold, which is out of order along the "
    sentence += f"pipe: {figure}"
    if rest:
        sentence += "; or it is " + ", ".join(f"{other}, {its}" for other, its in rest)
    return [_fault(signals, tuple(dict.fromkeys(one for one, _ in found)), sentence)]


def _levels(signals: Signals) -> dict[str, float]:
    """degC that each on the part reads while those at the weld are hottest."""
    required = [one for one in signals.chains.values() if one.required]
    if len(required) < 2:
        return {}
    reference = signals.reference("")
    rise = reference - signals.air()
    if not np.isfinite(rise).any():
        return {}
    hot = rise >= _HOT * np.nanmax(rise)
    chains = [
        one
        for one in signals.chains.values()
        if one.on_part and not (signals.faulty(one.tag) or signals.explained(one.tag))
    ]
    if signals.matrix.gapless:
        if np.count_nonzero(hot) < _ENOUGH:
            return {}
        levels = medians(signals.rows(signals.matrix.sampled, chains)[:, hot])
        return dict(zip((one.tag for one in chains), levels.tolist(), strict=True))
    found = {}
    for one in chains:
        values = signals.sampled(one)[hot]
        if np.isfinite(values).sum() >= _ENOUGH:
            found[one.tag] = float(np.nanmedian(values))
    return found


def _out_of_order(signals: Signals, chain: Chain, levels: dict[str, float]) -> bool:
    for tag, level in levels.items():
        farther = _farther(chain, signals.chains[tag])
        hotter = levels[chain.tag] - level
        if farther and (hotter if farther > 0 else -hotter) > _hotter(chain, signals.chains[tag]):
            return True
    return False


def _farther(chain: Chain, other: Chain) -> float:
    """mm that it is farther from the weld than another; 0 where they are as far, or not on one
    half of the pipe."""
    one, two = chain.watched, other.watched
    if one is None or two is None or one.axial is None or two.axial is None:
        return 0.0
    if one.clock is None or two.clock is None:
        return 0.0
    turn = abs(one.clock - two.clock) % 360.0
    between = abs(one.axial) - abs(two.axial)
    return between if min(turn, 360.0 - turn) <= _ROUND and abs(between) >= _FARTHER else 0.0


def _hotter(chain: Chain, other: Chain) -> float:
    """K by which the farther of two may be hotter."""
    assert chain.watched is not None and other.watched is not None
    across = (chain.watched.axial or 0.0) * (other.watched.axial or 0.0) < 0
    return _HOTTER_ACROSS if across else _HOTTER


def _fault(signals: Signals, tags: tuple[str, ...], sentence: str) -> Fault:
    end = signals.record.end
    return Fault(WRONG_UNIT.name, tags[0], tags[1:], 0.0, end, sentence, MEDIUM, KEPT)


def may_be_like_another(stack: Stack) -> Mask:
    """Those in which one away from the weld is ever so far from one at a like place."""
    found = stack.none
    for one, other in combinations(_away(stack.like), 2):
        assert one.watched is not None and other.watched is not None
        if one.watched.place == other.watched.place:
            apart = np.abs(stack.sampled[one.row] - stack.sampled[other.row]).max(axis=1)
            found |= apart >= _APART
    return found


def may_be_out_of_order(stack: Stack) -> Mask:
    """Those in which one away from the weld is ever so much hotter than one nearer to it, or colder
    than one farther off: what it is in the hold is one of that."""
    found = stack.none
    for one, other in product(_away(stack.like), stack.chains):
        farther = _farther(one, other) if other.on_part else 0.0
        if farther:
            hotter = stack.sampled[one.row] - stack.sampled[other.row]
            found |= (hotter if farther > 0 else -hotter).max(axis=1) > _hotter(one, other)
    return found
