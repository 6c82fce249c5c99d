"""Wrong in one part of the run only: channels changed over, another unit, legs reversed, wires that
touch, until somebody mended it or from a moment on.

A reading that leaps in one row as no metal does is wrong before it or after it. Which of the two,
those at like places tell; the other part is sound and is kept.
"""

from __future__ import annotations

from itertools import combinations

import numpy as np

from hts.record.faults.agreement import furthest_apart
from hts.record.faults.fault import Fault, Spell, fault
from hts.record.faults.fault_kinds import (
    AMBIENT,
    EXCHANGED,
    HIGH,
    LEFT_OUT,
    REVERSED,
    SHORTED,
    WRONG_UNIT,
    FaultKind,
)
from hts.record.faults.matrix import middle
from hts.record.faults.signals import Chain, Mask, Signals
from hts.record.faults.stack import Stack, in_any
from hts.record.record import REPLACED, Floats

#: K by which one goes beside the others from a row to the next, at least. Basis: practice, ours.
_LEAPS = 25.0
#: Rows on either side whose level is compared, part of the leap that lasts, and steps between rows,
#: in times the usual one, that count. Basis: practice, ours.
_ROWS, _LASTS, _REGULAR = 4, 0.6, 1.5
#: s in which what leaps has come to where it goes, however the recorder smooths.
#: Basis: practice, ours.
_SETTLES = 120.0
#: Leaps from which it is a loose contact. Basis: practice, ours.
_LOOSE = 5
#: Part of the leap by which each of two may miss where the other was. Basis: practice, no source.
_MISSES = 0.2
#: K above the air from which those at like places tell, how much better the sound part must be,
#: and K that the wrong one is off by at least. Basis: practice, no source.
_WARM, _CLEARLY, _OFF = 40.0, 2.0, 10.0
#: K that a place of another kind may differ by, and part of a stretch that is as told.
#: Basis: practice, no source.
_ELSEWHERE, _MOSTLY = 10.0, 0.8
#: Part of the error that a unit leaves unexplained, at most. Basis: practice, no source.
_LEAVES = 0.08
#: K under the air, and correlation with the others, of a pair reversed. Basis: practice, no source.
_UNDER, _AGAINST = 20.0, -0.8
#: K. So near to its lowest reading a chain may be at the bottom of its scale.
#: Basis: practice, ours.
_BOTTOM = 2.0
#: Share of the rise of the others that is the air, and that is another place.
#: Basis: practice, no source.
_AIR_SHARE, _LOST = 0.08, 0.85

Rows = list[int]


def for_a_part(signals: Signals) -> list[Fault]:
    """One fault for each that leaps between a sound part and a wrong one, or for each such pair."""
    leaps = leaps_of(signals)
    found: list[Fault] = []
    taken: set[str] = set()
    chains = [signals.chains[tag] for tag in leaps]
    for one, other in combinations(chains, 2):
        if leaps[one.tag] == leaps[other.tag] and not {one.tag, other.tag} & taken:
            pair = _changed_over(signals, one, other, leaps[one.tag])
            found += pair
            taken |= {one.tag, other.tag} if pair else set()
    for chain in chains:
        if chain.held and chain.tag not in taken:
            found += _alone(signals, chain, leaps[chain.tag])
    return found


def leaps_of(signals: Signals) -> dict[str, Rows]:
    """The rows before which each of them leaps; those that do not are left out."""
    steps = signals.matrix.steps
    # What goes by less than all could go against it does not leap.
    if not 2 * np.max(signals.matrix.largest_steps) >= _LEAPS:
        return {}
    replaced = {event.tag for event in signals.record.events if event.kind == REPLACED}
    chains = [
        one
        for one in signals.chains.values()
        if one.watched is not None and one.tag not in replaced and not signals.faulty(one.tag)
    ]
    if len(chains) < 3:
        return {}
    its = signals.rows(steps, chains)
    most = np.fmax.reduce(np.abs(its), axis=0)
    at = np.flatnonzero(2 * most >= _LEAPS)
    dt = np.diff(signals.elapsed)[at]
    at, dt = at[regular := dt <= _REGULAR * signals.record.interval], dt[regular]
    if not len(at):
        return {}
    beside = its[:, at] - middle(its[:, at])
    leaping = np.abs(beside) >= np.maximum(_LEAPS, signals.quick() * dt)
    found = {}
    for chain, own, where in zip(chains, beside, leaping, strict=True):
        rows = [
            int(row) + 1
            for row, by in zip(at[where], own[where], strict=True)
            if _lasts(chain.values, int(row) + 1, float(by))
        ]
        rows = _begun(signals, chain, rows)
        if 0 < len(rows) < _LOOSE:
            found[chain.tag] = rows
    return found


def _begun(signals: Signals, chain: Chain, rows: Rows) -> Rows:
    """Those that do not go on with a leap just begun: a recorder that smooths takes some rows."""
    begun: Rows = []
    for row in rows:
        up = chain.values[row] > chain.values[row - 1]
        last = begun[-1] if begun else 0
        soon = bool(begun) and signals.elapsed[row] - signals.elapsed[last] <= _SETTLES
        if not (soon and up == (chain.values[last] > chain.values[last - 1])):
            begun.append(row)
    return begun


def may_leap(stack: Stack) -> Mask:
    """Those in which one goes by so much that it leaps where all go against it."""
    return in_any(2 * stack.largest_steps >= _LEAPS)


def _lasts(values: Floats, row: int, by: float) -> bool:
    before, after = _level(values[max(0, row - _ROWS) : row]), _level(values[row : row + _ROWS])
    return (after - before if by > 0 else before - after) >= _LASTS * abs(by)


def _level(values: Floats) -> float:
    known = values[np.isfinite(values)]
    return float(np.median(known)) if len(known) else np.nan


def _changed_over(signals: Signals, one: Chain, other: Chain, rows: Rows) -> list[Fault]:
    """Two that go on where the other was, in one and the same row."""
    for row in rows:
        before = slice(max(0, row - 2), row)
        was, its = _level(one.values[before]), _level(other.values[before])
        # At once, or where a recorder that smooths has settled: no part goes far in that.
        settled = int(np.searchsorted(signals.elapsed, signals.elapsed[row] + _SETTLES))
        settled = min(settled, len(signals.elapsed) - 2)
        gap = abs(was - its)
        if not any(
            abs(_level(one.values[after]) - its) <= _MISSES * gap
            and abs(_level(other.values[after]) - was) <= _MISSES * gap
            for after in (slice(row, row + 2), slice(settled, settled + 2))
        ):
            return []
    parts = _parts(len(signals.elapsed), rows)
    off = np.array(
        [
            [_off(signals, chain, part, {one.tag, other.tag}) for part in parts]
            for chain in (one, other)
        ]
    )
    known = np.isfinite(off).all(axis=1)
    if not known.any():
        return []
    of_parts = off[known].sum(axis=0)
    wrong = int(np.argmax(of_parts))
    if of_parts[wrong] < max(_OFF, _CLEARLY * of_parts[1 - wrong]):
        return []
    spells = _spells(signals, parts[wrong])
    sentence = (
        f"{one.tag} and {other.tag} leap by {signals.kelvin(gap)} in one row, each to where the "
        f"other was; they read as their places do {_sound_when(signals, spells)}"
    )
    return [
        fault(EXCHANGED, chain.tag, spells[0].start, spells[-1].end, sentence, HIGH, LEFT_OUT)
        ._replace(others=(its_other.tag,), spells=spells)
        for chain, its_other in ((one, other), (other, one))
    ]  # fmt: skip


def _off(signals: Signals, chain: Chain, part: Mask, without: set[str]) -> float:
    """K that it is off those at like places, in a part of the run; NaN where there are none."""
    assert chain.watched is not None
    place = chain.watched.spare_of or chain.tag
    chains = [c for c in signals.chains.values() if c.watched is not None and c.tag not in without]
    chains = [one for one in chains if one.on_part and not signals.faulty(one.tag)]
    beside = [o for o in chains if o.watched and place in (o.tag, o.watched.spare_of)]
    like = beside or [
        one
        for one in chains
        if one.watched and one.held == chain.held
        and (one.held or one.watched.place == chain.watched.place)
    ]  # fmt: skip
    if not like:
        return np.nan
    true = middle(signals.rows(signals.matrix.sampled, like))
    off = np.abs(signals.sampled(chain) - true)[part[signals.coarse]]
    warm = (true - signals.air() >= _WARM)[part[signals.coarse]]
    return _level(off[warm] if warm.any() else off)


def _parts(count: int, rows: Rows) -> tuple[Mask, Mask]:
    """The stretches between the leaps in turn: the first, third, .. and the second, fourth, .."""
    number = np.zeros(count, dtype=np.intp)
    number[rows] = 1
    odd = np.cumsum(number) % 2 == 1
    return ~odd, odd


def _spells(signals: Signals, part: Mask) -> tuple[Spell, ...]:
    edges = np.flatnonzero(np.diff(part, prepend=False, append=False))
    times = signals.elapsed
    return tuple(
        Spell(float(times[first]), float(times[after - 1]))
        for first, after in zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True)
    )


def _sound_when(signals: Signals, spells: tuple[Spell, ...]) -> str:
    """When it is sound, in words: `before 10:20`, `after 08:25`, `before 10:20 and after 10:35`."""
    clock, words = signals.record.clock, []
    if spells[0].start > 0:
        words.append(f"before {clock(spells[0].start)}")
    if spells[-1].end < signals.elapsed[-1]:
        words.append(f"after {clock(spells[-1].end)}")
    return " and ".join(words)


def _alone(signals: Signals, chain: Chain, rows: Rows) -> list[Fault]:
    """One that must read as those beside it, and does in one of the two parts."""
    reference = signals.reference(chain.tag)
    true = np.interp(signals.elapsed, signals.elapsed[signals.coarse], reference)
    own, air = chain.values, signals.air()
    off = np.abs(own - true)
    allowed = furthest_apart(true) + _ELSEWHERE
    known = np.isfinite(off)
    parts = _parts(len(own), rows)
    within = [_within(off <= allowed, part & known, true - air) for part in parts]
    if not (max(within) >= _MOSTLY and min(within) <= 1 - _MOSTLY):
        return []
    bad = parts[int(np.argmin(within))]
    spells = _spells(signals, bad)
    what = _what(own[bad & known], true[bad & known], air)
    to_the_end = spells[-1].end >= signals.elapsed[-1]
    if what is None or (to_the_end and what[0] in (SHORTED, AMBIENT)):
        return []  # what is lost to the end is looked at by its course
    kind, figure = what
    first = int(np.searchsorted(signals.elapsed, spells[-1].start))
    last = int(np.searchsorted(signals.elapsed, spells[-1].end))
    at = first if to_the_end else last
    sentence = (
        f"reads {signals.degrees(own[at])} at {signals.record.clock(signals.elapsed[at])} where "
        f"the others read {signals.degrees(true[at])}, and with them "
        f"{_sound_when(signals, spells)}: {figure}"
    )
    start, end = spells[0].start, spells[-1].end
    return [fault(kind, chain.tag, start, end, sentence, HIGH, LEFT_OUT, spells)]


def _within(near: Mask, part: Mask, rise: Floats) -> float:
    """Part of a stretch in which one is near those beside it, where they are warm enough to tell:
    near the air all are."""
    if not part.any():
        return np.nan
    return float(np.mean(near[part & (rise >= np.max(rise[part]) / 2)]))


def _what(own: Floats, true: Floats, air: float) -> tuple[FaultKind, str] | None:
    """What makes of the true readings those of a part, and the figure in words."""
    off = _most(own - true)
    warm = true - air >= _WARM
    share = float(np.median((own - air)[warm] / (true - air)[warm])) if warm.any() else 1.0
    # What follows a cooler place may be as near to another unit for a while.
    place = _most(own - air - share * (true - air)) if share < 1 else np.inf
    for figure, meant in (
        ("degF read as degC", true * 1.8 + 32),
        ("degC read as degF", (true - 32) / 1.8),
    ):
        if _most(own - meant) <= min(_LEAVES * off, max(place, _ELSEWHERE)):
            return WRONG_UNIT, figure
    if np.min(own) < air - _UNDER:
        # At the bottom of the scale it can fall no farther, and stands still.
        own, true = own[free := own > np.min(own) + _BOTTOM], true[free]
        if len(own) < _ROWS or np.ptp(true) < _UNDER:
            return None
        against = float(np.corrcoef(own, true)[0, 1]) <= _AGAINST
        return (REVERSED, "it goes down as they go up") if against else None
    if share > _LOST:
        return None
    figure = f"{max(0.0, share):.0%} of their rise"
    return (AMBIENT if share < _AIR_SHARE else SHORTED), figure


def _most(off: Floats) -> float:
    """K that nine in ten are within."""
    return float(np.percentile(np.abs(off), 90))
