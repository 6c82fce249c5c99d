"""The JSON Schema of an exported specification takes every export, and nothing that is not one.

The schema is judged by the metaschema of JSON Schema 2020-12 (json-schema.org/draft/2020-12/schema)
and applied by the reference implementation for Python, the package jsonschema.
"""

from __future__ import annotations

import copy
import json
import os
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import settings as run
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from hts.checking.rules.examples import BASES
from hts.generate import ROOT
from hts.generate.smallest import saying
from hts.generate.spec_schema import PATH, schema
from hts.job.compiler.job import compile_spec
from hts.job.outputs.job_json import write
from hts.language.model import Loader, Spec
from hts.language.vocabulary.export import export
from hts.language.vocabulary.paths import walk
from hts.language.vocabulary.spec import File
from tests.language.vocabulary.read import read
from tests.rows import each_row

VALIDATOR = Draft202012Validator(schema())
SPECS = sorted(p for p in Path(ROOT, "specs").rglob("*.hts") if p.parent.name != "broken")
TEXTS = {**BASES, **{path.name: path.read_text("utf-8") for path in SPECS}}


def exported(text: str) -> Any:
    file, tellings = read(text)
    assert tellings == []
    return json.loads(json.dumps(export(file)))


def faults(data: Any) -> list[str]:
    return [f"{error.json_path}: {error.message}" for error in VALIDATOR.iter_errors(data)]


def test_the_schema_is_a_schema() -> None:
    Draft202012Validator.check_schema(schema())
    written = json.loads(Path(ROOT, PATH).read_text("utf-8"))
    Draft202012Validator.check_schema(written)
    assert written["$schema"] == Draft202012Validator.META_SCHEMA["$id"]


@each_row("name", sorted(TEXTS))
def test_exports_fit(name: str) -> None:
    assert faults(exported(TEXTS[name])) == []


def test_the_export_of_every_field_fits() -> None:
    for path, chain, field in walk(File):
        found = faults(exported(saying(chain, field)))
        assert found == [], path


def test_a_laid_over_joint_fits() -> None:
    text = (
        "spec 1\njoint W2 like W1 {\n  heating by induction {\n    zone top from 8:00 to 4:00\n"
        "  }\n}\n"
    )
    data = exported(text)
    assert faults(data) == []
    del data["joints"][0]["like"]
    assert not VALIDATOR.is_valid(data)


def _steps(data: Any) -> Iterator[tuple[Any, ...]]:
    """The way to every value in a piece of JSON."""
    pairs: Any = enumerate(data) if isinstance(data, list) else ()
    if isinstance(data, dict):
        pairs = data.items()
    for step, value in pairs:
        yield (step,)
        yield from ((step, *more) for more in _steps(value))


def _owner(data: Any, way: tuple[Any, ...]) -> Any:
    for step in way[:-1]:
        data = data[step]
    return data


BUTT = exported(BASES["butt"])
WAYS = sorted(_steps(BUTT), key=str)


@given(way=st.sampled_from(WAYS), wrong=st.sampled_from([None, 3.5, True, {"a": 1}, [[]], ""]))
@run(max_examples=200, deadline=None)
def test_a_value_of_another_kind_is_refused(way: tuple[Any, ...], wrong: Any) -> None:
    data = copy.deepcopy(BUTT)
    owner = _owner(data, way)
    if owner[way[-1]] is True and wrong is True:
        return
    if way[-1] == "edition" and wrong is None:
        return  # a job may leave the edition of a book of practice open
    owner[way[-1]] = wrong
    assert not VALIDATOR.is_valid(data)


@given(way=st.sampled_from([way for way in WAYS if isinstance(way[-1], str)]))
@run(max_examples=100, deadline=None)
def test_an_unknown_key_is_refused(way: tuple[Any, ...]) -> None:
    data = copy.deepcopy(BUTT)
    _owner(data, way)[f"{way[-1]}x"] = _owner(data, way)[way[-1]]
    assert not VALIDATOR.is_valid(data)


MUTATIONS: list[tuple[str, tuple[Any, ...], Any]] = [
    ("unit of another dimension", ("joints", 0, "cap_width", "unit"), "K"),
    ("a float", ("joints", 0, "cap_width", "value"), 30.0),
    ("not a fraction", ("joints", 0, "cap_width", "value"), "30.5"),
    ("zero below the bar", ("joints", 0, "cap_width", "value"), "30/0"),
    ("no such choice", ("joints", 0, "kind"), "butt"),
    ("flag that is off", ("joints", 0, "thermocouples", "attached", "separate"), False),
    ("no such clock", ("joints", 0, "heating", "gap_at"), "13:00"),
    ("no such rule", ("joints", 0, "heating", "soak_band"), {"by": "habit"}),
    (
        "width without side",
        ("joints", 0, "heating", "soak_band"),
        {"width": {"written": "80 mm", "value": "80", "unit": "mm"}},
    ),
    ("no such step", ("cycles", 0, "segments", 0, "entry"), "warm"),
    ("hold without range", ("cycles", 0, "segments", 0), {"entry": "hold"}),
    ("date", ("job", "revision", "on"), "20-11-2026"),
    ("empty list", ("joints",), []),
    ("count as text", ("recorders", 0, "channels", "count"), "12"),
]


@each_row(("why", "way", "wrong"), MUTATIONS, ids=[m[0] for m in MUTATIONS])
def test_mutated_exports_are_refused(why: str, way: tuple[Any, ...], wrong: Any) -> None:
    data = copy.deepcopy(BUTT)
    assert way[-1] in _owner(data, way) or isinstance(way[-1], int)
    _owner(data, way)[way[-1]] = wrong
    assert not VALIDATOR.is_valid(data)


@each_row(
    "way",
    [
        ("version",),
        ("job", "number"),
        ("joints", 0, "kind"),
        ("cycles", 0, "joints"),
        ("recorders", 0, "error"),
        ("joints", 0, "heating", "zones"),
        ("cycles", 0, "segments", 0, "to"),
        ("joints", 0, "cap_width", "written"),
    ],
    ids=str,
)
def test_what_an_entry_needs_cannot_be_left_out(way: tuple[Any, ...]) -> None:
    data = copy.deepcopy(BUTT)
    del _owner(data, way)[way[-1]]
    assert not VALIDATOR.is_valid(data)


#: Many joints that are alike are looked at one by one, which takes as long as all others.
_LONG = "turnaround-list.hts"
JOBS = [
    pytest.param(path, id=path.name, marks=[pytest.mark.long] if path.name == _LONG else [])
    for path in SPECS
    if path.parent.name == "specs"
]


@pytest.mark.parametrize("path", JOBS)
def test_job_files_fit(path: Path) -> None:
    loader = Loader(str(path.parent))
    job = compile_spec(Spec(loader.read(str(path)), loader))
    data = json.loads(write(job))
    assert faults(data) == []
    if path.stem != "carbon-steel-butt":
        return  # what is refused of one is refused of each
    for way in (
        ("fingerprint",),
        ("spec", "version"),
        ("joints", 0, "name"),
        ("joints", 0, "derived", 0, "why"),
    ):
        less = copy.deepcopy(data)
        del _owner(less, way)[way[-1]]
        assert not VALIDATOR.is_valid(less), way
    for way, wrong in (
        (("joints", 0, "derived", 0, "why"), {"basis": "hearsay"}),
        (("digest", "value"), "0"),
        (("extra",), 1),
    ):
        changed = copy.deepcopy(data)
        _owner(changed, way)[way[-1]] = wrong
        assert not VALIDATOR.is_valid(changed), way


BETWEEN = st.sampled_from(["", "   ", "\t", "# a comment", '  # { } " and , inside', "\n\n"])
BEFORE = st.sampled_from(["", " ", "\t\t"])
AFTER = st.sampled_from(["", "  ", "  # why"])


@given(name=st.sampled_from(sorted(BASES)), data=st.data())
@run(max_examples=60, deadline=None)
def test_blanks_and_comments_mean_nothing(name: str, data: st.DataObject) -> None:
    lines: list[str] = []
    for line in BASES[name].splitlines():
        wider = line.replace(" ", "   ")
        lines += [data.draw(BETWEEN), data.draw(BEFORE) + wider + data.draw(AFTER)]
    text = "\n".join(lines) + "\n"
    assert _normal(exported(text)) == _of_base(name)


@cache
def _of_base(name: str) -> Any:
    return _normal(exported(BASES[name]))


def _normal(data: Any) -> Any:
    """The export with runs of blanks as one: within quotes they are part of the text."""
    if isinstance(data, dict):
        return {key: _normal(value) for key, value in data.items()}
    if isinstance(data, list):
        return [_normal(value) for value in data]
    return " ".join(data.split()) if isinstance(data, str) else data


def test_the_folder_of_specifications_is_found() -> None:
    assert os.path.isdir(os.path.join(ROOT, "specs"))
    assert SPECS
