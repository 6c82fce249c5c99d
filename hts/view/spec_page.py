"""The page of a specification, in three readings of the same parts."""

from __future__ import annotations

from typing import NamedTuple

from hts.base.text import Span
from hts.view import changes, findings, work
from hts.view.checked import Checked
from hts.view.findings import Leads
from hts.view.frame import Section
from hts.view.markup import Html, Part, html, tag
from hts.view.source_text import source_text

#: Reading -> the parts in the order it wants them; every reading has all of them, but what is
#: predicted where nothing is.
READINGS: dict[str, tuple[str, ...]] = {
    "technician": (
        "findings", "drawings", "thermocouples", "setpoints", "cautions", "limits", "predicted",
        "changes", "missing", "reasons", "standing",
    ),
    "supervisor": (
        "findings", "missing", "changes", "drawings", "predicted", "setpoints", "thermocouples",
        "limits", "standing", "reasons", "cautions",
    ),
    "inspector": (
        "findings", "limits", "reasons", "standing", "changes", "missing", "drawings", "predicted",
        "setpoints", "thermocouples", "cautions",
    ),
}  # fmt: skip
TITLES = {
    "findings": "Findings",
    "missing": "Missing before it can be issued",
    "changes": "Changes since the last commit",
    "drawings": "Drawings and charts",
    "predicted": "Predicted inside the wall",
    "setpoints": "Setpoints",
    "thermocouples": "Thermocouples and channels",
    "limits": "Limits and what governs them",
    "reasons": "Reasons of the values by rule",
    "standing": "Waivers, signatures, history",
    "cautions": "Cautions",
    "text": "The text",
}
FIRST = "supervisor"


class Good(NamedTuple):
    """The last text that could be compiled, kept for its drawings."""

    checked: Checked
    when: str


def spec_sections(
    checked: Checked,
    reading: str,
    leads: Leads,
    good: Good | None = None,
    joint: str = "",
    predicted: Html | None = None,
) -> list[Section]:
    """The parts of the page in the order of a reading, the text last. Of very many joints only
    `joint` is shown, or the first. `predicted` is what is told of predictions, if anything."""
    if checked.case is None:
        return [Section("findings", TITLES["findings"], findings.findings(checked, leads))]
    parts: list[Section] = []
    job, why = checked.compiled
    chosen = checked.chosen(joint)
    if chosen:
        listed = work.joint_list(checked, chosen[0], reading)
        parts.append(Section("joints", "Joints", listed))
    if job is not None:
        job = work.only(job, chosen)
    sheets = work.Sheets(checked, job, leads, chosen) if job is not None else None
    nothing = tag("p", f"Not made: {'; '.join(why)}.", class_="notice")
    for name in READINGS[reading]:
        if name == "predicted":
            if predicted is None:
                continue
            body = predicted
        elif name == "findings":
            body = findings.findings(checked, leads)
        elif name == "missing":
            body = findings.missing(checked, leads)
        elif name == "changes":
            body = changes.changes(changes.since_head(checked), leads)
        elif name == "reasons":
            body = work.reasons(checked, chosen)
        elif name == "standing":
            body = work.standing(checked, leads)
        elif name == "drawings" and job is not None:
            body = work.drawings(job, leads)
        elif name == "drawings":
            body = html(nothing, _last_good(good, leads, chosen))
        else:
            body = getattr(sheets, name)() if sheets is not None else nothing
        parts.append(Section(name, TITLES[name], body))
    # Last on paper and on a phone; beside all else where there is room.
    return [*parts, Section("text", TITLES["text"], source_text(checked, chosen))]


def _last_good(good: Good | None, leads: Leads, chosen: tuple[str, ...]) -> Part:
    """The drawings of an older text: never taken for those of the present one."""
    if good is None or good.checked.job is None:
        return None
    old = (
        f"NOT of the text as it is now: these were drawn at {good.when}, "
        f"fingerprint {good.checked.fingerprint}."
    )
    return work.drawings(work.only(good.checked.job, chosen), leads, old)


def spec_head(
    checked: Checked,
    reading: str,
    links: dict[str, str],
    up: Part = None,
    *,
    predicted: bool = False,
) -> Html:
    """Title, identity, result of the check, and the way to readings and parts. `links`: reading ->
    address; none where there is one alone. `predicted`: there is a part of predictions."""
    name = _name(checked)
    job = checked.case.spec.file.job if checked.case is not None else None
    facts: list[tuple[str, Part]] = []
    if job is not None:
        facts = [
            ("Document", job.number),
            ("Revision", job.revision.name if job.revision is not None else "not stated"),
            ("Status", (job.revision.status if job.revision is not None else "") or "not stated"),
        ]
    if checked.case is not None:
        facts += [
            ("Fingerprint", checked.fingerprint or "none"),
            ("Since the last commit", changes.in_short(changes.since_head(checked))),
        ]
    facts.append(("File", name))
    result: Part = findings.counted(checked.findings)
    if checked.refused or checked.faults:
        result = tag("span", "✕ not checked", class_="state error")
    title = job.name if job is not None else name
    quiet = ""
    if job is not None and job.revision is not None and job.revision.status != findings.RELEASED:
        quiet = f"Status: {job.revision.status or 'not stated'}. Not released for work."
    shown = READINGS[reading] if checked.case is not None else ("findings",)
    shown = tuple(name for name in shown if predicted or name != "predicted")
    return html(
        up,
        tag("h1", title),
        tag("dl", *(tag("div", tag("dt", k), tag("dd", v)) for k, v in facts), class_="facts"),
        tag("p", "Checked: ", result, role="status"),
        tag("p", tag("strong", quiet), class_="notice") if quiet else None,
        tag(
            "nav",
            tag("ul", *(
                tag("li", tag("a", f"For the {name}", href=where,
                              aria_current="page" if name == reading else None))
                for name, where in links.items()
            )),
            aria_label="Readings",
        ) if links else None,
        tag(
            "nav",
            tag("ul", *(tag("li", tag("a", TITLES[p], href=f"#{p}")) for p in (*shown, "text"))),
            aria_label="Parts of this page",
        ),
    )  # fmt: skip


def title_of(checked: Checked) -> str:
    """What a window with the page is called."""
    job = checked.case.spec.file.job if checked.case is not None else None
    return f"{job.number} {job.name}" if job is not None else _name(checked)


def printed_foot(checked: Checked) -> str:
    """Document, revision, status and fingerprint, for every printed sheet."""
    job = checked.case.spec.file.job if checked.case is not None else None
    if job is None:
        return _name(checked)
    revision = job.revision
    parts = [
        job.number or _name(checked),
        f"revision {revision.name}" if revision is not None and revision.name else "no revision",
        (revision.status if revision is not None else "") or "status not stated",
        f"fingerprint {checked.fingerprint or 'none'}",
    ]
    return ", ".join(parts)


def own_line(checked: Checked, span: Span) -> str:
    """Where a place leads within the page of its own text; "" for one of another text."""
    if checked.case is None or span.source.path != checked.case.spec.source.path:
        return ""
    return f"#L{span.source.position(span.start)[0]}"


def _name(checked: Checked) -> str:
    return checked.case.spec.source.name if checked.case is not None else checked.path
