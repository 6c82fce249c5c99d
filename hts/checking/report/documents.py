"""JSON documents, and what the formats of other programs have in common."""

from __future__ import annotations

import json
import re
from typing import Any

from hts.base.findings import Finding
from hts.checking.report.terminal import printable

_DELETE = "\x7f"
_HIDDEN = re.compile("[^\n -~]")


def json_text(document: Any) -> str:
    """The document as JSON. Characters that a terminal would obey instead of show, and stray bytes
    of file names (\\udc80 to \\udcff), are written as escapes, so that the text is UTF-8."""
    text = json.dumps(document, ensure_ascii=False, indent=1) + "\n"
    return text if text.isascii() and _DELETE not in text else _HIDDEN.sub(_escaped, text)


def _escaped(match: re.Match[str]) -> str:
    character = match[0]
    if character.isprintable():
        return character
    # The only control character that JSON lets stand as it is.
    return "\\u007f" if character == _DELETE else json.dumps(character)[1:-1]


def told(finding: Finding) -> str:
    """Message, notes and help, a line each, fit to be shown to people."""
    lines = [finding.message, *(f"note: {note}" for note in finding.notes)]
    if finding.help:
        lines.append(f"help: {finding.help}")
    return "\n".join(printable(line) for line in lines)
