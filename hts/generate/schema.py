"""Pieces of JSON Schemas (draft 2020-12)."""

from __future__ import annotations

from typing import Any

Schema = dict[str, Any]

DRAFT = "https://json-schema.org/draft/2020-12/schema"
TEXT: Schema = {"type": "string"}
NAME: Schema = {"type": "string", "minLength": 1}
COUNT: Schema = {"type": "integer", "minimum": 0}
NUMBER: Schema = {"type": "number"}
YES_NO: Schema = {"type": "boolean"}
DIGEST: Schema = {"type": "string", "pattern": "^[0-9a-f]{64}$"}


def or_null(one: Schema) -> Schema:
    """The value, or that there is none."""
    return {"anyOf": [one, {"type": "null"}]}


def list_of(items: Schema, description: str = "") -> Schema:
    """Any number of these."""
    described = {"description": description} if description else {}
    return {"type": "array", **described, "items": items}


def object_of(
    description: str, properties: Schema, optional: Schema | None = None, *, closed: bool = False
) -> Schema:
    """An object that has these properties, may have the optional ones, and, unless it is `closed`,
    others that a later version adds."""
    return {
        "type": "object",
        "description": description,
        "properties": {**properties, **(optional or {})},
        "required": list(properties),
        **({"additionalProperties": False} if closed else {}),
    }
