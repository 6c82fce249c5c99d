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
    from hts.predict.inputs import inputs_of
    from hts.predict.powers import HEADS, cells, difference, powers_of
    from hts.predict.report import clock_words, spread_words, summary, width_words
    from hts.predict.scatter import SAMPLES, SEED
    from hts.predict.told import LIMITS, MODEL, NOT_FOR, PREDICTION

    page.section(f"Prediction: {treatment.name}", across=True, fresh=True)
    subject.head(page, sheet)
    page.warning(PREDICTION)
    outlook = foresee(case, treatment)
    if isinstance(outlook, str):
        page.line(f"There is no prediction: {outlook}.")
        return
    page.facts([(name.capitalize(), words) for name, words in summary(outlook)])
    page.table(
        ("Asked", "By", "Predicted", "Result"),
        [(a.asked, a.demanded.by, a.predicted, a.verdict) for a in outlook.answers],
        tables.SMALL,
    )
    for instant in (outlook.ramp_end, outlook.hold_end):
        page.heading(3, f"Soak band at the {instant.name}, °C, in brackets 5 to 95 %")
        page.table(
            ("Depth", "Clock", "Lowest along the band", "Highest along the band"),
            [
                (_DEPTHS[row.depth], clock_words(row.clock), spread_words(row.lowest),
                 spread_words(row.highest))
                for row in instant.rows
            ],
            tables.SMALL,
        )  # fmt: skip
    page.heading(3, "Power by zone, kW: predicted, and the estimate heaters are sized by")
    page.table(HEADS, [cells(one) for one in powers_of(outlook)], tables.SMALL)
    page.bullets(difference(outlook.setting))
    page.heading(3, "Which input to settle first, and which width would do")
    page.table(
        ("Input", "Lowest moves at 5 %, K", "at 95 %, K"),
        [(s.what, f"{s.low:+.1f}", f"{s.high:+.1f}") for s in outlook.scatter.shifts],
        tables.SMALL,
    )
    page.table(
        ("Bore", f"Narrowest heated band for {outlook.allowed:.0f} K below the setpoint"),
        [(width.state, width_words(width)) for width in outlook.widths],
        tables.SMALL,
    )
    page.heading(3, "What it rests on")
    page.table(
        ("Input", "Value", "Source", "May be off by"),
        [tuple(one) for one in inputs_of(outlook.setting)],
        tables.SMALL,
    )
    page.bullets(f"Assumed: {line}." for line in outlook.setting.assumed)
    page.line(f"Model: {MODEL}; {SAMPLES} samples, seed {SEED}. Its limits:")
    page.bullets(LIMITS)
    page.line("It must not be used:")
    page.bullets(NOT_FOR)
    for _, draw in VIEWS:
        page.new_page()
        size = (page.room, page.depth - _TITLE)
        page.drawing(draw(outlook, subject.job.document, size), size, "")


_DEPTHS = {0.0: "outside", 0.5: "mid-wall", 1.0: "bore"}
