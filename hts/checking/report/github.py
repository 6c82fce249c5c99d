"""Findings as workflow commands, which GitHub Actions turns into annotations of a change.

GitHub shows ten annotations of each level for a step and drops the rest without a word; what would
be dropped is counted instead.
"""

from __future__ import annotations

from collections import Counter

from hts.base.findings import Finding
from hts.checking.checker.results import Results, UncheckedFile
from hts.checking.report.documents import told
from hts.checking.report.terminal import printable, summary
from hts.language.model.defaults import Quieted

MOST = 10
_LEVELS = {"error": "error", "warning": "warning", "advice": "notice"}


def write(results: Results, *, colour: bool = False) -> str:
    """Commands, a line each, and a line that sums up."""
    lines = [("error", _failure(failure)) for failure in results.failures]
    lines += [("notice", _quieted(each)) for each in results.quieted]
    lines += [(_LEVELS[f.severity], _finding(f)) for f in results.findings]
    seen: Counter[str] = Counter()
    kept = []
    for level, line in lines:
        seen[level] += 1
        if seen[level] <= MOST:
            kept.append(f"{line}\n")
    dropped = sum(max(0, count - MOST) for count in seen.values())
    more = f" ({dropped} not shown as annotations)" if dropped else ""
    first, _, rest = summary(results).partition("\n")
    return "".join(kept) + f"{first}{more}\n{rest}"


def _finding(finding: Finding) -> str:
    span = finding.at.span
    line, column = span.source.position(span.start)
    end_line, end_column = span.source.position(span.end)
    properties = {"file": span.source.name, "line": str(line), "endLine": str(end_line)}
    if line == end_line:
        properties |= {"col": str(column), "endColumn": str(end_column)}
    properties["title"] = f"{finding.kind.code} {finding.kind.name}"
    return _command(_LEVELS[finding.severity], properties, told(finding))


def _failure(failure: UncheckedFile) -> str:
    properties = {"file": failure.name, "title": "cannot be read"}
    return _command("error", properties, failure.reason)


def _quieted(each: Quieted) -> str:
    properties = {"file": each.file, "line": str(each.line), "title": "rules left out"}
    return _command("notice", properties, each.words)


def _command(level: str, properties: dict[str, str], text: str) -> str:
    given = ",".join(f"{key}={_property(value)}" for key, value in properties.items())
    shown = "%0A".join(_data(line) for line in text.split("\n"))
    return f"::{level} {given}::{shown}"


def _data(text: str) -> str:
    return printable(text).replace("%", "%25")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")
