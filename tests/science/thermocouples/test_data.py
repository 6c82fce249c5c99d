"""The data file itself: schema, sources, and its compiled form."""

import json
from pathlib import Path

import jsonschema
import pytest
import yaml

import hts.base.data
from hts.science.thermocouples.facts import facts

FOLDER = Path(hts.base.data.__file__).parent


@pytest.fixture(scope="module")
def content():
    return yaml.safe_load((FOLDER / "thermocouples.yaml").read_text(encoding="utf-8"))


def test_schema(content):
    schema = json.loads((FOLDER / "thermocouples.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.Draft202012Validator(schema).validate(content)


def test_compiled_form_is_the_data(content):
    for part, value in content.items():
        assert facts(part) == value


def test_every_source_is_declared_and_used(content):
    used = {entry["source"] for entry in _with_source(content)}
    assert used == set(content["sources"])


def test_nothing_without_a_source_claims_more_than_practice(content):
    for entry in _with_source(content):
        assert (entry["source"] == "practice") == (entry["basis"] == "practice")


def test_no_entry_twice(content):
    for part, keys in (
        ("tolerances", ("standard", "type", "class", "from")),
        ("extension_tolerances", ("standard", "code", "class")),
        ("colours", ("standard", "type", "grade")),
    ):
        found = [tuple(entry[key] for key in keys) for entry in content[part]]
        assert len(found) == len(set(found))


def _with_source(value):
    if isinstance(value, dict):
        if "source" in value:
            yield value
        for part in value.values():
            yield from _with_source(part)
    elif isinstance(value, list):
        for part in value:
            yield from _with_source(part)
