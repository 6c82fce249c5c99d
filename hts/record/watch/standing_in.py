"""One lost thermocouple does not blind a watch: what goes on at its place is told by another.

That is for the eyes alone. The clock of the hold stands until somebody notes the change.
"""

from __future__ import annotations

import numpy as np

from hts.record.judging.evidence import Evidence
from hts.record.plan import Watched
from hts.record.record import REPLACED, Event


def standing_in(evidence: Evidence) -> tuple[Event, ...]:
    """For each required thermocouple that reads nothing now, from when another is looked at in its
    place: its spare, else one of its zone, else any."""
    found = []
    for thermocouple in evidence.required:
        values = evidence.of(thermocouple.tag)
        known = np.flatnonzero(~np.isnan(values))
        last = int(known[-1]) if len(known) else -1
        if last == len(values) - 1:
            continue
        by = next((one.tag for one in _others(evidence, thermocouple) if _reads(evidence, one)), "")
        if by:
            found.append(Event(REPLACED, float(evidence.times[last + 1]), thermocouple.tag, by))
    return tuple(found)


def _others(evidence: Evidence, lost: Watched) -> list[Watched]:
    """The nearest first."""
    spares = [one for one in evidence.plan.watched if one.spare_of == lost.tag]
    rest = [one for one in evidence.required if one.tag != lost.tag]
    return [*spares, *sorted(rest, key=lambda one: one.zone != lost.zone)]


def _reads(evidence: Evidence, one: Watched) -> bool:
    series = evidence.record.series.get(one.tag)
    return series is not None and not np.isnan(series.values[-1])
