"""A column that is a copy of another some rows earlier or later: row by row the two are unlike, but
their noise is one and the same."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import COPIED, HIGH, KEPT
from hts.record.faults.signals import Chain, Mask, Rows, Signals
from hts.record.faults.stack import Stack
from hts.record.judging.words import time
from hts.record.record import Floats

#: Rows by which a copy may be early or late. Basis: practice, no source.
_FARTHEST = 60
#: Places of the record that are looked at, as parts of it: a copy shows at most of them. Steps that
#: are compared there, and rows from which their beginnings are taken. Basis: practice, ours.
_PLACES, _WINDOW = (0.25, 0.5, 0.75), 24
#: Times steps must change direction in a window: a computed course goes on like any other.
#: Basis: practice, ours.
_TURNS = 6
#: Part of all steps that a copy shares. Basis: practice, no source.
_ALWAYS = 0.99
#: K. Steps are told apart by this. Basis: practice, ours.
_STEP = 1e-4
#: What steps are weighted by. Basis: practice, ours.
_WEIGHTS = np.random.RandomState(2).randint(1, 2**20, _WINDOW).astype(np.float64)
#: The same for each window of a place [rows, windows].
_SLIDING = np.array(
    [np.pad(_WEIGHTS, (at, _FARTHEST - at)) for at in range(_FARTHEST + 1)]
).T.copy()


def copied_late(signals: Signals) -> list[Fault]:
    """Pairs of columns of which one goes on as the other did some rows before."""
    chains = [one for one in signals.chains.values() if not signals.faulty(one.tag)]
    steps = signals.matrix.steps
    if len(chains) < 2 or steps.shape[1] < 4 * (_WINDOW + _FARTHEST):
        return []
    rows = [one.row for one in chains]
    length = _WINDOW + _FARTHEST
    begins = _begins(steps.shape[1])
    counts = np.stack([_counts(steps[rows, begin : begin + length]) for begin in begins])
    # Sums of the steps of each window; whole numbers below 2^53, so the floats are exact.
    sums = counts @ _SLIDING
    told = {frozenset((one.tag, *one.others)) for one in signals.found if one.kind == COPIED.name}
    found: list[Fault] = []
    for here, its_sums in zip(counts, sums, strict=True):
        for i, j, late in _alike(here, its_sums):
            pair = frozenset((chains[i].tag, chains[j].tag))
            if pair in told:
                continue
            mine, theirs = steps[chains[i].row, :-late], steps[chains[j].row, late:]
            if np.mean(_counts(mine) == _counts(theirs)) >= _ALWAYS:
                told.add(pair)
                found.append(_copy(signals, chains[i], chains[j], late))
    return found


def may_be_copied_late(stack: Stack) -> Mask:
    """Those in which two windows of a place are alike."""
    steps, length = stack.steps, _WINDOW + _FARTHEST
    if steps.shape[2] < 4 * length:
        return stack.none
    found = stack.none
    for begin in _begins(steps.shape[2]):
        places = np.rint(steps[:, :, begin : begin + length].transpose(1, 0, 2) / _STEP)
        # Record by record: products of many are shared out over threads, which cost more.
        sums = (places @ _SLIDING).reshape(len(stack), -1)
        sums.sort(axis=1)
        found |= np.any((sums[:, 1:] == sums[:, :-1]) & (sums[:, 1:] != 0), axis=1)
    return found


def _begins(rows: int) -> list[int]:
    """The first of the steps of each place, of so many."""
    return [int(at * (rows - _WINDOW - _FARTHEST)) for at in _PLACES]


def _counts(steps: Floats) -> Floats:
    """Whole numbers, those that are not known as 0."""
    counts = np.rint(steps / _STEP)
    counts[np.isnan(counts)] = 0.0
    return np.asarray(counts, dtype=np.float64)


def _alike(counts: Floats, sums: Floats) -> Iterator[tuple[int, int, int]]:
    """Pairs of chains of which the second makes a window of the steps of the first so many rows
    later, in whole `counts` [chains, rows]; `sums` [chains, windows] are hardly ever the same
    where these are not."""
    ordered = np.sort(sums, axis=None)
    if not np.any((ordered[1:] == ordered[:-1]) & (ordered[1:] != 0)):
        return
    order = np.argsort(sums, axis=None, kind="stable")
    in_order = sums.ravel()[order]
    for at in np.flatnonzero((in_order[1:] == in_order[:-1]) & (in_order[1:] != 0)).tolist():
        (one, first), (other, second) = (
            divmod(int(order[place]), sums.shape[1]) for place in (at, at + 1)
        )
        if one == other or first == second:
            continue
        if first > second:
            one, first, other, second = other, second, one, first
        if _turns(counts[one, first : first + _WINDOW]) >= _TURNS:
            yield one, other, second - first


def _turns(steps: Rows | Floats) -> int:
    ways = np.sign(steps[steps != 0])
    return int(np.count_nonzero(np.diff(ways)))


def _copy(signals: Signals, one: Chain, other: Chain, late: int) -> Fault:
    after = time(late * signals.record.interval)
    sentence = (
        f"{other.tag} goes on as {one.tag} did {late} {'row' if late == 1 else 'rows'} ({after}) "
        "before, to the last digit: one is a copy"
    )
    about, beside = (one, other) if one.required or not other.required else (other, one)
    end = signals.record.end
    return Fault(COPIED.name, about.tag, (beside.tag,), 0.0, end, sentence, HIGH, KEPT)
