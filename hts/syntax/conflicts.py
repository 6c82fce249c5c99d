"""Marks of an unresolved merge, as git and other systems leave them in a file."""

from __future__ import annotations

import re

from hts.base.findings import Finding, Label, Report
from hts.base.text import Source
from hts.syntax.syntax_errors import UNRESOLVED_MERGE

#: Seven signs at the start of a line: ours, the common text, theirs, and the end.
_MARK = re.compile(r"^(<{7}|\|{7}|={7}|>{7})(?:[ \t][^\n]*)?\r?$", re.MULTILINE)
_ANY = ("<<<<<<<", "=======", ">>>>>>>", "|||||||")


def first_side(source: Source, report: Report) -> str:
    """The text as the first side of every conflict has it, of the same length as the source.

    All conflicts of a text are told as one finding; a text without them is returned as it is.
    """
    text = source.text
    if not any(mark in text for mark in _ANY):
        return text
    marks = list(_MARK.finditer(text))
    if not marks:
        return text
    begun = sum(mark[1][0] == "<" for mark in marks) or 1
    first = marks[0]
    report.add(
        Finding(
            UNRESOLVED_MERGE,
            f"{begun} unresolved merge conflict{'s' if begun > 1 else ''}",
            Label(source.span(first.start(), first.end()), "the first begins here"),
            help=UNRESOLVED_MERGE.fix,
        )
    )
    pieces: list[str] = []
    at = 0
    hidden = False
    for mark in marks:
        piece = text[at : mark.start()]
        pieces += [_blank(piece) if hidden else piece, _blank(mark[0])]
        hidden = mark[1][0] in "|="
        at = mark.end()
    # A mark that nothing ends hides nothing: what follows it is read.
    pieces.append(text[at:])
    return "".join(pieces)


def _blank(text: str) -> str:
    return re.sub(r"[^\r\n]", " ", text)
