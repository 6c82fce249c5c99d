"""Findings as SARIF 2.1.0 (OASIS Standard, 27 March 2020), for code scanning services.

Nothing in it depends on clock, machine or folder: files are named from the root of the repository.
"""

from __future__ import annotations

import os
import re
from typing import Any
from urllib.parse import quote

from hts import __version__
from hts.base.findings import Finding, Kind, Label
from hts.base.findings.fix import Fix
from hts.base.findings.identity import fingerprints
from hts.base.text import Span
from hts.base.text.json_text import json_text
from hts.checking.checker.results import Results, Suppressed, UncheckedFile
from hts.checking.report.documents import told
from hts.checking.report.terminal import printable

#: Name of the folder all files are named from (SARIF 3.14.14), the one most readers know.
ROOT = "%SRCROOT%"
_SCHEMA = (
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
)
#: What would be taken for the place of an argument (3.11.5).
_PLACEHOLDER = re.compile(r"\{(\d+)\}")
_LEVELS = {"error": "error", "warning": "warning", "advice": "note"}


def write(results: Results, *, colour: bool = False) -> str:
    """The whole report as one SARIF log with one run."""
    from hts.checking.fixes import fixes_of

    own = results.findings
    offered = [each.fixes for each in own] if results.in_pieces else fixes_of(own)
    offered += [()] * len(results.suppressed)
    told = [*results.findings, *(each.finding for each in results.suppressed)]
    kinds = sorted({finding.kind for finding in told})
    beside: list[Suppressed | None] = [*[None] * len(results.findings), *results.suppressed]
    index = {kind.code: number for number, kind in enumerate(kinds)}
    run: dict[str, Any] = {
        "tool": {
            "driver": {
                "name": "hts",
                "version": __version__,
                "semanticVersion": __version__,
                "shortDescription": {
                    "text": "Checks specifications of the heat treatment of welds."
                },
                "rules": [_rule(kind) for kind in kinds],
            }
        },
        "columnKind": "unicodeCodePoints",
        "originalUriBaseIds": {ROOT: {"description": {"text": "The root of the repository."}}},
        "invocations": [
            {
                "executionSuccessful": not results.failures,
                "exitCode": results.exit_code,
                "toolExecutionNotifications": [_notification(f) for f in results.failures],
                "toolConfigurationNotifications": [
                    {"level": "note", "message": _message(printable(str(each)))}
                    for each in results.quieted
                ],
            }
        ],
        "artifacts": [
            {"location": _artifact(name), "roles": ["analysisTarget"]} for name in results.checked
        ],
        "results": [
            _result(finding, fingerprint, index)
            | (_suppressions(suppressed) if suppressed else _fixes(finding, fixes))
            for finding, fingerprint, suppressed, fixes in zip(
                told, fingerprints(told), beside, offered, strict=True
            )
        ],
    }
    return json_text({"$schema": _SCHEMA, "version": "2.1.0", "runs": [run]})


def _suppressions(suppressed: Suppressed) -> dict[str, Any]:
    """A waiver stands in the text, a baseline beside it (SARIF 3.35)."""
    kind = "inSource" if suppressed.in_text else "external"
    why = _message(printable(suppressed.why))["text"]
    return {"suppressions": [{"kind": kind, "status": "accepted", "justification": why}]}


def _rule(kind: Kind) -> dict[str, Any]:
    floor = f"It cannot be set below {kind.lowest}." if kind.lowest else ""
    return {
        "id": kind.code,
        "name": kind.name,
        "shortDescription": {"text": kind.summary},
        "fullDescription": {"text": f"{kind.summary} {kind.why}"},
        "help": {
            "text": f"{kind.why}\nWhat to do: {kind.fix}" + (f"\n{floor}" if floor else ""),
            "markdown": f"**Why it matters**: {kind.why}\n\n**What to do**: {kind.fix}"
            + (f"\n\n{floor}" if floor else ""),
        },
        "defaultConfiguration": {"level": _LEVELS[kind.severity]},
    }


def _result(finding: Finding, fingerprint: str, index: dict[str, int]) -> dict[str, Any]:
    place: dict[str, Any] = {"physicalLocation": _physical(finding.at)}
    if finding.at.text:
        place["message"] = _message(printable(finding.at.text))
    if finding.address:
        place["logicalLocations"] = [{"fullyQualifiedName": printable(finding.address)}]
    result: dict[str, Any] = {
        "ruleId": finding.kind.code,
        "ruleIndex": index[finding.kind.code],
        "level": _LEVELS[finding.severity],
        "message": _message(told(finding)),
        "locations": [place],
        "partialFingerprints": {"address/v1": fingerprint},
    }
    if finding.others:
        result["relatedLocations"] = [
            {
                "id": number,
                "physicalLocation": _physical(label),
                **({"message": _message(printable(label.text))} if label.text else {}),
            }
            for number, label in enumerate(finding.others, 1)
        ]
    return result


def _fixes(finding: Finding, fixes: tuple[Fix, ...]) -> dict[str, Any]:
    """What can be written instead. Each is for a person to choose: none says it is safe."""
    found = [
        {
            "description": _message(printable(fix.title)),
            "artifactChanges": [
                {
                    "artifactLocation": _artifact(finding.source.name),
                    "replacements": [
                        {
                            "deletedRegion": _region(finding.source.span(edit.start, edit.end)),
                            "insertedContent": {"text": edit.text},
                        }
                        for edit in fix.edits
                    ],
                }
            ],
        }
        for fix in fixes
    ]
    return {"fixes": found} if found else {}


def _message(text: str) -> dict[str, str]:
    """A message of literal text: a blank keeps brackets of a specification from being taken for a
    link (3.11.6) or a placeholder."""
    return {"text": _PLACEHOLDER.sub(r"{ \1 }", text.replace("](", "] ("))}


def _physical(label: Label) -> dict[str, Any]:
    return {
        "artifactLocation": _artifact(label.span.source.name),
        "region": _region(label.span),
    }


def _region(span: Span) -> dict[str, Any]:
    line, column = span.source.position(span.start)
    end_line, end_column = span.source.position(span.end)
    return {
        "startLine": line,
        "startColumn": column,
        "endLine": end_line,
        "endColumn": end_column,
    }


def _artifact(name: str) -> dict[str, Any]:
    path = quote(_bytes(name), safe="/")
    if os.path.isabs(name):
        return {"uri": f"file://{path}"}
    return {"uri": path, "uriBaseId": ROOT}


def _bytes(name: str) -> bytes:
    """A path as bytes: its own ones where it is not UTF-8 (POSIX) or not UTF-16 (Windows)."""
    try:
        return name.encode("utf-8", "surrogateescape")
    except UnicodeEncodeError:
        return name.encode("utf-8", "surrogatepass")


def _notification(failure: UncheckedFile) -> dict[str, Any]:
    return {
        "level": "error",
        "message": _message(f"cannot read {printable(failure.name)}: {printable(failure.reason)}"),
        "locations": [{"physicalLocation": {"artifactLocation": _artifact(failure.name)}}],
    }
