"""Every field a heat-treatment document has is said somewhere in the language.

Which fields documents have is common practice, without a source.
"""

from __future__ import annotations

import re

import pytest

from hts.generate import ROOT
from hts.generate.language import PATH, generate
from hts.language.vocabulary.checklist import DOCUMENTS, Asked
from hts.language.vocabulary.paths import find
from hts.language.vocabulary.spec import File
from hts.language.vocabulary.types import Choice
from tests.rows import each_row

FIELDS = [
    pytest.param(asked, id=f"{document}: {asked.field}")
    for document, fields in DOCUMENTS.items()
    for asked in fields
]


@each_row("asked", FIELDS)
def test_every_field_has_an_entry(asked: Asked) -> None:
    assert bool(asked.paths) != bool(asked.worked_out)
    for said in asked.paths.split("; ") if asked.paths else ():
        path, _, choice = said.partition(" = ")
        field = find(File, path)
        if choice:
            assert isinstance(field.type, Choice)
            assert choice in field.type.choices
        else:
            assert field.type is not None or field.form == "flag", f"{path} says nothing itself"


def test_no_field_is_listed_twice_in_a_document() -> None:
    for fields in DOCUMENTS.values():
        names = [asked.field for asked in fields]
        assert len(names) == len(set(names))


def test_every_topic_of_a_check_is_asked_for() -> None:
    topics = find(File, "before heat.check.about").type
    assert isinstance(topics, Choice)
    asked_for = {
        said.partition(" = ")[2]
        for fields in DOCUMENTS.values()
        for asked in fields
        for said in asked.paths.split("; ")
        if said.startswith("before heat.check.about = ")
    }
    assert set(topics.choices) - asked_for == {"other"}


@each_row("path", ["joint.wal", "joint.wall.thickness.mm", "nothing", "joint."])
def test_a_path_that_leads_nowhere_is_an_error(path: str) -> None:
    with pytest.raises(LookupError, match="there is no"):
        find(File, path)


def test_the_reference_states_how_many_fields_are_covered() -> None:
    stated = re.search(r"^(\d+) of (\d+) fields have their place", generate(ROOT)[PATH], re.M)
    assert stated is not None
    assert stated[1] == stated[2] == str(len(FIELDS))
