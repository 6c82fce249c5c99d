"""Findings as plain data for JSON, and back."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from hts.base.findings import Finding, Kind, Label
from hts.base.text import Source, Span


class Foreign(Exception):
    """A finding points into a text that its outcome does not rest on."""


def to_data(finding: Finding, texts: dict[str, int], kinds: dict[str, Any]) -> list[Any]:
    """A finding as data. ``texts`` numbers the texts it may point into by their names; its kind
    is put into ``kinds`` by code. Raises Foreign."""
    kinds.setdefault(finding.kind.code, list(finding.kind))
    return [
        finding.kind.code,
        finding.severity,
        finding.message,
        finding.address,
        finding.help,
        list(finding.notes),
        [_label(label, texts) for label in (finding.at, *finding.others)],
    ]


def from_data(
    data: list[Any], text: Callable[[int], Source], kind: Callable[[str], Kind]
) -> Finding:
    """The finding again; ``text`` gives the text of a number, ``kind`` the kind of a code."""
    code, severity, message, address, help, notes, labels = data
    at, *others = [Label(Span(text(n), start, end), said) for n, start, end, said in labels]
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


def _label(label: Label, texts: dict[str, int]) -> list[Any]:
    span = label.span
    number = texts.get(span.source.name)
    if number is None:
        raise Foreign(span.source.name)
    return [number, span.start, span.end, label.text]
