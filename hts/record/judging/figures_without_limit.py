"""Figures worked out from a record that no requirement limits."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from hts.base.quantities import Quantity
from hts.job.compiler.why import Why
from hts.record.judging.evidence import Evidence
from hts.record.judging.guard import guard
from hts.record.judging.hold_verdicts import mean_temperature
from hts.record.judging.verdict import HoldClock, Noted
from hts.record.judging.words import time
from hts.record.plan import Watched
from hts.record.record import Floats
from hts.science.metallurgy.tempering import (
    LOW_ALLOY_CONSTANT,
    SUM_ORIGIN,
    TRACE_ORIGIN,
    hours_at,
    total,
    trace_parameter,
)
from hts.science.uncertainty.decision import PROBABILITY_ORIGIN, conformance_probability

_HOUR = 3600.0
#: K below the highest reading under which a course adds nothing to its parameter: at 100 K less
#: an hour is worth less than half a minute, and a ramp spends less than that there.
_WORTHLESS = 100.0
#: Points a course is followed by: each stands for the mean of the readings around it.
_POINTS = 150

#: Customary least part of the temperature at the edge of the soak band. From memory: it is told,
#: and decides nothing.
LEAST_PART = 0.5
_PLACE = "heated edge"
_WHY = Why(
    "edge of the heated band ≥ ½ of the edge of the soak band",
    source="AWS D10.10",
    citation="axial gradient",
    basis="memory",
    confidence="medium",
)


def noted(evidence: Evidence, clocks: Sequence[HoldClock]) -> tuple[Noted, ...]:
    """Edges of the heated band, mean temperature of each hold, and the parameter of the run from
    its coldest to its hottest thermocouple."""
    words = evidence.words
    found = _edges(evidence, clocks)
    for clock in clocks:
        mean = mean_temperature(evidence, clock)
        if mean is not None:
            name = "mean of highest and lowest while the hold counted"
            found.append(Noted(name, words.temperature(mean), None))
    worth = worth_of(evidence, clocks)
    if worth:
        target = evidence.plan.run.program.target
        assert target is not None
        low, high = min(worth), max(worth)
        hours = [hours_at(float(target.value), one[0]) for one in (low, high)]
        sentence = (
            f"{low[0]:.0f} ({low[1]}, as {time(hours[0] * _HOUR)} at {words.limit(target)}) to "
            f"{high[0]:.0f} ({high[1]}, as {time(hours[1] * _HOUR)})"
        )
        why = Why(
            f"T (C + log10 t), C = {LOW_ALLOY_CONSTANT:g}, T in K, t in h",
            "followed through the whole record",
            TRACE_ORIGIN.standard,
            basis=TRACE_ORIGIN.basis,
            confidence=TRACE_ORIGIN.confidence,
        )
        found.append(Noted("Hollomon-Jaffe parameter of the whole record", sentence, why))
        found += _with_earlier(evidence, target, hours[1])
    found += _probability(evidence, clocks)
    return tuple(found)


def _with_earlier(evidence: Evidence, target: Quantity, hours: float) -> list[Noted]:
    """What the hottest place has had in all, the treatments before this one included."""
    earlier = [
        (float(past_heating.at.value), float(past_heating.time.value) / _HOUR)
        for past_heating in evidence.plan.sheet.joint.entry.earlier
        if past_heating.at is not None and past_heating.time.value > 0
    ]
    if not earlier:
        return []
    celsius = float(target.value)
    whole = total([(celsius, hours), *earlier], celsius)
    limit = evidence.words.limit(target)
    sentence = f"{whole.parameter:.0f}, as {time(whole.hours * _HOUR)} at {limit}"
    why = Why(
        "times worth the same at one temperature, added",
        f"added at {limit}",
        SUM_ORIGIN.standard,
        SUM_ORIGIN.edition,
        SUM_ORIGIN.paragraph,
        SUM_ORIGIN.basis,
        SUM_ORIGIN.confidence,
    )
    return [Noted("parameter with the treatments before", sentence, why)]


def _probability(evidence: Evidence, clocks: Sequence[HoldClock]) -> list[Noted]:
    """How likely the hottest place stayed below the top of the range, where a guard band asks."""
    band = guard(evidence.plan)
    top = max((clock.high for clock in clocks), default=None)
    peaks = [
        peak
        for thermocouple in evidence.on_part
        if (peak := evidence.peak(thermocouple.tag)) is not None
    ]
    if band.rule is None or band.lacks or top is None or not peaks:
        return []
    share = conformance_probability(max(peaks)[0], None, top, band.standard)
    sentence = f"{share:.1%} by the highest reading, standard uncertainty {band.standard:.2f} K"
    why = Why(
        "normal distribution about the reading",
        source=PROBABILITY_ORIGIN.standard,
        basis=PROBABILITY_ORIGIN.basis,
        confidence=PROBABILITY_ORIGIN.confidence,
    )
    return [Noted("probability that the top of the range was kept", sentence, why)]


def _edges(evidence: Evidence, clocks: Sequence[HoldClock]) -> list[Noted]:
    """The coldest edge of the heated band while the hottest hold counted, in parts of the lowest
    required reading at that time, both in degC."""
    clock = max(clocks, key=lambda one: one.high, default=None)
    if clock is None:
        return []
    found: list[tuple[float, float, Watched, float]] = []
    for thermocouple in evidence.plan.watched:
        if thermocouple.place != _PLACE or thermocouple.tag not in evidence.record.series:
            continue
        values = evidence.of(thermocouple.tag)
        for piece in clock.intervals:
            part = evidence.record.between(*piece)
            share = values[part] / evidence.lowest[part]
            if np.all(np.isnan(share)):
                continue
            at = part.start + int(np.nanargmin(share))
            found.append(
                (float(np.nanmin(share)), float(values[at]), thermocouple, evidence.times[at])
            )
    if not found:
        return []
    least, value, one, when = min(found, key=lambda item: item[0])
    sentence = (
        f"{evidence.words.temperature(value)} ({one.tag}) at {evidence.clock(float(when))}, "
        f"{least:.0%} of the lowest required; customary is at least {LEAST_PART:.0%}"
    )
    return [Noted("coldest edge of the heated band during the hold", sentence, _WHY)]


def worth_of(evidence: Evidence, clocks: Sequence[HoldClock]) -> list[tuple[float, str]]:
    """Parameter and thermocouple of the coldest and the hottest by their mean in the hold."""
    if not clocks or evidence.plan.run.program.target is None:
        return []
    hottest = max(clocks, key=lambda clock: clock.high)
    if hottest.arrived is None or hottest.left is None:
        return []
    part = evidence.record.between(hottest.arrived, hottest.left)
    means = []
    for thermocouple, values in zip(evidence.required, evidence.values, strict=True):
        held = values[part]
        held = held[~np.isnan(held)]
        if len(held):
            means.append((float(held.mean()), thermocouple.tag))
    if not means:
        return []
    found = []
    for tag in dict.fromkeys((min(means)[1], max(means)[1])):
        course = _course(evidence.times, evidence.of(tag))
        if len(course) > 1:
            found.append((trace_parameter(course), tag))
    return found


def _course(times: Floats, values: Floats) -> list[tuple[float, float]]:
    """A course (h, degC) of few points, from where it begins to count to where it ends."""
    known = ~np.isnan(values)
    times, values = times[known], values[known]
    if not len(values):
        return []
    counts = np.flatnonzero(values >= values.max() - _WORTHLESS)
    part = slice(counts[0], counts[-1] + 1)
    times, values = times[part], values[part]
    if len(times) > _POINTS:
        edges = np.linspace(0, len(times), _POINTS + 1).astype(np.intp)
        sizes = np.diff(edges)
        times = np.add.reduceat(times, edges[:-1]) / sizes
        values = np.add.reduceat(values, edges[:-1]) / sizes
    return list(zip((times / _HOUR).tolist(), values.tolist(), strict=True))
