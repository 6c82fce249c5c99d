"""Findings for machines, one JSON document."""

from __future__ import annotations

import json
from typing import Any

from hts import __version__
from hts.check.files import Results
from hts.findings import Finding, Label


def write(results: Results, *, colour: bool = False) -> str:
    """The whole report as JSON, keys in a fixed order.

    A file name that is not UTF-8 keeps its stray bytes as JSON escapes, \\udc80 to \\udcff.
    """
    document = {
        "tool": {"name": "hts", "version": __version__},
        "checked": results.checked,
        "findings": [_finding(finding) for finding in results.findings],
        "failures": [{"name": f.name, "reason": f.reason} for f in results.failures],
    }
    text = json.dumps(document, ensure_ascii=False, indent=1) + "\n"
    return text.encode("utf-8", "backslashreplace").decode("utf-8")


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


def _place(label: Label) -> dict[str, Any]:
    """Lines and columns count from 1, in Unicode code points; the end is exclusive."""
    span = label.span
    line, column = span.source.position(span.start)
    end_line, end_column = span.source.position(span.end)
    return {
        "file": span.source.name,
        "line": line,
        "column": column,
        "end_line": end_line,
        "end_column": end_column,
        "text": label.text,
    }
