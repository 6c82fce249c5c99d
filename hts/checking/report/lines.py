"""Findings a line each, `file:line:column: severity: message [name (CODE)]`, as compilers write
them: for editors that know no language server, and for programs that search for such lines."""

from __future__ import annotations

from hts.checking.checker.results import Results
from hts.checking.report.terminal import printable


def write(results: Results, *, colour: bool = False) -> str:
    """A line for each finding, and for what could not be read; nothing where there is none."""
    lines = [
        f"{printable(failure.name)}:1:1: error: {printable(failure.reason)}"
        for failure in results.failures
    ]
    for finding in results.findings:
        span, kind = finding.at.span, finding.kind
        line, column = span.source.position(span.start)
        place = f"{printable(span.source.name)}:{line}:{column}"
        message = printable(finding.message)
        lines.append(f"{place}: {finding.severity}: {message} [{kind.name} ({kind.code})]")
    lines += [
        f"{printable(each.origin)}: note: {printable(each.words)}" for each in results.quieted
    ]
    return "".join(f"{line}\n" for line in lines)
