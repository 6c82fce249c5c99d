"""JSON Schema of what `hts check --format json` writes."""

from __future__ import annotations

import json
from collections.abc import Mapping

from hts.checking.checker.shards import LONGEST
from hts.checking.report.json_report import FORMAT_VERSION
from hts.generate.schema import COUNT, DRAFT, NAME, TEXT, Schema, list_of, object_of

PATH = "grammar/check.schema.json"

_FROM_1: Schema = {"type": "integer", "minimum": 1}
_SEVERITY: Schema = {"enum": ["error", "warning", "advice"]}
_CODE: Schema = {"type": "string", "pattern": "^[A-Z]+[0-9]{3}$"}


def generate(root: str) -> dict[str, str]:
    """Path to text of the schema."""
    return {PATH: json.dumps(schema(), ensure_ascii=False, indent=1) + "\n"}


def schema() -> Schema:
    """The schema. A later version may add keys, so that none is forbidden; what an existing one
    means changes only together with `format_version`."""
    return {
        "$schema": DRAFT,
        "title": "Report of hts check",
        **object_of(
            "Findings about specifications",
            {
                "format_version": {
                    "const": FORMAT_VERSION,
                    "description": "Version of this format",
                },
                "tool": object_of(
                    "What wrote the report", {"name": {"const": "hts"}, "version": NAME}
                ),
                "checked": list_of(NAME, "Files checked, by their path from the repository root"),
                "findings": list_of(
                    _finding(
                        last={"fixes": list_of(_fix(), "What could be written there instead")}
                    ),
                    "All findings, by file and place",
                ),
                "suppressed": list_of(
                    _suppressed(), "Findings that do not count: waived, or known to the baseline"
                ),
                "failures": list_of(
                    object_of("A path that could not be read", {"name": TEXT, "reason": NAME}),
                    "Paths that could not be read",
                ),
                "summary": object_of(
                    "Findings of each severity, and what a baseline has to do with them",
                    {
                        **dict.fromkeys(_SEVERITY["enum"], COUNT),
                        "known": {**COUNT, "description": "Left out: known to the baseline"},
                        "gone": list_of(NAME, "Entries of the baseline no longer found"),
                    },
                ),
                "quieted": list_of(
                    object_of(
                        "Rules left out, or made to count for less, by a file of settings",
                        {"origin": NAME, "words": NAME},
                    ),
                    "What settings leave out of the check",
                ),
                "rules": list_of(_rule(), "The rules of the findings, by code"),
            },
            optional={"shard": _shard()},
        ),
    }


def _suppressed() -> Schema:
    told = {
        "waived": {"type": "boolean", "description": "By the text itself; else by the baseline"},
        "reason": {**TEXT, "description": "Why it does not count"},
    }
    return _finding("A finding that does not count", told)


def _finding(
    description: str = "One finding",
    more: Mapping[str, Schema] = {},
    last: Mapping[str, Schema] = {},
) -> Schema:
    return object_of(
        description,
        {
            **more,
            "code": _CODE,
            "name": NAME,
            "severity": _SEVERITY,
            "message": NAME,
            "address": {**TEXT, "description": "The thing it is about, such as W12/heating/top"},
            "at": _place("The place it points at"),
            "others": list_of(_place("A place"), "Further places, maybe in other files"),
            "notes": list_of(TEXT, "Further remarks"),
            "help": {**TEXT, "description": "The smallest fix, in words"},
            **last,
        },
    )


def _place(description: str) -> Schema:
    return object_of(
        f"{description}; lines and columns from 1, in Unicode code points, the end exclusive",
        {
            "file": NAME,
            **dict.fromkeys(("line", "column", "end_line", "end_column"), _FROM_1),
            "text": {**TEXT, "description": "A few words about the place"},
        },
    )


def _rule() -> Schema:
    return object_of(
        "What a rule looks for",
        {
            "code": _CODE,
            "name": NAME,
            "severity": {**_SEVERITY, "description": "As the rule has it, before configuration"},
            "floor": {"enum": [*_SEVERITY["enum"], None], "description": "Lowest it can be set to"},
            **dict.fromkeys(("summary", "why", "fix"), NAME),
        },
    )


def _fix() -> Schema:
    edit = object_of(
        "Text in place of what stands there, in the file the finding points at; lines and columns "
        "from 1, in Unicode code points, the end exclusive",
        {**dict.fromkeys(("line", "column", "end_line", "end_column"), _FROM_1), "text": TEXT},
    )
    return object_of(
        "A fix",
        {
            "title": {**NAME, "description": "An instruction such as: write `degC/h`"},
            "kind": {
                "enum": ["layout", "offered"],
                "description": "layout: the meaning stays the same; offered: the text says "
                "something new, a person chooses",
            },
            "edits": list_of(edit, "Edits that do not overlap"),
        },
    )


def _shard() -> Schema:
    lines = {
        "type": "object",
        "propertyNames": {"pattern": "^[1-9][0-9]*$"},
        "maxProperties": LONGEST,
        "additionalProperties": TEXT,
    }
    return object_of(
        "With --shard: what --merge-reports needs to join this report to those of the other shards",
        {
            "number": _FROM_1,
            "of": _FROM_1,
            "files": list_of(NAME, "The files of all shards"),
            "conditions": {**NAME, "description": "Digest of what else the findings depend on"},
            "lines": {
                "type": "object",
                "description": "The lines findings point at, by file and number",
                "additionalProperties": lines,
            },
        },
    )
