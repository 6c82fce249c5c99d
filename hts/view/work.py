"""What the compiled job says: drawings, setpoints, thermocouples, limits, reasons."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from urllib.parse import quote

from hts.base.text import Span
from hts.checking.checker.fault import fault
from hts.job.compiler import Job, JointSheet
from hts.job.compiler.why import Why
from hts.job.demands.asked import Asked
from hts.job.outputs import cautions, setpoint_sheet, tag_sheet, waivers
from hts.job.outputs.marks import Marks
from hts.job.outputs.requirements import requirements
from hts.job.outputs.show import Shown
from hts.limits import LIMITED
from hts.view.checked import Checked
from hts.view.findings import Leads, place, signatures
from hts.view.markup import Html, Part, html, items, table, tag
from hts.view.picture import picture
from hts.view.sheet import SheetPage
from hts.view.source_text import reason_id, reason_tree

#: mm; the drawings are made for a sheet lying on its side.
_PICTURE = (267.0, 180.0)
#: Head of a column of a sheet -> the quantity whose limit stands there.
_QUANTITIES = {
    "Rate limit": ("heating rate", "cooling rate"),
    "Hold at least": ("hold time", "bake time"),
    "Every reading within": ("hold temperature", "bake temperature"),
}


def tag_places(job: Job) -> dict[str, Span]:
    """Thermocouple -> where it is written; of one name in several joints the first."""
    found: dict[str, Span] = {}
    for sheet in job.joints:
        for thermocouple in sheet.joint.thermocouples:
            found.setdefault(thermocouple.tag, thermocouple.place())
    return found


def drawings(job: Job, leads: Leads, old: str = "") -> Html:
    """Every joint unrolled and in section, and a chart for each run. `old` says of what text they
    are where it is not the present one."""
    from hts.paper.drawings import files
    from hts.paper.sheet import A4, MissingPackage

    links = {tag_: where for tag_, span in tag_places(job).items() if (where := leads(span))}
    try:
        made = files(job, A4)
    except MissingPackage as error:
        return tag("p", f"Not drawn: {error}", class_="notice")
    except Exception as error:
        return tag("p", f"Not drawn: {fault(error)}", class_="notice")
    shown = [picture(svg.decode("utf-8"), "", links, "old" if old else "") for svg in made.values()]
    note = tag("p", tag("strong", old), class_="notice") if old else None
    return html(note, *shown)


def only(job: Job, joints: tuple[str, ...]) -> Job:
    """The job of these joints alone; all of it without names."""
    if not joints:
        return job
    return job._replace(joints=tuple(s for s in job.joints if s.joint.name in joints))


def joint_list(checked: Checked, shown: str, reading: str) -> Html:
    """All joints of a text with too many for one page, each a click away."""
    links = [
        tag("a", name, href=f"?reading={reading}&joint={quote(name)}#joints",
            aria_current="page" if name == shown else None)
        for name in checked.joints
    ]  # fmt: skip
    said = f"Joint {shown} is shown below, one of {len(links)}. Findings and changes are of all."
    return html(tag("p", tag("strong", said)), items(links, class_="plain"))


class Sheets:
    """The sheets of a job as parts of a page; what they name leads to its line or reason."""

    def __init__(
        self, checked: Checked, job: Job, leads: Leads, joints: tuple[str, ...] = ()
    ) -> None:
        self.job = job
        self.leads = leads
        self.shown = Shown(job.units, job.changes)
        self._tags = {t: where for t, span in tag_places(job).items() if (where := leads(span))}
        self._reasons: dict[str, dict[str, str]] = {}
        for answer in checked.answers(joints):
            joint = answer.address.split("/")[0]
            self._reasons.setdefault(joint, {}).setdefault(
                answer.quantity, f"#{reason_id(answer.address)}"
            )

    def setpoints(self) -> Html:
        """What the controllers are set from."""
        marks = Marks()
        parts: list[Html] = []
        for sheet in self.job.joints:
            page = self._page(sheet)
            waivers.told(page, self.job, sheet)
            setpoint_sheet.widths(page, self.shown, marks, sheet)
            for run in sheet.runs:
                setpoint_sheet.treatment(page, self.shown, marks, sheet, run)
                setpoint_sheet.settings(page, run.program)
            if not sheet.runs:
                page.line("No heating is specified for this joint.")
            parts.append(page.html())
        return html(*parts, items(marks.notes()))

    def thermocouples(self) -> Html:
        """Where each sits, what it is connected to, and the proof of its loop."""
        marks = Marks()
        parts: list[Html] = []
        for sheet in self.job.joints:
            if not sheet.tags:
                continue
            page = self._page(sheet)
            tag_sheet.placing(page, self.shown, sheet)
            tag_sheet.connections(page, self.shown, marks, sheet)
            tag_sheet.proving(page, self.shown, marks, sheet)
            parts.append(page.html())
        if not parts:
            return tag("p", "No thermocouples are specified.")
        return html(*parts, items(marks.notes()))

    def limits(self) -> Html:
        """Everything a record will be judged by, each with what governs it."""
        marks = Marks()
        parts: list[Html] = []
        for sheet in self.job.joints:
            page = SheetPage(2, self._link(sheet))
            setpoint_sheet.origins(page, self.shown, marks, sheet)
            for run in sheet.runs:
                parts.append(tag("h3", f"Joint {sheet.joint.name}, {run.program.name}"))
                found = requirements(Asked(self.job, sheet, run), self.shown.single())
                rows: list[list[Part]] = [
                    [
                        each.name,
                        each.stage,
                        each.specified + marks.of(each.why),
                        reason_of(each.why),
                    ]
                    for each in found
                ]
                caption = f"What the record of {sheet.joint.name} will be judged by"
                parts.append(table(caption, ("What", "When", "Limit", "Governed by"), rows))
            parts.append(page.html())
        return html(*parts, items(marks.notes()))

    def cautions(self) -> Html:
        """The cautions of the job and the usual ones."""
        page = SheetPage(2, lambda head, cell: "")
        cautions.listed(page, self.job)
        return page.html()

    def _page(self, sheet: JointSheet) -> SheetPage:
        """Where the sheet of a joint begins, under its name where there are several."""
        if len(self.job.joints) == 1:
            return SheetPage(2, self._link(sheet))
        page = SheetPage(3, self._link(sheet))
        page.heading(2, f"Joint {sheet.joint.name}")
        return page

    def _link(self, sheet: JointSheet) -> Link:
        return Link(self._tags, self._reasons.get(sheet.joint.name, {}))


class Link:
    """Where a cell of a sheet leads: a thermocouple to its line, a limit to its reason."""

    def __init__(self, tags: Mapping[str, str], reasons: Mapping[str, str]) -> None:
        self._tags = tags
        self._reasons = reasons

    def __call__(self, head: str, cell: str) -> str:
        if cell in self._tags:
            return self._tags[cell]
        for column, quantities in _QUANTITIES.items():
            if head.startswith(column):
                found = [q for q in quantities if q in self._reasons]
                return self._reasons[found[0]] if found else ""
        if head in ("Quantity", "Width"):
            words = re.split(r" \(|, ", cell)[0]
            return self._reasons.get(words, "") if words in LIMITED else ""
        return ""


def reason_of(why: Why | None) -> Part:
    """What governs in one line, with the rest behind it."""
    if why is None:
        return ""
    lines = [
        why.cited,
        f"{why.basis}, confidence {why.confidence}" if why.basis else "",
        why.formula if why.formula and why.formula != why.numbers else "",
        f"= {why.numbers}" if why.numbers else "",
        why.note,
    ]
    rest = "\n".join(line for line in lines if line)
    return tag("details", tag("summary", why.cited or why.note or "why"), reason_tree(rest))


def reasons(checked: Checked, joints: tuple[str, ...] = ()) -> Html:
    """The reason of every value the rules give, by address; of these joints alone."""
    parts = list(_reasons(checked, joints))
    return html(*parts) if parts else tag("p", "The rules give no value here.")


def _reasons(checked: Checked, joints: tuple[str, ...]) -> Iterator[Html]:
    grouped: dict[str, list[str]] = {}
    heads: dict[str, list[str]] = {}
    for reason in checked.reasons(joints):
        grouped.setdefault(reason.address, []).append(reason.text)
        heads.setdefault(reason.address, []).append(reason.heading)
    for address, texts in grouped.items():
        summary = tag("summary", tag("strong", "; ".join(heads[address])), " ",
                      tag("span", address, class_="quiet"))  # fmt: skip
        yield tag(
            "details",
            summary,
            *map(reason_tree, texts),
            class_="asks",
            id=reason_id(address),
        )


def standing(checked: Checked, leads: Leads) -> Html:
    """Waivers, signatures, history and the texts used: what an inspector asks for first."""
    assert checked.case is not None
    spec = checked.case.spec
    job = spec.file.job
    parts: list[Html] = []
    if spec.waivers:
        rows: list[list[Part]] = [
            [place(w.place(), leads, w.rule), w.on, w.reason, w.by, w.until] for w in spec.waivers
        ]
        heads = ("Rule", "On", "Reason", "Decided by", "Until")
        parts.append(table("Waivers: set aside, and not checked", heads, rows, "list"))
    else:
        parts.append(tag("p", "No rule is waived."))
    if job is not None:
        if job.signed is not None:
            rows = [[" ".join(s.words), s.role, s.on or "not signed"] for s in signatures(job)]
            parts.append(table("Signatures", ("As", "Role", "Day"), rows))
        if job.history is not None:
            lines = [[line.name, line.on, line.change] for line in job.history.lines]
            parts.append(table("History", ("Revision", "Day", "What changed"), lines))
    used = [
        place(library.file.source.span(0, 0), leads, library.file.source.name)
        for library in spec.libraries
    ]
    if used:
        parts += [tag("h3", "Texts it uses"), items(used)]
    books = [f"{a.name} edition {a.edition}" for a in checked.case.authorities if a.is_book]
    if books:
        parts += [tag("h3", "Rule books"), items(books)]
    return html(*parts)
