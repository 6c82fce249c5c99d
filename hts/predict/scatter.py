"""The steady hold many times over, each input varied within what it may be off by.

A Latin hypercube: as many samples in every slice of every input, from a seed that is told.
"""

from __future__ import annotations

from math import log
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtri

from hts.base.cluster import each, is_connected
from hts.predict.building import Builder, Variation
from hts.predict.setting import Setting
from hts.science.field.state import Field
from hts.science.field.states import LOG_SPREAD
from hts.science.field.steels import STEELS

Values = NDArray[np.float64]

SEED = 1729
SAMPLES = 200
#: Samples in a unit for another machine.
BATCH = 25
#: Depths and clock positions of the tables: outside, middle, bore; 12, 3, 6, 9 o'clock.
DEPTHS = (0.0, 0.5, 1.0)
CLOCKS = (0.0, 90.0, 180.0, 270.0)
#: One standard deviation: K of a control thermocouple, of the lean, of logarithms of losses.
_COUPLE, _LEAN, _INSULATION, _BARE = 2.0, 0.15, 0.35, 0.2


Ends = tuple[float, float, Values]


class Shift(NamedTuple):
    """How far the lowest of the soak band moves, K, with one input at 5 % and at 95 %."""

    what: str
    low: float
    high: float

    @property
    def span(self) -> float:
        return abs(self.high - self.low)


class Scatter(NamedTuple):
    """The steady hold as stated, and varied. `lowest`, `highest` (n) degC of the soak band;
    `table` (n, depth, clock, lowest or highest along the band); `stated` the same as stated.
    """

    field: Field
    fluxes: Values
    lowest: Values
    highest: Values
    table: Values
    stated: Values
    shifts: tuple[Shift, ...]


def scattered(setting: Setting, builder: Builder, samples: int = SAMPLES) -> Scatter:
    """The hold varied `samples` times. Errors as those of `Model.steady`."""
    field, fluxes = _stated(setting, builder)
    if is_connected():
        starts = range(0, samples, BATCH)
        units = ((setting, samples, start, min(start + BATCH, samples)) for start in starts)
        varied = [one for batch in each(held, units) for one in batch]
    else:
        varied = [_ends(setting, builder, draw, field) for draw in _draws(setting, samples)]
    low, high, tables = zip(*varied, strict=True)
    return Scatter(
        field,
        fluxes,
        np.array(low),
        np.array(high),
        np.array(tables),
        table_of(setting, field),
        _shifts(setting, builder, field),
    )


def held(setting: Setting, samples: int, start: int, stop: int) -> list[Ends]:
    """Some of the samples by their numbers, `stop` not included, as a unit of its own. Errors as
    those of `Model.steady`."""
    builder = Builder(setting)
    field, _ = _stated(setting, builder)
    draws = _draws(setting, samples)[start:stop]
    return [_ends(setting, builder, draw, field) for draw in draws]


def _stated(setting: Setting, builder: Builder) -> tuple[Field, Values]:
    goals = [setting.target] * len(setting.zones)
    return builder.model().steady(targets=goals)


def _ends(setting: Setting, builder: Builder, draw: Variation, field: Field) -> Ends:
    """Lowest and highest of the soak band, degC, and the table, of one sample."""
    varied = _hold(setting, builder, draw, field)
    low, high = varied.extremes(*band_of(setting, varied))
    return low.celsius, high.celsius, table_of(setting, varied)


def band_of(setting: Setting, field: Field) -> tuple[float, float]:
    """The soak band along the pipe, as far as the field reaches."""
    return (0.0 if field.mesh.mirrored else -setting.soak), setting.soak


def table_of(setting: Setting, field: Field) -> Values:
    """Lowest and highest along the soak band, (depth, clock, 2), degC."""
    start, end = band_of(setting, field)
    cells = field.mesh.round
    rows = [round(clock / 360.0 * cells) % cells for clock in CLOCKS]
    found = []
    for depth in DEPTHS:
        _, values = field.between(start, end, depth)
        found.append([(values[row].min(), values[row].max()) for row in rows])
    return np.array(found)


def _hold(setting: Setting, builder: Builder, vary: Variation, guess: Field) -> Field:
    errors = vary.errors or (0.0,) * len(setting.zones)
    # A thermocouple that reads too high keeps its zone that much too cold.
    goals = [setting.target - error for error in errors]
    return builder.model(vary).steady(targets=goals, guess=guess)[0]


def _draws(setting: Setting, samples: int) -> list[Variation]:
    zones = len(setting.zones)
    generator = np.random.default_rng(SEED)
    columns = 6 + zones
    share = np.stack(
        [(generator.permutation(samples) + generator.random(samples)) / samples
         for _ in range(columns)], axis=1
    )  # fmt: skip
    return [_at(setting, row, zones) for row in share]


def _at(setting: Setting, share: Values, zones: int) -> Variation:
    """The inputs at shares of what they may be, each between 0 and 1."""
    state = setting.bore
    normal = ndtri(np.clip(share, 1e-4, 1.0 - 1e-4))
    if setting.bore_known:
        air = state.mean * np.exp(LOG_SPREAD * normal[0])
    else:
        air = state.low * np.exp(share[0] * log(state.high / state.low))
    lean = float(np.clip(state.lean + _LEAN * normal[1], 0.0, 0.95)) if state.lean else 0.0
    austenitic = "austenitic" in (setting.near.steel, setting.far.steel)
    least = 0.3 if austenitic else 0.6
    spread = max(STEELS[half.steel].conductivity_spread for half in (setting.near, setting.far))
    return Variation(
        float(air),
        lean,
        float(least + (0.9 - least) * share[2]) if state.emissivity else 0.0,
        float(np.exp(spread * normal[3])),
        float(np.exp(_INSULATION * normal[4])),
        float(np.exp(_BARE * normal[5])),
        tuple(float(e) for e in _COUPLE * normal[6 : 6 + zones]),
    )


#: What is varied one at a time: the column of the shares, and what it is called.
_INPUTS = (
    ((0,), "convection in the bore"),
    ((1,), "more of it at the bottom than at the top"),
    ((2,), "emissivity of the bore"),
    ((3,), "conductivity of the steel"),
    ((4,), "loss through the insulation"),
    ((5,), "loss of the bare pipe beyond"),
)


def _shifts(setting: Setting, builder: Builder, field: Field) -> tuple[Shift, ...]:
    """One input at a time at 5 % and 95 %, the others in the middle, the widest first."""
    zones = len(setting.zones)
    middle = np.full(6 + zones, 0.5)
    inputs = [*_INPUTS, (tuple(range(6, 6 + zones)), "error of the control thermocouples")]

    def lowest(share: Values) -> float:
        varied = _hold(setting, builder, _at(setting, share, zones), field)
        return varied.extremes(*band_of(setting, varied))[0].celsius

    base = lowest(middle)
    found = []
    for columns, what in inputs:
        ends = []
        for at in (0.05, 0.95):
            share = middle.copy()
            share[list(columns)] = at
            ends.append(lowest(share) - base)
        found.append(Shift(what, *ends))
    return tuple(sorted(found, key=lambda shift: -shift.span))
