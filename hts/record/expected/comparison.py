"""The record against the model: its control thermocouples drive the zones, the others are told.

What differs is then not the controller but the pipe, the bore, the insulation, or a thermocouple.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from hts.base.arguments import NotCovered
from hts.checking.govern.case import Case
from hts.checking.rules.helpers.predictions import is_asked
from hts.language.model.joint import Treatment
from hts.predict.building import Builder, Variation
from hts.predict.setting import NotPredicted, Setting, setting_of
from hts.record.plan import Plan
from hts.record.record import Floats, Record
from hts.science.field.model import Model
from hts.science.field.state import Field

#: Factors on the convection in the bore that are tried.
_FACTORS = (0.35, 0.6, 1.0, 1.7, 2.8)
#: Steps of the run at most; longest record worked out, s.
_STEPS, _LONGEST = 200, 5 * 86400.0
#: A residual within this share of the least squares fits about as well.
_AS_GOOD = 1.10
#: K. With less effect on the residuals the record tells nothing of the bore.
_TELLS = 1.0


class Trace(NamedTuple):
    """One thermocouple: recorded and predicted (n), degC, nan without a reading. `controls`: it
    drives the model, so that it cannot differ. Means over the run and the hold, K, recorded less
    predicted; None without readings.
    """

    tag: str
    controls: bool
    recorded: Floats
    predicted: Floats
    mean: float | None
    in_hold: float | None
    worst: float | None


class BoreEstimate(NamedTuple):
    """Convection in the bore that fits best, W/m2K, and the least and greatest that fit about as
    well; `stated` is that of the specification's state. `told` False: the residuals hardly hang on
    it, and the figures say nothing.
    """

    stated: float
    best: float
    low: float
    high: float
    told: bool


class Comparison(NamedTuple):
    """A record and what is predicted of it, at `seconds` (n) from its start. `notes` tell what was
    taken."""

    seconds: Floats
    traces: tuple[Trace, ...]
    bore: BoreEstimate | None
    notes: tuple[str, ...]


def compared(plan: Plan, record: Record, *, always: bool = False) -> Comparison | str | None:
    """The comparison, or why there is none; None where nobody asks for it."""
    case = Case(plan.job.spec)
    treatment = _treatment(case, plan)
    if treatment is None or not (always or is_asked(case, treatment)):
        return None
    try:
        return _compare(setting_of(case, treatment), record)
    except NotPredicted as reason:
        return str(reason)
    except NotCovered as error:
        return str(error)
    except (ArithmeticError, ValueError) as error:
        return f"the model does not settle: {error}"


def _treatment(case: Case, plan: Plan) -> Treatment | None:
    for joint in case.joints():
        for treatment in case.treatments(joint):
            if (joint.name, treatment.name) == (plan.joint, plan.name):
                return treatment
    return None


def _compare(setting: Setting, record: Record) -> Comparison:
    if record.end > _LONGEST:
        raise NotPredicted("the record is longer than five days")
    zones = tuple(zone._replace(power=None) for zone in setting.zones)
    setting = setting._replace(zones=zones)
    seconds = np.linspace(0.0, record.end, min(_STEPS, max(10, int(record.end // 300))))
    driving = []
    for zone in zones:
        values = _at(record, zone.follows, seconds)
        if values is None or not np.isfinite(values).any():
            raise NotPredicted(f"no thermocouple of zone {zone.name} was recorded")
        fine = np.isfinite(values)
        driving.append(np.interp(seconds, seconds[fine], values[fine]))
    tracks = np.stack(driving)
    builder = Builder(setting)
    follows = {zone.follows for zone in zones}
    read = {
        couple.tag: values
        for couple in setting.couples
        if (values := _at(record, couple.tag, seconds)) is not None
    }
    first = {tag: float(v[0]) for tag, v in read.items() if np.isfinite(v[0])}
    for zone, track in zip(zones, tracks, strict=True):
        first.setdefault(zone.follows, float(track[0]))
    judged = [
        couple.tag
        for couple in setting.couples
        if couple.tag in read and couple.tag not in follows
        and abs(couple.z) <= setting.insulated
    ]  # fmt: skip
    found = {f: _predicted(setting, builder, seconds, tracks, first, f) for f in _FACTORS}
    names = [couple.tag for couple in setting.couples]
    squares = [
        _square([read[tag] - found[f][:, names.index(tag)] for tag in judged]) for f in _FACTORS
    ]
    hold = tracks.min(axis=0) >= setting.window[0]
    traces = tuple(
        _trace(tag, tag in follows, read[tag], found[1.0][:, names.index(tag)], hold)
        for tag in names
        if tag in read
    )
    notes = (
        "the model is driven by the recorded control thermocouples, at "
        f"{seconds[1] - seconds[0]:.0f} s steps, every other input as stated",
        "it begins with what the thermocouples read, straight lines along the pipe between them",
        *(
            line
            for line in setting.assumed
            if "when it begins" not in line and "a rate" not in line
        ),
    )
    return Comparison(seconds, traces, _bore(setting, squares) if judged else None, notes)


def _predicted(
    setting: Setting,
    builder: Builder,
    seconds: Floats,
    tracks: Floats,
    first: dict[str, float],
    factor: float,
) -> Floats:
    """Predicted temperatures (n, couple) with the convection in the bore multiplied."""
    model = builder.model(Variation(air=setting.bore.mean * factor))
    watch = [(c.degrees, c.z, 1.0 if c.inside else 0.0) for c in setting.couples]
    begin = _begin(setting, model, first)

    def targets(at: float) -> list[float]:
        return [float(np.interp(at, seconds, track)) for track in tracks]

    step = float(seconds[1] - seconds[0])
    run = model.run(begin, [float(s) for s in seconds], targets=targets, step=step, watch=watch)
    return run.watched


def _begin(setting: Setting, model: Model, first: dict[str, float]) -> Field:
    """The pipe as the thermocouples read it first, the same round and through the wall."""
    along: dict[float, list[float]] = {}
    mirrored = model.mesh.mirrored
    for couple in setting.couples:
        if couple.tag in first:
            z = abs(couple.z) if mirrored else couple.z
            along.setdefault(round(z, 3), []).append(first[couple.tag])
    places = sorted(along)
    profile = np.interp(model.mesh.z, places, [float(np.mean(along[z])) for z in places])
    uniform = model.start(0.0)
    return uniform._replace(celsius=uniform.celsius + profile[None, :, None])


def _at(record: Record, tag: str, seconds: Floats) -> Floats | None:
    """Readings of a thermocouple at these times, nan where the nearest row has none."""
    series = record.series.get(tag)
    if series is None:
        return None
    rows = np.clip(np.searchsorted(record.elapsed, seconds), 0, len(record.elapsed) - 1)
    return np.asarray(series.values[rows], dtype=float)


def _square(residuals: list[Floats]) -> float:
    together = np.concatenate(residuals) if residuals else np.zeros(0)
    known = together[np.isfinite(together)]
    return float((known**2).mean()) if len(known) else float("nan")


def _trace(
    tag: str, controls: bool, recorded: Floats, predicted: Floats, hold: np.ndarray
) -> Trace:
    off = recorded - predicted
    known = np.isfinite(off)
    held = known & hold
    worst = float(off[known][np.abs(off[known]).argmax()]) if known.any() else None
    return Trace(
        tag,
        controls,
        recorded,
        predicted,
        float(off[known].mean()) if known.any() else None,
        float(off[held].mean()) if held.any() else None,
        worst,
    )


def _bore(setting: Setting, squares: list[float]) -> BoreEstimate | None:
    """The best factor by a parabola through the squares over the logarithm of the factor."""
    if not np.isfinite(squares).all():
        return None
    x = np.log(_FACTORS)
    fine = np.linspace(x[0], x[-1], 121)
    curve = np.interp(fine, x, np.sqrt(squares))
    best = int(curve.argmin())
    as_good = fine[curve <= _AS_GOOD * curve[best] + 1e-9]
    mean = setting.bore.mean
    return BoreEstimate(
        mean,
        mean * float(np.exp(fine[best])),
        mean * float(np.exp(as_good[0])),
        mean * float(np.exp(as_good[-1])),
        bool(curve.max() - curve.min() >= _TELLS),
    )
