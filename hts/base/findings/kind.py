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
    severity a configuration, a baseline or a waiver may give it; ``None`` means that nothing more
    is asked than what `lowest` says.
    """

    code: str
    name: str
    severity: Severity
    summary: str
    why: str
    fix: str
    floor: Severity | None = None

    @property
    def lowest(self) -> Severity | None:
        """The lowest severity a configuration may give it; None where it may leave it out.

        An error says that a limit is broken or that a text cannot be trusted: no file of settings
        may turn that into silence, so it stays a warning at least.
        """
        return self.floor or (WARNING if self.severity == ERROR else None)
