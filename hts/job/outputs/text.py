"""Text of a specification made harmless for the file it goes into."""

from __future__ import annotations

import re

_NUMBER = re.compile(r"-?[0-9]+(\.[0-9]+)?")
# Spreadsheets take a cell that begins so for a formula; the wide forms count in some.
_FORMULA = (
    "=",
    "+",
    "-",
    "@",
    "\t",
    "\r",
    "\N{FULLWIDTH EQUALS SIGN}",
    "\N{FULLWIDTH PLUS SIGN}",
    "\N{FULLWIDTH HYPHEN-MINUS}",
    "\N{FULLWIDTH COMMERCIAL AT}",
)
_MARKUP = re.compile(r"([\\`*_\[\]<>|~&#!$@])")
# What readers turn into a link without being asked.
_LINK = re.compile(r"(?i)(:)(?=//)|(?<=\bwww)(\.)|(?<=\bmailto)(:)|(?<=\bxmpp)(:)")
# What begins a list, a heading line or a quotation at the start of a line.
_LEADING = re.compile(r"^([-+=:]|\d+(?=[.)](?:\s|$)))")


def visible(text: str) -> str:
    """The text with control characters, those that change its direction and those that cannot
    be seen written as their number: `<U+202E>`."""
    if text.isprintable():
        return text
    return "".join(c if c.isprintable() else f"<U+{ord(c):04X}>" for c in text)


def csv_text(text: str) -> str:
    """The text as a cell no spreadsheet takes for a formula; numbers stay numbers."""
    shown = visible(text)
    if text.startswith(_FORMULA) and not _NUMBER.fullmatch(text):
        return f"'{shown}"
    return shown


def markdown_text(text: str) -> str:
    """The text for one line of Markdown, where it reads as written and is never markup."""
    shown = _MARKUP.sub(r"\\\1", visible(text))
    shown = _LINK.sub(lambda found: f"\\{found.group()}", shown)
    return _LEADING.sub(_escape_leading, shown)


def _escape_leading(found: re.Match[str]) -> str:
    mark = found.group()
    # A digit cannot be escaped; the point or bracket after it can.
    return f"{mark}\\" if mark.isdigit() else f"\\{mark}"
