"""A kind of finding: its code, its name and how grave it is."""

from __future__ import annotations

from typing import Literal, NamedTuple

Severity = Literal["error", "warning", "advice"]

ERROR: Severity = "error"
WARNING: Severity = "warning"
ADVICE: Severity = "advice"


class Kind(NamedTuple):
    """What every finding of one kind shares.

    ``name`` names the bad pattern, so that "waive <name>" reads well. ``floor`` is the lowest
    severity a configuration or a waiver may give it; ``None`` means it can be switched off.
    """

    code: str
    name: str
    severity: Severity
    summary: str
    why: str
    fix: str
    floor: Severity | None = None
