"""Thermocouples that do not move: from the start, or from some moment on."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from hts.record.faults.fault import Fault, fault
from hts.record.faults.fault_kinds import FLAT, HIGH, LEFT_OUT, MEDIUM, STUCK
from hts.record.faults.matrix import highest_of, lowest_of
from hts.record.faults.signals import Chain, Mask, Signals, runs
from hts.record.faults.stack import Stack, in_any, lasting
from hts.record.record import COLDEST, HOTTEST, Floats

#: K the others must rise before a chain can be said not to respond. Basis: practice, no source.
_RISE = 100.0
#: The same where the place is to be as hot as the others. Basis: practice, ours.
_RISE_SAME = 60.0
#: A chain on the part that moves by less than this part of what the others do, or by less than
#: this many K, does not respond: at the gradient band a tenth and more arrives. Basis: practice.
_SHARE, _LEAST = 0.03, 10.0
#: K. Who moves by more responds, whatever the others do.
_MOVES = max(_LEAST, _SHARE * (HOTTEST - COLDEST))
#: K the others must move, in steps of the resolution and at least, while one value is repeated;
#: twice that where the place only follows slowly. Basis: practice, no source.
_STEPS, _MOVED = 10.0, 20.0
#: K. A value this near to that of the start is a place the heat has not reached.
#: Basis: practice, ours.
_REACHED = 15.0
#: Rows that are the least to speak of a repeated value, and those that noise cannot leave alone.
#: Basis: practice, ours.
_REPEATS, _MANY = 6, 40
#: Intervals without a reading after which none is repeated. Basis: practice, ours.
_GAP = 3.0
#: Standard deviation of the noise over the resolution from which a reading cannot stand still.
#: Rounding a smooth course alone makes 0.29 (derived: half the readings step by one digit).
_LIVELY = 0.6
#: Part of what the others move by that one beside it moves too, where it is not the zone that
#: stands. Basis: practice, no source.
_ALIKE = 0.3
#: s before it stands in which one that comes to rest slows down, to this part at the most; and the
#: part of what the others move by that they still rise by. Basis: practice, ours.
_SLOWS, _SLOWED, _FOLLOW = 300.0, 0.5, 0.8
#: Part to which floats are compared. Basis: practice, ours.
_SURELY = 1 - 1e-9
#: Rows that noise is taken from.
_BENDS = 20000


def flat(signals: Signals) -> list[Fault]:
    """Thermocouples that do not respond in the whole record."""
    words, found = signals.words, []
    sampled = signals.matrix.sampled
    moves = highest_of(sampled) - lowest_of(sampled) > _MOVES
    for chain in signals.chains.values():
        if moves[chain.row]:
            continue
        reference = signals.reference(chain.tag)
        low, high = float(np.fmin.reduce(chain.values)), float(np.fmax.reduce(chain.values))
        if not chain.on_part or np.isnan(low) or not np.isfinite(reference).any():
            continue
        rise = float(np.nanmax(reference) - np.nanmin(reference))
        if rise < (_RISE_SAME if chain.required else _RISE) or high - low > max(
            _LEAST, _SHARE * rise
        ):
            continue
        lowest, highest = words.temperature(low), words.temperature(high)
        # What differs by less than is shown stands at one temperature.
        stays = f"at {lowest}" if lowest == highest else f"between {lowest} and {highest}"
        sentence = (
            f"stays {stays} while the others go from {signals.degrees(np.nanmin(reference))} to "
            f"{signals.degrees(np.nanmax(reference))}"
        )
        found.append(fault(FLAT, chain.tag, 0.0, signals.record.end, sentence, HIGH, LEFT_OUT))
    return found


def may_be_flat(stack: Stack) -> Mask:
    """Those in which one on the part hardly moves."""
    sampled = stack.sampled[stack.rows(one.on_part for one in stack.chains)]
    return in_any(sampled.max(axis=2) - sampled.min(axis=2) <= _MOVES)


class _Repeat(NamedTuple):
    """A stretch of one value: its rows, all included, and the value."""

    first: int
    last: int
    value: float


def stuck(signals: Signals) -> list[Fault]:
    """Stretches in which a thermocouple repeats one value while the others move."""
    found = []
    may_repeat = _may_repeat(signals)
    for chain in signals.chains.values():
        # What only stands near the part may well keep one temperature.
        if (
            not chain.on_part
            or signals.faulty(chain.tag)
            or not may_repeat[chain.row]
            or not (repeats := _repeats(signals, chain))
        ):
            continue
        reference = signals.reference(chain.tag)
        if not np.isfinite(reference).any():
            continue
        times = signals.elapsed[signals.coarse]
        least = max(_MOVED, _STEPS * chain.resolution)
        if not chain.required and signals.plan is not None:
            least *= 4
        steepest = _steepest(times, reference)
        lively = None
        for repeat in repeats:
            within = signals.elapsed[repeat.first : repeat.last + 1]
            short = repeat.last - repeat.first + 1 < _MANY
            if short and float(within[-1] - within[0]) * steepest < least * _SURELY:
                continue  # too short for the others to move, as nearly all are
            if lively is None:
                lively = _noise(chain.values) > _LIVELY * chain.resolution > 0
            one = _of(signals, chain, repeat, np.interp(within, times, reference), least, lively)
            if one is not None:
                found.append(one)
    return found


def _may_repeat(signals: Signals) -> Mask:
    """Whether there are _REPEATS readings on end that are the same, or some are missing [chains]"""
    matrix = signals.matrix
    often = matrix.steps == 0
    for _ in range(_REPEATS - 2):
        often = often[:, 1:] & often[:, :-1]
    return np.asarray(often.any(axis=1) | ~matrix.whole)


def may_be_stuck(stack: Stack) -> Mask:
    """Those in which one repeats a value for so long that the others may move meanwhile."""
    on_part = stack.rows(one.on_part for one in stack.chains)
    if not len(on_part):
        return stack.none
    elapsed = stack.like.elapsed
    # The middle of several goes no faster than one of them does.
    slopes = np.abs(np.diff(stack.sampled[on_part])) / np.diff(elapsed[stack.like.coarse])
    steepest = np.maximum(slopes.max(axis=(0, 2)), 1e-9) / _SURELY
    long = _MOVED * _SURELY / (steepest * float(np.diff(elapsed).max()))
    least = np.clip(long, _REPEATS - 1, _MANY - 1).astype(np.intp)
    found, same = stack.none, stack.same[on_part]
    for steps in np.unique(least).tolist():
        its = least == steps
        found[its] = in_any(lasting(same[:, its], steps))
    return found


def _steepest(times: Floats, reference: Floats) -> float:
    """K/s, the fastest the others move."""
    good = np.isfinite(reference)
    slopes = np.abs(np.diff(reference[good]) / np.diff(times[good]))
    return float(slopes.max()) if len(slopes) else 0.0


def _repeats(signals: Signals, chain: Chain) -> list[_Repeat]:
    """Stretches of _REPEATS readings and more that are the same, away from the first reading and
    without a gap: what was read in it nobody knows."""
    rows = np.flatnonzero(np.isfinite(chain.values))
    values = chain.values[rows] if len(rows) < len(chain.values) else chain.values
    if len(values) < _REPEATS:
        return []
    same = values[1:] == values[:-1]
    same &= np.diff(signals.elapsed[rows]) <= _GAP * signals.record.interval
    often = same
    for _ in range(_REPEATS - 2):
        often = often[1:] & same[: len(often) - 1]
    if not often.any():
        return []
    return [
        _Repeat(int(rows[first]), int(rows[last + 1]), float(values[first]))
        for first, last in runs(same, _REPEATS - 1)
        if abs(values[first] - values[0]) > _REACHED
    ]


def _of(
    signals: Signals, chain: Chain, repeat: _Repeat, others: Floats, least: float, lively: bool
) -> Fault | None:
    moved = float(np.fmax.reduce(others) - np.fmin.reduce(others))
    count = repeat.last - repeat.first + 1
    if moved < least and not (lively and count >= _MANY):
        return None
    if _beside_stands_too(signals, chain, repeat, moved):
        return None
    start, end = (float(signals.elapsed[row]) for row in (repeat.first, repeat.last))
    sentence = f"reads {signals.words.temperature(repeat.value)} from row to row"
    settled = _settled(signals, chain, repeat, others, moved)
    if moved >= least and not settled and _all_moved(signals, chain, repeat):
        sentence += f" while the others move by {signals.kelvin(moved)}"
        confidence = HIGH if moved >= 2 * least else MEDIUM
        return fault(STUCK, chain.tag, start, end, sentence, confidence, LEFT_OUT)
    if (
        lively
        and count >= _MANY
        and _lively_before(chain, repeat)
        and _others(signals, chain, repeat)
    ):
        sentence += f", {count} times, though its noise is larger than its last digit"
        return fault(STUCK, chain.tag, start, end, sentence, MEDIUM, LEFT_OUT)
    return None


def _beside_stands_too(signals: Signals, chain: Chain, repeat: _Repeat, moved: float) -> bool:
    """Whether another of its zone hardly moved either: then the zone was kept, and others moved."""
    for peer in signals.peers(chain.tag):
        if not chain.zone or peer.zone != chain.zone:
            continue
        values = peer.values[repeat.first : repeat.last + 1]
        values = values[np.isfinite(values)]
        if len(values) and float(values.max() - values.min()) < _ALIKE * moved:
            return True
    return False


def _settled(signals: Signals, chain: Chain, repeat: _Repeat, others: Floats, moved: float) -> bool:
    """Whether it came to rest where it is kept, more and more slowly, and the others only follow:
    what is thin, or near the heat, is there before them."""
    if not others[-1] - others[0] >= _FOLLOW * moved:
        return False
    at = float(signals.elapsed[repeat.first])
    before = np.interp((at - 2 * _SLOWS, at - _SLOWS), signals.elapsed, chain.values)
    earlier, lately = float(before[1] - before[0]), repeat.value - float(before[1])
    return earlier >= 2 * chain.resolution and 0 <= lately <= _SLOWED * earlier


def _all_moved(signals: Signals, chain: Chain, repeat: _Repeat) -> bool:
    """Whether most others moved at all: not one zone alone was heated."""
    moved = []
    for peer in signals.peers(chain.tag):
        values = peer.values[repeat.first : repeat.last + 1]
        values = values[np.isfinite(values)]
        if len(values):
            moved.append(float(values.max() - values.min()) > _MOVED / 2)
    return sum(moved) * 2 > len(moved)


def _noise(values: Floats) -> float:
    """Standard deviation of the noise, K, from the bends of the course."""
    bends = np.diff(values[:_BENDS], 2)
    bends = bends[np.isfinite(bends)]
    # The variance of a second difference of noise is six times its own.
    return float(np.sqrt(np.mean(np.minimum(bends, 10.0) ** 2) / 6)) if len(bends) > 10 else 0.0


def _lively_before(chain: Chain, repeat: _Repeat) -> bool:
    before = chain.values[max(0, repeat.first - 500) : repeat.first]
    return _noise(before) > _LIVELY * chain.resolution


def _others(signals: Signals, chain: Chain, repeat: _Repeat) -> bool:
    """Whether most others show noise meanwhile: the instrument has not smoothed it away."""
    lively = [
        _noise(peer.values[repeat.first : repeat.last + 1]) > _LIVELY * peer.resolution > 0
        for peer in signals.peers(chain.tag)
    ]
    return sum(lively) * 2 > len(lively)
