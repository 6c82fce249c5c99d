"""The first sheet: which document it is, what governs, who signs, how to read the rest."""

from __future__ import annotations

from collections.abc import Iterator

from hts.job.compiler import Job
from hts.job.outputs.cautions import APPROVAL, own_cautions
from hts.language.vocabulary.declare import Entry
from hts.paper.workbook.book import Book, Column
from hts.paper.workbook.cells import EMPTY, Cell, Fill

_COLUMNS = (Column("What", 24), Column("Says", 70), Column("Name, signature, date", 34))


def document(book: Book, job: Job) -> None:
    """Identity, revisions, books in force, posts that sign, cautions of the job."""
    rows: list[list[Cell]] = [[what, says, EMPTY] for what, says in _says(job)]
    rows += [[f"signs as {part}", post, Fill()] for part, post in _posts(job)]
    book.table(
        "Document",
        "Document",
        _COLUMNS,
        rows,
        (
            "Shaded cells with a dotted edge are filled in by hand; all others are compiled from "
            "the text and locked, without a password.",
            *APPROVAL,
        ),
    )


def _says(job: Job) -> Iterator[tuple[str, str]]:
    named = job.document
    yield "title", named.title
    yield "document", named.number
    yield "revision", f"{named.revision} of {named.dated}"
    yield "status", named.status
    yield "fingerprint", named.fingerprint
    yield "compiled by", named.tool
    for each in job.spec.defaults.quieted:
        yield "settings that quiet rules", str(each)
    yield "units", " and ".join(job.units.systems)
    for authority in job.authorities:
        issue = "edition" if authority.is_book else "revision"
        edition = f", {issue} {authority.edition}" if authority.edition else EMPTY
        kind = "book" if authority.is_book else "procedure"
        title = f": {authority.title}" if authority.title else EMPTY
        yield f"governing {kind}", f"{authority.name}{edition}{title}"
    for caution in own_cautions(job):
        yield "caution", caution


def _posts(job: Job) -> Iterator[tuple[str, str]]:
    entry = job.spec.file.job
    signed = entry.signed if entry is not None else None
    if signed is None:
        return
    for part in ("prepared", "checked", "reviewed", "endorsed", "approved"):
        people = getattr(signed, part)
        for one in people if isinstance(people, list) else [people]:
            if isinstance(one, Entry):
                yield part, str(getattr(one, "role", EMPTY))
