"""What each thermocouple showed."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from hts.job.demands.watched import Watched
from hts.record.judging import Judgement
from hts.record.judging.moving import Fastest, fastest_of_each
from hts.record.plan import COOL, HEAT
from hts.record.record import Floats


class Shown(NamedTuple):
    """Temperatures degC and the moments they were read, s; None where there is no reading. `low`
    and `high` are the lowest and highest from when all required arrived in the hottest hold until
    the first left it for good; `inside` is the time in its range, s. `heating` and `cooling` are
    the fastest rates where these are limited."""

    one: Watched
    most: float | None
    when: float
    low: float | None
    high: float | None
    inside: float
    readings: int
    missing: int
    heating: Fastest | None
    cooling: Fastest | None


def shown(judgement: Judgement) -> list[Shown]:
    """Every recorded thermocouple, in the order of the specification."""
    record, hold = judgement.record, judgement.hold
    held = slice(0, 0)
    if hold is not None and hold.arrived is not None and hold.left is not None:
        held = record.between(hold.arrived, hold.left)
    heating, cooling = (
        fastest_of_each(judgement.evidence, judgement.holds, action) for action in (HEAT, COOL)
    )
    found = []
    for thermocouple in judgement.plan.watched:
        series = record.series.get(thermocouple.tag)
        if series is None:
            continue
        values = series.values
        known = ~np.isnan(values)
        peak = int(np.nanargmax(values)) if known.any() else 0
        part = values[held][known[held]]
        inside = _inside(record.elapsed, values, hold.low, hold.high) if hold is not None else 0.0
        found.append(
            Shown(
                thermocouple,
                float(values[peak]) if known.any() else None,
                float(record.elapsed[peak]),
                float(part.min()) if part.size else None,
                float(part.max()) if part.size else None,
                inside,
                int(known.sum()),
                int((~known).sum()),
                heating.get(thermocouple.tag),
                cooling.get(thermocouple.tag),
            )
        )
    return found


def _inside(times: Floats, values: Floats, low: float, high: float) -> float:
    """s between readings that are both in the range."""
    with np.errstate(invalid="ignore"):
        good = (values >= low) & (values <= high)
    return float(np.diff(times)[good[:-1] & good[1:]].sum())
