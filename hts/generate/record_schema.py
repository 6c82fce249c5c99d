"""JSON Schema of what `hts record check --format json` writes."""

from __future__ import annotations

import json

from hts.generate.schema import (
    COUNT,
    DIGEST,
    DRAFT,
    NAME,
    NUMBER,
    TEXT,
    YES_NO,
    Schema,
    list_of,
    object_of,
    or_null,
)
from hts.record.judging.document import FORMAT_VERSION

PATH = "grammar/record.schema.json"

_OUTCOMES = ["met", "not met", "not shown", "conditional"]


def generate(root: str) -> dict[str, str]:
    """Path to text of the schema."""
    return {PATH: json.dumps(schema(), ensure_ascii=False, indent=1) + "\n"}


def schema() -> Schema:
    """The schema. A later version may add keys, so that none is forbidden; what an existing one
    means changes only together with `format_version`."""
    return {
        "$schema": DRAFT,
        "title": "Judgement of hts record check",
        **object_of(
            "A recorded run against its specification; times are seconds from its start",
            {
                "format_version": {
                    "const": FORMAT_VERSION,
                    "description": "Version of this format",
                },
                "tool": object_of(
                    "What wrote the judgement", {"name": {"const": "hts"}, "version": NAME}
                ),
                "specification": object_of(
                    "The specification",
                    {
                        **dict.fromkeys(("title", "number", "revision", "status"), TEXT),
                        "fingerprint": NAME,
                        "digest": DIGEST,
                    },
                ),
                "joint": NAME,
                "treatment": {**NAME, "description": "Name of the cycle, or bake or preheat"},
                "record": _record(),
                "assumed": list_of(NAME, "What was assumed, in sentences"),
                "faults": list_of(_fault(), "Faults of measurement found in the record"),
                "overall": {"enum": _OUTCOMES},
                "verdicts": list_of(_verdict(), "Every requirement"),
                "holds": list_of(_hold(), "The clock of each hold of the program"),
                "segments": list_of(
                    object_of(
                        "A part of the record, and the step of the program it begins with",
                        {
                            "step": COUNT,
                            "action": {"enum": ["heat", "hold", "cool"]},
                            **_stretch(),
                        },
                    ),
                    "Heating, holds and cooling as recognised",
                ),
                "noted": list_of(
                    object_of(
                        "A figure worked out that nothing limits",
                        {"name": NAME, "sentence": NAME, "source": _why()},
                    ),
                    "Figures worked out",
                ),
            },
            {"predicted": _predicted()},
        ),
    }


def _predicted() -> Schema:
    kelvin = or_null({**NUMBER, "description": "K, recorded less predicted"})
    degrees = {"type": "array", "items": or_null(NUMBER), "description": "degC at each time"}
    bore = dict.fromkeys(("stated", "best", "low", "high"), NUMBER)
    return object_of(
        "The record beside what was predicted of it: never evidence, and no part of a verdict",
        {
            "evidence": {"const": False},
            "notice": NAME,
            "not_for": list_of(NAME, "What it must not be used for"),
        },
        {
            "none_because": {**NAME, "description": "Why nothing is predicted"},
            "seconds": {"type": "array", "items": NUMBER, "description": "From the record's start"},
            "thermocouples": list_of(
                object_of(
                    "A thermocouple",
                    {
                        "tag": NAME,
                        "drives_the_model": YES_NO,
                        "recorded": degrees,
                        "predicted": degrees,
                        **dict.fromkeys(("mean", "in_hold", "greatest"), kelvin),
                    },
                ),
                "Those that were recorded",
            ),
            "bore": or_null(object_of("Convection in the bore that fits, W/m2K", bore)),
            "notes": list_of(NAME, "What was taken"),
        },
    )


def _record() -> Schema:
    return object_of(
        "The record",
        {
            "fingerprint": NAME,
            "digest": DIGEST,
            "files": list_of(
                object_of("A file", {"name": NAME, "digest": DIGEST, "rows": COUNT}), "Its files"
            ),
            "start": _clock(),
            "end": _clock(),
            "dated": {**YES_NO, "description": "Whether it has clock times"},
            "seconds": NUMBER,
            "interval": {**NUMBER, "description": "Median time between readings, s"},
            "simulated": YES_NO,
            "thermocouples": list_of(NAME, "Those with readings"),
            "not_mapped": list_of(TEXT, "Columns no thermocouple claims"),
            "events": list_of(
                object_of(
                    "What people noted",
                    {
                        "at": NUMBER,
                        "at_clock": _clock(),
                        "kind": NAME,
                        "tag": TEXT,
                        "by": TEXT,
                        "zone": TEXT,
                        "text": TEXT,
                    },
                ),
                "Events",
            ),
        },
    )


def _fault() -> Schema:
    return object_of(
        "A fault of measurement, or of the heating",
        {
            "kind": NAME,
            "tag": TEXT,
            "others": list_of(NAME, "Other thermocouples concerned"),
            "zone": {**TEXT, "description": "Zone whose heaters it is about"},
            **_stretch(),
            "wrong": list_of(object_of("Readings that are wrong", _stretch()), "Within that time"),
            "evidence": NAME,
            "confidence": {"enum": ["high", "medium", "low"]},
            "treatment": {**NAME, "description": "What became of the readings"},
        },
    )


def _verdict() -> Schema:
    return object_of(
        "A requirement",
        {
            "requirement": NAME,
            "address": {**NAME, "description": "The thing it is about: W12/stress-relief"},
            "specified": NAME,
            "actual": NAME,
            "verdict": {"enum": _OUTCOMES},
            "guarded": {
                "enum": [*_OUTCOMES, None],
                "description": "With the guard band; null where none applies",
            },
            "elsewhere": {**YES_NO, "description": "Other papers have to show it"},
            "failures": list_of(
                object_of(
                    "Where and when it failed",
                    {
                        "thermocouples": list_of(NAME, "Those that failed"),
                        **_stretch(),
                        "sentence": NAME,
                    },
                ),
                "Failures",
            ),
            "source": _why(),
        },
    )


def _hold() -> Schema:
    return object_of(
        "A hold: its range in degC, its times in s",
        {
            "low": NUMBER,
            "high": NUMBER,
            "least": or_null(NUMBER),
            "longest": or_null(NUMBER),
            "total": {**NUMBER, "description": "Time that counted"},
            "intervals": list_of(object_of("When it counted", _stretch()), "Its pieces"),
            "came_last": {**TEXT, "description": "The one that alone came into range last"},
            "worst": {**TEXT, "description": "The one out of range longest"},
        },
    )


def _why() -> Schema:
    return or_null(
        {
            "type": "object",
            "description": "What a requirement rests on",
            "minProperties": 1,
            "properties": dict.fromkeys(
                ("formula", "numbers", "source", "edition", "citation", "basis", "confidence",
                 "note"), NAME
            ),
        }
    )  # fmt: skip


def _stretch() -> dict[str, Schema]:
    return {"start": NUMBER, "start_clock": _clock(), "end": NUMBER, "end_clock": _clock()}


def _clock() -> Schema:
    return {**NAME, "description": "By the record's own clock"}
