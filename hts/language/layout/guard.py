"""Lays a text out and proves that nothing but its white space has changed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import zip_longest

from hts.base.findings import Finding, Label, Report
from hts.base.text import Source
from hts.language.layout import layout
from hts.language.layout.layout_errors import LAYOUT_GUARD
from hts.language.layout.meaning import pieces
from hts.syntax import Tree, parse

_COMMENT = re.compile(r"#[^\n]*")


def settled(source: Source, report: Report) -> str | None:
    """The text in the one layout, None (with findings) where it cannot be laid out.

    The result is read again: it must give the same entries and the same comments in the same
    order, and be its own layout. Where it does not, that is reported as `layout-guard`.
    """
    errors = Report()
    if source.text.endswith("\r"):
        # The last line ends with half of a line end: white space, as the whole one is.
        source = Source(f"{source.text[:-1]}\n", source.name, source.path)
    tree = parse(source, errors)
    for finding in errors.findings:
        report.add(finding)
    if errors.findings:
        return None
    text = layout.laid_out(tree)
    # What is laid out already is read and laid out as it stands: there is nothing to prove.
    problem = _problem(tree, text) if text != source.text else None
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
    for one, other in zip_longest(pieces(tree), pieces(again), fillvalue=("", "", 0)):
        if one[:2] != other[:2]:
            return f"laid out, {one[1]!r} would be read as {other[1]!r}", one[2]
    if errors.findings:
        return f"laid out, the text would not be read: {errors.findings[0].message}", 0
    for mine, its in zip_longest(comments(tree), comments(again), fillvalue=("", 0)):
        if mine[0] != its[0]:
            return f"laid out, the comment {mine[0]!r} would become {its[0]!r}", mine[1]
    if layout.laid_out(again) != text:
        return "laid out twice, the text would change again", 0
    return None


def comments(tree: Tree) -> Iterator[tuple[str, int]]:
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
