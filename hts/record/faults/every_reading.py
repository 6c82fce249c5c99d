"""What all thermocouples read, row by row and from row to row, for what is told of rows as a
whole."""

from __future__ import annotations

import numpy as np

from hts.record.faults.row_numbers import check_numbers_of
from hts.record.faults.signals import Signals
from hts.record.record import Floats

#: Rows of which something can be told. Basis: practice, ours.
_ROWS = 10


def every_reading(signals: Signals) -> Floats | None:
    """What every thermocouple reads, [chains, rows], blanks as 0 K; None where too little is."""
    matrix = signals.matrix
    chains = matrix.values
    if not matrix.gapless:
        chains = chains[np.isfinite(chains).any(axis=1)]
    if len(chains) < 2 or len(signals.elapsed) < _ROWS:
        return None
    if matrix.gapless:
        return chains
    return np.where(np.isnan(chains), -273.15, chains)


def steps_of(signals: Signals, values: Floats) -> Floats:
    known = values is signals.matrix.values
    steps = signals.matrix.steps if known else np.diff(values, axis=1)
    return np.asarray(steps, dtype=np.float64)


def step_numbers(signals: Signals, steps: Floats) -> Floats:
    """Check numbers of these steps [rows - 1]."""
    known = steps is signals.matrix.steps
    return signals.matrix.step_numbers if known else check_numbers_of(steps)
