"""Nothing of a text is lost, every place is exact, and the tables do what Lark itself does."""

import os
from functools import lru_cache
from random import Random
from typing import Any

from hypothesis import given
from hypothesis import strategies as st
from lark import Lark
from lark import Token as LarkToken
from lark import Tree as LarkTree

from hts.base.findings import Report
from hts.base.text import Source
from hts.checking.rules.examples import BASES
from hts.generate import ROOT
from hts.generate.units_grammar import units_grammar
from hts.syntax import Entry, Group, Tree, parse
from tests.fuzz.texts import damaged, grammar_text
from tests.rows import each_row


def read(text: str) -> tuple[Tree, Report]:
    report = Report()
    return parse(Source(text, "text.hts"), report), report


def look(text: str) -> None:
    """What holds of the tree of any text."""
    tree, report = read(text)
    assert "".join(tree.pieces()) == text
    at = 0
    for token in tree.tokens:
        assert at <= token.start <= token.end <= len(text)
        assert text[token.start : token.end] == token.text
        at = token.end
    nested(tree.entries, 0, len(text))
    for finding in report.findings:
        assert 0 <= finding.at.span.start <= finding.at.span.end <= len(text)


def nested(entries: list[Entry], low: int, high: int) -> None:
    """Entries stand one after the other, each inside its block."""
    for entry in entries:
        assert low <= entry.start <= entry.end <= high
        for item in entry.items:
            assert entry.start <= item.start <= item.end <= entry.end
        if entry.block is not None:
            assert entry.block.open.start <= entry.block.close.start <= entry.end
            nested(entry.block.entries, entry.block.open.end, entry.block.close.start)
        low = entry.end


@given(st.randoms(use_true_random=False))
def test_generated_texts_are_read_whole(random: Random) -> None:
    text = grammar_text(random)
    look(text)
    assert read(text)[1].findings == []


@given(st.randoms(use_true_random=False))
def test_damaged_texts_are_read_whole(random: Random) -> None:
    good = random.choice((grammar_text(random), random.choice(list(BASES.values()))))
    look(damaged(random, good))


@given(
    st.text(alphabet=st.sampled_from('{}()"\\\n\r\t ,.;:+-/=<>#ab1°½é\ufeff\u200b'), max_size=80)
)
def test_any_characters_are_read_whole(text: str) -> None:
    look(text)


# Lark is the outside authority: the same grammar, read by its own lexer and parser.


@lru_cache(maxsize=1)
def lark() -> Lark:
    with open(os.path.join(ROOT, "grammar", "hts.lark"), encoding="utf-8") as file:
        grammar = file.read()
    return Lark(
        grammar,
        parser="lalr",
        lexer="basic",
        import_paths=[lambda _base, path: (path, units_grammar())],
    )


def lark_items(phrase: LarkTree[LarkToken]) -> list[Any]:
    return [
        str(child) if isinstance(child, LarkToken) else (child.data.upper(), *map(str, values))
        for child in phrase.children
        for values in [getattr(child, "children", [])]
    ]


def lark_entries(tree: LarkTree[LarkToken]) -> list[Any]:
    """(items, entries of the block or None) of every entry below a node."""
    found: list[Any] = []
    for child in tree.children:
        if not isinstance(child, LarkTree):
            continue
        if child.data == "entries":
            found += lark_entries(child)
        elif child.data == "entry":
            phrase, *block = child.children
            assert isinstance(phrase, LarkTree)
            inner = [lark_entries(each) for each in block if isinstance(each, LarkTree)]
            found.append((lark_items(phrase), inner[0] if inner else None))
    return found


def our_items(entry: Entry) -> list[Any]:
    return [
        (item.kind, *(token.text for token in (item.low, item.high) if token is not None))
        if isinstance(item, Group)
        else item.text
        for item in entry.items
    ]


def our_entries(entries: list[Entry]) -> list[Any]:
    return [
        (our_items(entry), None if entry.block is None else our_entries(entry.block.entries))
        for entry in entries
    ]


def without_signs(entries: list[Any]) -> list[Any]:
    """Lark keeps the sign of a range as a child; ours is the kind of the group."""
    return [
        (
            [
                tuple(part for part in item if part not in ("..", "…", "+/-", "±"))
                if isinstance(item, tuple)
                else item
                for item in items
            ],
            None if inner is None else without_signs(inner),
        )
        for items, inner in entries
    ]


def without_line_ends_in_brackets(text: str) -> str:
    """What the grammar leaves to the program: lines inside brackets go on."""
    return text.replace("\r\n  * ", " * ").replace("\n  * ", " * ")


@given(st.randoms(use_true_random=False))
def test_the_tree_is_that_of_lark(random: Random) -> None:
    text = without_line_ends_in_brackets(grammar_text(random))
    assert our_entries(read(text)[0].entries) == without_signs(lark_entries(lark().parse(text)))


@each_row("name", sorted(BASES))
def test_the_tree_of_a_base_is_that_of_lark(name: str) -> None:
    tree, report = read(BASES[name])
    assert report.findings == []
    assert our_entries(tree.entries) == without_signs(lark_entries(lark().parse(BASES[name])))
