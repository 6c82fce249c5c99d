"""Findings for people: what was read, where, what was expected, the smallest fix."""

from __future__ import annotations

from hts.base.findings import Finding, Label
from hts.checking.checker.results import Results

_COLOURS = {"error": "31;1", "warning": "33;1", "advice": "36;1"}
_WIDEST = 160


def write(results: Results, *, colour: bool) -> str:
    """The whole report as text."""
    parts = [block(finding, colour) for finding in results.findings]
    parts += [
        f"{_paint('cannot read', '31;1', colour)} {printable(f.name)}: {printable(f.reason)}\n"
        for f in results.failures
    ]
    if results.gone:
        parts.append("".join(f"no longer found: {printable(entry)}\n" for entry in results.gone))
    parts.append(summary(results))
    return "\n".join(parts)


def block(finding: Finding, colour: bool) -> str:
    """One finding with its places."""
    kind = finding.kind
    head = _paint(finding.severity, _COLOURS[finding.severity], colour)
    lines = [f"{head} {kind.code} {kind.name}: {printable(finding.message)}"]
    lines += _snippet(finding.at, "^", colour)
    for label in finding.others:
        lines += _snippet(label, "-", colour)
    lines += [f"  note: {printable(note)}" for note in finding.notes]
    if finding.help:
        lines.append(f"  help: {printable(finding.help)}")
    return "\n".join(lines) + "\n"


def _snippet(label: Label, mark: str, colour: bool) -> list[str]:
    span = label.span
    source = span.source
    line, column = source.position(span.start)
    text = source.line(line)
    width = max(1, min(span.end, span.start + len(text) - column + 1) - span.start)
    number = str(line)
    gutter = " " * len(number)
    # Long lines are cut on both sides, so that the place stays in view.
    start = max(0, column - 1 - _WIDEST // 2) if len(text) > _WIDEST else 0
    shown = text[start : start + _WIDEST]
    lead = "".join("\t" if c == "\t" else " " for c in shown[: column - 1 - start])
    under = mark * max(1, min(width, len(shown) - len(lead)))
    said = f" {printable(label.text)}" if label.text else ""
    return [
        f"  {gutter}--> {printable(source.name)}:{line}:{column}",
        f"  {number} | {printable(shown)}",
        f"  {gutter} | {lead}{_paint(under, '35', colour)}{said}",
    ]


def summary(results: Results) -> str:
    """One line: files, findings of each severity, and what a baseline has to do with them."""
    files = len(results.checked)
    checked = f"{files} file{'s' if files != 1 else ''} checked"
    told = [
        f"{count} {word if count == 1 or word == 'advice' else word + 's'}"
        for word, count in results.counts().items()
        if count
    ]
    known = f"; {results.known} known to the baseline" if results.known else ""
    gone = f"; {len(results.gone)} of the baseline no longer found" if results.gone else ""
    quieted = "".join(f"{printable(str(each))}\n" for each in results.quieted)
    return f"{checked}: {', '.join(told) or 'no findings'}{known}{gone}\n{quieted}"


def printable(text: str) -> str:
    """The text with control and direction-changing characters shown by their number, so that a
    specification cannot steer the terminal it is shown on."""
    if text.isprintable():
        return text
    return "".join(c if c.isprintable() or c == "\t" else f"<U+{ord(c):04X}>" for c in text)


def printable_lines(text: str) -> str:
    """Each line printable, and ended."""
    return "".join(printable(line) + "\n" for line in text.splitlines())


def _paint(text: str, code: str, colour: bool) -> str:
    return f"\033[{code}m{text}\033[0m" if colour else text
