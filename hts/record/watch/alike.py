"""Which alarms are the same alarm at two looks."""

from __future__ import annotations

import re

#: A figure of a reading, rate or time, which changes from look to look.
_FIGURES = re.compile(r"(?<!\w)-?\d+(?:\.\d+)?(?= (?:degC|degF|K|h|min|s)\b)|\d+(?::\d\d){1,2}")


def alike(alarm: str) -> str:
    """The alarm without what changes while it goes on; whom it is about stays."""
    return _FIGURES.sub("", alarm)
