"""All that is predicted of one treatment of one joint."""

from __future__ import annotations

from math import pi, sqrt, tanh
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from hts.predict.building import Builder, beyond_band
from hts.predict.course import Course, follow
from hts.predict.demands import OVER, Demanded
from hts.predict.scatter import CLOCKS, DEPTHS, SAMPLES, Scatter, scattered, table_of
from hts.predict.setting import Setting
from hts.predict.widths import Width, narrowest
from hts.science.field.state import Extreme, Field
from hts.science.field.steels import STEELS

Values = NDArray[np.float64]

HOLDS, FAILS = "predicted to hold", "not predicted to hold"
#: How near a thermocouple must be to a place to watch it: degrees round, m along.
_WATCHED = (31.0, 0.1)
#: A thermocouple may read so much beside the truth, K, so that less above the range is no matter.
_TOUCH = 0.05


class Range(NamedTuple):
    """A figure as stated, and its 5 % and 95 %."""

    stated: float
    low: float
    high: float


class Row(NamedTuple):
    """The soak band at one depth and clock position: lowest and highest along it, degC."""

    depth: float
    clock: float
    lowest: Range
    highest: Range


class Instant(NamedTuple):
    """The soak band at one time: rows, the extremes and where they are as stated."""

    name: str
    seconds: float
    rows: tuple[Row, ...]
    lowest: Range
    highest: Range
    coldest: Extreme
    hottest: Extreme


class Answer(NamedTuple):
    """What was asked, what is predicted, and in what share of the cases it holds."""

    demanded: Demanded
    asked: str
    predicted: str
    share: float
    verdict: str


class ZoneNeed(NamedTuple):
    """Power of one zone, W: the most it gives, at the end of the hold, and what it has (None: not
    stated); `short` are seconds at its cap while its thermocouple stays behind by more than 2 K."""

    name: str
    most: float
    holding: float
    installed: float | None
    short: float


class Slope(NamedTuple):
    """The steepest fall of the outside along the pipe, K over `over` m, and where, m."""

    kelvin: float
    over: float
    z: float


class Outlook(NamedTuple):
    """A prediction. `window` is the range judged by; `share` of cases the whole soak band is in
    it at the end of the hold; `lag` s (None: it does not get there), `held` s of the hold in range.

    `unwatched` tells whether no thermocouple stands near the coldest place; `edge` is the share of
    the temperature of the band's edge that is left 2 sqrt(R t) beyond it; `dip` K beside a gap.
    """

    setting: Setting
    window: tuple[float, float]
    ramp_end: Instant
    hold_end: Instant
    share: float
    lag: float | None
    held: float
    hold: float
    answers: tuple[Answer, ...]
    zones: tuple[ZoneNeed, ...]
    slope: Slope
    edge: float
    dip: float
    margin: Range | None
    unwatched: bool
    unwatched_hot: bool
    widths: tuple[Width, ...]
    allowed: float
    course: Course
    scatter: Scatter


class Physics(NamedTuple):
    """What takes the time: the treatment followed, and the hold varied."""

    course: Course
    scatter: Scatter


def physics_of(setting: Setting, samples: int = SAMPLES, course: Course | None = None) -> Physics:
    """Course and scatter of a setting; `course` where it is known already. Raises NotCovered where
    the temperature leaves the properties of the metal, ArithmeticError where it does not settle."""
    builder = Builder(setting)
    return Physics(course or follow(setting, builder), scattered(setting, builder, samples))


def outlook_of(
    setting: Setting,
    physics: Physics | None = None,
    *,
    widths: bool = True,
    spread: float | None = None,
) -> Outlook:
    """The prediction of a setting; `physics` where it is known already, of the same setting but for
    names and demands. `spread`, K below the setpoint, is what widths are sought for; else the
    room the range leaves. Errors as `physics_of`."""
    course, scatter = physics or physics_of(setting)
    window = _window(setting)
    low, high = window
    stated_low, stated_high = scatter.field.extremes(*_band(setting, scatter.field))
    moved_low = scatter.lowest - stated_low.celsius
    moved_high = scatter.highest - stated_high.celsius
    instants = [
        _instant(name, setting, course, index, scatter, moved_low, moved_high)
        for name, index in (("end of the ramp", course.ramp_end), ("end of the hold",
                                                                   course.hold_end))
    ]  # fmt: skip
    last = instants[1]
    inside = (last.lowest.stated + moved_low >= low - _TOUCH) & (
        last.highest.stated + moved_high <= high + _TOUCH
    )
    slope = _slope(course.fields[course.hold_end], setting, OVER)
    margin = None
    if setting.critical is not None:
        hot = last.highest
        margin = Range(*(setting.critical - t for t in (hot.stated, hot.high, hot.low)))
    allowed = allowed_of(setting, spread)
    return Outlook(
        setting, window, instants[0], last, float(inside.mean()), course.lag(low, high),
        course.held(low, high),
        float(course.seconds[course.hold_end] - course.seconds[course.ramp_end]),
        tuple(_answers(setting, course, inside, moved_low, window)),
        tuple(_needs(setting, course)), slope, _edge(course, setting), _dip(setting, scatter),
        margin, _is_unwatched(setting, last.coldest), _is_unwatched(setting, last.hottest),
        narrowest(setting, allowed) if widths and allowed > 0.0 else (), allowed, course, scatter,
    )  # fmt: skip


def allowed_of(setting: Setting, spread: float | None = None) -> float:
    """How far the soak band may stay below the setpoint, K: `spread`, or what the range leaves."""
    return setting.target - _window(setting)[0] if spread is None else spread


def _window(setting: Setting) -> tuple[float, float]:
    """What all ranges asked for have in common; that of the hold where nobody states one."""
    asked = [
        (one.low, one.high)
        for one in setting.demands.of("soak band")
        if one.low is not None and one.high is not None
    ]
    if not asked:
        return setting.window
    return max(low for low, _ in asked), min(high for _, high in asked)


def _band(setting: Setting, field: Field) -> tuple[float, float]:
    return (0.0 if field.mesh.mirrored else -setting.soak), setting.soak


def _spread(stated: float, moved: Values) -> Range:
    five, ninety_five = np.percentile(moved, [5.0, 95.0])
    return Range(stated, stated + float(five), stated + float(ninety_five))


def _instant(
    name: str,
    setting: Setting,
    course: Course,
    index: int,
    scatter: Scatter,
    moved_low: Values,
    moved_high: Values,
) -> Instant:
    """The tables at one instant, with the spread of the steady hold about it."""
    table = table_of(setting, course.fields[index])
    moved = scatter.table - scatter.stated
    rows = tuple(
        Row(depth, clock, *(_spread(float(table[d, c, end]), moved[:, d, c, end])
                            for end in (0, 1)))
        for d, depth in enumerate(DEPTHS)
        for c, clock in enumerate(CLOCKS)
    )  # fmt: skip
    low, high = course.lowest[index], course.highest[index]
    return Instant(
        name,
        float(course.seconds[index]),
        rows,
        _spread(low.celsius, moved_low),
        _spread(high.celsius, moved_high),
        low,
        high,
    )


def _answers(
    setting: Setting,
    course: Course,
    inside: NDArray[np.bool_],
    moved: Values,
    window: tuple[float, float],
) -> list[Answer]:
    least = setting.demands.confidence
    found = []
    for one in setting.demands.each:
        if one.what == "soak band":
            share = float(inside.mean())
            asked = f"whole soak band within {window[0]:.0f} .. {window[1]:.0f} °C"
            predicted = f"in {100 * share:.0f} of 100 cases at the end of the hold"
        elif one.what == "lag":
            lags = [course.lag(window[0] - float(shift), window[1]) for shift in moved]
            share = float(np.mean([lag is not None and lag <= one.most for lag in lags]))
            lag = course.lag(*window)
            asked = f"lag at most {one.most / 60:.0f} min"
            predicted = "never" if lag is None else f"{lag / 60:.0f} min"
            predicted += f"; {100 * share:.0f} of 100 cases within it"
        else:
            slope = _slope(course.fields[course.hold_end], setting, one.over)
            share = float(slope.kelvin <= one.most)
            asked = f"axial gradient at most {one.most:.0f} K over {1000 * one.over:.0f} mm"
            predicted = f"{slope.kelvin:.0f} K at the end of the hold"
        verdict = HOLDS if share >= least else FAILS
        found.append(Answer(one, asked, predicted, share, verdict))
    return found


def _needs(setting: Setting, course: Course) -> list[ZoneNeed]:
    found = []
    upto = course.hold_end + 1
    steps = np.diff(course.seconds[:upto], prepend=0.0)
    for k, zone in enumerate(setting.zones):
        power = course.power[:upto, k]
        short = 0.0
        if zone.power is not None:
            near = [i for i, c in enumerate(setting.couples) if c.tag == zone.follows]
            if near:
                behind = course.setpoint[:upto] - course.couples[:upto, near[0]]
                capped = (power >= 0.999 * zone.power) & (behind > 2.0)
                short = float(steps[capped].sum())
        found.append(ZoneNeed(zone.name, float(power.max()), float(power[-1]), zone.power, short))
    return found


def _slope(field: Field, setting: Setting, over: float) -> Slope:
    """The steepest fall over a length, on either side of the weld."""
    z, layer = field.mesh.z, field.layer(0.0)
    least, most = float(z[0]), float(z[-1]) - over
    places = np.arange(least, max(most, least), 0.005)
    near = np.stack([np.interp(places, z, row) for row in layer])
    far = np.stack([np.interp(places + over, z, row) for row in layer])
    fall = np.abs(near - far).max(axis=0)
    at = int(fall.argmax())
    return Slope(float(fall[at]), over, float(places[at] + over / 2.0))


def _edge(course: Course, setting: Setting) -> float:
    """Lowest share round the pipe that is left of the edge's temperature beyond the band."""
    field = course.fields[course.hold_end]
    z, layer = field.mesh.z, field.layer(0.0)
    beyond = setting.heated + beyond_band(setting.near)
    shares = [np.interp(beyond, z, row) / np.interp(setting.heated, z, row) for row in layer]
    return float(min(shares))


def _dip(setting: Setting, scatter: Scatter) -> float:
    """Estimate for gaps the whole length of the band, K below the middle between two of them.

    A ring as a thin fin: q g / (2 k t m) tanh(m s / 4), m2 = (h + 4 e s T3) / (k t), with the gaps
    s apart round the pipe.
    """
    if setting.gap <= 0.0:
        return 0.0
    half, state = setting.near, setting.bore
    k = STEELS[half.steel].material.conductivity.at(min(setting.target, 800.0))
    radiated = state.emissivity * 4.0 * 5.670374419e-8 * (setting.target + 273.15) ** 3
    across = k * (half.outer - half.inner)
    m = sqrt((state.mean + radiated) / across)
    apart = 2.0 * pi * half.outer / max(1, len(setting.zones))
    areas = [z.width / 360.0 * 2.0 * pi * half.outer * (z.end - z.start) for z in setting.zones]
    flux = float(np.average(scatter.fluxes, weights=areas))
    return flux * setting.gap / (2.0 * across * m) * tanh(m * apart / 4.0)


def _is_unwatched(setting: Setting, place: Extreme) -> bool:
    """Whether no thermocouple stands near a place, on either face of the wall."""
    round_, along = _WATCHED
    for couple in setting.couples:
        apart = abs((couple.degrees - place.degrees + 180.0) % 360.0 - 180.0)
        same_side = abs(couple.z - place.z) <= along or (
            setting.near == setting.far
            and not setting.bodies
            and abs(abs(couple.z) - abs(place.z)) <= along
        )
        if apart <= round_ and same_side:
            return False
    return True
