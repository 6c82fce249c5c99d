"""What is told about a text that cannot be read: which kind, where, in which words, with what help.

Every case stands alone in the smallest sound block, so a second finding would be a consequence told
as a cause. Kinds and words are the language's own; they have no source outside it.
"""

from __future__ import annotations

import pytest

from hts.base.findings import Report
from hts.base.text import Source
from hts.language.vocabulary import mistakes
from hts.language.vocabulary.hidden import hidden_characters
from hts.language.vocabulary.segments import Heat
from tests.language.vocabulary.misreadings import CASES, Case
from tests.language.vocabulary.read import Told, inside, read
from tests.rows import each_row


@each_row("case", CASES, ids=lambda case: f"{case[0]}: {case[1]}")
def test_one_cause_is_told_once(case: Case) -> None:
    place, text, kind, at, message, help = case
    _, tellings = read(inside(place, text))
    assert [told.name for told in tellings] == [kind]
    (told,) = tellings
    assert told.at == at
    assert message in told.message
    assert help in told.help


def test_the_places_themselves_are_sound() -> None:
    for place in ("file", "job", "material", "joint", "heating", "thermocouples", "cycle"):
        assert read(inside(place, ""))[1] == []


def test_every_kind_of_misreading_has_a_case() -> None:
    # Names, files and versions are judged when files are put together, not while one is read.
    elsewhere = {
        "unknown-name",
        "repeated-name",
        "name-of-two-files",
        "unusable-file",
        "unknown-language-version",
        "nothing-left-out",
        "letter-not-printed",
    }
    here = {case[2] for case in CASES} | {"missing-entry", "hidden-character", "letter-not-printed"}
    assert {kind.name for kind in mistakes.KINDS} - elsewhere <= here


@pytest.mark.parametrize("text", ["", "# only a comment\n", "joint W1 { kind girth butt }\n"])
def test_a_file_without_version(text: str) -> None:
    assert [told.name for told in read(text)[1]] == ["missing-entry"]


def test_what_is_missing_is_told_entry_by_entry() -> None:
    _, tellings = read("spec 1\nrecorder R9 {\n}\n")
    assert [told.name for told in tellings] == ["missing-entry"] * 3
    assert {told.at for told in tellings} == {"recorder"}
    assert {told.help for told in tellings} == {
        "add, for example: channels 12 type K range 0 .. 1200 degC",
        "add, for example: interval 60 s",
        "add, for example: error +/- 1.5 degC",
    }


@each_row("text", ["spce 1\n", "spec one\n", "spec\n", "spec 1 {\n}\n"])
def test_a_misspelt_entry_is_not_missed_besides(text: str) -> None:
    assert len(read(text)[1]) == 1


def test_two_causes_in_one_line_are_both_told() -> None:
    _, tellings = read(inside("cycle", "heat to 700 at most 200 degC"))
    assert [(told.name, told.at) for told in tellings] == [
        ("missing-unit", "700"),
        ("wrong-dimension", "200 degC"),
    ]


def test_reading_goes_on_after_an_error() -> None:
    file, tellings = read(inside("cycle", "heat to 700 at most 200 degC/h\ncool in still air"))
    assert len(tellings) == 1
    heat, cool = file.cycles[0].segments
    assert isinstance(heat, Heat) and heat.to is None
    assert str(heat.rate) == "200 degC/h"
    assert (heat.sound, cool.sound, file.sound) == (False, True, False)


@each_row("code", [0x200B, 0x202E, 0x2066, 0x07, 0x85])
def test_hidden_characters(code: int) -> None:
    text = f'filler f {{ classification "a{chr(code)}b" }}'
    told = next(told for told in read(inside("file", text))[1] if told.name == "hidden-character")
    assert told == Told(
        "hidden-character",
        chr(code),
        f"the character U+{code:04X} cannot be seen when the text is read",
        "remove it",
    )


def test_a_byte_order_mark_is_no_hidden_character() -> None:
    report = Report()
    hidden_characters(Source("\ufeffspec 1\n", "text.hts"), report)
    assert report.findings == []
