"""Findings for people: how grave and what, where in words and in the file, why, and what to do.

No sign depends on a column or a colour: the part meant is marked inside its own line, so that a
screen reader says it where it stands and a narrow window may wrap.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from hts.base.findings import Finding, Kind, Label
from hts.checking.checker.results import Results
from hts.checking.report.place import place_in_words

_COLOURS = {"error": "31;1", "warning": "33;1", "advice": "36;1"}
_MARKED = "1;4"
_BLANKS = re.compile(r" {2,}")
_OPEN, _CLOSE, _CUT = ">>", "<<", "…"
#: The words that begin the lines of a finding, and what follows them, are told apart by this.
_INDENT = "  "
_WORDS_WIDTH = 7
#: Characters a line is wrapped at, whatever the terminal says.
NARROWEST, WIDEST = 60, 120
#: Characters of the text that are shown where nothing is wrapped.
_LONGEST = 160


def write(results: Results, *, colour: bool, width: int | None = None, quiet: bool = False) -> str:
    """The whole report as text, wrapped at ``width``; the reason of a rule is told once. ``quiet``
    leaves out advice and the line that sums up."""
    parts: list[str] = []
    told: set[Kind] = set()
    for finding in results.findings:
        if quiet and finding.severity == "advice":
            continue
        parts.append(block(finding, colour, width, why=finding.kind not in told))
        told.add(finding.kind)
    parts += [
        f"{_paint('cannot read', '31;1', colour)} {printable(f.name)}: {printable(f.reason)}\n"
        for f in results.failures
    ]
    if results.gone:
        parts.append("".join(f"no longer found: {printable(entry)}\n" for entry in results.gone))
    # What settings leave out is told however quiet it is to be.
    parts += [_quieted(results)] if quiet else [summary(results)]
    return "\n".join(part for part in parts if part)


def block(finding: Finding, colour: bool, width: int | None = None, *, why: bool = True) -> str:
    """One finding with its places; wrapped at ``width``, which is kept between 60 and 120."""
    kind = finding.kind
    if width is not None:
        width = max(NARROWEST, min(width, WIDEST))
    severity = finding.severity.upper()
    lines = list(_wrapped(f"{severity}: {printable(finding.message)}", "", width))
    lines[0] = lines[0].replace(severity, _paint(severity, _COLOURS[finding.severity], colour), 1)
    lines += _place("where", finding.at, finding.address, colour, width)
    for label in finding.others:
        lines += _place("also", label, "", colour, width)
    if why:
        lines += _said("why", _sentence(kind.why), width)
    for note in finding.notes:
        lines += _said("note", _sentence(note), width)
    lines += _said("do", _sentence(finding.help or kind.fix), width)
    lines += _said("rule", f"{kind.name} ({kind.code})", width)
    return "\n".join(lines) + "\n"


def _said(word: str, text: str, width: int | None) -> Iterator[str]:
    return _wrapped(printable(text), f"{_INDENT}{word:{_WORDS_WIDTH}}", width)


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]


def _place(word: str, label: Label, address: str, colour: bool, width: int | None) -> Iterator[str]:
    """The place in words, its file, line and column, and its line of the text with it marked."""
    span = label.span
    line, column = span.source.position(span.start)
    words = place_in_words(span, address)
    at = f"{span.source.name}:{line}:{column}"
    about = f"{label.text}: " if label.text else ""
    yield from _said(word, f"{about}{words} ({at})" if words else f"{about}{at}", width)
    hang = " " * (len(_INDENT) + _WORDS_WIDTH)
    room = (width - len(hang) if width is not None else _LONGEST) - len(_OPEN + _CLOSE)
    before, meant, after = _excerpt(label, line, column, room)
    marked = _paint(f"{_OPEN}{printable(meant)}{_CLOSE}", _MARKED, colour)
    yield f"{hang}{printable(before)}{marked}{printable(after)}".rstrip()


def _excerpt(label: Label, line: int, column: int, room: int) -> tuple[str, str, str]:
    """The line of a place in three parts, without its indent, cut on both sides to the room."""
    span = label.span
    text = span.source.line(line).expandtabs(1)
    end = min(column - 1 + max(1, span.end - span.start), len(text))
    before, meant, after = text[: column - 1].lstrip(), text[column - 1 : end], text[end:]
    if len(before) + len(meant) + len(after) > room:
        before, meant, after = (_BLANKS.sub(" ", part) for part in (before, meant, after))
    meant = _cut_end(meant, room * 2 // 3)
    left = room - len(meant)
    before = _cut_end(before[::-1], max(left // 2, left - len(after)))[::-1]
    return before, meant, _cut_end(after, left - len(before))


def _cut_end(text: str, room: int) -> str:
    return text if len(text) <= room else text[: max(0, room - len(_CUT))] + _CUT


def _wrapped(text: str, lead: str, width: int | None) -> Iterator[str]:
    """The text behind its lead; the lines that follow hang below its beginning."""
    if width is None or len(lead) + len(text) <= width:
        yield lead + text
        return
    from textwrap import wrap

    hang = " " * (len(lead) or len(_INDENT) + _WORDS_WIDTH)
    yield from wrap(
        text,
        width,
        initial_indent=lead,
        subsequent_indent=hang,
        break_long_words=False,
        break_on_hyphens=False,
    )


def statistics(results: Results) -> str:
    """How many findings of each rule there are, the most frequent first."""
    counted = Counter((f.kind, f.severity) for f in results.findings)
    rows = sorted(counted.items(), key=lambda each: (-each[1], each[0][0].code, each[0][1]))
    return "".join(
        f"{count:>5}  {severity:<7}  {kind.name} ({kind.code})\n"
        for (kind, severity), count in rows
    )


def summary(results: Results) -> str:
    """One line: files, findings of each severity, and what a baseline has to do with them."""
    files = len(results.checked)
    checked = f"{files} file{'s' if files != 1 else ''} checked"
    counted = [
        f"{count} {word if count == 1 or word == 'advice' else word + 's'}"
        for word, count in results.counts().items()
        if count
    ]
    unjudged = len({each.name for each in results.failures})
    if unjudged:
        # "No findings" is no word on what could not be judged.
        checked += f", {unjudged} could not be judged whole"
    said = ", ".join(counted) or (
        "no findings" if not unjudged else "no findings in what was judged"
    )
    if unjudged and not files:
        return f"nothing judged: {checked}\n{_quieted(results)}"
    known = f"; {results.known} known to the baseline" if results.known else ""
    gone = f"; {len(results.gone)} of the baseline no longer found" if results.gone else ""
    return f"{checked}: {said}{known}{gone}\n{_quieted(results)}"


def _quieted(results: Results) -> str:
    return "".join(f"{printable(str(each))}\n" for each in results.quieted)


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
