"""The text with line numbers: findings under their lines, the reason of a value in its line."""

from __future__ import annotations

from bisect import bisect_right
from itertools import pairwise
from typing import NamedTuple

from hts.base.findings import Finding
from hts.editor.phrase import BY_RULE, QUANTITY, WORDS
from hts.editor.place import Place
from hts.editor.reasons import Reason, quantity_at, reasons_at
from hts.view.checked import Checked
from hts.view.markup import Html, Part, html, slug, tag

#: Shape and word of each severity: no colour is needed to tell them apart.
_VALUES = (QUANTITY, BY_RULE)
SIGNS = {"error": "✕ error", "warning": "▲ warning", "advice": "○ advice"}


class _Piece(NamedTuple):
    start: int
    end: int
    class_: str


def line_id(number: int) -> str:
    """The id of a line of the text."""
    return f"L{number}"


def source_text(checked: Checked, joints: tuple[str, ...] = ()) -> Html:
    """All lines, with the reasons for all joints or those named. Only where it could be read."""
    source = checked.text.source
    lines = source.text.split("\n")
    if lines and not lines[-1]:
        lines.pop()
    pieces, reasons = _pieces(checked, checked.reasons(joints), len(lines))
    below: dict[int, list[Finding]] = {}
    for finding in checked.findings:
        if finding.source is source:
            number = source.position(finding.at.span.start)[0]
            below.setdefault(number, []).append(finding)
    rows = []
    for number, line in enumerate(lines, 1):
        marked = [*pieces.get(number, ())]
        for finding in below.get(number, ()):
            start = finding.at.span.start - source.line_starts[number - 1]
            end = start + max(1, finding.at.span.end - finding.at.span.start)
            marked.append(_Piece(start, min(end, len(line)), "found"))
        words = _line(line.rstrip("\r"), marked)
        given = reasons.get(number, [])
        if given:
            told_here = (reason_tree(reason.text) for reason in given)
            words = tag("details", tag("summary", words), *told_here, id=f"line-why-{number}")
        notes = html(*(_note(f) for f in below.get(number, ())))
        link = tag("a", str(number), class_="number", href=f"#{line_id(number)}", tabindex="-1")
        body = tag("div", words, notes, class_="words")
        rows.append(tag("div", link, body, class_="row", id=line_id(number)))
    return tag("div", *rows, class_="source")


def reason_id(address: str) -> str:
    """The id of the reasons at an address, in the list of all of them."""
    return f"why-{slug(address)}"


def reason_tree(text: str) -> Html:
    """The tree of a reason with its lines and indents."""
    lines = text.strip("\n").split("\n")
    return tag("div", Html("\n".join(html(line) for line in lines)), class_="reason")


def _note(finding: Finding) -> Html:
    words: list[Part] = [
        tag("strong", SIGNS[finding.severity], class_=finding.severity), ": ", finding.message,
        tag("span", f" {finding.kind.name} ({finding.kind.code})", class_="quiet"),
    ]  # fmt: skip
    return tag("div", *words, class_=f"note {finding.severity}")


def _pieces(
    checked: Checked, known: list[Reason], count: int
) -> tuple[dict[int, list[_Piece]], dict[int, list[Reason]]]:
    """By line: what its words are, and the reasons of the values it states."""
    source = checked.text.source
    pieces: dict[int, list[_Piece]] = {}
    reasons: dict[int, list[Reason]] = {}
    starts = source.line_starts
    for place in checked.text.places():
        span = place.span
        number = bisect_right(starts, span.start)
        offset = starts[number - 1]
        given = reasons_at(place, known) if _states(place) else []
        class_ = "begin" if place.role == WORDS else "value" if given else ""
        if class_:
            pieces.setdefault(number, []).append(
                _Piece(span.start - offset, span.end - offset, class_)
            )
        here = reasons.setdefault(number, [])
        here += [reason for reason in given if reason not in here]
    for number in range(1, count + 1):
        remark = _remark(source.line(number))
        if remark is not None:
            pieces.setdefault(number, []).append(remark)
    return pieces, reasons


def _states(place: Place) -> bool:
    """Whether it states the very value that a rule limits, and not something else beside it."""
    limited, steps = quantity_at(place), place.path.split(".")
    if place.role == WORDS or not limited:
        return False
    if limited in steps[:-1] and limited != steps[-1]:
        return limited == steps[-2] and limited != "thermocouples" and place.role in _VALUES
    return True


def _remark(line: str) -> _Piece | None:
    quoted = False
    for at, letter in enumerate(line):
        if letter == '"':
            quoted = not quoted
        elif letter == "#" and not quoted:
            return _Piece(at, len(line), "remark")
    return None


def _line(line: str, pieces: list[_Piece]) -> Html:
    """One line, cut where a piece begins or ends; pieces may lie in each other."""
    edges = {0, len(line), *(p.start for p in pieces), *(p.end for p in pieces)}
    cuts = sorted(edge for edge in edges if 0 <= edge <= len(line))
    parts: list[Part] = []
    for start, end in pairwise(cuts):
        classes = dict.fromkeys(p.class_ for p in pieces if p.start <= start and end <= p.end)
        # Tabs are blanks of a text and stay.
        words = Html("\t".join(html(word) for word in line[start:end].split("\t")))
        parts.append(tag("span", words, class_=" ".join(classes)) if classes else words)
    return html(*parts) if parts else Html("&#8203;")
