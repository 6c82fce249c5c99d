"""The workbook file, sheet by sheet in the order it is used."""

from __future__ import annotations

from hts.job.compiler import Job
from hts.paper.sheet import A4, Size
from hts.paper.workbook.book import Book
from hts.paper.workbook.checks import checks
from hts.paper.workbook.derivations import derivations
from hts.paper.workbook.document import document
from hts.paper.workbook.program import schedule, setpoints
from hts.paper.workbook.readings import readings
from hts.paper.workbook.thermocouples import channels, tags
from hts.paper.workbook.time_at_temperature import hold_log

NAME = "workbook.xlsx"


def files(job: Job, size: Size = A4) -> dict[str, bytes]:
    """Name -> bytes, an Office Open XML workbook (ISO/IEC 29500). The same job, the same bytes."""
    book = Book(job, size)
    for sheet in (
        document,
        setpoints,
        schedule,
        tags,
        channels,
        checks,
        readings,
        hold_log,
        derivations,
    ):
        sheet(book, job)
    return {NAME: book.data()}
