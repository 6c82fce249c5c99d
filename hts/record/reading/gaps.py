"""Stretches of a record without rows."""

from __future__ import annotations

import numpy as np

from hts.record.record import Floats, Gap

#: A step longer than this many steps of its surroundings is a gap: one row may be missing, and
#: recorders are late by a part of a step. Basis: practice, no source.
STEPS = 2.5
#: Steps looked at on each side: an interval may be changed during a run.
_AROUND = 5


def gaps(elapsed: Floats, interval: float) -> tuple[Gap, ...]:
    """`elapsed` float64 [rows], s; `interval` their median step."""
    steps = np.diff(elapsed)
    found = []
    for row in np.flatnonzero(steps > STEPS * interval).tolist():
        before = steps[max(0, row - _AROUND) : row]
        after = steps[row + 1 : row + 1 + _AROUND]
        # Longer steps on one side only are a change of the interval at this very step.
        usual = max(
            (float(np.median(side)) for side in (before, after) if len(side)), default=interval
        )
        if steps[row] > STEPS * max(interval, usual):
            found.append(Gap(float(elapsed[row]), float(elapsed[row + 1])))
    return tuple(found)
