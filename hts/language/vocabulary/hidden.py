"""Characters that make a text look different from what it holds."""

from __future__ import annotations

from hts.base.findings import Finding, Label, Report
from hts.base.text import Source
from hts.language.vocabulary.mistakes import HIDDEN_CHARACTER

#: Control characters, marks that turn the direction of writing, and blanks without width.
HIDDEN = frozenset(
    [chr(code) for code in (*range(32), *range(127, 160))]
    + list("\u061c\u200b\u200e\u200f\u202a\u202b\u202c\u202d\u202e")
    + list("\u2060\u2066\u2067\u2068\u2069\ufeff")
) - set("\t\n\r")


def hidden_characters(source: Source, report: Report) -> None:
    """Reports the first hidden character of a source that no finding points at yet.

    A byte order mark at its start is none.
    """
    text = source.text
    if text.isascii() and text.replace("\n", "").replace("\t", "").replace("\r", "").isprintable():
        return
    reported = {finding.at.span.start for finding in report.findings}
    for at, character in enumerate(text):
        if at in reported or (at == 0 and character == "\ufeff"):
            continue
        if character in HIDDEN:
            report.add(
                Finding(
                    HIDDEN_CHARACTER,
                    f"the character U+{ord(character):04X} cannot be seen when the text is read",
                    Label(source.span(at, at + 1)),
                    help="remove it",
                )
            )
            return
