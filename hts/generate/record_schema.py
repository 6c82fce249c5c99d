"""JSON Schema of what `hts record check --format json` writes."""

from __future__ import annotations

import json
from typing import Any

from hts.record.judging.document import FORM

PATH = "grammar/record.schema.json"
Schema = dict[str, Any]

_TEXT: Schema = {"type": "string"}
_NAME: Schema = {"type": "string", "minLength": 1}
_COUNT: Schema = {"type": "integer", "minimum": 0}
_NUMBER: Schema = {"type": "number"}
_YES_NO: Schema = {"type": "boolean"}
_DIGEST: Schema = {"type": "string", "pattern": "^[0-9a-f]{64}$"}
_OUTCOMES = ["met", "not met", "not shown", "conditional"]


def generate(root: str) -> dict[str, str]:
    """Path to text of the schema."""
    return {PATH: json.dumps(schema(), ensure_ascii=False, indent=1) + "\n"}


def schema() -> Schema:
    """The schema. A later version may add keys, so that none is forbidden; what an existing one
    means changes only together with `form`."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Judgement of hts record check",
        **_object(
            "A recorded run against its specification; times are seconds from its start",
            {
                "form": {"const": FORM, "description": "Version of this form"},
                "tool": _object(
                    "What wrote the judgement", {"name": {"const": "hts"}, "version": _NAME}
                ),
                "specification": _object(
                    "The specification",
                    {
                        **dict.fromkeys(("title", "number", "revision", "status"), _TEXT),
                        "fingerprint": _NAME,
                        "digest": _DIGEST,
                    },
                ),
                "joint": _NAME,
                "treatment": {**_NAME, "description": "Name of the cycle, or bake or preheat"},
                "record": _record(),
                "assumed": _list(_NAME, "What was assumed, in sentences"),
                "faults": _list(_fault(), "Faults of measurement found in the record"),
                "overall": {"enum": _OUTCOMES},
                "verdicts": _list(_verdict(), "Every requirement"),
                "holds": _list(_hold(), "The clock of each hold of the program"),
                "segments": _list(
                    _object(
                        "A part of the record, and the step of the program it begins with",
                        {
                            "step": _COUNT,
                            "action": {"enum": ["heat", "hold", "cool"]},
                            **_stretch(),
                        },
                    ),
                    "Heating, holds and cooling as recognised",
                ),
                "noted": _list(
                    _object(
                        "A figure worked out that nothing limits",
                        {"name": _NAME, "said": _NAME, "source": _why()},
                    ),
                    "Figures worked out",
                ),
            },
        ),
    }


def _record() -> Schema:
    return _object(
        "The record",
        {
            "fingerprint": _NAME,
            "digest": _DIGEST,
            "files": _list(
                _object("A file", {"name": _NAME, "digest": _DIGEST, "rows": _COUNT}), "Its files"
            ),
            "start": _clock(),
            "end": _clock(),
            "dated": {**_YES_NO, "description": "Whether it has clock times"},
            "seconds": _NUMBER,
            "interval": {**_NUMBER, "description": "Median time between readings, s"},
            "simulated": _YES_NO,
            "thermocouples": _list(_NAME, "Those with readings"),
            "not_mapped": _list(_TEXT, "Columns no thermocouple claims"),
            "events": _list(
                _object(
                    "What people noted",
                    {
                        "at": _NUMBER,
                        "at_clock": _clock(),
                        "kind": _NAME,
                        "tag": _TEXT,
                        "by": _TEXT,
                        "text": _TEXT,
                    },
                ),
                "Events",
            ),
        },
    )


def _fault() -> Schema:
    return _object(
        "A fault of measurement",
        {
            "kind": _NAME,
            "tag": _TEXT,
            "others": _list(_NAME, "Other thermocouples concerned"),
            **_stretch(),
            "wrong": _list(_object("Readings that are wrong", _stretch()), "Within that time"),
            "evidence": _NAME,
            "confidence": {"enum": ["high", "medium", "low"]},
            "treatment": {**_NAME, "description": "What became of the readings"},
        },
    )


def _verdict() -> Schema:
    return _object(
        "A requirement",
        {
            "requirement": _NAME,
            "address": {**_NAME, "description": "The thing it is about: W12/stress-relief"},
            "specified": _NAME,
            "actual": _NAME,
            "verdict": {"enum": _OUTCOMES},
            "guarded": {
                "enum": [*_OUTCOMES, None],
                "description": "With the guard band; null where none applies",
            },
            "elsewhere": {**_YES_NO, "description": "Other papers have to show it"},
            "failures": _list(
                _object(
                    "Where and when it failed",
                    {
                        "thermocouples": _list(_NAME, "Those that failed"),
                        **_stretch(),
                        "said": _NAME,
                    },
                ),
                "Failures",
            ),
            "source": _why(),
        },
    )


def _hold() -> Schema:
    return _object(
        "A hold: its range in degC, its times in s",
        {
            "low": _NUMBER,
            "high": _NUMBER,
            "least": _or_null(_NUMBER),
            "longest": _or_null(_NUMBER),
            "total": {**_NUMBER, "description": "Time that counted"},
            "intervals": _list(_object("When it counted", _stretch()), "Its pieces"),
            "came_last": {**_TEXT, "description": "The one that alone came into range last"},
            "worst": {**_TEXT, "description": "The one out of range longest"},
        },
    )


def _why() -> Schema:
    return _or_null(
        {
            "type": "object",
            "description": "What a requirement rests on",
            "minProperties": 1,
            "properties": dict.fromkeys(
                ("formula", "numbers", "source", "edition", "citation", "basis", "confidence",
                 "note"), _NAME
            ),
        }
    )  # fmt: skip


def _stretch() -> dict[str, Schema]:
    return {"start": _NUMBER, "start_clock": _clock(), "end": _NUMBER, "end_clock": _clock()}


def _clock() -> Schema:
    return {**_NAME, "description": "By the record's own clock"}


def _or_null(one: Schema) -> Schema:
    return {"anyOf": [one, {"type": "null"}]}


def _list(items: Schema, description: str) -> Schema:
    return {"type": "array", "description": description, "items": items}


def _object(description: str, properties: dict[str, Schema]) -> Schema:
    return {
        "type": "object",
        "description": description,
        "properties": properties,
        "required": list(properties),
    }
