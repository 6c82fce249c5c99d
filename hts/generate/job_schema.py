"""The part of the JSON Schema that describes job.json: what was worked out from a specification."""

from __future__ import annotations

from typing import Any

from hts.compile.changes import Line

Schema = dict[str, Any]

_TEXT: Schema = {"type": "string"}
_NAME: Schema = {"type": "string", "minLength": 1}
_YES_NO: Schema = {"type": "boolean"}
_COUNT: Schema = {"type": "integer", "minimum": 0}


def definitions(spec: str) -> dict[str, Schema]:
    """Definitions by name, `job-file` the first; ``spec`` is the reference of the exported file."""
    return {
        "job-file": _object(
            "A compiled job: the specification and what was worked out from it",
            {
                "hts": {**_NAME, "description": "Version of the tool"},
                "document": _ref("job-document"),
                "fingerprint": {**_NAME, "description": "Of the text, what it uses, the books"},
                "digest": _object(
                    "The whole of the fingerprint",
                    {
                        "algorithm": _NAME,
                        "value": {"type": "string", "pattern": "^[0-9a-f]{64}$"},
                    },
                ),
                "units": _list({"enum": ["SI", "US"]}),
                "authorities": _list(
                    _object(
                        "A book or procedure in force",
                        {
                            "name": _NAME,
                            "title": _TEXT,
                            "edition": _or_null(_TEXT),
                            "kind": {"enum": ["book", "procedure"]},
                        },
                    )
                ),
                "changes": _ref("job-changes"),
                "joints": _list(_ref("job-joint")),
                "spec": {"$ref": spec},
                "used": _list(
                    _object(
                        "A file the specification uses",
                        {
                            "name": _NAME,
                            "spec": {"$ref": spec},
                        },
                    )
                ),
            },
            ("changes",),
        ),
        "job-changes": _object(
            "What changed since an earlier revision, where that was asked",
            {
                "since": {**_NAME, "description": "The revision, as it was named"},
                "mark": {**_TEXT, "description": "What stands beside a changed row"},
                "lines": _list(
                    _object(
                        "A change",
                        dict.fromkeys(Line._fields, _TEXT),
                    )
                ),
                "rows": _list(
                    _object(
                        "A row that changed",
                        {"joint": _TEXT, "treatment": _TEXT, "kind": _NAME, "name": _TEXT},
                    )
                ),
            },
        ),
        "job-document": _object(
            "Identity of the document",
            {
                "title": _or_null(_TEXT),
                "number": _or_null(_TEXT),
                "revision": _or_null(_TEXT),
                "date": _or_null(_TEXT),
                "status": _or_null(_TEXT),
            },
        ),
        "job-joint": _object(
            "One weld",
            {
                "name": _NAME,
                "facts": {
                    "type": "object",
                    "description": "Facts of the joint and of each side",
                    "additionalProperties": {
                        "type": "object",
                        "additionalProperties": _ref("job-fact"),
                    },
                },
                "sides": _list(
                    {"type": "object", "required": ["name", "outside_diameter", "wall"]}
                ),
                "widths": _list(
                    {
                        "type": "object",
                        "required": ["name", "total", "each_side", "why"],
                        "properties": {"total": _ref("job-fact"), "why": _why()},
                    }
                ),
                "derived": _list(_ref("job-derived")),
                "undecided": _list(_ref("job-undecided")),
                "treatments": _list(_ref("job-treatment")),
            },
        ),
        "job-treatment": _open(
            "A preheat, bake or cycle as it is run",
            {
                "name": _NAME,
                "kind": _NAME,
                "rate_margin": {"type": "object"},
                "zones": _list(_open("A control zone", {"name": _NAME})),
                "program": _list(_ref("job-step")),
                "derived": _list(_ref("job-derived")),
                "undecided": _list(_ref("job-undecided")),
                "tags": _list(_ref("job-tag")),
                "proof": {"type": ["object", "null"]},
            },
        ),
        "job-step": _open(
            "A step of the program",
            {
                "step": _COUNT,
                "action": _NAME,
                "free": _YES_NO,
                "from": _ref("job-fact"),
                "to": _ref("job-fact"),
                "rate": _ref("job-fact"),
                "rate_limit": _ref("job-fact"),
                "elapsed": _times(),
                "earliest": _times(),
                "latest": _times(),
                "alarm_above": _ref("job-fact"),
                "alarm_below": _ref("job-fact"),
            },
        ),
        "job-tag": _open(
            "A thermocouple",
            {
                "tag": _NAME,
                "duty": _TEXT,
                "zone": _or_null(_TEXT),
                "spare_of": _or_null(_TEXT),
                "clock": _or_null(_TEXT),
                "angle": _number(),
                "arc": _ref("job-fact"),
                "controller": _channel(),
                "recorder": _channel(),
            },
        ),
        "job-derived": _open(
            "A value the rules give, and what gave it",
            {
                "quantity": _NAME,
                "direction": {"enum": ["minimum", "maximum", "exactly", "status"]},
                "value": _ref("job-fact"),
                "why": _why(),
            },
        ),
        "job-undecided": _object(
            "A limit that cannot be decided for want of facts",
            {
                "quantity": _NAME,
                "source": _TEXT,
                "citation": _or_null(_TEXT),
                "lacks": _list(_TEXT),
                "reason": _or_null(_TEXT),
            },
        ),
        "job-fact": {
            "description": "A quantity, a number as text, a word or several, or nothing",
            "anyOf": [
                _object(
                    "A quantity",
                    {
                        "value": {"type": "string", "pattern": "^-?[0-9]+(/[1-9][0-9]*)?$"},
                        "unit": _TEXT,
                        "shown": _NAME,
                    },
                ),
                {"type": ["string", "integer", "null"]},
                {"type": "array", "items": _NAME, "minItems": 2},
            ],
        },
        "job-why": {
            "type": "object",
            "minProperties": 1,
            "description": "Formula, the numbers put in, and what it rests on",
            "properties": {
                **dict.fromkeys(
                    ("formula", "numbers", "source", "edition", "citation", "note"), _NAME
                ),
                "basis": {"enum": ["stated", "published", "derived", "memory", "practice"]},
                "confidence": {"enum": ["high", "medium", "low"]},
            },
            "additionalProperties": False,
        },
    }


def _ref(name: str) -> Schema:
    return {"$ref": f"#/$defs/{name}"}


def _why() -> Schema:
    return _or_null(_ref("job-why"))


def _number() -> Schema:
    return _or_null({"type": "string", "pattern": "^-?[0-9]+(/[1-9][0-9]*)?$"})


def _times() -> Schema:
    return _object(
        "Seconds from the beginning; null where the limits leave it open",
        {
            "start": _number(),
            "end": _number(),
        },
    )


def _channel() -> Schema:
    return _object(
        "An instrument and its channel",
        {
            "instrument": _or_null(_TEXT),
            "channel": _or_null(_COUNT),
        },
    )


def _or_null(one: Schema) -> Schema:
    return {"anyOf": [one, {"type": "null"}]}


def _list(one: Schema) -> Schema:
    return {"type": "array", "items": one}


def _open(description: str, properties: Schema, optional: tuple[str, ...] = ()) -> Schema:
    """An object that must have these properties, but for the optional ones, and may have more."""
    return {
        "type": "object",
        "description": description,
        "properties": properties,
        "required": [name for name in properties if name not in optional],
    }


def _object(description: str, properties: Schema, optional: tuple[str, ...] = ()) -> Schema:
    return {**_open(description, properties, optional), "additionalProperties": False}
