"""What a line says is the same whether the line was read before or not."""

from __future__ import annotations

import re
from typing import Any

from hts.base.findings import Report
from hts.base.text import Source
from hts.language.vocabulary.declare import Entry
from hts.language.vocabulary.demanded import Demanded
from hts.language.vocabulary.reader import Reader
from hts.language.vocabulary.spec import File
from hts.language.vocabulary.types.words import Reference
from hts.syntax import parse
from hts.syntax.parser import parse_whole
from tests.specs.found import SPECS

BEFORE = "# A line before all others.\n"


def value(found: Any, by: int) -> Any:
    if isinstance(found, list | tuple) and not hasattr(found, "_fields"):
        return [value(each, by) for each in found]
    if isinstance(found, Entry):
        return entry(found, by)
    if isinstance(found, Reference):
        return type(found), found.what, found.name, found.start - by, found.end - by, found.target
    if isinstance(found, Demanded):
        # It has places inside, and is never kept.
        return re.sub(r"\d+", "", repr(found))
    if hasattr(found, "_replace") and hasattr(found, "start"):
        return found._replace(start=found.start - by, end=found.end - by)
    if hasattr(found, "_fields"):
        return type(found), [value(each, by) for each in found]
    # A computed quantity and one that was read show in their text.
    return type(found), str(found)


def entry(found: Entry, by: int) -> Any:
    """All that an entry holds, in the order written, places counted ``by`` characters earlier."""
    outside = ("source", "places", "sound")
    said = {name: each for name, each in vars(found).items() if name not in outside}
    place = (said.pop("start") - by, said.pop("end") - by) if said.get("end") else None
    places = [(name, start - by, end - by) for name, (start, end) in found.places.items()]
    return (
        type(found),
        found.sound,
        place,
        places,
        {name: value(each, by) for name, each in said.items()},
    )


def told(report: Report, by: int) -> Any:
    return [(f.kind.code, f.message, f.address, f.at.span.start - by) for f in report.findings]


def test_read_again_and_further_down() -> None:
    for path in SPECS.rglob("*.hts"):
        text = path.read_bytes().decode("utf-8", "replace")
        if text.startswith("\ufeff") or "<<<<<<<" in text:
            continue
        outcomes = []
        for written, by in ((text, 0), (text, 0), (BEFORE + text, len(BEFORE))):
            source, report = Source(written, "text"), Report()
            nodes = parse(source, report).entries
            read = Reader(source, report, File).read(nodes)
            outcomes.append((entry(read, by), told(report, by)))
        source, report = Source(text, "text"), Report()
        # The parser of whole texts keeps no line.
        nodes = parse_whole(source, text, report).entries
        fresh = Reader(source, report, File).read(nodes)
        assert all(each == (entry(fresh, 0), told(report, 0)) for each in outcomes), path


def test_what_one_text_does_with_an_entry_is_not_seen_in_another() -> None:
    source = Source("spec 1\njoint W1 {\n  service amine, caustic\n}\n", "text")
    first, second = (
        Reader(source, Report(), File).read(parse(source, Report()).entries) for _ in range(2)
    )
    assert isinstance(first, File)
    assert isinstance(second, File)
    first.joints[0].service.append("lethal")  # type: ignore[attr-defined]
    first.joints[0].places["kind"] = (0, 0)
    assert second.joints[0].service == ["amine", "caustic"]
    assert "kind" not in second.joints[0].places
