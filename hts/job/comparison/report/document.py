"""For machines, one JSON document."""

from __future__ import annotations

from typing import Any

from hts import __version__
from hts.base.text.json_text import json_text
from hts.job.comparison.approvals import Judged
from hts.job.comparison.change import Change, Side
from hts.job.comparison.registry import VERDICTS
from hts.job.comparison.report.told import names


def write(judged: Judged) -> str:
    """The whole report; every change at every address, keys in a fixed order."""
    comparison = judged.comparison
    old, new = names(comparison)
    document = {
        "tool": {"name": "hts", "version": __version__},
        "old": old,
        "new": new,
        "worst": judged.worst,
        **changes(judged),
        "unused_approvals": [entry.as_json() for entry in judged.unused],
    }
    return json_text(document)


def changes(judged: Judged) -> dict[str, Any]:
    """What changed, and what only reads differently."""
    comparison = judged.comparison
    return {
        "changes": [_change(change, judged) for change in _ordered(comparison.changes)],
        "not_predicted": list(comparison.unpredicted),
        "representations": [each._asdict() for each in comparison.representations],
    }


def _ordered(changes: tuple[Change, ...]) -> list[Change]:
    return sorted(changes, key=lambda change: VERDICTS.index(change.verdict))


def _change(change: Change, judged: Judged) -> dict[str, Any]:
    approval = judged.approval(change)
    return {
        "address": change.address,
        "area": change.area,
        "kind": change.kind,
        "action": change.action,
        "verdict": change.verdict,
        "reason": change.reason,
        "lacks": change.lacks,
        "source": change.source,
        "basis": change.basis,
        "old": _side(change.old),
        "new": _side(change.new),
        "approved_by": approval.by if approval is not None else None,
    }


def _side(side: Side | None) -> dict[str, Any] | None:
    if side is None:
        return None
    at = None
    if side.place is not None:
        line, column = side.place.source.position(side.place.start)
        at = {"file": side.place.source.name, "line": line, "column": column}
    return {"address": side.address, "text": side.text, "value": side.value, "at": at}
