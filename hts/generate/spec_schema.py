"""The JSON Schema of an exported specification and of job.json, made from the vocabulary."""

from __future__ import annotations

import json
import re
from typing import Any

from hts.base.quantities import DIMENSIONS, HARDNESS, LENGTH, Dimension, symbols_of
from hts.generate.job_schema import definitions
from hts.language.vocabulary.declare import FLAG, Entry, Field
from hts.language.vocabulary.export import KIND, key
from hts.language.vocabulary.paths import entries
from hts.language.vocabulary.spec import File
from hts.language.vocabulary.types import quantity_schema, slug

Schema = dict[str, Any]

PATH = "grammar/spec.schema.json"

#: Before the name of an entry that may be incomplete, in a joint begun `like` another.
_LAID_OVER = "laid-over-"

_REFERENCE = re.compile(r'"#/\$defs/([^"]+)"')


def generate(root: str) -> dict[str, str]:
    """The schema by its path."""
    return {PATH: json.dumps(schema(), indent=2, ensure_ascii=False) + "\n"}


def schema() -> Schema:
    """JSON Schema 2020-12: a compiled job where the document has `spec`, else an exported spec."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": "urn:hts:spec:1",
        "title": "Exported heat-treatment specification, or job.json that holds one",
        "$comment": "Written by `python -m hts.generate`; change hts/language/vocabulary instead.",
        "if": {"type": "object", "required": ["spec"]},
        "then": {"$ref": "#/$defs/job-file"},
        "else": {"$ref": "#/$defs/file"},
        "$defs": _used(
            definitions(f"#/$defs/{entry_name(File)}")
            | {entry_name(cls): entry(cls) for cls in entries(File)}
            | {_LAID_OVER + entry_name(cls): entry(cls, laid_over=True) for cls in entries(File)}
            | _shared()
        ),
    }


def entry(cls: type[Entry], laid_over: bool = False) -> Schema:
    """Schema of one exported entry; ``laid_over``: of one that may leave to another, which it is
    laid over, what it must otherwise say."""
    needed = [key(field) for field in cls.values if field.required]
    if not laid_over and "like" in cls.fields:
        base = {**_entry(cls, {}, needed), "if": {"required": ["like"]}}
        return base | {
            "then": {"properties": _blocks(cls, laid_over=True)},
            "else": {
                "required": [key(field) for field in cls.fields.values() if field.required],
                "properties": _blocks(cls, laid_over=False),
            },
        }
    if not laid_over:
        needed = [key(field) for field in cls.fields.values() if field.required]
    return _entry(cls, _blocks(cls, laid_over), needed)


def _entry(cls: type[Entry], blocks: Schema, needed: list[str]) -> Schema:
    properties: Schema = {}
    for field in cls.fields.values():
        of_block = {"description": field.doc, **blocks.get(key(field), {})}
        properties[key(field)] = of_block if _is_laid_over(field) else _field(field)
    made: Schema = {"type": "object", "description": cls.meaning(), "properties": properties}
    if needed:
        made["required"] = needed
    if cls.one_of:
        made["anyOf"] = [{"required": [key(cls.fields[name])]} for name in cls.one_of]
    made["additionalProperties"] = False
    return made


def _blocks(cls: type[Entry], laid_over: bool) -> Schema:
    """References of the fields whose blocks are laid over each other, by key."""
    before = _LAID_OVER if laid_over else ""
    return {
        key(field): {"$ref": f"#/$defs/{before}{entry_name(field.entry)}"}
        for field in cls.fields.values()
        if field.entry is not None and _is_laid_over(field)
    }


def _is_laid_over(field: Field) -> bool:
    return field.entry is not None and not field.many and field.entry.takes_block()


def entry_name(cls: type[Entry]) -> str:
    """Name of an entry under `$defs`: `hold-point`."""
    return re.sub(r"(?<=[a-z])(?=[A-Z])", "-", cls.__name__).lower()


def _field(field: Field) -> Schema:
    one = _one(field)
    if field.many:
        return {"type": "array", "description": field.doc, "items": one, "minItems": 1}
    return {"description": field.doc, **one}


def _one(field: Field) -> Schema:
    if field.form == FLAG:
        return {"const": True}
    if field.family:
        return {"oneOf": [_member(cls) for cls in field.family]}
    if field.entry is not None:
        return {"$ref": f"#/$defs/{entry_name(field.entry)}"}
    assert field.type is not None
    made: Schema = field.type.schema()
    return made


def _member(cls: type[Entry]) -> Schema:
    """An entry of a family, which says besides which one it is."""
    made = entry(cls)
    made["properties"] = {KIND: {"const": " ".join(cls.words)}, **made["properties"]}
    made["required"] = [KIND, *made.get("required", ())]
    return made


def _shared() -> dict[str, Schema]:
    """Values that stand in many places."""
    amounts = {f"quantity-of-{slug(one)}": _quantity(one) for one in DIMENSIONS}
    ranges = {
        f"range-of-{slug(dimension)}": _object(
            {end: quantity_schema(dimension) for end in ("from", "to")},
            f"A range of {dimension.name}, both ends included",
        )
        for dimension in DIMENSIONS
    }
    multiple = _object(
        {"times": {"const": "t"}, "factor": {"type": "string", "pattern": "^[0-9]"}},
        "A multiple of the governing thickness",
    )
    return (
        amounts
        | ranges
        | {
            "multiple": multiple,
            "width": _object(
                {
                    "width": {"anyOf": [quantity_schema(LENGTH), {"$ref": "#/$defs/multiple"}]},
                    "counts": {"enum": ["each side", "total"]},
                },
                "A width, and whether it is in total or on each side of the weld",
            ),
            "by-rule": _object({"by": {"const": "rule"}}, "The rules in force give the value"),
            "formula": _object(
                {"formula": {"type": "string", "minLength": 1}},
                "The text of a formula or condition",
            ),
        }
    )


def _quantity(dimension: Dimension) -> Schema:
    units = list(symbols_of(HARDNESS)) if dimension is HARDNESS else [dimension.canonical]
    return _object(
        {
            "written": {
                "type": "string",
                "description": "As the specification has it",
                "pattern": "[0-9]",
            },
            "value": {
                "type": "string",
                "description": "Exact number in `unit`",
                "pattern": "^-?[0-9]+(/[1-9][0-9]*)?$",
            },
            "unit": {"enum": units},
        },
        dimension.with_article.capitalize(),
    )


def _object(properties: dict[str, Schema], description: str) -> Schema:
    return {
        "type": "object",
        "description": description,
        "properties": properties,
        "required": list(properties),
        "additionalProperties": False,
    }


def _used(definitions: dict[str, Schema]) -> dict[str, Schema]:
    """The definitions that a document can reach, in their order."""
    reached: set[str] = set()
    waiting = ["job-file"]
    while waiting:
        name = waiting.pop()
        if name not in reached:
            reached.add(name)
            waiting += _REFERENCE.findall(json.dumps(definitions[name]))
    return {name: made for name, made in definitions.items() if name in reached}
