"""Findings for machines, one JSON document; grammar/check.schema.json is its schema."""

from __future__ import annotations

from typing import Any

from hts import __version__
from hts.base.findings import Finding, Kind, Label
from hts.base.findings.fix import Fix
from hts.base.text import Source
from hts.base.text.json_text import json_text
from hts.checking.checker.results import Results

#: Raised when a reader of the last form could misread the new one; new keys alone do not.
FORMAT_VERSION = 1


def write(results: Results, *, colour: bool = False) -> str:
    """The whole report as JSON, keys in a fixed order.

    A file name that is not UTF-8 keeps its stray bytes as JSON escapes, \\udc80 to \\udcff.
    """
    from hts.checking.fixes import fixes_of

    counts = results.counts()
    findings = results.findings
    offered = [f.fixes for f in findings] if results.in_pieces else fixes_of(findings)
    document: dict[str, Any] = {
        "format_version": FORMAT_VERSION,
        "tool": {"name": "hts", "version": __version__},
        "checked": results.checked,
        "findings": [
            {**_finding(finding), "fixes": [_fix(finding.source, fix) for fix in fixes]}
            for finding, fixes in zip(findings, offered, strict=True)
        ],
        "suppressed": [
            {**_finding(each.finding), "waived": each.in_text, "reason": each.why}
            for each in results.suppressed
        ],
        "failures": [{"name": f.name, "reason": f.reason} for f in results.failures],
        "summary": {**counts, "known": results.known, "gone": results.gone},
        "quieted": [{"origin": q.origin, "words": q.words} for q in results.quieted],
        "rules": [_rule(kind) for kind in sorted(_kinds(results))],
    }
    if results.shard_plan is not None:
        from hts.checking.checker.shards import to_data

        document["shard"] = to_data(results, offered)
    return json_text(document)


def _kinds(results: Results) -> set[Kind]:
    return {f.kind for f in (*results.findings, *(each.finding for each in results.suppressed))}


def _rule(kind: Kind) -> dict[str, Any]:
    """What a rule looks for, for readers that show it beside the finding."""
    return {
        "code": kind.code,
        "name": kind.name,
        "severity": kind.severity,
        "floor": kind.lowest,
        "summary": kind.summary,
        "why": kind.why,
        "fix": kind.fix,
    }


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "code": finding.kind.code,
        "name": finding.kind.name,
        "severity": finding.severity,
        "message": finding.message,
        "address": finding.address,
        "at": _place(finding.at),
        "others": [_place(label) for label in finding.others],
        "notes": list(finding.notes),
        "help": finding.help,
    }


def _fix(source: Source, fix: Fix) -> dict[str, Any]:
    edits = [{**_where(source, edit.start, edit.end), "text": edit.text} for edit in fix.edits]
    return {"title": fix.title, "kind": fix.kind, "edits": edits}


def _place(label: Label) -> dict[str, Any]:
    span = label.span
    where = _where(span.source, span.start, span.end)
    return {"file": span.source.name, **where, "text": label.text}


def _where(source: Source, start: int, end: int) -> dict[str, int]:
    """Lines and columns count from 1, in Unicode code points; the end is exclusive."""
    line, column = source.position(start)
    end_line, end_column = source.position(end)
    return {"line": line, "column": column, "end_line": end_line, "end_column": end_column}
