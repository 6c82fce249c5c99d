"""Findings as JUnit XML, for programs that show test results.

A file is a suite. An error or warning is a failed case; advice is a passed one that says something;
a file without findings has one passed case, so that it is seen to have been checked.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from xml.sax.saxutils import escape, quoteattr

from hts.base.findings import Finding
from hts.checking.checker.results import Results
from hts.checking.report.terminal import block, printable

_CLEAN = "no findings"


def write(results: Results, *, colour: bool = False) -> str:
    """The whole report as one XML document. What XML 1.0 (2.2) does not allow, and what would
    steer a terminal, is shown by its number."""
    by_file: dict[str, list[Finding]] = {name: [] for name in results.checked}
    for finding in results.findings:
        by_file.setdefault(finding.source.name, []).append(finding)
    suites = [_suite(name, findings) for name, findings in by_file.items()]
    suites += [_unread(f.name, f.reason) for f in results.failures]
    suites += [_quieted(str(each)) for each in results.quieted]
    failed = sum(1 for finding in results.findings if _fails(finding))
    tests = sum(max(1, len(findings)) for findings in by_file.values()) + len(results.failures)
    tests += len(results.quieted)
    head = _tag(
        "testsuites",
        name="hts check",
        tests=str(tests),
        failures=str(failed),
        errors=str(len(results.failures)),
    )
    return '<?xml version="1.0" encoding="UTF-8"?>\n' + "".join(
        [f"{head}\n", *suites, "</testsuites>\n"]
    )


def _fails(finding: Finding) -> bool:
    return finding.severity != "advice"


def _suite(name: str, findings: list[Finding]) -> str:
    names: Counter[str] = Counter()
    cases = [_case(finding, names) for finding in findings]
    failed = sum(map(_fails, findings))
    return _of(name, cases or [_tag("testcase", "/", name=_CLEAN, classname=name)], failed, 0)


def _of(name: str, cases: list[str], failures: int, errors: int) -> str:
    counts = {"tests": len(cases), "failures": failures, "errors": errors}
    head = _tag("testsuite", name=name, **{word: str(count) for word, count in counts.items()})
    return "".join([f" {head}\n", *(f"  {case}\n" for case in cases), " </testsuite>\n"])


def _case(finding: Finding, names: Counter[str]) -> str:
    kind = finding.kind
    name = f"{kind.code} {kind.name}" + (f" at {finding.address}" if finding.address else "")
    names[name] += 1
    if names[name] > 1:
        name += f" ({names[name]})"
    head = _tag("testcase", name=name, classname=finding.source.name, file=finding.source.name)
    text = escape(_shown(block(finding, False).splitlines()))
    if not _fails(finding):
        return f"{head}<system-out>{text}</system-out></testcase>"
    failure = _tag("failure", type=finding.severity, message=finding.message)
    return f"{head}{failure}{text}</failure></testcase>"


def _unread(name: str, reason: str) -> str:
    case = _tag("testcase", name="cannot be read", classname=name, file=name)
    return _of(name, [f"{case}{_tag('error', '/', message=reason)}</testcase>"], 0, 1)


def _quieted(text: str) -> str:
    return _of("settings", [_tag("testcase", "/", name=text, classname="settings")], 0, 0)


def _tag(element: str, end: str = "", **attributes: str) -> str:
    shown = "".join(f" {key}={quoteattr(printable(value))}" for key, value in attributes.items())
    return f"<{element}{shown}{end}>"


def _shown(lines: Iterable[str]) -> str:
    return "\n".join(map(printable, lines))
