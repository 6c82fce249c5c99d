"""The report of a judged record as PDF: what was asked, what was found, and the record it rests
on."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Any

from hts.job.compiler.fingerprint import grouped
from hts.job.compiler.why import Why
from hts.job.outputs.cautions import APPROVAL
from hts.paper.packet import letters, tables
from hts.paper.packet.frame import Frame
from hts.paper.packet.heads import heads
from hts.paper.packet.pages import Pages
from hts.paper.sheet import Size
from hts.paper.sheet.typeset import pdf
from hts.record.faults import BY_NAME
from hts.record.handover.chart import chart
from hts.record.handover.identity import instrument, signing, whose, wired
from hts.record.handover.thermocouples import shown
from hts.record.handover.words import event_words, failures, judged, outcome
from hts.record.judging import CONDITIONAL, MET, NOT_MET, NOT_SHOWN, Judgement
from hts.record.judging.moving import Fastest
from hts.record.judging.words import Words, time

if TYPE_CHECKING:
    from hts.record.expected.comparison import Comparison

_TEMPLATE = os.path.join(os.path.dirname(__file__), "templates", "record.typ")
_SAID = {
    MET: "All requirements are met.",
    NOT_MET: "Not all requirements are met.",
    NOT_SHOWN: "The record does not show that all requirements are met.",
    CONDITIONAL: "All requirements are met, some within the guard band only.",
}
#: Room for the verdict beside the title, mm.
_VERDICT = 48.0
#: Part of the depth of a page on its side that the chart may have.
_CHART = 0.93


def report(judgement: Judgement, size: Size, comparison: Comparison | str | None = None) -> bytes:
    """The pages, with the record beside its prediction. Raises MissingPackage."""
    return pdf(_TEMPLATE, pages(judgement, size, comparison))


def pages(
    judgement: Judgement, size: Size, comparison: Comparison | str | None = None
) -> dict[str, Any]:
    """All that is printed, as the template reads it."""
    frame = Frame(size)
    page = Pages(frame)
    _result(page, judgement)
    _requirements(page, judgement)
    _failures(page, judgement)
    _chart(page, judgement)
    _thermocouples(page, judgement)
    if comparison is not None:
        from hts.record.expected import plot

        plan = judgement.plan
        plot.pages(page, comparison, plan.job.document, f"{plan.joint}: {plan.name}")
    _evidence(page, judgement)
    _acceptance(page, judgement)
    named, record, room = judgement.plan.job.document, judgement.record, frame.room(False)
    return {
        "frame": frame.data(),
        "name": letters.short(f"{judgement.plan.joint}: {judgement.plan.name}", room, 9.0),
        "short_name": letters.short(
            f"{judgement.plan.joint}: {judgement.plan.name}", room * 0.4, 9.5, bold=True
        ),
        "overall": judgement.overall,
        "simulated": record.simulated,
        "document": heads(named, room, _VERDICT),
        "record": grouped(record.digest),
        "parts": page.parts,
    }


def _result(page: Pages, judgement: Judgement) -> None:
    record, plan = judgement.record, judgement.plan
    named, program = plan.job.document, plan.run.program
    page.section("Result")
    counted = [one.guarded or one.verdict for one in judged(judgement)]
    counts = ", ".join(f"{counted.count(word)} {word}" for word in dict.fromkeys(counted))
    sentence = f"{_SAID[judgement.overall]} Of {len(counted)} requirements {counts}."
    if judgement.overall == MET:
        page.line(sentence)
    else:
        page.warning(sentence)
    if record.simulated:
        page.warning("The record says that it is simulated: no metal was heated.")
    hold = judgement.hold
    page.facts(
        [
            *whose(plan),
            ("Document", f"{named.number} revision {named.revision}"),
            ("Fingerprint", named.fingerprint),
            ("Joint", plan.joint),
            ("Treatment", plan.name),
            ("Record", ", ".join(file.name for file in record.files)),
            ("Record fingerprint", grouped(record.digest)),
            ("From", record.clock(0.0)),
            ("Until", record.clock(record.end)),
            ("Readings every", time(record.interval)),
            ("Rows", str(len(record.elapsed))),
            ("Recorder", instrument(program.recorder)),
            ("Controller", instrument(program.controller)),
            ("Time that counted", time(hold.total) if hold is not None else ""),
            ("Judged by", named.tool),
        ]
    )


def _requirements(page: Pages, judgement: Judgement) -> None:
    page.section("Requirements")
    page.table(
        ("No.", "Requirement", "Specified", "Recorded", "Verdict", "Asked for by"),
        [
            (
                str(number),
                one.requirement,
                one.specified,
                one.actual,
                outcome(one),
                _cited(one.source),
            )
            for number, one in enumerate(judged(judgement), 1)
        ],
        tables.SMALL,
        keep=2,
    )
    others = [verdict for verdict in judgement.verdicts if verdict.elsewhere]
    if others:
        page.heading(3, "To be shown by other documents")
        page.bullets(f"{one.requirement}: {one.specified}" for one in others)


def _cited(why: Why | None) -> str:
    return f"{why.cited}{letters.mark_of(why.basis)}" if why is not None else ""


def _failures(page: Pages, judgement: Judgement) -> None:
    listed = failures(judgement)
    if not listed:
        return
    of = {
        id(failure): f"{number}"
        for number, one in enumerate(judged(judgement), 1)
        for failure in one.failures
    }
    clock = judgement.record.clock
    page.section("What is not met or not shown")
    page.table(
        ("Mark", "Requirement", "Thermocouples", "From", "Until", "What the record shows"),
        [
            (
                str(number),
                of[id(one)],
                ", ".join(one.tags),
                clock(one.start),
                clock(one.end),
                one.sentence,
            )
            for number, one in enumerate(listed, 1)
        ],
        tables.SMALL,
    )
    page.line("The marks are those above the chart.")


def _chart(page: Pages, judgement: Judgement) -> None:
    page.section("Chart", across=True)
    size = (page.room, (page.depth - 12.0) * _CHART)
    page.drawing(
        chart(judgement, size),
        size,
        "The whole run above, the hold below. Readings as recorded; those set aside as faulty are "
        "grey, and at the edge where they lie beyond it. Nothing is drawn where there is none.",
    )


def _thermocouples(page: Pages, judgement: Judgement) -> None:
    words = Words(judgement.plan.job.units)
    clock = judgement.record.clock

    def temperature(value: float | None) -> str:
        return words.temperature(value) if value is not None else "none"

    def rate(one: Fastest | None) -> str:
        return f"{words.rate(one.rate)} from {clock(one.at)[11:16]}" if one is not None else ""

    page.section("Thermocouples", fresh=True)
    page.heading(3, "How each was measured")
    page.table(
        (
            "Tag",
            "Duty",
            "Place",
            "Clock",
            "From the weld",
            "Type",
            "Wire lot",
            "Recorder",
            "Controller",
        ),
        wired(judgement),
        tables.SMALL,
    )
    page.heading(3, "What each showed")
    page.table(
        (
            "Tag",
            "Zone",
            "Fastest heating",
            "Fastest cooling",
            "Highest",
            "Read at",
            "Lowest in the hold",
            "Highest in the hold",
            "Time in range",
            "Readings missing",
        ),
        [
            (
                one.one.tag,
                one.one.zone,
                rate(one.heating),
                rate(one.cooling),
                temperature(one.most),
                clock(one.when) if one.most is not None else "",
                temperature(one.low) if one.one.required else "",
                temperature(one.high) if one.one.required else "",
                time(one.inside) if one.one.required else "",
                str(one.missing) if one.missing else "",
            )
            for one in shown(judgement)
        ],
        tables.SMALL,
    )
    hold = judgement.hold
    if hold is not None and hold.intervals:
        page.heading(3, "When the hold counted")
        page.table(
            ("Piece", "From", "Until", "Time"),
            [
                (str(number), clock(interval.start), clock(interval.end), time(interval.length))
                for number, interval in enumerate(hold.intervals, 1)
            ],
        )


def _evidence(page: Pages, judgement: Judgement) -> None:
    record = judgement.record
    page.section("Basis of this report")
    page.heading(3, "Files")
    page.table(
        ("File", "Rows", "SHA-256"),
        [(file.name, str(file.rows), file.digest) for file in record.files],
        tables.SMALL,
    )
    page.heading(3, "Assumed in reading and judging")
    page.bullets((*record.assumed, *judgement.assumed))
    if judgement.faults:
        page.heading(3, "Faults found")
        page.table(
            ("Where", "Fault", "From", "Until", "Evidence", "Confidence", "Readings"),
            [
                (
                    fault.whose,
                    BY_NAME[fault.kind].title,
                    record.clock(fault.start),
                    record.clock(fault.end),
                    fault.evidence,
                    fault.confidence,
                    fault.treatment,
                )
                for fault in judgement.faults
            ],
            tables.SMALL,
        )
        kinds = dict.fromkeys(fault.kind for fault in judgement.faults)
        page.bullets(f"{BY_NAME[kind].title}: {BY_NAME[kind].remedy}." for kind in kinds)
    if record.events:
        page.heading(3, "Events")
        page.table(
            ("At", "What"),
            [(record.clock(event.at), event_words(event)) for event in record.events],
        )
    if judgement.noted:
        page.heading(3, "Worked out")
        page.bullets(f"{figure.name}: {figure.sentence}" for figure in judgement.noted)


def _acceptance(page: Pages, judgement: Judgement) -> None:
    page.section("Acceptance")
    page.line(
        "What the record shows was worked out by a program from the files named above. Whether the "
        "treatment is accepted is decided by the persons who sign."
    )
    page.form(
        ("Signs as", "Role", "Name", "Accepted or not, and why", "Signature", "Date"),
        [(post, role, "", "", "", "") for post, role in signing(judgement.plan)],
        (20, 38, 30, 40, 32, 20),
        height=12.0,
    )
    page.bullets(APPROVAL)
