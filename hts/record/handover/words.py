"""What report, chart and workbook say alike."""

from __future__ import annotations

from hts.record.judging import MET, Failure, Judgement, Verdict
from hts.record.record import Event, Series


def outcome(verdict: Verdict) -> str:
    """`met`; with a guard band that decides otherwise `met, conditional with guard band`."""
    if verdict.guarded is None or verdict.guarded == verdict.verdict:
        return verdict.verdict
    return f"{verdict.verdict}, {verdict.guarded} with guard band"


def judged(judgement: Judgement) -> list[Verdict]:
    """The requirements the record speaks to."""
    return [verdict for verdict in judgement.verdicts if not verdict.elsewhere]


def failures(judgement: Judgement) -> list[Failure]:
    """Every failure of a requirement that is not met or not shown, in the order of the report:
    its number is its place in this list, from 1."""
    return [
        failure
        for verdict in judged(judgement)
        if (verdict.guarded or verdict.verdict) != MET
        for failure in verdict.failures
    ]


def series_shown(judgement: Judgement) -> list[Series]:
    """The traces, in the order of the specification."""
    return [
        judgement.record.series[thermocouple.tag]
        for thermocouple in judgement.plan.watched
        if thermocouple.tag in judgement.record.series
    ]


def grouped(ones: list[Failure]) -> list[tuple[int, int, float, float]]:
    """Failures that follow one another in the list and overlap in time, as one each: first and
    last number, start and end in s."""
    found: list[tuple[int, int, float, float]] = []
    for number, one in enumerate(ones, 1):
        if found and one.start <= found[-1][3] and found[-1][2] <= one.end:
            first, _, start, end = found[-1]
            found[-1] = (first, number, min(start, one.start), max(end, one.end))
        else:
            found.append((number, number, one.start, one.end))
    return found


def event_words(event: Event) -> str:
    """`power lost`; `T3 replaced by T3S`; with what was noted beside it."""
    what = event.kind
    if event.by:
        what = f"{event.tag} {event.kind} by {event.by}"
    elif event.tag:
        what = f"{event.kind} ({event.tag})"
    elif event.zone:
        what = f"{event.kind}, zone {event.zone}"
    return what if event.text in ("", event.kind) else f"{what}: {event.text}"
