"""Findings, and what is missing before a document can be issued."""

from __future__ import annotations

from collections.abc import Callable

from hts.base.findings import Finding
from hts.base.text import Span
from hts.checking.checker.fault import fault
from hts.checking.report.place import place_in_words
from hts.editor.phrase import CHOICE
from hts.language.vocabulary.job import Job, Signature
from hts.view.checked import Checked
from hts.view.markup import Html, Part, html, items, tag
from hts.view.source_text import SIGNS

#: A place of a text -> where it leads, "" for a text that has no page.
Leads = Callable[[Span], str]
RELEASED = "for construction"
_SIGNED = ("prepared", "checked", "reviewed", "endorsed", "approved")


def findings(checked: Checked, leads: Leads) -> Html:
    """All of them with place, reason and what to do."""
    if checked.case is None:
        return tag("p", f"Not checked: {checked.refused}", class_="notice")
    parts: list[Html] = [
        tag("p", f"Not judged: {one}", class_="notice") for one in checked.faults
    ]  # fmt: skip
    for quieted in checked.case.spec.defaults.quieted:
        parts.append(tag("p", f"Settings that quiet rules: {quieted}.", class_="notice"))
    parts += [_finding(one, leads) for one in checked.findings]
    if not checked.findings and not checked.faults:
        parts.append(tag("p", "No findings."))
    return html(*parts)


def counted(found: list[Finding]) -> Html:
    """`✕ 2 errors, ▲ 1 warning`; `● no findings`."""
    parts: list[Html] = []
    for severity, sign in SIGNS.items():
        count = sum(1 for one in found if one.severity == severity)
        if count:
            mark, _, word = sign.partition(" ")
            several = "s" if count > 1 and severity != "advice" else ""
            parts.append(tag("span", f"{mark} {count} {word}{several}", class_=f"state {severity}"))
    if not parts:
        return tag("span", "● no findings", class_="state clean")
    return Html(", ".join(parts))


def place(span: Span, leads: Leads, words: str = "") -> Html:
    """Where something stands, leading there."""
    line, _ = span.source.position(span.start)
    text = words or f"{span.source.name} line {line}"
    where = leads(span)
    return tag("a", text, href=where) if where else tag("span", text)


def _finding(finding: Finding, leads: Leads) -> Html:
    kind = finding.kind
    at = finding.at.span
    others: list[Part] = [
        html(label.text or "also", " (", place(label.span, leads), ")") for label in finding.others
    ]
    return tag(
        "div",
        tag("p", tag("strong", SIGNS[finding.severity], class_=finding.severity), " ",
            tag("strong", finding.message)),
        tag("p", place_in_words(at, finding.address), " ", place(at, leads)),
        items(others),
        tag("p", tag("span", "why ", class_="quiet"), kind.why),
        *(tag("p", tag("span", "note ", class_="quiet"), note) for note in finding.notes),
        tag("p", tag("span", "do ", class_="quiet"), finding.help or kind.fix),
        tag("p", f"rule {kind.name} ({kind.code})", class_="quiet"),
        class_="finding",
    )  # fmt: skip


def missing(checked: Checked, leads: Leads) -> Html:
    """What stands between this text and an issue for construction: what hinders it now, what would
    be found if its status were changed, open points, limits that could not be decided."""
    if checked.case is None:
        return tag("p", f"The text cannot be read: {checked.refused}", class_="notice")
    job = checked.case.spec.file.job
    if job is None:
        return tag("p", "This text has no document of its own: it is used by others.")
    found: list[Part] = []
    for one in checked.findings:
        if one.severity != "advice":
            found.append(
                html(SIGNS[one.severity], ": ", one.message, " ", place(one.at.span, leads))
            )
    if not checked.errors:
        found += [f"cannot be compiled: {reason}" for reason in checked.compiled[1]]
    status = getattr(job.revision, "status", None) or "not stated"
    found += _if_issued(checked, status, leads)
    for point in job.open_points:
        if point.closed is None:
            text = html(f"open point {point.number}: {point.text}", " ")
            found.append(html(text, place(point.place(), leads)))
    for signature in signatures(job):
        if signature.on is None:
            said_as = f"not signed: {' '.join(signature.words)}, {signature.role} "
            found.append(html(said_as, place(signature.place(), leads)))
    compiled = checked.job
    if compiled is not None:
        undecided = [
            one
            for sheet in compiled.joints
            for one in (*sheet.undecided, *(u for r in sheet.runs for u in r.program.undecided))
        ]
        for each in dict.fromkeys(undecided):
            why = f"needs {', '.join(each.lacks)}" if each.lacks else each.reason
            found.append(f"not decided: {each.quantity}, {each.source} {each.citation}: {why}")
    said = tag("p", "Status now: ", tag("strong", status), ".")
    unique = list({str(part): part for part in found if part is not None}.values())
    if not unique:
        return html(said, tag("p", "Nothing that a check can see. A person decides and signs."))
    return html(said, items(unique))


def signatures(job: Job) -> list[Signature]:
    """Who is to sign, in the order of the text."""
    found: list[Signature] = []
    for name in _SIGNED:
        value = getattr(job.signed, name, None)
        found += value if isinstance(value, list | tuple) else [] if value is None else [value]
    return found


def _if_issued(checked: Checked, status: str, leads: Leads) -> list[Part]:
    """What a check would find that it does not find now, were the document for construction."""
    if status == RELEASED:
        return []
    text = checked.text.source.text
    for each in checked.text.places():
        if each.path == "job.revision.status" and each.role == CHOICE:
            span = each.value_span or each.span
            break
    else:
        return ["the status is not stated"]
    try:
        then = checked.checked_as(text[: span.start] + RELEASED + text[span.end :])
    except Exception as error:
        return [f"what an issue for construction would lack could not be checked: {fault(error)}"]
    now = {(one.kind.code, one.address, one.message) for one in checked.findings}
    source = checked.text.source
    found: list[Part] = []
    for one in then:
        if one.severity == "advice" or (one.kind.code, one.address, one.message) in now:
            continue
        number, _ = one.source.position(one.at.span.start)
        # The other text differs within one line, so that its lines have the same numbers.
        at = one.at.span
        if at.source.path == source.path:
            start = source.line_starts[min(number, len(source.line_starts)) - 1]
            at = source.span(start, start)
        found.append(html(f"for construction: {one.message}", " ", place(at, leads)))
    return found
