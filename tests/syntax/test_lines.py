"""A text read line by line has the tree that the parser of whole texts makes of it."""

from __future__ import annotations

import random

import pytest

from hts.base.findings import Report
from hts.base.text import Source
from hts.syntax import Entry, Token, parse
from hts.syntax.conflicts import first_side
from hts.syntax.parser import parse_whole
from hts.syntax.tree import Item
from tests.rows import each_row
from tests.specs.found import SPECS

TEXTS = {
    path.relative_to(SPECS).as_posix(): path.read_bytes().decode("utf-8", "replace")
    for path in SPECS.rglob("*.hts")
}
#: What decides whether a line can be read by itself.
PIECES = (
    *("{", "}", "}\n}", "{ a b }", "\n", "\r\n", "\r", ",", ",\n", ", # and so on\n", '"', "#"),
    *("(", ")", "(\n)", "10,5 mm", "..", "+/- 5 K", "\t", "é", "±", "\x0b", "<<<<<<< a\n"),
)


def item(found: Item) -> object:
    if isinstance(found, Token):
        return found.kind, found.text, found.start, found.end
    low = found.low and item(found.low)
    return found.kind, low, item(found.sign), item(found.high), found.start, found.end


def tree(entries: list[Entry]) -> object:
    return [
        (
            [item(each) for each in entry.items],
            (entry.broken, entry.start, entry.end),
            entry.block
            and (item(entry.block.open), tree(entry.block.entries), item(entry.block.close)),
        )
        for entry in entries
    ]


def told(report: Report) -> object:
    return [(f.kind.code, f.message, f.at.span.start, f.at.span.end) for f in report.findings]


def same(text: str) -> None:
    source = Source(text, "text")
    reports = Report(), Report()
    by_lines = parse(source, reports[0])
    whole = parse_whole(source, first_side(source, reports[1]), reports[1])
    assert tree(by_lines.entries) == tree(whole.entries)
    assert [item(token) for token in by_lines.tokens] == [item(token) for token in whole.tokens]
    assert told(reports[0]) == told(reports[1])


def test_every_text() -> None:
    for number, (_, text) in enumerate(sorted(TEXTS.items())):
        same(text)
        if number % 4:
            continue
        # The same lines once more, further down and with the line ends of another system.
        same("# before\n\n" + text.replace("\n", "\r\n"))


@each_row("end", ["", "\r", "\n\r", "\r\n", ",", ",\n", "#", "# a\r", "\t\r", " {", "}"])
def test_how_a_text_begins_and_ends(end: str) -> None:
    for text in ("", "spec 1", "spec 1\n", 'spec 1\njob "a" {\n  number "1"\n}\n'):
        same(text + end)
        same(end + text)


@pytest.mark.parametrize("seed", range(8))
def test_changed_texts(seed: int) -> None:
    chance = random.Random(seed)
    names = sorted(TEXTS)
    for _ in range(40):
        text = TEXTS[chance.choice(names)]
        for _ in range(chance.randint(1, 3)):
            at = chance.randrange(len(text) + 1)
            if chance.random() < 0.6:
                text = text[:at] + chance.choice(PIECES) + text[at:]
            else:
                text = text[:at] + text[at + chance.randint(1, 30) :]
        same(text)
