"""How a stream is written to: in colour or not, and how wide."""

from __future__ import annotations

import os
import sys
from typing import NoReturn, TextIO

#: What the user has said with --color; the last one counts.
said = ["auto"]


def coloured(stream: TextIO) -> bool:
    """On a terminal that can, unless the user has said no (NO_COLOR, as no-color.org has it)."""
    if said[-1] != "auto":
        return said[-1] == "always"
    return stream.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def width_of(stream: TextIO) -> int | None:
    """Characters in a line of a terminal (COLUMNS where that is set); None where the text goes to
    a file or another program, which search it line by line."""
    if not stream.isatty():
        return None
    columns = os.environ.get("COLUMNS", "")
    if columns.isdecimal() and int(columns):
        return int(columns)
    try:
        return os.get_terminal_size(stream.fileno()).columns
    except (OSError, ValueError):
        return None


def reader_gone() -> NoReturn:
    """Ends where the reader of the output has gone; what is left of it must go somewhere."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    sys.exit(2)
