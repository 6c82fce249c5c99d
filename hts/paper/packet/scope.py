"""What the packet is for, and what it stands under."""

from __future__ import annotations

from hts.checking.govern import Authority
from hts.job.compiler.fingerprint import used_name
from hts.job.outputs import weld_lists
from hts.job.outputs.identity import since
from hts.language.vocabulary.job import Job, Qualification, Scope
from hts.paper.packet import tables
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import Pages


def write(page: Pages, subject: Subject) -> None:
    """Scope, governing documents, references, who answers for what."""
    job = subject.job.spec.file.job
    assert job is not None
    _changes(page, subject)
    page.section("Scope and governing documents")
    if job.scope is not None:
        page.facts(_scope(subject, job.scope))
    weld_lists.write(page, subject.job.spec, (sheet.joint.name for sheet in subject.sheets))
    _governing(page, subject, job)
    _references(page, job)
    page.facts(
        [
            ("Permits", ", ".join(job.permit)),
            ("Copies to", ", ".join(job.copies)),
            ("Attachments", ", ".join(job.attachments)),
        ]
    )
    _people(page, job)
    _open_points(page, job)


def _changes(page: Pages, subject: Subject) -> None:
    """What changed since an earlier revision, where the packet was asked to mark it."""
    changes = subject.job.changes
    if changes is None:
        return
    page.section("Changes")
    page.line(since(changes))
    page.table(
        ("Where", "What", "Before", "Now", "Asks for"),
        [(line.address, line.what, line.old, line.new, line.asks) for line in changes.lines],
        tables.SMALL,
    )


def _scope(subject: Subject, scope: Scope) -> list[tuple[str, str]]:
    shown = subject.shown
    return [
        ("Purpose", scope.purpose or ""),
        ("Applies to", "; ".join((*scope.application, *scope.parts))),
        ("Heating", ", ".join(scope.methods)),
        ("Axis", ", ".join(scope.axes)),
        ("Outside diameter", _range(subject, scope.outside_diameter)),
        ("Wall", _range(subject, scope.wall)),
        (
            "Highest temperature",
            shown.text(scope.hottest, "down") if scope.hottest is not None else "",
        ),
    ]


def _range(subject: Subject, window: object) -> str:
    low, high = getattr(window, "low", None), getattr(window, "high", None)
    if low is None or high is None:
        return ""
    return f"{subject.shown.text(low, 'up')} to {subject.shown.text(high, 'down')}"


def _governing(page: Pages, subject: Subject, job: Job) -> None:
    page.heading(3, "Governing books and procedures")
    page.table(
        ("Name", "Title", "Edition or revision", "Kind"),
        [
            (
                authority.name,
                authority.title,
                authority.edition or "–",
                _kind(subject, authority),
            )
            for authority in subject.job.authorities
        ],
    )
    left = [
        (one.name, text)
        for one in subject.job.authorities
        if one.procedure is not None
        for text in one.procedure.left_to_job
    ]
    if left:
        page.heading(3, "What the procedures leave to this job")
        page.table(("Procedure", "Left to the job"), left)
    if job.precedence:
        page.line(
            "The strictest limit of all is the one printed here. Where limits exclude each other, "
            f"the owners of these are asked, in this order: {', '.join(job.precedence)}."
        )


def _kind(subject: Subject, authority: Authority) -> str:
    if not authority.is_book:
        amends = authority.procedure.amends if authority.procedure is not None else []
        parts = [f"{line.procedure.name} revision {line.revision}" for line in amends]
        return f"procedure, amends {', '.join(parts)}" if parts else "procedure"
    file = authority.file
    if file is None:
        return "book"
    return f"book of the job's own: {used_name(subject.job.spec, file.path)}"


def _references(page: Pages, job: Job) -> None:
    if not job.sources:
        return
    page.heading(3, "References")
    page.table(
        ("Title or number", "Edition", "Clause"),
        [(source.title, source.edition or "", source.clause_ or "") for source in job.sources],
    )


def _people(page: Pages, job: Job) -> None:
    if job.responsibilities or job.qualifications:
        page.heading(3, "Responsibilities and training")
        page.table(
            ("Role", "Duty or training"),
            [
                *(
                    (responsibility.role, responsibility.duty)
                    for responsibility in job.responsibilities
                ),
                *(
                    (qualification.role, f"must be: {_needed(qualification)}")
                    for qualification in job.qualifications
                ),
            ],
        )
    if job.crews:
        page.heading(3, "Crews")
        page.table(
            ("Crew", "Shift", "Heats watched at once", "Persons"),
            [
                (
                    crew.name,
                    f"{crew.begins} to {crew.ends}",
                    str(crew.watches),
                    str(crew.people or ""),
                )
                for crew in job.crews
            ],
        )
    if job.definitions:
        page.heading(3, "Terms")
        page.table(
            ("Term", "Meaning"),
            [(definition.term, definition.meaning_) for definition in job.definitions],
        )


def _needed(qualification: Qualification) -> str:
    number = f", certificate {qualification.certificate}" if qualification.certificate else ""
    until = f" until {qualification.until}" if qualification.until else ""
    return f"{qualification.needs}{number}{until}"


def _open_points(page: Pages, job: Job) -> None:
    if not job.open_points:
        return
    page.heading(3, "Open points")
    page.table(
        ("No.", "Point", "Page", "Clause", "Settled"),
        [
            (
                open_point.number,
                open_point.text,
                str(open_point.page or ""),
                open_point.clause_ or "",
                open_point.closed or "STILL OPEN",
            )
            for open_point in job.open_points
        ],
    )
