"""What stands at an offset agrees with what the reader of the language makes of a text."""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path

from hts.base.findings import Report
from hts.base.text import Source
from hts.editor.phrase import SIGN, UNKNOWN, read_phrase
from hts.editor.place import Text
from hts.generate import ROOT
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.reader import Reader
from hts.language.vocabulary.spec import File
from hts.syntax import parse
from hts.syntax.tree import Entry as Node
from tests.rows import each_row

GOOD = sorted(Path(ROOT, "specs").glob("*.hts")) + sorted(Path(ROOT, "specs/library").glob("*.hts"))
EVERY = GOOD + sorted(Path(ROOT, "specs/broken").glob("*.hts"))


def nodes(entries: list[Node]) -> Iterator[Node]:
    for node in entries:
        yield node
        if node.block is not None:
            yield from nodes(node.block.entries)


def entries_of(entry: Entry) -> Iterator[Entry]:
    yield entry
    for name in type(entry).fields:
        value = getattr(entry, name)
        for inner in value if isinstance(value, list) else [value]:
            if isinstance(inner, Entry):
                yield from entries_of(inner)


@each_row("path", GOOD, ids=lambda path: path.stem)
def test_agrees_with_the_reader(path: Path) -> None:
    source = Source(path.read_text("utf-8"), path.name, str(path))
    text = Text(source)
    report = Report()
    tree = parse(source, report)
    assert [line.start for line in text.outline.lines] == [n.start for n in nodes(tree.entries)]
    for line, node in zip(text.outline.lines, nodes(tree.entries), strict=True):
        assert [(i.kind, i.start + line.start) for i in text.phrase(line).items] == [
            (i.kind, i.start) for i in node.items
        ]
        assert line.end == node.items[-1].end
        assert line.whole_end == node.end
    whole = Reader(source, report, File).read(tree.entries)
    for entry in entries_of(whole):
        if entry is whole:
            continue
        place = text.at(entry.start)
        assert place is not None
        assert (place.address, place.cls) == (entry.address, type(entry))
        for name, (start, end) in entry.places.items():
            at = text.at(start)
            assert at is not None
            field = type(entry).fields[name]
            if field.form in ("value", "clause") and start != entry.start:
                assert at.field is field, at.word
                span = at.value_span
                assert span is not None
                assert (span.start, span.end) == (start, end) or field.many
    for place in text.places():
        assert place.role != UNKNOWN, place.word
        assert place.path or place.role == SIGN


def test_tells_entry_field_value_name_and_address() -> None:
    path = Path(ROOT, "specs/p22-header.hts")
    text = Text(Source(path.read_text("utf-8"), "p22"))

    def at(words: str, ahead: int = 0) -> tuple[str, str, str, str]:
        place = text.at(text.source.text.index(words) + ahead)
        assert place is not None
        return place.role, place.address, place.path, place.names

    thermocouple = "W12/thermocouples/T3"
    where = "joint.thermocouples.thermocouple"
    assert at("T3 ") == ("name", thermocouple, f"{where}.name", "thermocouple")
    assert at("bottom         at", 3) == ("reference", thermocouple, f"{where}.controls", "zone")
    assert at("465 mm") == ("quantity", "W12/thermocouples/T9", f"{where}.offset", "")
    assert at("gradient band  ") == ("words", "W12/heating", "joint.heating.gradient band", "")
    assert at("hold 690")[:3] == ("words", "stress-relief/hold", "cycle.hold")
    offset = text.source.text.index("690 ..")
    place = text.at(offset)
    assert place is not None
    assert place.value_span is not None
    assert place.value_span.text == "690 .. 720 degC"


def test_every_broken_text_has_places() -> None:
    for path in EVERY:
        text = Text(Source(path.read_text("utf-8"), path.name))
        for place in text.places():
            assert place.span.text.strip() == place.span.text != "", path
            found = text.at(place.span.start)
            assert found is not None, path
            assert found.part == place.part, path


def spoiled(text: str, chance: random.Random) -> str:
    for _ in range(chance.randint(1, 4)):
        at = chance.randrange(len(text) + 1)
        end = min(len(text), at + chance.choice((0, 1, 1, 3, 40)))
        text = (
            text[:at]
            + chance.choice(("", "{", "}", '"', "\n", ",", "(", " ", "é\U0001f525", "..", "zone "))
            + text[end:]
        )
    return text


def test_nothing_written_stops_it() -> None:
    chance = random.Random(1)
    texts = [path.read_text("utf-8") for path in GOOD]
    for _ in range(150):
        source = Source(spoiled(chance.choice(texts), chance), "spoiled")
        text = Text(source)
        ends = 0
        for place in text.places():
            assert place.span.start >= ends
            ends = place.span.end
            assert place.address is not None and place.path is not None and place.names is not None
            assert place.quantity is None or place.role == "quantity"
        text.at(chance.randrange(len(source.text) + 1))


def test_a_block_left_open_does_not_reach_into_the_next() -> None:
    text = Text(
        Source(
            "joint W1 {\n  heating by resistance {\n    zone top from 9:00 to 3:00\n"
            "  thermocouples type K class 1 {\n    T1 controls top\n  }\n}\n"
            "joint W2 {\n  wall 10 mm\n}\n",
            "open",
        )
    )
    offset = text.source.text.index("wall")
    place = text.at(offset)
    assert place is not None
    assert (place.address, place.path) == ("W2/wall", "joint.wall")


def test_a_phrase_is_read_once() -> None:
    path = Path(ROOT, "specs/p22-header.hts")
    text = path.read_text("utf-8")
    list(Text(Source(text, "before")).places())
    before = read_phrase.cache_info().misses
    list(Text(Source("# one line more\n" + text.replace("39.6 mm", "39.7 mm"), "after")).places())
    assert read_phrase.cache_info().misses == before + 1


def test_braces_without_end_and_very_long_lines_are_read() -> None:
    for written in (
        "joint W1 " + "{" * 5000,
        "{\n" * 3000 + "}" * 9000,
        "zone " * 20_000,
        "(" * 5000,
    ):
        text = Text(Source(written, "deep"))
        list(text.places())
        assert text.at(len(written) // 2) is None or text.outline.lines


def test_before_the_first_entry_and_behind_one() -> None:
    text = Text(Source('# remark\n\nspec 1\n\njob "A" {\n}\n', "x.hts"))
    found = {at: text.outline.line_at(at) for at in (0, 9, 10, 16, 17, 18)}
    assert {at: line is not None for at, line in found.items()} == {
        0: False, 9: False, 10: True, 16: True, 17: False, 18: True
    }  # fmt: skip
