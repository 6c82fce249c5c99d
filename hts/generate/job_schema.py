"""The part of the JSON Schema that describes job.json: what was worked out from a specification."""

from __future__ import annotations

from hts.generate.schema import COUNT, NAME, TEXT, YES_NO, Schema, list_of, object_of, or_null
from hts.job.compiler.changes import ChangeLine


def definitions(spec: str) -> dict[str, Schema]:
    """Definitions by name, `job-file` the first; ``spec`` is the reference of the exported file."""
    return {
        "job-file": _closed(
            "A compiled job: the specification and what was worked out from it",
            {
                "hts": {**NAME, "description": "Version of the tool"},
                "document": _ref("job-document"),
                "fingerprint": {**NAME, "description": "Of the text, what it uses, the books"},
                "digest": _closed(
                    "The whole of the fingerprint",
                    {
                        "algorithm": NAME,
                        "value": {"type": "string", "pattern": "^[0-9a-f]{64}$"},
                    },
                ),
                "units": list_of({"enum": ["SI", "US"]}),
                "authorities": list_of(
                    _closed(
                        "A book or procedure in force",
                        {
                            "name": NAME,
                            "title": TEXT,
                            "edition": or_null(TEXT),
                            "kind": {"enum": ["book", "procedure"]},
                            "file": or_null(NAME),
                        },
                    )
                ),
                "quieted": list_of(TEXT),
                "joints": list_of(_ref("job-joint")),
                "spec": {"$ref": spec},
                "used": list_of(
                    _closed(
                        "A file the specification uses",
                        {
                            "name": NAME,
                            "spec": {"$ref": spec},
                        },
                    )
                ),
            },
            {"changes": _ref("job-changes")},
        ),
        "job-changes": _closed(
            "What changed since an earlier revision, where that was asked",
            {
                "since": {**NAME, "description": "The revision, as it was named"},
                "mark": {**TEXT, "description": "What stands beside a changed row"},
                "lines": list_of(
                    _closed(
                        "A change",
                        dict.fromkeys(ChangeLine._fields, TEXT),
                    )
                ),
                "rows": list_of(
                    _closed(
                        "A row that changed",
                        {"joint": TEXT, "treatment": TEXT, "kind": NAME, "name": TEXT},
                    )
                ),
            },
        ),
        "job-document": _closed(
            "Identity of the document",
            {
                "title": or_null(TEXT),
                "number": or_null(TEXT),
                "revision": or_null(TEXT),
                "date": or_null(TEXT),
                "status": or_null(TEXT),
            },
        ),
        "job-joint": _closed(
            "One weld",
            {
                "name": NAME,
                "facts": {
                    "type": "object",
                    "description": "Facts of the joint and of each side",
                    "additionalProperties": {
                        "type": "object",
                        "additionalProperties": _ref("job-fact"),
                    },
                },
                "sides": list_of(
                    {"type": "object", "required": ["name", "outside_diameter", "wall"]}
                ),
                "widths": list_of(
                    {
                        "type": "object",
                        "required": ["name", "total", "each_side", "why"],
                        "properties": {"total": _ref("job-fact"), "why": _why()},
                    }
                ),
                "derived": list_of(_ref("job-derived")),
                "undecided": list_of(_ref("job-undecided")),
                "treatments": list_of(_ref("job-treatment")),
            },
        ),
        "job-treatment": object_of(
            "A preheat, bake or cycle as it is run",
            {
                "name": NAME,
                "kind": NAME,
                "rate_margin": {"type": "object"},
                "zones": list_of(object_of("A control zone", {"name": NAME})),
                "program": list_of(_ref("job-step")),
                "derived": list_of(_ref("job-derived")),
                "undecided": list_of(_ref("job-undecided")),
                "tags": list_of(_ref("job-tag")),
                "proof": {"type": ["object", "null"]},
            },
        ),
        "job-step": object_of(
            "A step of the program",
            {
                "step": COUNT,
                "action": NAME,
                "free": YES_NO,
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
        "job-tag": object_of(
            "A thermocouple",
            {
                "tag": NAME,
                "duty": TEXT,
                "zone": or_null(TEXT),
                "spare_of": or_null(TEXT),
                "clock": or_null(TEXT),
                "angle": _number(),
                "arc": _ref("job-fact"),
                "controller": _channel(),
                "recorder": _channel(),
            },
        ),
        "job-derived": object_of(
            "A value the rules give, and what gave it",
            {
                "quantity": NAME,
                "direction": {"enum": ["minimum", "maximum", "exactly", "status"]},
                "value": _ref("job-fact"),
                "why": _why(),
            },
        ),
        "job-undecided": _closed(
            "A limit that cannot be decided for want of facts",
            {
                "quantity": NAME,
                "source": TEXT,
                "citation": or_null(TEXT),
                "lacks": list_of(TEXT),
                "reason": or_null(TEXT),
            },
        ),
        "job-fact": {
            "description": "A quantity, a number as text, a word or several, or nothing",
            "anyOf": [
                _closed(
                    "A quantity",
                    {
                        "value": {"type": "string", "pattern": "^-?[0-9]+(/[1-9][0-9]*)?$"},
                        "unit": TEXT,
                        "shown": NAME,
                    },
                ),
                {"type": ["string", "integer", "null"]},
                {"type": "array", "items": NAME, "minItems": 2},
            ],
        },
        "job-why": {
            "type": "object",
            "minProperties": 1,
            "description": "Formula, the numbers put in, and what it rests on",
            "properties": {
                **dict.fromkeys(
                    ("formula", "numbers", "source", "edition", "citation", "note"), NAME
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
    return or_null(_ref("job-why"))


def _number() -> Schema:
    return or_null({"type": "string", "pattern": "^-?[0-9]+(/[1-9][0-9]*)?$"})


def _times() -> Schema:
    return _closed(
        "Seconds from the beginning; null where the limits leave it open",
        {
            "start": _number(),
            "end": _number(),
        },
    )


def _channel() -> Schema:
    return _closed(
        "An instrument and its channel",
        {
            "instrument": or_null(TEXT),
            "channel": or_null(COUNT),
        },
    )


def _closed(description: str, properties: Schema, optional: Schema | None = None) -> Schema:
    return object_of(description, properties, optional, closed=True)
