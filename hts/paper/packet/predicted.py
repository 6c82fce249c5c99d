"""What is predicted of the temperature inside the wall, where the text asks for it."""

from __future__ import annotations

import os

from hts.checking.govern.case import Case
from hts.checking.rules.helpers.predictions import is_asked
from hts.job.compiler.job import JointSheet
from hts.language.model.joint import Treatment
from hts.paper.packet import tables
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import Pages

#: mm kept for the heading above a drawing.
_TITLE = 14.0


def write(page: Pages, subject: Subject) -> None:
    """A section for each treatment that is to be predicted; nothing where none is."""
    case = Case(subject.job.spec)
    found = [
        (sheet, treatment)
        for sheet in subject.sheets
        for treatment in case.treatments(sheet.joint)
        if treatment.entry.segments and is_asked(case, treatment)
    ]
    for sheet, treatment in found:
        _treatment(page, subject, case, sheet, treatment)


def _treatment(
    page: Pages, subject: Subject, case: Case, sheet: JointSheet, treatment: Treatment
) -> None:
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    from hts.paper.predicted.picture_files import VIEWS
    from hts.predict.foresee import foresee
    from hts.predict.report import summary
    from hts.predict.tables import tables_of
    from hts.predict.told import PREDICTION

    page.section(f"Prediction: {treatment.name}", across=True, fresh=True)
    subject.head(page, sheet)
    page.warning(PREDICTION)
    outlook = foresee(case, treatment)
    if isinstance(outlook, str):
        page.line(f"There is no prediction: {outlook}.")
        return
    page.facts([(name.capitalize(), words) for name, words in summary(outlook)])
    for one in tables_of(outlook):
        page.heading(3, one.title)
        if one.rows:
            page.table(one.heads, one.rows, tables.SMALL)
        page.bullets(one.below)
    for _, draw in VIEWS:
        page.new_page()
        size = (page.room, page.depth - _TITLE)
        page.drawing(draw(outlook, subject.job.document, size), size, "")
