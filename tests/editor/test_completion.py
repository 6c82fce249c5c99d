"""What is offered while a text is written."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from hts.base.text import Source
from hts.checking.checker.all_kinds import all_kinds
from hts.editor import phrase
from hts.editor.buffer import Buffer, uri_of
from hts.editor.completion import completion
from hts.editor.offer import Offer, Surroundings
from hts.editor.place import Place, Text
from hts.editor.workspace import Workspace
from hts.generate import ROOT
from hts.language.vocabulary.demand_text import DemandText
from hts.language.vocabulary.formulas import Expression
from hts.language.vocabulary.types import BookEdition
from tests.rows import each_row
from tests.sampling import whose_turn

GOOD = sorted(Path(ROOT, "specs").glob("*.hts")) + sorted(Path(ROOT, "specs/library").glob("*.hts"))
#: What only who writes can know: names they give, figures, dates, free text.
FREE = (phrase.NAME, phrase.NUMBER, phrase.CLOCK, phrase.DATE, phrase.TEXT, phrase.SIGN)
RULES = [(kind.name, kind.summary) for kind in all_kinds()]


def near(path: Path) -> tuple[Buffer, Surroundings]:
    workspace = Workspace([ROOT], "utf-16")
    buffer = workspace.open(uri_of(str(path)), path.read_text("utf-8"), 1)
    return buffer, Surroundings(
        workspace.names(buffer), rules=lambda: RULES, books=lambda: workspace.books_for(buffer)
    )


def asked(place: Place) -> Iterator[tuple[int, str]]:
    """Where the words of a place begin that can be offered: of a quantity its unit."""
    if place.role == phrase.QUANTITY:
        unit = re.search(r"[^\s\d]\S*$", place.word)
        assert unit is not None
        yield place.span.start + unit.start(), unit[0]
    elif place.role not in FREE:
        yield place.span.start, place.word.split()[0]


def offered(offers: list[Offer], word: str) -> bool:
    return any(each.label == word or each.label.startswith(f"{word} ") for each in offers)


@pytest.mark.parametrize("path", whose_turn(GOOD), ids=lambda path: path.stem)
def test_the_word_that_stands_there_is_offered(path: Path) -> None:
    buffer, around = near(path)
    places = [at for place in buffer.placed.places() for at in asked(place)]
    missed = [
        (word, buffer.placed.source.position(start))
        for start, word in places
        if not offered(completion(buffer.placed, start, around), word)
    ]
    assert len(places) > 80
    # What is left out here stands in demands, which say anything a job says in its own words.
    assert len(missed) <= 0.02 * len(places), missed
    free = [at for word, at in missed if not _in_demand(buffer.placed, at)]
    assert free == []


def _in_demand(text: Text, at: tuple[int, int]) -> bool:
    line, column = at
    place = text.at(text.source.line_starts[line - 1] + column - 1)
    return place is not None and isinstance(
        place.field.type if place.field else None, DemandText | Expression | BookEdition
    )


@pytest.mark.parametrize("path", GOOD[:4], ids=lambda path: path.stem)
def test_so_it_is_while_the_line_is_written(path: Path) -> None:
    """The rest of the line is not there yet, nor is the word."""
    buffer, around = near(path)
    source = buffer.text
    missed = []
    for number, place in enumerate(buffer.placed.places()):
        if number % 9:
            continue
        for start, word in asked(place):
            end = source.find("\n", start)
            written = Text(Source(source[:start] + source[end:], buffer.name, buffer.path))
            if not offered(completion(written, start, around), word):
                missed.append((word, buffer.placed.source.position(start)))
    assert missed == []


def at_mark(text: str) -> list[Offer]:
    """The offers where the text has a §."""
    offset = text.index("§")
    workspace = Workspace([ROOT], "utf-16")
    buffer = workspace.open("untitled:x", text.replace("§", ""), 1)
    around = Surroundings(workspace.names(buffer), today="2026-11-29", files=lambda: ["lib.hts"])
    return completion(buffer.placed, offset, around)


def labels(text: str) -> list[str]:
    return [each.label for each in at_mark(text)]


def test_what_is_missing_comes_first() -> None:
    first = at_mark('spec 1\njob "Tern Island" {\n  §\n}\n')[:4]
    assert {each.label for each in first} == {"number", "revision", "governed by", "signed"}
    assert labels('spec 1\njob "x" {\n  number "1"\n  §\n}\n')[:3] != ["number"]
    assert "number" not in labels('spec 1\njob "x" {\n  number "1"\n  §\n}\n')
    assert labels("spec 1\n§")[0] != "spec"


def test_units_names_channels_revisions_files_and_dates() -> None:
    head = "spec 1\njoint W1 {\n"
    assert labels(f"{head}  cap width 25 §\n}}")[:2] == ["mm", "in"]
    assert {"degC/h", "degF/h", "K/h"} <= set(
        labels("cycle a for W1 {\n  heat to 700 degC at most 120 §")
    )
    zones = "  heating by resistance {\n    zone top from 9:00 to 3:00\n  }\n"
    lines = "    T1 controls top channel 1\n    T2 monitors weld channel 3\n    T3 controls §\n"
    assert labels(f"{head}{zones}  thermocouples type K class 1 {{\n{lines}  }}\n}}") == ["top"]
    lines = lines.replace("controls §", "monitors weld channel §")
    channels = labels(f"{head}{zones}  thermocouples type K class 1 {{\n{lines}  }}\n}}")
    assert channels[:3] == ["2", "4", "5"]
    history = 'job "x" {\n  history {\n    A on 2026-01-01 "First"\n  }\n  revision §\n}'
    assert labels(history)[0] == "B"
    assert labels("use §") == labels('use "§') == ['"lib.hts"']
    assert labels('job "x" {\n  revision B on §\n}')[0] == "2026-11-29"
    assert "rule" in labels(f"{head}  governing thickness by §\n}}")
    assert labels('job "x" {\n  governed by asme-b31.3 §\n}')[0].startswith("edition ")
    assert labels(f"{head}  # a remark §\n}}") == []


@each_row(
    ("written", "goes_on"),
    [
        ("", ["W1", "W2", "each of"]), ("each ", ["of"]), ("each of ", ["L"]),
        ("each of L ", ["like"]), ("each of L like ", ["W1", "W2"]), ("each of L like W1 ", []),
        ("W1 ", []), ("W1, ", ["W1", "W2", "each of"]),
    ],
)  # fmt: skip
def test_joints_are_offered_by_name_or_from_a_list(written: str, goes_on: list[str]) -> None:
    joints = "joint W1 {\n  kind girth butt\n}\njoint W2 {\n}\n"
    head = f'spec 1\nweld list L from "welds.csv"\n{joints}'
    found = labels(f"{head}cycle c for {written}§ {{\n}}\n")
    assert [each for each in found if each not in ("for", "together")] == goes_on


def test_a_snippet_has_what_is_needed() -> None:
    cycle = next(each for each in at_mark("spec 1\n§") if each.label == "cycle")
    assert cycle.snippet.startswith("cycle ${1:")
    assert " for ${2:W12} {\n" in cycle.snippet
    assert cycle.snippet.endswith("}$0") or "$0" in cycle.snippet
