"""A judgement as one JSON document; grammar/record.schema.json is its schema."""

from __future__ import annotations

from typing import Any

from hts import __version__
from hts.base.text.json_text import json_text
from hts.job.compiler.fingerprint import grouped
from hts.job.compiler.why import Why
from hts.record.judging.judgement import Judgement
from hts.record.judging.verdict import Failure, HoldClock, Noted, Segment, Verdict
from hts.record.record import Record

Json = dict[str, Any]
#: Raised when a reader of the last form could misread the new one; new keys alone do not.
FORMAT_VERSION = 1
#: Decimals of a time in seconds; what lies beyond is the rounding of arithmetic.
_PLACES = 3


def write(judgement: Judgement, predicted: Json | None = None) -> str:
    """The document as text, keys in a fixed order; the same judgement gives the same bytes.
    `predicted` is what was to be expected (hts.record.expected.json_form), beside the judgement."""
    beside = {"predicted": predicted} if predicted is not None else {}
    return json_text({**document(judgement), **beside})


def document(judgement: Judgement) -> Json:
    """Times are seconds from the start of the record, with the record's own clock beside them."""
    record, plan = judgement.record, judgement.plan
    named = plan.job.document
    return {
        "format_version": FORMAT_VERSION,
        "tool": {"name": "hts", "version": __version__},
        "specification": {
            "title": named.title,
            "number": named.number,
            "revision": named.revision,
            "status": named.status,
            "fingerprint": named.fingerprint,
            "digest": named.digest,
        },
        "joint": plan.joint,
        "treatment": plan.name,
        "record": {
            "fingerprint": grouped(record.digest),
            "digest": record.digest,
            "files": [
                {"name": file.name, "digest": file.digest, "rows": file.rows}
                for file in record.files
            ],
            "start": record.clock(0.0),
            "end": record.clock(record.end),
            "dated": record.start is not None,
            "seconds": round(record.end, _PLACES),
            "interval": round(record.interval, _PLACES),
            "simulated": record.simulated,
            "thermocouples": list(record.series),
            "not_mapped": list(record.unmapped),
            "events": [
                {
                    **_moment(record, "at", event.at),
                    "kind": event.kind,
                    "tag": event.tag,
                    "by": event.by,
                    "zone": event.zone,
                    "text": event.text,
                }
                for event in record.events
            ],
        },
        "assumed": [*record.assumed, *judgement.assumed],
        "faults": [
            {
                "kind": fault.kind,
                "tag": fault.tag,
                "others": list(fault.others),
                "zone": fault.zone,
                **_stretch(record, fault.start, fault.end),
                "wrong": [_stretch(record, one.start, one.end) for one in fault.wrong],
                "evidence": fault.evidence,
                "confidence": fault.confidence,
                "treatment": fault.treatment,
            }
            for fault in judgement.faults
        ],
        "overall": judgement.overall,
        "verdicts": [_verdict(record, verdict) for verdict in judgement.verdicts],
        "holds": [_hold(record, hold) for hold in judgement.holds],
        "segments": [_segment(record, segment) for segment in judgement.segments],
        "noted": [_noted(figure) for figure in judgement.noted],
    }


def _verdict(record: Record, verdict: Verdict) -> Json:
    return {
        "requirement": verdict.requirement,
        "address": verdict.address,
        "specified": verdict.specified,
        "actual": verdict.actual,
        "verdict": verdict.verdict,
        "guarded": verdict.guarded,
        "elsewhere": verdict.elsewhere,
        "failures": [_failure(record, failure) for failure in verdict.failures],
        "source": _why(verdict.source),
    }


def _failure(record: Record, failure: Failure) -> Json:
    return {
        "thermocouples": list(failure.tags),
        **_stretch(record, failure.start, failure.end),
        "sentence": failure.sentence,
    }


def _hold(record: Record, clock: HoldClock) -> Json:
    return {
        "low": clock.low,
        "high": clock.high,
        "least": clock.least,
        "longest": clock.longest,
        "total": round(clock.total, _PLACES),
        "intervals": [
            _stretch(record, interval.start, interval.end) for interval in clock.intervals
        ],
        "came_last": clock.last,
        "worst": clock.worst,
    }


def _segment(record: Record, segment: Segment) -> Json:
    return {
        "step": segment.number,
        "action": segment.action,
        **_stretch(record, segment.start, segment.end),
    }


def _noted(noted: Noted) -> Json:
    return {"name": noted.name, "sentence": noted.sentence, "source": _why(noted.source)}


def _stretch(record: Record, start: float, end: float) -> Json:
    return {**_moment(record, "start", start), **_moment(record, "end", end)}


def _moment(record: Record, name: str, seconds: float) -> Json:
    return {name: round(seconds, _PLACES), f"{name}_clock": record.clock(seconds)}


def _why(why: Why | None) -> Json | None:
    return None if why is None else {name: said for name, said in why._asdict().items() if said}
