"""What the formats of other programs have in common."""

from __future__ import annotations

from hts.base.findings import Finding
from hts.checking.report.terminal import printable


def told(finding: Finding) -> str:
    """Message, notes and help, a line each, fit to be shown to people."""
    lines = [finding.message, *(f"note: {note}" for note in finding.notes)]
    if finding.help:
        lines.append(f"help: {finding.help}")
    return "\n".join(printable(line) for line in lines)
