"""Fixes that move signs about and leave what is said as it is."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hts.base.findings import LAYOUT, OFFERED, Edit, Finding, Fix
from hts.base.text import Source
from hts.language.vocabulary.hidden import HIDDEN

_BLANKS = " \t"


def brace_on_own_line(finding: Finding) -> Iterator[Fix]:
    """Takes the brace to the end of the entry before it, in front of a comment there."""
    source = finding.source
    at = finding.at.span.start
    before = _last_word_before(source, at)
    if before is None:
        return
    line_start = source.text.rfind("\n", 0, at) + 1
    line_end = _end_of_line(source, at)
    alone = not source.text[line_start:at].strip() and not source.text[at + 1 : line_end].strip()
    removed = Edit(line_start, _behind(source, line_end), "") if alone else Edit(at, at + 1, "")
    yield Fix("move { to the end of the line before", LAYOUT, (Edit(before, before, " {"), removed))


def missing_line_break(finding: Finding) -> Iterator[Fix]:
    """Begins a new line for the second entry, indented as the first."""
    source = finding.source
    at = finding.at.span.start
    start = at
    while source.text[start - 1] in _BLANKS:
        start -= 1
    line_start = source.text.rfind("\n", 0, at) + 1
    indent = re.match(r"[ \t]*", source.text[line_start:])
    assert indent is not None
    yield Fix("begin a new line", LAYOUT, (Edit(start, at, newline(source) + indent[0]),))


def said_twice(finding: Finding) -> Iterator[Fix]:
    """Takes out an entry that says the same as the first; a comment in it keeps it there."""
    source = finding.source
    if not finding.others:
        return
    first, second = finding.others[0].span, finding.at.span
    lines = []
    for span in (first, second):
        line_start = source.text.rfind("\n", 0, span.start) + 1
        line_end = _end_of_line(source, span.start)
        lines.append((line_start, line_end, source.text[line_start:line_end]))
    said = [" ".join(text.split()) for _, _, text in lines]
    start, end, text = lines[1]
    if said[0] != said[1] or "#" in text or "{" in text or text.rstrip().endswith(","):
        return
    yield Fix("remove the second one", LAYOUT, (Edit(start, _behind(source, end), ""),))


def hidden_character(finding: Finding) -> Iterator[Fix]:
    """Takes out what cannot be seen: what stands round it is read then, or another text. A comment
    is kept letter by letter."""
    span = finding.at.span
    source = finding.source
    line_start = source.text.rfind("\n", 0, span.start) + 1
    before = source.text[line_start : span.start]
    comment = "#" in before and not before.count('"') % 2
    if source.text[span.start : span.start + 1] in HIDDEN and not comment:
        edit = Edit(span.start, span.start + 1, "")
        yield Fix("remove the hidden character", OFFERED, (edit,))


def stray_brace(finding: Finding) -> Iterator[Fix]:
    """Takes the brace out; whether a block was closed too early only who wrote it knows."""
    source = finding.source
    at = finding.at.span.start
    line_start = source.text.rfind("\n", 0, at) + 1
    line_end = _end_of_line(source, at)
    alone = source.text[line_start:line_end].strip() == "}"
    edit = Edit(line_start, _behind(source, line_end), "") if alone else Edit(at, at + 1, "")
    yield Fix("remove }", OFFERED, (edit,))


def newline(source: Source) -> str:
    """The line end of a text."""
    first = source.text.find("\n")
    return "\r\n" if first > 0 and source.text[first - 1] == "\r" else "\n"


def whole_lines(source: Source, start: int, end: int) -> Edit:
    """What takes out the lines that a piece of the text fills."""
    line_start = source.text.rfind("\n", 0, start) + 1
    return Edit(line_start, _behind(source, _end_of_line(source, end)), "")


def _end_of_line(source: Source, at: int) -> int:
    end = source.text.find("\n", at)
    return end if end >= 0 else len(source.text)


def _behind(source: Source, line_end: int) -> int:
    return min(line_end + 1, len(source.text))


def _last_word_before(source: Source, at: int) -> int | None:
    """Where the last line before an offset ends that holds more than a comment."""
    end = source.text.rfind("\n", 0, at)
    while end >= 0:
        start = source.text.rfind("\n", 0, end) + 1
        line = source.text[start:end]
        code = re.match(r'(?:[^"#]|"(?:[^"\\]|\\.)*")*', line)
        assert code is not None
        said = code[0].rstrip(" \t\r")
        if said:
            return start + len(said)
        end = start - 1
    return None
