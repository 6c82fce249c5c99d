"""Findings: what was read, where, what was expected, and the smallest fix."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from hts.base.findings.fix import Fix
from hts.base.findings.kind import Kind, Severity
from hts.base.text import Source, Span


class Label(NamedTuple):
    """A place a finding points at, with a few words about it."""

    span: Span
    text: str = ""


class Finding:
    """One cause, told once.

    ``address`` (``W12/thermocouples/T3``) names the thing rather than the line, so that waivers,
    baselines and reports survive when lines move. ``at`` is the one primary place; ``others`` may
    lie in another file. ``fixes`` are those that another machine told of; where the text is at
    hand they are worked out when asked for.
    """

    __slots__ = ("address", "at", "fixes", "help", "kind", "message", "notes", "others", "severity")

    def __init__(
        self,
        kind: Kind,
        message: str,
        at: Label,
        *,
        address: str = "",
        others: Iterable[Label] = (),
        notes: Iterable[str] = (),
        help: str = "",
        severity: Severity | None = None,
    ) -> None:
        self.kind = kind
        self.severity: Severity = severity or kind.severity
        self.message = message
        self.at = at
        self.address = address
        self.others = tuple(others)
        self.notes = tuple(notes)
        self.help = help
        self.fixes: tuple[Fix, ...] = ()

    @property
    def source(self) -> Source:
        return self.at.span.source

    def sort_key(self) -> tuple[str, int, int, str, str, str]:
        span = self.at.span
        return (
            span.source.name,
            span.start,
            span.end,
            self.kind.code,
            self.address,
            self.message,
        )

    def __repr__(self) -> str:
        line, column = self.source.position(self.at.span.start)
        return f"<{self.kind.code} {self.source.name}:{line}:{column} {self.message}>"


class Report:
    """Collects the findings of one run; the same finding at the same place counts once.

    ``cut``: it was said that what else cannot be read is not told.
    """

    __slots__ = ("_seen", "cut", "findings")

    def __init__(self) -> None:
        self.findings: list[Finding] = []
        self.cut = False
        self._seen: set[tuple[str, int, int, str, str, str]] = set()

    def add(self, finding: Finding) -> None:
        key = finding.sort_key()
        if key not in self._seen:
            self._seen.add(key)
            self.findings.append(finding)


def ordered(findings: Iterable[Finding]) -> list[Finding]:
    """Findings in the one total order every output uses."""
    return sorted(findings, key=Finding.sort_key)
