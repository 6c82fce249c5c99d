"""Requirements of the run that its temperatures alone cannot show."""

from __future__ import annotations

from hts.base.quantities import Quantity
from hts.job.compiler.why import Why, stated
from hts.language.vocabulary.segments import Cool
from hts.record.judging.evidence import Evidence
from hts.record.judging.verdict import (
    MET,
    NOT_MET,
    NOT_SHOWN,
    SAME,
    Failure,
    Outcome,
    Verdict,
)
from hts.record.judging.words import time
from hts.record.record import INSULATION_OPENED, NOTE

#: Notes with these words tell when welding began, and when it ended.
ARC, WELDED = "start of welding", "end of welding"
#: What is asked of the furnace itself: field of the cycle, name of the requirement, its words.
_FURNACE = (
    ("furnace_at", "charging of the furnace", "furnace at charging at most"),
    ("unload_at", "unloading of the furnace", "furnace at unloading at most"),
)


def verdicts(evidence: Evidence) -> list[Verdict]:
    """Shown by an event or by the first readings where those say so, else left to other papers."""
    found = [_delay(evidence), _cooled_before(evidence), _insulation(evidence), _testing(evidence)]
    found += [_furnace(evidence, *one) for one in _FURNACE]
    found += [_medium(evidence, segment) for segment in _cooling(evidence)]
    found.append(_recorder(evidence))
    return [one for one in found if one is not None]


def welding_began(evidence: Evidence) -> float | None:
    """When a note says that the first arc was struck, s from the start of the record."""
    return min(_noted(evidence, ARC), default=None)


def welding_ended(evidence: Evidence) -> float | None:
    """When a note says that welding ended, s from the start of the record."""
    return max(_noted(evidence, WELDED), default=None)


def _noted(evidence: Evidence, words: str) -> list[float]:
    return [
        event.at
        for event in evidence.record.events
        if event.kind == NOTE and event.text.strip().casefold() == words
    ]


def _delay(evidence: Evidence) -> Verdict | None:
    """Time between welding and heating."""
    asked = evidence.plan.delay
    if asked is None:
        return None
    most, why = asked.written, asked.why
    ended = welding_ended(evidence)
    specified = f"begins within {evidence.words.limit(most)} of the end of welding"
    if ended is None:
        return _unshown(evidence, "delay before heat treatment", specified, why)
    # A record that begins later begins with the heating. In one of the welding, too, the heating is
    # not told apart from the weld's own heat: it began before control did, no more is shown.
    begun, verb = (0.0, "began") if ended <= 0 else (evidence.controlled.start, "was under control")
    waited, limit = begun - ended, float(most.value)
    if ended > 0 and not 0 <= waited <= limit + SAME:
        return _unshown(evidence, "delay before heat treatment", specified, why)
    shown = time(waited, limit)
    sentence = f"heating {verb} {shown} after the end of welding"
    return _shown(
        evidence,
        "delay before heat treatment",
        specified,
        shown if ended <= 0 else sentence,
        waited <= limit + SAME,
        Failure((), ended, begun, sentence),
        why,
    )


def _cooled_before(evidence: Evidence) -> Verdict | None:
    """Cooled so far that the weld has transformed: shown where the record begins that cold."""
    asked = evidence.plan.cooled_below
    if asked is None:
        return None
    below, why = asked.written, asked.why
    specified = f"below {evidence.words.limit(below)} before"
    first = float(evidence.highest[0]) if len(evidence.times) else float("nan")
    if first < float(below.value):
        actual = f"begins at {evidence.words.temperature(first, float(below.value))}"
        return Verdict(
            "cooled before heat treatment",
            evidence.plan.address,
            specified,
            actual,
            MET,
            None,
            (),
            why,
        )
    return _unshown(evidence, "cooled before heat treatment", specified, why)


def _insulation(evidence: Evidence) -> Verdict | None:
    """How hot the part was when its insulation was opened for good."""
    below = evidence.plan.stated("strip_below")
    if not isinstance(below, Quantity):
        return None
    specified = f"removed below {evidence.words.limit(below)}"
    why = evidence.plan.why("strip_below", f"remove insulation below {below}")
    opened = [event.at for event in evidence.record.events if event.kind == INSULATION_OPENED]
    if not opened:
        return _unshown(evidence, "insulation", specified, why)
    at = max(opened)
    if at < 0:
        return _unshown(evidence, "insulation", specified, why)
    row = max(evidence.record.between(0.0, at).stop - 1, 0)
    hottest, limit = float(evidence.highest[row]), float(below.value)
    if hottest != hottest:
        return _unshown(evidence, "insulation", specified, why)
    shown = evidence.words.temperature(hottest, limit)
    sentence = f"the insulation was opened at {evidence.clock(at)} at {shown}"
    return _shown(
        evidence,
        "insulation",
        specified,
        f"opened at {shown}",
        hottest <= limit + SAME,
        Failure((), at, at, sentence),
        why,
    )


def _testing(evidence: Evidence) -> Verdict | None:
    """How long after a bake the weld is tested: after the record."""
    wait = evidence.plan.stated("test_delay")
    if not isinstance(wait, Quantity):
        return None
    specified = f"not before {time(float(wait.value))} have passed"
    why = evidence.plan.why("test_delay", f"test after {wait}")
    return _unshown(evidence, "delay before testing", specified, why)


def _furnace(evidence: Evidence, field: str, name: str, words: str) -> Verdict | None:
    """How hot the furnace itself was: what is on the part does not show it."""
    most = evidence.plan.stated(field)
    if not isinstance(most, Quantity):
        return None
    specified = f"{words} {evidence.words.limit(most)}"
    return _unshown(evidence, name, specified, evidence.plan.why(field, f"{words} {most}"))


def _cooling(evidence: Evidence) -> list[Cool]:
    segments = getattr(evidence.plan.entry, "segments", [])
    return [
        segment for segment in segments if isinstance(segment, Cool) and segment.medium is not None
    ]


def _medium(evidence: Evidence, segment: Cool) -> Verdict:
    why = stated(segment, "medium", f"cool in {segment.medium}")
    return _unshown(evidence, "cooling medium", f"in {segment.medium}", why)


def _recorder(evidence: Evidence) -> Verdict | None:
    recorder = evidence.plan.run.program.recorder
    if recorder is None:
        return None
    serial = f", serial {recorder.serial}" if recorder.serial else ""
    why = stated(recorder, "name", recorder.name)
    return _unshown(evidence, "identity of the recorder", f"{recorder.name}{serial}", why)


def _unshown(evidence: Evidence, name: str, specified: str, why: Why) -> Verdict:
    actual = "the record does not tell"
    return Verdict(
        name, evidence.plan.address, specified, actual, NOT_SHOWN, None, (), why, elsewhere=True
    )


def _shown(
    evidence: Evidence,
    name: str,
    specified: str,
    actual: str,
    good: bool,
    failure: Failure,
    why: Why,
) -> Verdict:
    outcome: Outcome = MET if good else NOT_MET
    failures = () if good else (failure,)
    return Verdict(name, evidence.plan.address, specified, actual, outcome, None, failures, why)
