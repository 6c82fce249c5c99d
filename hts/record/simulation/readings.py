"""What the thermocouples read of a run: the place they sit at, their lag, their error, noise."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from hts.job.demands.watched import Watched
from hts.record.plan import HOLD, Plan
from hts.record.simulation.cycle import Course
from hts.record.simulation.thermal import AMBIENT

Floats = NDArray[np.float64]

#: Part of the rise above ambient that is left at the edge of the heated band, at the edge of the
#: gradient band and at twice its width. Common practice asks for at least a half at the first.
_HEATED, _GRADIENT, _FAR = 0.64, 0.40, 0.15
#: s. Lags on heated metal and on metal that is only reached along the pipe.
_NEAR_LAG, _FAR_LAG = 15.0, 600.0
#: K. Standard deviations of a chain's constant error and of its noise.
_ERROR, _NOISE = 0.5, 0.25
#: mm. Half widths where the text gives no band.
_BANDS = (40.0, 200.0, 350.0)


def readings(plan: Plan, course: Course, random: np.random.RandomState) -> dict[str, Floats]:
    """Per tag with a recorder channel, float64 [n] degC, in the order of the text."""
    shape = _profile(plan, random)
    found: dict[str, Floats] = {}
    for thermocouple in plan.watched:
        error = float(np.clip(random.normal(0.0, _ERROR), -2 * _ERROR, 2 * _ERROR))
        noise = random.normal(0.0, _NOISE, course.elapsed.size)
        if thermocouple.source.recorder.number is None:
            continue
        rise = (_metal(plan, course, thermocouple) - AMBIENT) * _part(shape, thermocouple)
        lag = _NEAR_LAG if abs(thermocouple.axial or 0.0) <= shape[1][0] else _FAR_LAG
        found[thermocouple.tag] = AMBIENT + _lagged(course.elapsed, rise, lag) + error + noise
    return found


def _metal(plan: Plan, course: Course, thermocouple: Watched) -> Floats:
    """The temperature under a thermocouple if it sat on the weld: that of its zone."""
    names = list(plan.zones)
    index = names.index(thermocouple.zone) if thermocouple.zone in names else 0
    column: Floats = course.zones[:, index]
    return column


def _profile(plan: Plan, random: np.random.RandomState) -> Sequence[tuple[float, float]]:
    """Distance from the weld, mm, and the part of the rise left there."""
    half = {band.name: float(band.each.value) for band in plan.sheet.bands}
    soak, heated, gradient = (
        half.get(name, other)
        for name, other in zip(("soak band", "heated band", "gradient band"), _BANDS, strict=True)
    )
    # What has to be in range lies on evenly heated metal.
    soak = max(
        soak,
        *(abs(thermocouple.axial or 0.0) for thermocouple in plan.watched if thermocouple.required),
        1.0,
    )
    heated, gradient = max(heated, soak + 1), max(gradient, heated + 1, soak + 2)
    return (
        (0.0, 1.0),
        (soak, 1.0 - _drop(plan, random)),
        (heated, _HEATED * random.uniform(0.97, 1.03)),
        (gradient, _GRADIENT * random.uniform(0.97, 1.03)),
        (2 * gradient, _FAR),
    )


def _drop(plan: Plan, random: np.random.RandomState) -> float:
    """Part of the rise lost at the edge of the soak band: less than the hold range allows."""
    holds = [span for span in plan.spans if span.action == HOLD and span.low is not None]
    room = min(((span.end or 0) - (span.low or 0) for span in holds), default=10.0)
    rise = max(((span.end or 0) - AMBIENT for span in holds), default=500.0)
    share: float = room * random.uniform(0.1, 0.4) / max(rise, 1.0)
    return share


def _part(shape: Sequence[tuple[float, float]], thermocouple: Watched) -> float:
    distance = abs(thermocouple.axial) if thermocouple.axial is not None else 0.0
    return float(np.interp(distance, [x for x, _ in shape], [y for _, y in shape]))


def _lagged(elapsed: Floats, values: Floats, lag: float) -> Floats:
    """First-order response, exact for values that are constant between two readings."""
    kept = np.exp(-np.diff(elapsed) / lag)
    out = np.empty_like(values)
    out[0] = at = float(values[0])
    for index, (keep, value) in enumerate(zip(kept.tolist(), values[1:].tolist(), strict=True), 1):
        at = value + (at - value) * keep
        out[index] = at
    return out
