"""A column that bears the tag of a thermocouple and the word raw, or the like, beside the column
that is taken for its readings: where the two are not the same, the readings are not as measured.

A correction by the calibration of the wire is smaller than what the wire may be off by.
"""

from __future__ import annotations

import numpy as np

from hts.record.faults.agreement import furthest_apart
from hts.record.faults.beside_its_own import beside_its_own
from hts.record.faults.fault import Fault
from hts.record.faults.fault_kinds import EDITED, HIGH, KEPT
from hts.record.faults.signals import Signals, ends_of_runs

#: Rows in which the two must be farther apart than two sound thermocouples. Basis: practice, ours.
_ENOUGH = 3


def other_columns(signals: Signals) -> list[Fault]:
    """One fault for each thermocouple whose two columns are farther apart than a correction."""
    found = []
    for tag, column in beside_its_own(signals.record):
        chain = signals.chains.get(tag)
        if chain is None:
            continue
        off = chain.values - column.values
        with np.errstate(invalid="ignore"):
            apart = np.abs(off) > furthest_apart(column.values)
        rows = np.flatnonzero(apart)
        if len(rows) < _ENOUGH:
            continue
        first, last = ends_of_runs(apart, 1)
        most = float(off[rows[int(np.argmax(np.abs(off[rows])))]])
        said = (
            f"reads up to {signals.kelvin(abs(most))} {'above' if most > 0 else 'below'} the "
            f"column {column.column!r} of the same log: which of the two it measured is not known"
        )
        start, end = float(signals.elapsed[first[0]]), float(signals.elapsed[last[-1]])
        found.append(Fault(EDITED.name, tag, (), start, end, said, HIGH, KEPT))
    return found
