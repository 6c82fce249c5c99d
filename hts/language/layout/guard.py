"""Lays a text out and proves that nothing but its white space has changed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import zip_longest

from hts.base.findings import Finding, Label, Report
from hts.base.text import Source
from hts.language.layout import layout
from hts.language.layout.kinds import LAYOUT_GUARD
from hts.syntax import Entry, Group, Tree, parse

#: Spellings the language takes for one another.
_SAME = {"°C": "degC", "°F": "degF", "±": "+/-", "…": ".."}
_VALUES = frozenset({"QUANTITY", "NUMBER", "MULTIPLE", "BY_RULE", "DOTS", "PLUS_MINUS"})
_BLANKS = re.compile(r"[ \t]+")
_BLANKS_BESIDE_NO_DIGIT = re.compile(r"(?<=\D) | (?=\D)")
_COMMENT = re.compile(r"#[^\n]*")

Piece = tuple[str, str, int]
"""Kind and text of a part of the tree, blanks that say nothing left out; and where it stands."""


def settled(source: Source, report: Report) -> str | None:
    """The text in the one layout, None (with findings) where it cannot be laid out.

    The result is read again: it must give the same entries and the same comments in the same
    order, and be its own layout. Where it does not, that is reported as `layout-guard`.
    """
    errors = Report()
    tree = parse(source, errors)
    for finding in errors.findings:
        report.add(finding)
    if errors.findings:
        return None
    text = layout.laid_out(tree)
    problem = _problem(tree, text)
    if problem is None:
        return text
    message, at = problem
    report.add(
        Finding(
            LAYOUT_GUARD,
            message,
            Label(source.span(at, at + 1)),
            help="the file is left as it is; please report its text",
        )
    )
    return None


def _problem(tree: Tree, text: str) -> tuple[str, int] | None:
    """What the layout has changed, and where that stood."""
    errors = Report()
    again = parse(Source(text, tree.source.name), errors)
    for one, other in zip_longest(_pieces(tree), _pieces(again), fillvalue=("", "", 0)):
        if one[:2] != other[:2]:
            return f"laid out, {one[1]!r} would be read as {other[1]!r}", one[2]
    if errors.findings:
        return f"laid out, the text would not be read: {errors.findings[0].message}", 0
    for mine, its in zip_longest(_comments(tree), _comments(again), fillvalue=("", 0)):
        if mine[0] != its[0]:
            return f"laid out, the comment {mine[0]!r} would become {its[0]!r}", mine[1]
    if layout.laid_out(again) != text:
        return "laid out twice, the text would change again", 0
    return None


def _pieces(tree: Tree) -> Iterator[Piece]:
    for entry in tree.entries:
        yield from _pieces_of(entry)


def _pieces_of(entry: Entry) -> Iterator[Piece]:
    for item in entry.items:
        if isinstance(item, Group):
            yield item.kind, "", item.start
            tokens = [token for token in (item.low, item.high) if token]
        else:
            tokens = [item]
        for token in tokens:
            yield token.kind, _meaning(token.kind, token.text), token.start
    if entry.block:
        yield "BLOCK", "{", entry.block.open.start
        for inner in entry.block.entries:
            yield from _pieces_of(inner)
        yield "BLOCK", "}", entry.block.close.start
    yield "END", "", entry.end


def _meaning(kind: str, text: str) -> str:
    """What two texts of one meaning have in common."""
    if kind == "COMMA":
        return ","
    if kind not in _VALUES:
        return text
    for written, standard in _SAME.items():
        text = text.replace(written, standard)
    # A blank between two digits parts 1 1/2 from 11/2; any other says nothing.
    return _BLANKS_BESIDE_NO_DIGIT.sub("", _BLANKS.sub(" ", text))


def _comments(tree: Tree) -> Iterator[tuple[str, int]]:
    """Every comment of a tree and where it begins, found outside its tokens."""
    text = tree.source.text
    at = 0
    for token in tree.tokens:
        if token.kind not in ("_NL", "COMMA"):
            yield from _comments_in(text, at, token.start)
            at = token.end
    yield from _comments_in(text, at, len(text))


def _comments_in(text: str, start: int, end: int) -> Iterator[tuple[str, int]]:
    for found in _COMMENT.finditer(text, start, end):
        yield found.group().rstrip(" \t\r"), found.start()
