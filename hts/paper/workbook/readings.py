"""The form readings are written into while heat is on, one sheet for each treatment."""

from __future__ import annotations

from hts.base.quantities import TEMPERATURE
from hts.job.compiler import Job
from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.program import PREHEAT
from hts.job.compiler.wording import worded
from hts.job.outputs.show import sign
from hts.paper.packet.groups import Subject, subjects
from hts.paper.packet.placing import limits_of, short
from hts.paper.packet.readings import HOURLY, columns, count, stated_interval
from hts.paper.workbook.book import Book, Column
from hts.paper.workbook.cells import EMPTY, FIGURE, MOMENT, Cell, Fill

#: Lines of a form nobody can tell the length of.
_FEWEST = 24


def readings(book: Book, job: Job) -> None:
    """A preheat is read pass by pass, on paper; every other treatment has a sheet here."""
    number = 0
    for subject in subjects(job):
        for sheet in subject.sheets:
            for run in sheet.runs:
                if run.program.kind != PREHEAT and columns(run):
                    number += 1
                    _form(book, subject, sheet, run, f"Readings {number}")


def _form(book: Book, subject: Subject, sheet: JointSheet, run: Run, name: str) -> None:
    stated = stated_interval(sheet)
    every = stated or HOURLY
    _, lines = count(run, every)
    limits = limits_of(subject, sheet, run)
    tags = columns(run)
    bounds: list[Cell] = ["Limits", EMPTY, *(short(limits.get(tag, "")) for tag in tags)]
    line: list[Cell] = [Fill(MOMENT), Fill(FIGURE), *(Fill(FIGURE) for _ in tags), Fill(), Fill()]
    unit = sign(subject.job.units.first(TEMPERATURE))
    practice = "" if stated is not None else " (common practice)"
    book.table(
        name,
        f"Readings in {unit}, joint {sheet.joint.name}, {run.program.name}",
        (
            Column("Date, time", 17),
            Column("Set", 7),
            *(Column(tag, max(9, len(tag) + 2)) for tag in tags),
            Column("Remarks", 24),
            Column("Initials", 10),
        ),
        [[*bounds, EMPTY, EMPTY], *[line] * max(lines, _FEWEST)],
        (
            f"One line every {worded(every)}{practice}, with date and time. A reading out of range "
            "is told the supervisor, and what was done is written under the remarks.",
        ),
    )
