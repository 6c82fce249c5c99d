"""Cells without a reading: text, nothing, and contacts that open and close."""

from __future__ import annotations

import numpy as np

from hts.record.faults.fault import Fault, fault
from hts.record.faults.fault_kinds import BLANK as BLANK_KIND
from hts.record.faults.fault_kinds import (
    ERROR_TEXT,
    HIGH,
    INTERMITTENT,
    LEFT_OUT,
    MEDIUM,
    FaultKind,
)
from hts.record.faults.signals import Chain, Mask, Signals, runs, spells
from hts.record.record import BLANK, OUTSIDE, TEXT

#: K, and rows. A reading so near to an interruption that lies so much farther off than the part
#: can have gone meanwhile is none of it. Basis: practice, no source.
_OFF, _SHORT = 25.0, 10
#: Interruptions that make a fault an intermittent one. Basis: practice, no source.
_OFTEN = 3


def missing(signals: Signals) -> list[Fault]:
    """Error text and blanks of each thermocouple, one fault of each kind."""
    found = []
    for chain in signals.chains.values():
        if chain.whole:
            continue
        for status, kind, what in ((TEXT, ERROR_TEXT, "text"), (BLANK, BLANK_KIND, "nothing")):
            cells = chain.status == status
            if cells.any():
                found.append(_of(signals, chain, cells, kind, what))
    return found


def _of(signals: Signals, chain: Chain, cells: Mask, kind: FaultKind, what: str) -> Fault:
    where = spells(signals.elapsed, cells)
    count, rows = int(cells.sum()), len(cells)
    sentence = f"{count} of {rows} cells hold {what}"
    if len(where) > 1:
        sentence += f", in {len(where)} stretches"
    return fault(kind, chain.tag, where[0].start, where[-1].end, sentence, HIGH, LEFT_OUT, where)


def intermittent(signals: Signals) -> list[Fault]:
    """Contacts that open and close: readings come and go, and some between are wild."""
    found = []
    for chain in signals.chains.values():
        if chain.whole:
            continue
        lost = (chain.status == TEXT) | (chain.status == OUTSIDE)
        if not lost.any() or lost.all():
            continue
        where = runs(lost)
        wild = _wild(chain, lost, signals)
        if not wild.any() and len(where) < _OFTEN:
            continue
        rows = np.flatnonzero(lost | wild)
        start, end = (float(signals.elapsed[row]) for row in (rows[0], rows[-1]))
        sentence = f"readings stop {len(where)} times"
        if wild.any():
            odd = chain.values[wild]
            farthest = odd[int(np.argmax(np.abs(odd - np.nanmedian(chain.values))))]
            sentence += f"; {int(wild.sum())} between are wild, as {signals.degrees(farthest)}"
        confidence = HIGH if wild.any() else MEDIUM
        left = spells(signals.elapsed, wild) or spells(signals.elapsed, lost)
        found.append(
            fault(INTERMITTENT, chain.tag, start, end, sentence, confidence, LEFT_OUT, left)
        )
    return found


def _wild(chain: Chain, lost: Mask, signals: Signals) -> Mask:
    """Readings next to losses that lie farther off than the part can have gone since the last that
    was trusted; the longer that was, the more is believed."""
    quick = signals.quick()
    wild = np.zeros(len(lost), dtype=bool)
    around = np.convolve(lost, np.ones(2 * _SHORT + 1), "same") > 0
    known = np.isfinite(chain.values)
    trusted: int | None = None
    for first, last in runs(around):
        before = np.flatnonzero(known[:first])
        if len(before):
            trusted = int(before[-1])
        for row in (first + np.flatnonzero(known[first : last + 1])).tolist():
            if trusted is not None:
                passed = float(signals.elapsed[row] - signals.elapsed[trusted])
                off = abs(float(chain.values[row] - chain.values[trusted]))
                if off > _OFF + quick * passed:
                    wild[row] = True
                    continue
            trusted = row
    return wild
