"""What is told about a text that cannot be read: which kind, where, in which words, with what help.

Every case stands alone in the smallest sound block, so a second finding would be a consequence told
as a cause. Kinds and words are the language's own; they have no source outside it.
"""

from __future__ import annotations

import pytest

from hts.findings import Report
from hts.text import Source
from hts.vocabulary import kinds
from hts.vocabulary.hidden import hidden_characters
from hts.vocabulary.segments import Heat
from tests.vocabulary.read import Told, inside, read

#: (place, text, kind, what the finding points at, part of the message, part of the help)
Case = tuple[str, str, str, str, str, str]

ENTRIES: list[Case] = [
    (
        "file",
        "recroder R2 { interval 60 s }",
        "unknown-entry",
        "recroder",
        "'recroder' is not an entry at the top of a file",
        "did you mean `recorder`?",
    ),
    (
        "joint",
        "haeting by induction { soak band by rule }",
        "unknown-entry",
        "haeting",
        "in the block of joint W1",
        "did you mean `heating`?",
    ),
    ("joint", "cpa width 30 mm", "unknown-entry", "cpa", "'cpa'", "did you mean `cap width`?"),
    ("joint", "quality good", "unknown-entry", "quality", "'quality'", "known here: `already heat"),
    ("file", '"only a text"', "unknown-entry", '"only a text"', "is not an entry", "known here"),
    (
        "file",
        "gradient band by rule",
        "misplaced-entry",
        "gradient band",
        "`gradient band` has no place at the top of a file",
        "it belongs to: `procedure` or `heating`",
    ),
    (
        "joint",
        "interval 60 s",
        "misplaced-entry",
        "interval",
        "in the block of joint W1",
        "it belongs to: `recorder`",
    ),
    (
        "joint",
        "hold 690 .. 720 degC for 2 h",
        "misplaced-entry",
        "hold",
        "`hold` has no place",
        "`bake` or `cycle`",
    ),
    (
        "joint",
        "wall 25.4 mm\nwall 26 mm",
        "repeated-entry",
        "wall",
        "`wall` stands twice",
        "keep one",
    ),
    ("joint", "kind butt", "repeated-entry", "kind", "`kind` stands twice in this block", "keep"),
    (
        "cycle",
        "heat to 700 degC to 710 degC",
        "repeated-entry",
        "to",
        "`to` stands twice in this e",
        "keep one",
    ),
    ("file", "joint W9", "missing-block", "joint W9", "joint W9 needs a block", "add { … }"),
    (
        "joint",
        "wall 25.4 mm { taken measured }",
        "unexpected-block",
        "{ taken measured }",
        "`wall` takes no block",
        "remove the block",
    ),
    ("joint", "cap width 30 mm { }", "unexpected-block", "{ }", "`cap width` takes no block", ""),
]

VALUES: list[Case] = [
    (
        "joint",
        "wall",
        "missing-value",
        "",
        "a length is missing at the end of the line",
        "for example 25.4 mm",
    ),
    ("file", "joint", "missing-value", "", "the name of a joint is missing", "for example W12"),
    (
        "cycle",
        "heat",
        "missing-value",
        "heat",
        "`heat` does not say `to` (temperature to reach)",
        "add it, for example: to 705 degC",
    ),
    ("cycle", "hold 690 .. 720 degC", "missing-value", "hold 690 .. 720 degC", "`for`", "for 2 h"),
    (
        "recorder",
        "calibrated 2026-09-01",
        "missing-value",
        "calibrated 2026-09-01",
        "`until`",
        "until 2027-03-01",
    ),
    (
        "procedure",
        "hold time when t > 60 mm",
        "missing-value",
        "hold time when t > 60 mm",
        "`hold time` says none of `at least`, `at most`",
        "at least 2.5 min/mm * t",
    ),
    ("procedure", "applies to wall", "missing-value", "applies to wall", "none of `at least`", ""),
    (
        "cycle",
        "cool at most 200 degC/h",
        "missing-value",
        "cool at most 200 degC/h",
        "none of `to`, `in`",
        "to 315 degC",
    ),
    (
        "cycle",
        "heat to at most 200 degC/h",
        "wrong-value",
        "at",
        "'at' stands where a temperature is expected",
        "for example 705 degC",
    ),
    ("joint", "wall thick", "wrong-value", "thick", "stands where a length is expected", "25.4 mm"),
    ("joint", "wall by rule", "wrong-value", "by rule", "stands where a length is expected", ""),
    ("thermocouples", "T1 channel 1.5", "wrong-value", "1.5", "a whole number is expected", ""),
    ("thermocouples", "T1 channel -1", "wrong-value", "-1", "a whole number is expected", ""),
    ("joint", "line 12", "wrong-value", "12", "a text in double quotes is expected", ""),
    ("joint", "service steam, , amine", "wrong-value", ",", "a choice is expected", "it is one of"),
    (
        "joint",
        "wall 25.4 mm measured twice",
        "unexpected-value",
        "twice",
        "'twice' is not expected here",
        "the entry ends before it",
    ),
    (
        "joint",
        "wall 25.4 mm mesured",
        "unexpected-value",
        "mesured",
        "'mesured'",
        "did you mean `measured`?",
    ),
    (
        "cycle",
        "heat to 700 degC at mots 200 degC/h",
        "unexpected-value",
        "at mots 200 degC/h",
        "'at' is not expected",
        "did you mean `at most`?",
    ),
    ("joint", "cap width 30 mm wide", "unexpected-value", "wide", "'wide'", "the entry ends"),
    (
        "procedure",
        "hold time is 2 h",
        "unexpected-value",
        "is 2 h",
        "'is'",
        "`at least`, `at most`",
    ),
    (
        "joint",
        "axis horizontl at 5 deg",
        "unknown-choice",
        "horizontl",
        "is not a choice here",
        "did you mean 'horizontal'?",
    ),
    ("joint", "service amin, steam", "unknown-choice", "amin", "", "did you mean 'amine'?"),
    ("joint", "made in workshop", "unknown-choice", "workshop", "", "it is one of: field, shop"),
    (
        "joint",
        'viewed "with flow"',
        "unknown-choice",
        '"with flow"',
        "a choice is written without quotes",
        "it is one of",
    ),
    (
        "thermocouples",
        "T1 monitors soak edg at 12:00",
        "unknown-choice",
        "soak edg",
        "",
        "did you mean 'soak edge'?",
    ),
]

QUANTITIES: list[Case] = [
    (
        "joint",
        "wall 25.4",
        "missing-unit",
        "25.4",
        "'25.4' has no unit",
        "a length is written in mm, in",
    ),
    ("cycle", "heat to 700 at most 200 degC/h", "missing-unit", "700", "'700' has no unit", "degC"),
    ("material", "composition C 0.11", "missing-unit", "0.11", "'0.11' has no unit", "%, ppm"),
    (
        "joint",
        "wall 25.4 measured",
        "missing-unit",
        "25.4",
        "'25.4' has no unit",
        "a length is written in mm, in",
    ),
    (
        "joint",
        "wall 25.4 mn",
        "unknown-unit",
        "25.4 mn",
        "'mn' is not a unit",
        "did you mean 'mm'?",
    ),
    ("joint", "wall 25mn", "unknown-unit", "25mn", "'mn' is not a unit", "did you mean 'mm'?"),
    ("cycle", "heat to 1300 F", "unknown-unit", "1300 F", "", "did you mean 'degF'?"),
    ("joint", "wall 25.4 degC", "wrong-dimension", "25.4 degC", "is not a length", "mm, in"),
    ("cycle", "heat to 700 K", "wrong-dimension", "700 K", "is not a temperature", "degC, degF"),
    ("joint", "wall 1/0 in", "unreadable-number", "1/0 in", "zero below the bar", ""),
    ("joint", "wall 25,4 mm", "decimal-comma", ",", "between two digits", "25.4"),
    (
        "cycle",
        "hold 720 .. 690 degC for 2 h",
        "reversed-range",
        "720 .. 690 degC",
        "720 degC is above 690 degC",
        "the smaller value first",
    ),
    (
        "cycle",
        "hold 700 .. 700 degC for 2 h",
        "reversed-range",
        "700 .. 700 degC",
        "has no width",
        "two values",
    ),
    (
        "cycle",
        "hold 705 +/- 0 degC for 2 h",
        "reversed-range",
        "705 +/- 0 degC",
        "has no width",
        "",
    ),
    ("cycle", "hold 705 +/- -5 degC for 2 h", "reversed-range", "705 +/- -5 degC", "above", ""),
    (
        "cycle",
        "hold 700 degC for 2 h",
        "wrong-value",
        "700 degC",
        "is one value where a range",
        "a tolerance A +/- B",
    ),
    (
        "cycle",
        "hold 705 +/- 15 K for 2 h",
        "missing-unit",
        "705",
        "'705' has no unit",
        "degC, degF",
    ),
    ("cycle", "hold 705 degC +/- 15 for 2 h", "missing-unit", "15", "", "difference is written in"),
    ("cycle", "hold 690 .. 720 for 2 h", "missing-unit", "720", "'720' has no unit", "degC, degF"),
    ("cycle", "hold 690 .. for 2 h", "unexpected-sign", "..", "no value after ..", "690 .. 720"),
    (
        "cycle",
        "heat to 760 degC + 10",
        "unclear-tolerance",
        "760 degC + 10",
        "not a clear tolerance",
        "760 degC +/- B",
    ),
    (
        "cycle",
        "hold 705 degC + 10 for 2 h",
        "unclear-tolerance",
        "705 degC + 10",
        "does not say from where to where",
        "690 .. 720 degC",
    ),
    (
        "cycle",
        "hold 700 degC - 720 degC for 2 h",
        "unclear-tolerance",
        "700 degC - 720 degC",
        "does not say from where to where",
        "write a range",
    ),
    ("recorder", "resolution +/- 1 K", "wrong-value", "+/- 1 K", "", ""),
    (
        "heating",
        'insulation "x" thickness 50 mm width 300 mm',
        "width-without-side",
        "300 mm",
        "in total or on each side",
        "write `total` or `each side`",
    ),
    (
        "heating",
        'insulation "x" thickness 50 mm width 6 t each',
        "width-without-side",
        "6 t",
        "",
        "",
    ),
    (
        "heating",
        "gap at 13:00",
        "wrong-value",
        "13:00",
        "not a clock position from 1:00 to 12:59",
        "did you mean '1:00'?",
    ),
    ("heating", "gap at 06:00", "wrong-value", "06:00", "", "did you mean '6:00'?"),
    ("heating", "gap at 3:60", "wrong-value", "3:60", "not a clock position", ""),
    ("heating", "gap at 6", "wrong-value", "6", "a clock position is expected", "6:15"),
    (
        "thermocouples",
        "T1 at 12:00, 42 mm channel 1",
        "missing-value",
        "channel",
        "42 mm does not say to which side",
        "upstream, downstream",
    ),
    (
        "thermocouples",
        "T1 at 12:00, 42 mm upsteam",
        "unknown-choice",
        "upsteam",
        "",
        "did you mean 'upstream'?",
    ),
    (
        "material",
        "composition C 0.11 %, Xx 0.4 %",
        "unknown-choice",
        "Xx",
        "'Xx' is not an element",
        "it is one of: Al, As",
    ),
    ("material", "composition c 0.11 %", "unknown-choice", "c", "", "did you mean 'C'?"),
    (
        "material",
        "composition 0.11 %",
        "wrong-value",
        "0.11 %",
        "an element and its mass fr",
        "C 0.1",
    ),
]

DATES_AND_BOOKS: list[Case] = [
    # Gregorian calendar, ISO 8601: a year divisible by four has a 29 February, 1900 has none.
    (
        "job",
        'history { B on 2026-02-29 "x" }',
        "wrong-value",
        "2026-02-29",
        "not a day of the calendar",
        "",
    ),
    ("job", 'history { B on 1900-02-29 "x" }', "wrong-value", "1900-02-29", "", ""),
    ("job", 'history { B on 2026-13-01 "x" }', "wrong-value", "2026-13-01", "", ""),
    ("job", 'history { B on 2026-04-31 "x" }', "wrong-value", "2026-04-31", "", ""),
    ("job", 'history { B "x" }', "missing-value", 'B "x"', "B does not say `on`", "on 2026-11-20"),
    ("job", "follows 12 34", "unexpected-value", "34", "'34' is not expected here", ""),
    ("waive", '"W12"', "wrong-value", '"W12"', "an address is expected", "for example W12.T5"),
    ("waive", "W12/", "missing-value", "", "an address is missing", "W12.T5"),
]

FORMULAS: list[Case] = [
    (
        "procedure",
        "hold time at least 2.5 min/mm * tt",
        "unreadable-formula",
        "tt",
        "tt is not a fact",
        "did you mean t?",
    ),
    (
        "procedure",
        "hold time at least 5 mm",
        "unreadable-formula",
        "5 mm",
        "5 mm is a length; hold time is a time",
        "",
    ),
    (
        "procedure",
        "hold time at least 2 h when",
        "missing-value",
        "",
        "a condition is missing",
        "t <= 60 mm",
    ),
    (
        "procedure",
        "hold time at least 2 h when t > 5 degC",
        "unreadable-formula",
        "t > 5 degC",
        "t is a length, 5 degC is a temperature",
        "",
    ),
    ("procedure", "hold time at least 2 h when t", "unreadable-formula", "t", "is a condition", ""),
    (
        "procedure",
        'hold time at least 3 min/mm * wal because "x"',
        "unreadable-formula",
        "wal",
        "",
        "wall",
    ),
    ("procedure", "hold time at least", "missing-value", "", "a formula for a time is missing", ""),
    (
        "procedure",
        "heated band at least 5 t",
        "width-without-side",
        "5 t",
        "the heated band does not say",
        "after the formula",
    ),
    ("procedure", "heated band at least 5 t when t > 60 mm", "width-without-side", "5 t", "", ""),
    (
        "procedure",
        "preheat width at least 75 mm total",
        "unreadable-formula",
        "total",
        "does not fit here",
        "",
    ),
    (
        "procedure",
        "heated band at least total",
        "unreadable-formula",
        "",
        "a formula is needed",
        "",
    ),
]

CASES = [*ENTRIES, *VALUES, *QUANTITIES, *DATES_AND_BOOKS, *FORMULAS]


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case[0]}: {case[1]}")
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
        "unusable-file",
        "unknown-language-version",
        "nothing-left-out",
    }
    here = {case[2] for case in CASES} | {"missing-entry", "hidden-character"}
    assert {kind.name for kind in kinds.KINDS} - elsewhere <= here


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


@pytest.mark.parametrize("text", ["spce 1\n", "spec one\n", "spec\n", "spec 1 {\n}\n"])
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


@pytest.mark.parametrize("code", [0x200B, 0x202E, 0x2066, 0x07, 0x85])
def test_hidden_characters(code: int) -> None:
    text = f'filler f {{ classification "a{chr(code)}b" }}'
    told = next(told for told in read(inside("file", text))[1] if told.name == "hidden-character")
    assert told == Told(
        "hidden-character",
        chr(code),
        f"the character U+{code:04X} is not seen when the text is read",
        "remove it",
    )


def test_a_byte_order_mark_is_no_hidden_character() -> None:
    report = Report()
    hidden_characters(Source("\ufeffspec 1\n", "text.hts"), report)
    assert report.findings == []
