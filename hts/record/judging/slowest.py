"""Steps that must not take too long: the slowest rate allowed."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from hts.job.compiler.why import stated
from hts.job.demands.gone_through import gone_through
from hts.language.vocabulary.segments import Cool, Heat
from hts.record.judging.evidence import Evidence
from hts.record.judging.verdict import (
    MET,
    NOT_MET,
    NOT_SHOWN,
    SAME,
    Failure,
    Outcome,
    Stretch,
    Verdict,
)
from hts.record.plan import HEAT, HOLD, Span
from hts.record.record import Floats

_HOUR = 3600.0


def verdicts(evidence: Evidence) -> list[Verdict]:
    """For each step with a slowest rate, the mean rate of each required thermocouple over it: to
    its end, or into the range of the hold that follows, where it is held and no longer moves."""
    spans = evidence.plan.spans
    following = {one.number: other for one, other in pairwise(spans)}
    return [
        _verdict(evidence, span, span.slowest, _gone_through(span, following.get(span.number)))
        for span in spans
        if span.slowest is not None and span.end is not None and span.end != span.start
    ]


def _gone_through(span: Span, following: Span | None) -> float:
    """degC."""
    assert span.end is not None
    if following is None or following.action != HOLD:
        return span.end
    return gone_through(span.start, span.end, following.low, following.high)


def _verdict(evidence: Evidence, span: Span, least: float, end: float) -> Verdict:
    words = evidence.words
    segment = evidence.plan.segment(span)
    assert isinstance(segment, Heat | Cool) and segment.slowest is not None
    failures: list[Failure] = []
    rates: list[tuple[float, str]] = []
    for thermocouple, values in zip(evidence.required, evidence.values, strict=True):
        took = _took(evidence.times, values, span, end)
        if took is None:
            continue
        rate = abs(end - span.start) / max(took.length, SAME) * _HOUR
        rates.append((rate, thermocouple.tag))
        if rate < least * (1 - 1e-9):
            verb = "rose" if span.action == HEAT else "fell"
            sentence = (
                f"{evidence.name(thermocouple.tag, took.start)} {verb} only "
                f"{words.rate(rate, least)} from {words.edge(span.start)} to {words.edge(end)}, "
                f"at least {words.limit(segment.slowest)} is asked for, "
                f"from {evidence.clock(took.start)} to {evidence.clock(took.end)}"
            )
            failures.append(Failure((thermocouple.tag,), took.start, took.end, sentence))
    outcome: Outcome = NOT_MET if failures else MET
    if len(rates) < len(evidence.required) and not failures:
        outcome = NOT_SHOWN
    slowest = min(rates, default=None)
    return Verdict(
        f"slowest rate, step {span.number}",
        evidence.plan.address,
        f"at least {words.limit(segment.slowest)} from {words.edge(span.start)} to "
        f"{words.edge(end)}{'' if end == span.end else ', where the hold begins'}",
        f"{words.rate(slowest[0], least)} ({slowest[1]})" if slowest else "not gone through",
        outcome,
        None,
        tuple(failures),
        stated(segment, "slowest", f"at least {segment.slowest}"),
    )


def _took(times: Floats, values: Floats, span: Span, end: float) -> Stretch | None:
    """From when a thermocouple last was on the near side of the step's start to when it first was
    past its end after that; None where it did not go through."""
    sign = 1.0 if span.action == HEAT else -1.0
    along, begin, finish = sign * values, sign * span.start, sign * end
    past = np.flatnonzero(along >= finish - SAME)
    if span.action != HEAT:
        # The part begins cold: what counts is the way down from its hottest.
        known = np.flatnonzero(~np.isnan(values))
        hottest = int(np.nanargmax(values)) if len(known) else 0
        past = past[past > hottest]
    if not len(past):
        return None
    before = np.flatnonzero(along[: past[0] + 1] <= begin + SAME)
    if not len(before):
        return None
    return Stretch(float(times[before[-1]]), float(times[past[0]]))
