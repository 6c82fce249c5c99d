"""JSON that may be shown on a screen as it is."""

from __future__ import annotations

import json
import re
from typing import Any

_DELETE = "\x7f"
_HIDDEN = re.compile("[^\n -~]")


def json_text(document: Any, indent: int | None = 1, finite: bool = False) -> str:
    """The document as JSON with an end of line; ``indent`` None: all on one line. Characters that
    a terminal would obey instead of show, and stray bytes of file names (\\udc80 to \\udcff), are
    written as escapes, so that the text is UTF-8. ``finite``: what is no number is a ValueError."""
    text = json.dumps(document, ensure_ascii=False, indent=indent, allow_nan=not finite) + "\n"
    return text if text.isascii() and _DELETE not in text else _HIDDEN.sub(_escaped, text)


def _escaped(match: re.Match[str]) -> str:
    character = match[0]
    if character.isprintable():
        return character
    # The only control character that JSON lets stand as it is.
    return "\\u007f" if character == _DELETE else json.dumps(character)[1:-1]
