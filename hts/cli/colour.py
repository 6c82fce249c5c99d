"""Whether a stream is written to in colour."""

from __future__ import annotations

import os
from typing import TextIO


def coloured(stream: TextIO) -> bool:
    """On a terminal that can, unless the user has said no (NO_COLOR, as no-color.org has it)."""
    return stream.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
