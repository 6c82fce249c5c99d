"""What is set on the instruments, and the cycle drawn."""

from __future__ import annotations

from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.program import PREHEAT
from hts.job.outputs import key_in, setpoint_sheet
from hts.paper.drawings import cycle_chart
from hts.paper.packet import letters, tables
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import ROUGHLY, Pages

#: Room for the line below a chart, and between it and the column beside it, mm.
_LINE, _GUTTER = 14.0, 5.0
#: Room of a section's title, mm; width of the column beside a chart.
_TITLE, _COLUMN = 15.0, 116.0
#: A table with more steps than this stands above its chart, on a sheet of its own.
_BESIDE = 6
_CHART = (
    "Setpoint, the envelope every reading has to stay in, and the stretches in which a rate limit "
    "counts. The clock of the program stands still while a free step runs or the slowest zone is "
    "waited for."
)


def at_the_pipe(page: Pages, subject: Subject) -> None:
    """Each bake and cycle as a table to key in from, with its chart beside it."""
    runs = [
        (sheet, run)
        for sheet in subject.sheets
        for run in sheet.runs
        if run.program.kind != PREHEAT
    ]
    if not runs:
        if not any(sheet.runs for sheet in subject.sheets):
            page.section("Setpoints and cycle")
            page.line("No heating is specified.")
        return
    page.section("Setpoints and cycle", across=True, fresh=True)
    for number, (sheet, run) in enumerate(runs):
        if number:
            page.new_page()
        _one(page, subject, sheet, run, page.depth - _TITLE - _LINE)


def _one(page: Pages, subject: Subject, sheet: JointSheet, run: Run, depth: float) -> None:
    marks = letters.marks()
    beside = _beside(page, subject, sheet, run)
    if len(run.program.steps) > _BESIDE or beside.height * ROUGHLY > depth + _LINE:
        key_in.to_key_in(page, subject.shown, marks, sheet, run)
        page.bullets(key_in.on_controller(run.program))
        page.new_page()
        size = (page.room, depth)
        page.drawing(cycle_chart(subject.job, sheet, run, size), size, _CHART)
        return
    size = (page.room - _COLUMN - _GUTTER, depth)
    page.drawing(cycle_chart(subject.job, sheet, run, size), size, _CHART, beside)


def _beside(page: Pages, subject: Subject, sheet: JointSheet, run: Run) -> Pages:
    """The table to key in from, as a column beside the chart."""
    marks = letters.marks()
    beside = Pages(page.frame, _COLUMN)
    heads, rows = key_in.by_step(subject.shown, marks, sheet, run)
    beside.heading(3, f"Joint {sheet.joint.name}, {run.program.name}")
    beside.table(heads, rows, tables.SMALL)
    beside.bullets(setpoint_sheet.facts(subject.shown.led_by(run.program.unit), marks, run.program))
    also = key_in.on_controller(run.program)
    if also:
        beside.line(f"Set, too: {'; '.join(also)}.")
    return beside


def on_file(page: Pages, subject: Subject) -> None:
    """Each treatment with its reasons and times, in the order it is done."""
    page.section("Setpoints and times", across=True)
    for sheet in subject.sheets:
        subject.head(page, sheet)
        for run in sheet.runs:
            setpoint_sheet.treatment(page, subject.shown, letters.marks(), sheet, run)
            setpoint_sheet.settings(page, run.program)
