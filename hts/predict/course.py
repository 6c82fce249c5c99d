"""The treatment followed in time: temperatures of the thermocouples and the soak band, power."""

from __future__ import annotations

from math import ceil
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from hts.predict.building import Builder
from hts.predict.setting import Setting
from hts.science.field.state import Extreme, Field

Values = NDArray[np.float64]

#: s. Steps are no longer than this, and no more than so many.
_STEP, _MOST = 300.0, 400
#: Instants whose fields are kept, evenly in time.
_MOMENTS = 24


class Course(NamedTuple):
    """A treatment in time, (n) instants. `couples` (n, thermocouple) and `power` (n, zone) W.

    `lowest` and `highest` are those of the whole soak band. `ramp_end` and `hold_end` are indices
    of the begin and the end of the hottest hold. `fields` are those of the instants in `moments`.
    """

    seconds: Values
    setpoint: Values
    couples: Values
    lowest: list[Extreme]
    highest: list[Extreme]
    power: Values
    fields: dict[int, Field]
    ramp_end: int
    hold_end: int

    @property
    def moments(self) -> list[int]:
        """The instants to look at: evenly in time, with the ends of the ramp and the hold."""
        return sorted(self.fields)

    @property
    def stages(self) -> list[int]:
        """A few of them: on the way, the end of the ramp, within and at the end of the hold."""
        ramp, end = self.ramp_end, self.hold_end
        return [ramp // 2, (3 * ramp) // 4, ramp, (ramp + end) // 2, end]

    @property
    def coldest(self) -> Values:
        """The lowest temperature of the soak band at each instant, degC."""
        return np.array([extreme.celsius for extreme in self.lowest])

    @property
    def hottest(self) -> Values:
        """The highest, degC."""
        return np.array([extreme.celsius for extreme in self.highest])

    def lag(self, low: float, high: float) -> float | None:
        """Seconds from the setpoint's arrival in the range to that of the whole soak band; None
        where the band does not get there before the hold ends."""
        upto = self.hold_end + 1
        arrives = np.flatnonzero(self.setpoint[:upto] >= low)
        whole = np.flatnonzero(self.coldest[:upto] >= low)
        if not len(arrives) or not len(whole):
            return None
        return max(0.0, _crossing(self.seconds, self.coldest, int(whole[0]), low)
                   - _crossing(self.seconds, self.setpoint, int(arrives[0]), low))  # fmt: skip

    def held(self, low: float, high: float) -> float:
        """Seconds of the hold for which the whole soak band is in the range."""
        total = 0.0
        for k in range(self.ramp_end, self.hold_end):
            inside = all(self.coldest[j] >= low and self.hottest[j] <= high for j in (k, k + 1))
            total += float(self.seconds[k + 1] - self.seconds[k]) if inside else 0.0
        return total


def follow(setting: Setting, builder: Builder) -> Course:
    """The treatment as it is programmed, every input as stated. Errors as those of `Model.run`."""
    model = builder.model()
    length = sum(stage.seconds for stage in setting.stages)
    step = max(_STEP, length / _MOST)
    times, at, ramp_end, hold_end = [0.0], 0.0, 0, 0
    corners: list[tuple[float, float]] = [(0.0, setting.stages[0].start)]
    for stage in setting.stages:
        count = max(1, ceil(stage.seconds / step))
        if stage.held and stage.end == setting.target and not hold_end:
            ramp_end, hold_end = len(times) - 1, len(times) - 1 + count
        times += [at + stage.seconds * (k + 1) / count for k in range(count)]
        at += stage.seconds
        corners.append((at, stage.end))
    when, what = (np.array(column) for column in zip(*corners, strict=True))

    def program(seconds: float) -> list[float]:
        return [float(np.interp(seconds, when, what))] * len(setting.zones)

    watch = [(c.degrees, c.z, 1.0 if c.inside else 0.0) for c in setting.couples]
    begin = model.start(setting.begin)
    run = model.run(begin, times, targets=program, step=step, watch=watch)
    fields = [begin, *run.fields]
    ends = [field.extremes(*_band(setting, field)) for field in fields]
    return Course(
        run.seconds,
        np.interp(run.seconds, when, what),
        run.watched,
        [low for low, _ in ends],
        [high for _, high in ends],
        run.fluxes * model.heated_area,
        {index: fields[index] for index in _looked_at(times, ramp_end, hold_end)},
        ramp_end,
        hold_end,
    )


def _looked_at(times: list[float], ramp_end: int, hold_end: int) -> list[int]:
    """Indices of the fields that are kept: all of them would take most of the memory."""
    # Those of `Course.stages`, and the even ones.
    found = {ramp_end, hold_end, ramp_end // 2, (3 * ramp_end) // 4, (ramp_end + hold_end) // 2}
    for part in range(_MOMENTS + 1):
        at = times[-1] * part / _MOMENTS
        found.add(min(range(len(times)), key=[abs(t - at) for t in times].__getitem__))
    return sorted(found)


def _band(setting: Setting, field: Field) -> tuple[float, float]:
    return (0.0 if field.mesh.mirrored else -setting.soak), setting.soak


def _crossing(seconds: Values, values: Values, index: int, level: float) -> float:
    """When a rising line reaches a level, the first instant at or above it known."""
    if index == 0 or values[index] == values[index - 1]:
        return float(seconds[index])
    share = (level - values[index - 1]) / (values[index] - values[index - 1])
    return float(seconds[index - 1] + share * (seconds[index] - seconds[index - 1]))
