"""Rule books of a repository's own: what is read, and where what is wrong with it stands."""

import re
from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

import hts.base.data
from hts.base.text.yaml_loader import yaml_loader
from hts.cli.starter.own_book import id_of, skeleton
from hts.limits import book, demands
from hts.limits.book_file import read
from hts.limits.books import books
from tests.rows import each_row

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "grammar" / "ADD-A-BOOK.md").read_text(encoding="utf-8")
#: The book the page shows; all of Tern Island is invented.
ISLAND = re.findall(r"```yaml\n(.*?)```", PAGE, re.DOTALL)[0]


def marked(text):
    """Each fault with the part of the text it points to."""
    return [(fault.message, text[fault.start : fault.end]) for fault in read(text).faults]


def test_the_book_of_the_page_is_the_one_of_the_example_job():
    text = (ROOT / "specs" / "books" / "island-law.yaml").read_text(encoding="utf-8")
    assert text.partition("\n")[2] == ISLAND


@pytest.mark.parametrize(
    ("old", "new", "message", "at"),
    [
        ("US: [1100 degF", "US: [1000 degF",
         "row hold-p1: 1000 degF (538 degC) beside 590 degC (1094 degF)", "1000 degF"),
        ("SI: [590 degC, 650 degC]", "SI: [650 degC, 590 degC]",
         "row hold-p1: 650 degC is above 590 degC: turned round", "[650 degC, 590 degC]"),
    ],
)  # fmt: skip
def test_a_figure_is_one_in_both_systems(old, new, message, at):
    assert ISLAND.count(old) == 1
    assert marked(ISLAND.replace(old, new)) == [(message, at)]


def test_the_book_of_the_page_is_sound():
    assert read(ISLAND).faults == ()
    assert read(ISLAND).id == "island-law"


@each_row("id", books())
def test_every_shipped_book_would_do_as_ones_own(id):
    folder = Path(hts.base.data.__file__).parent / "books"
    text = (folder / f"{id}.yaml").read_text(encoding="utf-8")
    named = re.sub(rf"^id: {re.escape(id)}$", "id: tern-book", text, flags=re.MULTILINE)
    own = read(named)
    assert own.faults == ()
    assert own.data == {**yaml.load(text, yaml_loader()), "id": "tern-book"}


def test_it_limits_as_its_formulas_say(govern):
    # TIO 7 is invented: 1 h for each inch or part of one, so 26 mm (1.02 in) asks for 2 h and
    # exactly 1 in for 1 h; 5600 / 40 mm = 140 degC/h.
    limits = read(ISLAND).book("2024").limits

    def ask(**facts):
        from tests.limits.conftest import read as fact

        known = {name: fact(name, value) for name, value in facts.items()}
        return demands(limits, {"both": {"weld_kind": "girth-butt", "p_number": "1", **known}})

    assert ask(thicker_wall="26 mm")["hold time"].minimum.to("h") == 2
    assert ask(thicker_wall="1 in")["hold time"].minimum.to("h") == 1
    assert ask(thicker_wall="40 mm")["heating rate"].maximum.to("degC/h") == 140
    assert (
        ask(thicker_wall="20 mm", specified_carbon="0.25 %")["post-weld heat treatment"].status
        is None
    )
    thin = ask(thicker_wall="20 mm", specified_carbon="0.26 %", preheat="20 degC")
    assert thin["post-weld heat treatment"].status == "required"
    warm = ask(thicker_wall="25 mm", specified_carbon="0.2 %", preheat="120 degC")
    assert warm["post-weld heat treatment"].status == "exempt"


@each_row(
    ("old", "new", "message", "part"),
    [
        ("is: thicker_wall", "is: thicker_wal", "did you mean thicker_wall", "thicker_wal"),
        ("t > 20 mm or", "t > 20 degC or", "cannot be compared|temperature", "t > 20 degC"),
        ("quantity: heated band", "quantity: heatd band", "did you mean heated band", "heatd band"),
        ('{p_number: ["1"], weld', '{p_number: ["1B"], weld', "never '1B'", '"1B"'),
        ("replaces: [treat-p1]", "replaces: [treat]", "is not there", "treat"),
        ("confidence: low", "confidense: low", "is not a key|is missing", None),
        ("seen: copy", "seen: copie", "did you mean copy", "copie"),
        ("    seen: copy\n", "", "on which page it was seen is not said: seen: order, copy", "{SI"),
        ("    basis: memory", "    seen: order\n    basis: memory", "seen, but its basis", "order"),
        ("basis: memory", "basis: seen", "one of published", "seen"),
        ('editions: ["2024"]', 'editions: ["2023"]', "no edition '2023'", '"2023"'),
        ('  "2019": {}', "  2019: {}", None, None),
        ("at_least: 1 h/in *", "at_least: 1 in *", "hold time is", None),
        ("  - id: hold-p1", "  - id: time-p1", "given twice", "time-p1"),
        ("id: island-law", "id: asme-ix", "ships with the program", "asme-ix"),
        ("cite: table 3", "cite: table …", "still to be filled in", "table …"),
        ("cite: article 11", "cite: 11", "quotes", "11"),
        ("at_least: 1 h/in * round_up(t, 1 in)", "at_least: 2", "quotes", "2"),
        ("title: Tern", "title: [Tern", "not YAML", None),
        ("    is: thicker_wall", "    is: thicker_wall\n    is: wall", "stands twice", "is"),
    ],
)
def test_what_is_wrong_is_told_at_its_place(old, new, message, part):
    assert old in ISLAND
    text = ISLAND.replace(old, new, 1)
    found = marked(text)
    if message is None:
        assert found == []
        return
    whole = [(said, found_part) for said, found_part in found if re.search(message, said)]
    helps = [fault for fault in read(text).faults if re.search(message, fault.help)]
    assert whole or helps, found
    if part is not None:
        assert any(part in found_part for _, found_part in found), found


def test_an_alias_that_grows_without_end_is_refused():
    lines = ["a0: &a0 [x, x]"] + [f"a{n}: &a{n} [*a{n - 1}, *a{n - 1}]" for n in range(1, 19)]
    found = read("\n".join(lines)).faults
    assert [fault.message for fault in found] == ["it is too long once its aliases are followed"]
    assert read("a: &a\n  b: *a\n").faults
    assert read("").faults[0].message == "the file is empty"


def test_a_book_of_endless_length_is_refused_unread():
    text = "rows:\n" + "- {id: a}\n" * 40_000
    (fault,) = read(text).faults
    assert fault.message == "the book is longer than 300,000 letters"
    assert (fault.start, fault.end) == (0, len("rows:"))
    assert read("#" * 300_000).faults[0].message == "the file is empty"


def test_every_place_of_the_skeleton_waits_to_be_filled_in():
    text = skeleton("books/our-law.yaml", "our-law")
    found = read(text)
    assert found.data is None
    assert {fault.message for fault in found.faults} == {"it is still to be filled in"}
    values = [line for line in text.split("\n") if "…" in line.split("#")[0]]
    assert len(found.faults) == len(values) + 1 - sum('"…": {}' in line for line in values)


def test_a_bare_number_is_told_as_it_was_written():
    (fault,) = read(
        ISLAND.replace(
            'for: {p_number: ["1"]}\n    when: t >', "for: {p_number: [1]}\n    when: t >"
        )
    ).faults
    assert fault.message.endswith("a text is expected, not 1")
    assert fault.help == 'put it in quotes: "1"'


def test_names_of_files_become_names_of_books():
    assert id_of("Our Law (2024)") == "our-law-2024"
    assert id_of("TIO_7.1") == "tio-7.1"
    assert id_of("7") == ""


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_no_text_brings_it_down(data):
    at = data.draw(st.integers(0, len(ISLAND) - 1))
    length = data.draw(st.integers(0, 40))
    put = data.draw(st.text(alphabet="{}[]&*\"'-: \n…5µa|>!", max_size=12))
    text = ISLAND[:at] + put + ISLAND[at + length :]
    found = read(text)
    assert (found.data is None) == bool(found.faults)
    for fault in found.faults:
        assert 0 <= fault.start <= fault.end <= len(text) and fault.message


def test_suggestions_come_with_titles_people_write():
    # Titles as they stand on covers; the names are those of `hts books`.
    assert book("asme-b31.3", "2018").standard == "ASME B31.3"


@each_row(
    ("old", "new", "part", "remedy"),
    [
        # What a first book is written with: a figure without its unit, a unit as it is written
        # elsewhere, a formula cut at its comma, an option that no job has.
        ("above: 315 degC", "above: 315", "315", "write its unit beside it"),
        ("5600 degC/h * 1 mm / t", "5600/t", "5600/t", "every figure has its unit"),
        ("590 degC, 650 degC", "590 C, 650 degC", "C", "write degC"),
        ("t > 20 mm or", "t > 1 inch or", "inch", "write in"),
        (
            "at_least: 1 h/in * round_up(t, 1 in)",
            "at_least: {SI: max(1 h, 2 min/mm * t), US: 1 h/in * t}",
            "2 min/mm",
            "put a formula that has commas into quotes",
        ),
    ],
)
def test_a_slip_of_a_first_book_has_its_remedy(old, new, part, remedy):
    assert old in ISLAND
    text = ISLAND.replace(old, new, 1)
    fault = read(text).faults[0]
    assert part in text[fault.start : fault.end]
    assert remedy in fault.help


def test_an_option_no_job_has_and_a_quantity_by_another_name():
    text = ISLAND.replace("    status: exempt", "    option: hot formed heads\n    status: exempt")
    assert any("no job can make use of 'hot formed heads'" in found for found, _ in marked(text))
    text = ISLAND.replace("quantity: heating rate", "quantity: furnace temperature")
    assert any("charge temperature, unload temperature" in found for found, _ in marked(text))


FORMS = re.findall(r"`(at_least|at_most|between|when): ([^`]+)`", PAGE)


@each_row(("part", "formula"), FORMS)
def test_the_forms_of_the_page_are_read(part, formula):
    quantity = "heated band" if "wall" in formula else "hold time"
    quantity = "heating rate" if "degC/h" in formula else quantity
    quantity = "thermocouples" if "girth" in formula or formula == '"2"' else quantity
    quantity = "weld cooling time" if part == "between" else quantity
    demand = f"{part}: {formula}" if part != "when" else f"at_least: 1 h\n    when: {formula}"
    book = (
        "id: forms\ntitle: Forms\nabout: Forms\nrows:\n  - id: one\n"
        f"    quantity: {quantity}\n    {demand}\n"
        "    cite: page 1\n    basis: memory\n    confidence: low\n"
    )
    assert read(book).faults == ()


#: What is wrong in a small book, by its whole message, the text it marks and its remedy.
SMALL = """id: tern
title: Tern
about: Invented.
rows:
  - id: one
    quantity: hold time
    at_least: 1 h
    cite: page 1
    basis: memory
    confidence: low
"""


@each_row(
    ("old", "new", "message", "part", "remedy"),
    [
        ("  - id: one\n    ", "  - ", "row 1: id is missing", "quantity: hold time", ""),
        ("id: one", "id: One", "row One, id: 'One' is not written as expected here", "One",
         "an id is small letters, digits, hyphens and dots; an edition four digits in quotes"),
        ("    cite: page 1\n    basis: memory\n", "", "row one: cite and basis are missing",
         "id: one", ""),
        ("at_least: 1 h", "at_leest: 1 h", "row one: at_leest is not a key of this place",
         "at_leest", "did you mean at_least?"),
        ("title: Tern", "titel: Tern", "title is missing", "id: tern", ""),
        ("about: Invented.", "about: [a]", "about: a text is expected, not ['a']", "[a]", ""),
        ("rows:", "rows: 5\nother:", "rows: a list is expected, not 5", "5", ""),
        ("    at_least: 1 h\n", "", "row one: the row has no demand", "id: one",
         "write at_least, at_most, between, is or status"),
        ("basis: memory", "basis: sure",
         "row one, basis: 'sure' is given where one of published, memory, practice, derived is "
         "expected", "sure", ""),
        ("at_least: 1 h", "at_least: 1 h +", "row one, minimum: ", "+", ""),
        ("at_least: 1 h", "at_least: '1 h + 2'", "row one, minimum: ", "1 h + 2",
         "every figure has its unit: 5600 degC/h * 1 mm / t, not 5600/t"),
        ("at_least: 1 h", "at_least: 1 h\n    above: 300 F", "row one, above: ", "F", "write degF"),
        ("quantity: hold time", "quantity: hold tyme", "row one: there is no quantity 'hold tyme'; "
         "did you mean hold time?", "hold tyme", ""),
        ("id: tern", "id: asme-i", "asme-i is the name of a book that ships with the program",
         "asme-i", "give your book a name of its own"),
        ("id: tern", "? [a]\n: b\nid: tern", "a key is not a word", "[a]", ""),
        ("title: Tern", "title: Tern\ntitle: Tern", "the key 'title' stands twice", "title", ""),
        ("title: Tern", "title: …", "it is still to be filled in", "…", ""),
    ],
)  # fmt: skip
def test_a_fault_of_a_small_book(old, new, message, part, remedy):
    assert read(SMALL).faults == () and read(SMALL).id == "tern"
    text = SMALL.replace(old, new, 1)
    found = read(text).faults
    assert any(
        fault.message.startswith(message)
        and text[fault.start : fault.end].rstrip() == part
        and fault.help == remedy
        for fault in found
    ), [(f.message, text[f.start : f.end], f.help) for f in found]
    assert [fault.start for fault in found] == sorted(fault.start for fault in found)


def test_where_the_rows_stand():
    text = SMALL + SMALL.partition("rows:\n")[2].replace("one", "two")
    places = read(text).rows
    assert {id: text[start:end] for id, (start, end) in places.items()} == {
        "one": "one", "two": "two"
    }  # fmt: skip
    assert read(text).book(None).limits[1].id == "two"


@each_row(
    ("text", "message", "marked"),
    [
        ("a: [1", "it is not YAML: ", ""),
        ("a: b: c\nd: e", "it is not YAML: ", ": c"),
        ("- a\nb: c", "it is not YAML: ", "b: c"),
        ("", "the file is empty", ""),
        ("just words", "a", "just words"),
    ],
)
def test_what_is_no_book(text, message, marked):
    fault = read(text).faults[0]
    assert message in fault.message
    assert text[fault.start : fault.end] == marked
    assert read(text).id == "" and read(text).data is None


def test_depth_and_aliases():
    deep = "".join(f"{'  ' * n}a:\n" for n in range(19)) + "  " * 19 + "a: b\n"
    assert all("too deep" not in fault.message for fault in read(deep).faults)
    deeper = "".join(f"{'  ' * n}a:\n" for n in range(20)) + "  " * 20 + "a: b\n"
    assert any("too deep" in fault.message for fault in read(deeper).faults)
    # The same anchor twice in a row is no circle.
    twice = SMALL.replace("title: Tern", "title: &t Tern").replace("about: Invented.", "about: *t")
    assert read(twice).faults == () and read(twice).data["about"] == "Tern"
