"""The shipped books as data: schema, formulas, sources, editions."""

import copy
import json
import os
import re

import pytest
import yaml
from jsonschema import Draft202012Validator

import hts.base.data
from hts.base.text.yaml_loader import yaml_loader
from hts.generate import ROOT, GenerateError
from hts.generate.books import generate
from hts.limits import FACTS, LIMITED, UnknownBook, UnknownEdition, book, books
from hts.limits.books import _is_id, from_data, is_seen, seen_on
from hts.limits.soundness import problems
from tests.rows import each_row

DATA = os.path.dirname(hts.base.data.__file__)

with open(os.path.join(DATA, "book.schema.json"), encoding="utf-8") as file:
    SCHEMA = Draft202012Validator(json.load(file))


def source(name):
    with open(os.path.join(DATA, "books", f"{name}.yaml"), encoding="utf-8") as file:
        return yaml.load(file, yaml_loader())


GOOD = {
    "id": "tern",
    "title": "Tern Island, invented",
    "about": "An invented book.",
    "standard": "TI 1",
    "seen": {"order": "an invented page"},
    "editions": {"2001": {}, "2005": {"alike": ["2001"]}},
    "alike": {"basis": "memory", "confidence": "medium"},
    "rows": [
        {
            "id": "hold",
            "quantity": "hold time",
            "at_least": {"SI": "1 h / 25 mm * t", "US": "1 h/in * t"},
            "when": "t <= 50 mm",
            "for": {"p_number": ["1"]},
            "cite": "Table 1",
            "editions": ["2001"],
            "basis": "published",
            "confidence": "high",
        },
        {
            "id": "treat",
            "quantity": "post-weld heat treatment",
            "status": "required",
            "cite": "Table 2",
            "basis": "practice",
            "confidence": "low",
        },
    ],
}


@each_row("name", books())
def test_every_shipped_book_is_sound(name):
    data = source(name)
    assert not list(SCHEMA.iter_errors(data))
    assert problems(data) == []
    assert data["id"] == name


@each_row("name", books())
def test_every_row_says_on_which_page_it_was_seen_or_that_it_was_not(name):
    data = source(name)
    named = set()
    for row in data["rows"]:
        pages = seen_on(row, data)
        assert bool(pages) == is_seen(row), row["id"]
        assert all(data["seen"][page].strip() for page in pages)
        assert row["cite"].strip()
        named.update(pages)
    assert named == set(data.get("seen", {})), "a page that no row was seen on"


def test_the_generator_checks_every_book():
    assert generate(ROOT) == {}


def test_the_good_example_is_good():
    assert not list(SCHEMA.iter_errors(GOOD))
    assert problems(GOOD) == []


def changed(path, value):
    data = copy.deepcopy(GOOD)
    *steps, last = path
    place = data
    for step in steps:
        place = place[step]
    if value is ...:
        del place[last]
    else:
        place[last] = value
    return data


@each_row(
    ("path", "value"),
    [
        (("rows", 0, "cite"), ...),
        (("rows", 0, "basis"), ...),
        (("rows", 0, "confidence"), ...),
        (("rows", 0, "basis"), "certain"),
        (("rows", 0, "at_least"), ...),
        (("rows", 0, "at_least"), {"SI": "1 h"}),
        (("rows", 0, "at_least"), 5),
        (("rows", 0, "between"), ["1 h", "2 h"]),
        (("rows", 0, "is"), "1 h"),
        (("rows", 0, "id"), "Hold Time"),
        (("rows", 0, "whn"), "t > 1 mm"),
        (("rows", 0, "for"), {"p_number": "1"}),
        (("rows", 0, "positions"), ["13:00"]),
        (("rows", 1, "status"), "maybe"),
        (("rows", 1, "at_least"), "1 h"),
        (("rows",), []),
        (("editions",), {"old": {}}),
        (("title",), ""),
    ],
)
def test_the_schema_refuses(path, value):
    assert list(SCHEMA.iter_errors(changed(path, value)))


@each_row(
    ("path", "value", "message"),
    [
        (("rows", 0, "quantity"), "hold", "there is no quantity 'hold'"),
        (("rows", 0, "at_least"), "1 h * t", "row hold, minimum, from column 1: .*hold time is"),
        (("rows", 0, "when"), "thik <= 50 mm", "row hold, when, from column 1: thik is not a fact"),
        (("rows", 0, "when"), "t <= 50 mm and", "stops in the middle"),
        (("rows", 0, "when"), "weld_kind = butt", "never butt"),
        (("rows", 0, "for"), {"wall": ["1"]}, "wall is an amount, not a word"),
        (("rows", 0, "for"), {"vessel_class": ["I"]}, "tell in cautions"),
        (("rows", 0, "for"), {"p_numbr": ["1"]}, "did you mean p_number"),
        (("rows", 0, "for"), {"service": ["chlorine"]}, "it can be wet-hydrogen-sulphide, amine"),
        (("rows", 0, "for"), {"weld_kind": ["butt"]}, "weld_kind is never 'butt'"),
        (("rows", 0, "replaces"), ["gone"], "replaces 'gone', which is not there"),
        (("rows", 0, "replaces"), ["treat"], "limits something else"),
        (("rows", 0, "editions"), ["1999"], "no edition '1999'"),
        (("rows", 0, "is"), "1 h", "hold time has no exactly value"),
        (("rows", 1, "id"), "hold", "given twice"),
        (("rows", 1, "status"), "forbidden", "one of .*required, exempt, none"),
        (("alike",), ..., "how well it is known"),
    ],
)
def test_the_checker_refuses(path, value, message):
    found = [str(problem) for problem in problems(changed(path, value))]
    assert any(re.search(message, problem) for problem in found), found


def test_a_wrong_formula_stops_the_generator(tmp_path):
    folder = tmp_path / "hts" / "base" / "data" / "books"
    folder.mkdir(parents=True)
    bad = changed(("rows", 0, "at_least"), "1 h * t")
    (folder / "tern.yaml").write_text(yaml.safe_dump(bad), encoding="utf-8")
    with pytest.raises(GenerateError, match=r"hts/base/data/books/tern.yaml: row hold, minimum"):
        generate(str(tmp_path))


def test_borrowed_rows_are_no_better_known_than_the_likeness():
    seen = from_data(GOOD, "2001").limits[0].source
    assert (seen.basis, seen.confidence, seen.citation) == (
        "published",
        "high",
        "TI 1-2001 Table 1",
    )
    taken = from_data(GOOD, "2005").limits[0].source
    assert (taken.basis, taken.confidence) == ("memory", "medium")
    assert taken.edition == "2005"
    assert "2001 edition" in taken.note
    # A row of no particular edition keeps its own, weaker standing.
    own = from_data(GOOD, "2005").limits[1].source
    assert (own.basis, own.confidence, own.citation) == ("practice", "low", "TI 1 Table 2")


def test_printed_pairs():
    assert from_data(GOOD, "2001", "SI").limits[0].minimum.text == "1 h / 25 mm * t"
    assert from_data(GOOD, "2001", "US").limits[0].minimum.text == "1 h/in * t"


def test_unknown_books_and_editions():
    with pytest.raises(UnknownBook) as no_book:
        book("asme-b31-3", "2016")
    assert no_book.value.suggestion == "asme-b31.3"
    with pytest.raises(UnknownBook):
        book("../pipe")
    with pytest.raises(UnknownEdition) as no_edition:
        book("asme-b31.3", "2015")
    assert "2016" in no_edition.value.editions
    with pytest.raises(UnknownEdition, match="needs an edition"):
        book("asme-b31.3")
    with pytest.raises(UnknownEdition, match="has no editions"):
        book("local-heating", "2021")


def test_every_row_says_where_it_comes_from():
    for name in books():
        for edition in source(name).get("editions", {}) or (None,):
            for limit in book(name, edition).limits:
                assert limit.source.citation and limit.source.basis and limit.source.confidence


def test_registries_are_told_in_words():
    assert all(fact.meaning for fact in FACTS.values())
    assert all(limited.meaning for limited in LIMITED.values())
    given = [limited.gives for limited in LIMITED.values() if limited.gives]
    assert set(given) <= set(FACTS)
    assert len(given) == len(set(given))


@pytest.mark.parametrize(("id", "so"), [("a" * 64, True), ("a" * 65, False), ("a/b", False)])
def test_what_can_be_the_name_of_a_book(id, so):
    assert _is_id(id) is so
    assert _is_id("asme-b31.3") and not _is_id("") and not _is_id("..")


@each_row(
    ("change", "steps"),
    [
        ({"at_least": "1 h * t"}, ("at_least",)),
        ({"at_least": {"SI": "1 h * t", "US": "1 h"}}, ("at_least", "SI")),
        ({"at_least": {"SI": "1 h", "US": "1 h * t"}}, ("at_least", "US")),
        ({"at_least": ..., "between": ["1 h * t", "2 h"]}, ("between", 0)),
        ({"at_least": ..., "between": ["1 h", "2 h * t"]}, ("between", 1)),
        ({"at_least": ..., "between": {"SI": ["1 h", "2 h * t"], "US": ["1 h", "2 h"]}},
         ("between", "SI", 1)),
        ({"at_least": "1 h", "at_most": "2 h * t"}, ("at_most",)),
        ({"when": "t <= 50"}, ("when",)),
        ({"within": "1 h"}, ("within",)),
        ({"for": {"p_number": ["1", "0"]}}, ("for", "p_number", 1)),
        ({"for": {"wall": ["1"]}}, ("for", "wall")),
        ({"quantity": "hold"}, ("quantity",)),
        ({"option": "none such"}, ("option",)),
        ({"seen": "ordre"}, ("seen",)),
        ({"replaces": ["treat"]}, ("replaces", 0)),
        ({"replaces": ["gone"]}, ("replaces", 0)),
        ({"editions": ["2001", "1999"]}, ("editions", 1)),
        ({"basis": "memory", "seen": "order"}, ("seen",)),
    ],
)  # fmt: skip
def test_what_is_wrong_is_found_where_it_stands(change, steps):
    data = copy.deepcopy(GOOD)
    row = data["rows"][0]
    for key, value in change.items():
        if value is ...:
            del row[key]
        else:
            row[key] = value
    assert [problem.steps for problem in problems(data)] == [("rows", 0, *steps)]


def test_rows_of_several_pages_say_which():
    data = {**copy.deepcopy(GOOD), "seen": {"order": "a page", "copy": "another"}}
    assert [(p.steps, p.message) for p in problems(data)] == [
        (("rows", 0, "basis"), "on which page it was seen is not said: seen: order, copy")
    ]
    data["seen"] = {}
    assert [p.steps for p in problems(data)] == [("rows", 0, "basis")]


@each_row(
    ("change", "message"),
    [
        ({"quantity": "option", "status": "allowed"}, "which option? There are lower-temperature"),
        ({"at_least": "1 h"}, "post-weld heat treatment is one of prohibited"),
        ({"quantity": "hold time", "status": ...}, "hold time needs a value"),
        ({"quantity": "hold time", "status": ..., "is": "1 h"}, "hold time has no exactly value"),
    ],
)
def test_a_row_says_what_its_quantity_takes(change, message):
    data = copy.deepcopy(GOOD)
    row = data["rows"][1]
    for key, value in change.items():
        row.pop(key, None) if value is ... else row.update({key: value})
    (found,) = problems(data)
    assert message in found.message and found.place == "row treat"


def test_all_that_is_wrong_is_told_in_the_order_of_the_rows():
    data = copy.deepcopy(GOOD)
    data["rows"][1]["status"] = "maybe"
    data["rows"][0].update(at_least="1 h * t", when="t <= 50 mm and", option="none such")
    assert [problem.place for problem in problems(data)] == [
        "row hold, minimum", "row hold, when", "row hold", "row treat"
    ]  # fmt: skip
