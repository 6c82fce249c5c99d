"""What a document for construction rests on is settled and older than the document."""

from __future__ import annotations

from collections.abc import Iterator

from hts.base.findings import Label
from hts.base.text import Span
from hts.checking.govern.case import Case
from hts.checking.rules.rule import Agreement, Bad, Edge, Good, Rule
from hts.language.vocabulary.job import Job
from hts.language.vocabulary.procedure import Procedure

_REVISION = "revision     A on 2026-10-02 status for construction\n"
_OWN = "revision         2 on 2026-03-01 status for construction"
_SHOW = "  show         SI and US\n"
_Told = tuple[str, Span, list[Label]]

RULE = Rule(
    "D111",
    "issued-before-its-grounds",
    "warning",
    summary="A document for construction that was not approved by the client, rests on a procedure "
    "that is newer, or on a point settled after it.",
    why="The work follows a text its grounds have overtaken, or that nobody released.",
    fix="Issue a revision after what it rests on, or correct the days.",
    source="common practice, no source",
    basis="practice",
    bad=(Bad(((_REVISION, f"{_REVISION[:-1]} answer not approved\n"),), at="not approved"),),
    edges=(
        Edge(
            ((_OWN, _OWN.replace("2026-03-01", "{}")),),
            keeps="2026-10-02",
            breaks="2026-10-03",
            at="P-07",
            base="procedure",
            says="of 2026-10-03 … of 2026-10-02",
        ),
        Edge(
            (
                (
                    "  show         SI and US\n",
                    '  show         SI and US\n  open point 1 "Wall to be measured" closed {}\n',
                ),
            ),
            keeps="2026-10-02",
            breaks="2026-10-03",
            says="on 2026-10-03",
        ),
    ),
    good=(
        Good(((_REVISION, f"{_REVISION[:-1]} answer approved with comments\n"),)),
        Good(((_SHOW, f'{_SHOW}  open point 1 "Wall to be measured" closed 2026-10-01\n'),)),
    ),
    agrees=(
        Agreement("job.revision.answer", "job.revision.status", "approved before construction"),
        Agreement("procedure.revision.on", "job.revision.on", "not after the document"),
        Agreement("job.open point.closed", "job.revision.on", "not after the document"),
    ),
)


@RULE.for_spec
def check(case: Case) -> None:
    job = case.spec.file.job
    if job is None or not job.sound or job.revision.status != "for construction":
        return
    for message, at, others in _told(job):
        case.add(
            RULE.found(message, at, address=f"{job.name}/revision", others=others, basis=RULE.basis)
        )


def _told(job: Job) -> Iterator[_Told]:
    revision, day = job.revision, job.revision.on
    if revision.answer in ("not approved", "for information only"):
        status = Label(revision.place("status"), "for construction")
        yield f"the client's answer is {revision.answer}", revision.place("answer"), [status]
    for reference in job.follows:
        target = reference.target
        own = target.revision if isinstance(target, Procedure) else None
        if own is None:
            continue
        at = job.source.span(reference.start, reference.end)
        where = [Label(own.place(), f"revision of {reference.name}")]
        if own.on is not None and day is not None and own.on > day:
            yield f"{reference.name} is of {own.on}, the job of {day}", at, where
    for point in job.open_points:
        if point.closed is not None and day is not None and point.closed > day:
            issued = Label(revision.place("on"), "issued")
            message = f"point {point.number} was settled on {point.closed}, after the issue"
            yield message, point.place("closed"), [issued]
