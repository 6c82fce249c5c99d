"""A column that is a copy of another some rows earlier or later: row by row the two are unlike, but
their noise is one and the same."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import COPIED, HIGH, KEPT
from hts.record.faults.signals import Chain, Rows, Signals
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


def copied_late(signals: Signals) -> list[Fault]:
    """Pairs of columns of which one goes on as the other did some rows before."""
    chains = [one for one in signals.chains.values() if not signals.faulty(one.tag)]
    steps = signals.matrix.steps
    if len(chains) < 2 or steps.shape[1] < 4 * (_WINDOW + _FARTHEST):
        return []
    counts = np.rint(np.nan_to_num(steps[[one.row for one in chains]]) / _STEP)
    told = {frozenset((one.tag, *one.others)) for one in signals.found if one.kind == COPIED.name}
    found: list[Fault] = []
    for at in _PLACES:
        begin = int(at * (steps.shape[1] - _WINDOW - _FARTHEST))
        for i, j, late in _alike(counts[:, begin : begin + _WINDOW + _FARTHEST]):
            pair = frozenset((chains[i].tag, chains[j].tag))
            if pair in told:
                continue
            mine, theirs = counts[i, :-late], counts[j, late:]
            if np.mean(mine == theirs) >= _ALWAYS:
                told.add(pair)
                found.append(_copy(signals, chains[i], chains[j], late))
    return found


def _alike(counts: Floats) -> Iterator[tuple[int, int, int]]:
    """Pairs of chains of which the second makes a window of the steps of the first so many rows
    later, in whole `counts` [chains, rows]."""
    windows = np.lib.stride_tricks.sliding_window_view(counts, _WINDOW, axis=1)
    sums = windows @ _WEIGHTS
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
        if _turns(windows[one, first]) >= _TURNS:
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
