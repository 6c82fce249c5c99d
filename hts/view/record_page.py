"""A judged record beside its specification."""

from __future__ import annotations

import os
from collections.abc import Sequence
from typing import TYPE_CHECKING

from hts.editor.look import stamp
from hts.job.compiler.fingerprint import grouped
from hts.view.findings import Leads
from hts.view.frame import Section
from hts.view.markup import Html, Part, html, items, slug, table, tag
from hts.view.picture import picture
from hts.view.shelf import Shelf
from hts.view.source_text import source_text
from hts.view.work import reason_of

if TYPE_CHECKING:
    from hts.record.judging import Judgement
    from hts.record.reading import Options

#: Shape and word of each verdict.
SIGNS = {
    "met": "● met", "not met": "✕ not met", "not shown": "▲ not shown",
    "conditional": "◆ conditional",
}  # fmt: skip
#: mm, the size of the chart.
_CHART = (271.0, 150.0)


class JudgedRecord:
    """A record of a run and what it comes to; judged again when the text or a log has changed.

    `joint` and `cycle` say which run, where the text has several.
    """

    name = "record"
    title = "The judged record"
    every = 1000
    body_class: str | None = None
    bar: Html | None = None

    def __init__(
        self,
        shelf: Shelf,
        key: str,
        logs: Sequence[str],
        options: Options,
        joint: str | None,
        cycle: str | None,
    ) -> None:
        self._shelf, self._key = shelf, key
        self._logs, self._options = tuple(logs), options
        self._joint, self._cycle = joint, cycle
        self._made: tuple[str, Judgement | None, str] | None = None

    def state(self) -> str:
        """The texts and files it rests on."""
        beside = [f"{os.path.splitext(log)[0]}{end}" for log in self._logs
                  for end in (".yaml", ".events.yaml")]  # fmt: skip
        named = [path for path in (self._options.mapping, self._options.events) if path]
        stamps = [stamp(path) for path in (*self._logs, *beside, *named)]
        return slug(f"{self._shelf.state(self._key)} {stamps}")

    def head(self) -> Html:
        """Which record it is, and what it comes to."""
        judgement, why = self._judged()
        if judgement is None:
            return html(
                tag("h1", "Record not judged"), tag("p", why, class_="notice", role="status")
            )
        record, plan = judgement.record, judgement.plan
        named = plan.job.document
        facts = (
            ("Specification", f"{named.number} revision {named.revision}"),
            ("Fingerprint", named.fingerprint),
            ("Record", ", ".join(file.name for file in record.files)),
            ("Fingerprint of the record", grouped(record.digest)),
            ("From", record.clock(0.0)),
            ("To", record.clock(record.end)),
        )
        overall = tag("span", SIGNS[judgement.overall], class_=f"state {slug(judgement.overall)}")
        return html(
            tag("h1", f"Record of joint {plan.joint}, {plan.name}"),
            tag("p", "SIMULATED: this is not the record of a real run", class_="notice")
            if record.simulated
            else None,
            tag("dl", *(tag("div", tag("dt", k), tag("dd", v)) for k, v in facts), class_="facts"),
            tag("p", "Judged: ", overall, role="status"),
        )

    def sections(self, leads: Leads) -> list[Section]:
        """Verdicts, failures, faults, chart, and the text they are held to."""
        judgement, _ = self._judged()
        _, checked = self._shelf.checked(self._key)
        if judgement is None:
            return []
        return [
            Section("verdicts", "Requirements", _verdicts(judgement)),
            Section("failures", "What is not met or not shown", _failures(judgement)),
            Section("chart", "The recorded run", _chart(judgement)),
            Section("faults", "What was measured wrong", _faults(judgement)),
            Section("assumed", "Assumed and worked out", _assumed(judgement)),
            Section("text", "The specification", source_text(checked, (judgement.plan.joint,))),
        ]

    def _judged(self) -> tuple[Judgement | None, str]:
        state = self.state()
        if self._made is None or self._made[0] != state:
            judgement, why = self._judge()
            self._made = (state, judgement, why)
        return self._made[1], self._made[2]

    def _judge(self) -> tuple[Judgement | None, str]:
        from hts.record import faults, judging
        from hts.record.belonging import belonging
        from hts.record.errors import RecordError
        from hts.record.reading import read

        _, checked = self._shelf.checked(self._key)
        job, why = checked.compiled
        if job is None:
            return None, (
                f"Not judged: {'; '.join(why)}. `hts record check` judges by what the text says."
            )
        try:
            asked, notes, against = belonging(job, self._logs, self._joint, self._cycle)
            record = read(self._logs, asked.run.tags, self._options)
            found = faults.find(record, asked)
            made = judging.judge(
                faults.apply(record, found), asked, found, checked.configured.today, against
            )
        except RecordError as error:
            return None, f"{error.place}: {error.cause}; {error.remedy}"
        return made._replace(assumed=(*notes, *made.assumed)), ""


def _verdicts(judgement: Judgement) -> Html:
    from hts.record.handover.words import judged, outcome

    rows: list[list[Part]] = []
    for verdict in judged(judgement):
        counts = verdict.guarded or verdict.verdict
        sign, _, _ = SIGNS[counts].partition(" ")
        shown = tag("span", f"{sign} {outcome(verdict)}", class_=f"state {slug(counts)}")
        rows.append(
            [verdict.requirement, verdict.specified, verdict.actual, shown,
             reason_of(verdict.source)]
        )  # fmt: skip
    others = [v for v in judgement.verdicts if v.elsewhere]
    caption = "Every requirement and what the record shows"
    heads = ("Requirement", "Specified", "Recorded", "Verdict", "Governed by")
    parts = [table(caption, heads, rows, "list")]
    if others:
        parts += [
            tag("h3", "To be shown by other documents"),
            items(f"{v.requirement}: {v.specified}" for v in others),
        ]
    return html(*parts)


def _failures(judgement: Judgement) -> Html:
    from hts.record.handover.words import failures

    found = failures(judgement)
    if not found:
        return tag("p", "Nothing.")
    return tag("ol", *(tag("li", failure.sentence) for failure in found))


def _chart(judgement: Judgement) -> Html:
    from hts.paper.sheet import MissingPackage
    from hts.record.handover.chart import chart

    try:
        return picture(chart(judgement, _CHART), "The recorded run over what was allowed", {})
    except MissingPackage as error:
        return tag("p", f"Not drawn: {error}", class_="notice")


def _faults(judgement: Judgement) -> Html:
    from hts.record.faults.fault_kinds import BY_NAME

    clock = judgement.record.clock
    rows: list[list[Part]] = [
        [
            fault.whose,
            BY_NAME[fault.kind].summary,
            f"{clock(fault.start)} to {clock(fault.end)}",
            f"{fault.evidence}; {fault.confidence} confidence; {fault.treatment}",
            BY_NAME[fault.kind].remedy,
        ]
        for fault in judgement.faults
    ]
    if not rows:
        return tag("p", "None found.")
    heads = ("Thermocouple", "Fault", "When", "Evidence", "To do")
    return table("What was measured wrong, and what to do about it", heads, rows, "list")


def _assumed(judgement: Judgement) -> Html:
    assumed = [*judgement.record.assumed, *judgement.assumed]
    noted = [f"{one.name}: {one.sentence}" for one in judgement.noted]
    return html(items(assumed), items(noted)) or tag("p", "Nothing.")
