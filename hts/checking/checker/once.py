"""One cause is one finding: what follows from another finding is left out."""

from __future__ import annotations

from hts.base.findings import Finding
from hts.checking.rules.quantities.implausible_value import RULE


def implausible_once(findings: list[Finding]) -> list[Finding]:
    """The findings without those that call a value implausible another finding points at."""
    if not any(finding.kind is RULE.kind for finding in findings):
        return findings
    told = [
        label.span
        for finding in findings
        if finding.kind is not RULE.kind
        for label in (finding.at, *finding.others)
    ]
    return [
        finding
        for finding in findings
        if finding.kind is not RULE.kind
        or not any(
            span.source is finding.source
            and span.start < finding.at.span.end
            and finding.at.span.start < span.end
            for span in told
        )
    ]
