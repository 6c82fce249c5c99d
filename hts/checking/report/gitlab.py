"""Findings as a code quality report of GitLab, which compares it with that of the target branch."""

from __future__ import annotations

from typing import Any

from hts.base.findings import Finding
from hts.base.findings.identity import digest_of, fingerprints
from hts.base.text.json_text import json_text
from hts.checking.checker.results import Results, UncheckedFile
from hts.checking.report.documents import told
from hts.checking.report.terminal import printable
from hts.language.model.defaults import Quieted

_SEVERITIES = {"error": "major", "warning": "minor", "advice": "info"}


def write(results: Results, *, colour: bool = False) -> str:
    """The whole report: a list of issues, each with a fingerprint of its own that does not change
    when lines move."""
    issues = [
        _finding(finding, fingerprint)
        for finding, fingerprint in zip(
            results.findings, fingerprints(results.findings), strict=True
        )
    ]
    issues += [_quieted(each) for each in results.quieted]
    return json_text(issues + [_failure(failure) for failure in results.failures])


def _finding(finding: Finding, fingerprint: str) -> dict[str, Any]:
    severity = _SEVERITIES[finding.severity]
    # What nobody may set aside stands above the other errors.
    if finding.severity == finding.kind.floor == "error":
        severity = "critical"
    line = finding.source.position(finding.at.span.start)[0]
    name = f"{finding.kind.code} {finding.kind.name}"
    return _issue(
        f"{name}: {told(finding)}", name, fingerprint, severity, finding.source.name, line
    )


def _failure(failure: UncheckedFile) -> dict[str, Any]:
    fingerprint = digest_of("cannot read", failure.name, failure.reason)
    text = f"cannot be read: {printable(failure.reason)}"
    return _issue(text, "cannot-read", fingerprint, "blocker", failure.name, 1)


def _quieted(each: Quieted) -> dict[str, Any]:
    fingerprint = digest_of("quieted", each.file, each.words)
    text = f"the file of settings {printable(each.words)}"
    return _issue(text, "rules-left-out", fingerprint, "info", each.file, each.line)


def _issue(
    text: str, check: str, fingerprint: str, severity: str, file: str, line: int
) -> dict[str, Any]:
    return {
        "description": text,
        "check_name": check,
        "fingerprint": fingerprint,
        "severity": severity,
        "location": {"path": file, "lines": {"begin": line}},
    }
