"""How each paper names its document."""

from __future__ import annotations

from hts.job.compiler.changes import Changes
from hts.job.compiler.document import Document
from hts.job.compiler.job import Job
from hts.job.outputs.paper import Paper

COLUMNS = ("document", "revision", "status", "fingerprint", "compiled by")


def cells(document: Document) -> list[str]:
    """The identity at the end of every row of a table, where no sorting can lose it."""
    return [
        document.number,
        document.revision,
        document.status,
        document.fingerprint,
        document.tool,
    ]


def head(page: Paper, job: Job, what: str) -> None:
    """Title and identity at the top of a sheet."""
    document = job.document
    page.heading(1, f"{what}: {document.number} revision {document.revision}")
    page.table(
        ("Title", "Document", "Revision", "Date", "Status", "Fingerprint", "Compiled by"),
        [
            (
                document.title,
                document.number,
                document.revision,
                document.dated,
                document.status,
                document.fingerprint,
                document.tool,
            )
        ],
    )
    if not document.for_work:
        page.warning(f"Status: {document.status}. This issue is not released for work.")
    for quieted in job.spec.defaults.quieted:
        page.warning(f"Settings that quiet rules: {quieted}.")
    if job.warnings:
        page.warning("Open warnings of the check when this was compiled:")
        page.bullets(job.warnings)
    if job.changes is not None:
        page.line(since(job.changes))


def since(changes: Changes) -> str:
    """What the marks of change mean."""
    if not changes.lines:
        return f"Nothing changed in meaning since {changes.since}."
    count = len(changes.lines)
    return (
        f"Changed since {changes.since}: {count} thing{'s' if count > 1 else ''}. Rows that "
        f"changed are marked {changes.mark}."
    )
