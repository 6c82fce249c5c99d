"""JSON Schema of what `hts check --format json` writes."""

from __future__ import annotations

import json
from typing import Any

from hts.check.shards import LONGEST
from hts.report.json_report import FORM

PATH = "grammar/check.schema.json"
Schema = dict[str, Any]

_TEXT: Schema = {"type": "string"}
_NAME: Schema = {"type": "string", "minLength": 1}
_COUNT: Schema = {"type": "integer", "minimum": 0}
_FROM_1: Schema = {"type": "integer", "minimum": 1}
_SEVERITY: Schema = {"enum": ["error", "warning", "advice"]}
_CODE: Schema = {"type": "string", "pattern": "^[A-Z]+[0-9]{3}$"}


def generate(root: str) -> dict[str, str]:
    """Path to text of the schema."""
    return {PATH: json.dumps(schema(), ensure_ascii=False, indent=1) + "\n"}


def schema() -> Schema:
    """The schema. A later version may add keys, so that none is forbidden; what an existing one
    means changes only together with `form`."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Report of hts check",
        **_object(
            "Findings about specifications",
            {
                "form": {"const": FORM, "description": "Version of this form"},
                "tool": _object(
                    "What wrote the report", {"name": {"const": "hts"}, "version": _NAME}
                ),
                "checked": _list(_NAME, "Files checked, by their path from the repository root"),
                "findings": _list(_finding(), "All findings, by file and place"),
                "failures": _list(
                    _object("A path that could not be read", {"name": _TEXT, "reason": _NAME}),
                    "Paths that could not be read",
                ),
                "summary": _object(
                    "Findings of each severity, and what a baseline has to do with them",
                    {
                        **dict.fromkeys(_SEVERITY["enum"], _COUNT),
                        "known": {**_COUNT, "description": "Left out: known to the baseline"},
                        "gone": _list(_NAME, "Entries of the baseline no longer found"),
                    },
                ),
                "rules": _list(_rule(), "The rules of the findings, by code"),
            },
            optional={"shard": _shard()},
        ),
    }


def _finding() -> Schema:
    return _object(
        "One finding",
        {
            "code": _CODE,
            "name": _NAME,
            "severity": _SEVERITY,
            "message": _NAME,
            "address": {**_TEXT, "description": "The thing it is about, such as W12/heating/top"},
            "at": _place("The place it points at"),
            "others": _list(_place("A place"), "Further places, maybe in other files"),
            "notes": _list(_TEXT, "Further remarks"),
            "help": {**_TEXT, "description": "The smallest fix"},
        },
    )


def _place(description: str) -> Schema:
    return _object(
        f"{description}; lines and columns from 1, in Unicode code points, the end exclusive",
        {
            "file": _NAME,
            **dict.fromkeys(("line", "column", "end_line", "end_column"), _FROM_1),
            "text": {**_TEXT, "description": "A few words about the place"},
        },
    )


def _rule() -> Schema:
    return _object(
        "What a rule looks for",
        {
            "code": _CODE,
            "name": _NAME,
            "severity": {**_SEVERITY, "description": "As the rule has it, before configuration"},
            "floor": {"enum": [*_SEVERITY["enum"], None], "description": "Lowest it can be set to"},
            **dict.fromkeys(("summary", "why", "fix"), _NAME),
        },
    )


def _shard() -> Schema:
    lines = {
        "type": "object",
        "propertyNames": {"pattern": "^[1-9][0-9]*$"},
        "maxProperties": LONGEST,
        "additionalProperties": _TEXT,
    }
    return _object(
        "With --shard: what --merge-reports needs to join this report to those of the other shards",
        {
            "number": _FROM_1,
            "of": _FROM_1,
            "files": _list(_NAME, "The files of all shards"),
            "conditions": {**_NAME, "description": "Digest of what else the findings depend on"},
            "lines": {
                "type": "object",
                "description": "The lines findings point at, by file and number",
                "additionalProperties": lines,
            },
        },
    )


def _list(items: Schema, description: str) -> Schema:
    return {"type": "array", "description": description, "items": items}


def _object(description: str, properties: Schema, optional: Schema | None = None) -> Schema:
    return {
        "type": "object",
        "description": description,
        "properties": {**properties, **(optional or {})},
        "required": list(properties),
    }
