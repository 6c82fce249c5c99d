"""Findings as plain data for JSON, and back, and the days they hang on."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from hts.base.findings import Finding, Kind, Label
from hts.base.text import Span


class Foreign(Exception):
    """A finding points into a text that its outcome does not rest on."""


#: A place as data, a few numbers; what they mean is agreed on by whoever writes and reads them.
Place = list[int]


def to_data(finding: Finding, place: Callable[[Span], Place], kinds: dict[str, Any]) -> list[Any]:
    """A finding as data. Its kind is put into ``kinds`` by code. Raises Foreign where ``place``
    does."""
    kinds.setdefault(finding.kind.code, list(finding.kind))
    return [
        finding.kind.code,
        finding.severity,
        finding.message,
        finding.address,
        finding.help,
        list(finding.notes),
        [[place(label.span), label.text] for label in (finding.at, *finding.others)],
    ]


def from_data(
    data: list[Any], span: Callable[[Place], Span], kind: Callable[[str], Kind]
) -> Finding:
    """The finding again; ``span`` gives what stands at a place, ``kind`` the kind of a code."""
    code, severity, message, address, help, notes, labels = data
    at, *others = [Label(span(place), said) for place, said in labels]
    return Finding(
        kind(code),
        message,
        at,
        address=address,
        others=others,
        notes=notes,
        help=help,
        severity=severity,
    )


def past(days: Sequence[str], today: str | None) -> int:
    """How many of the days are over: the outcome is the same for every day that has this number."""
    return 0 if today is None else sum(day < today for day in days)
