"""What is set on the instruments, and the cycle drawn."""

from __future__ import annotations

from hts.job.compiler.program import Program
from hts.job.outputs import setpoint_sheet, waivers
from hts.paper.drawings import cycle_chart
from hts.paper.packet import letters
from hts.paper.packet.groups import Subject
from hts.paper.packet.pages import Pages

#: Room for the line below a chart, for a column beside it, and between the two, mm.
_LINE, _BESIDE, _GUTTER = 13.0, 60.0, 5.0
#: Letters of settings that stand beside a chart without being longer than it.
_LONGEST = 1300
_CHART = (
    "Setpoint, the envelope every reading has to stay in, and the stretches in which a rate limit "
    "counts. The clock of the program stands still while a free step runs or the slowest zone is "
    "waited for."
)


def write(page: Pages, subject: Subject) -> None:
    """Each treatment of each joint, in the order preheat, bakes, cycles."""
    page.section("Setpoints and cycle", across=True)
    for sheet in subject.sheets:
        subject.head(page, sheet)
        waivers.told(page, subject.job, sheet)
        if not sheet.runs:
            page.line("No heating is specified for this joint.")
        for number, run in enumerate(sheet.runs):
            if number:
                page.new_page()
            setpoint_sheet.treatment(page, subject.shown, letters.marks(), sheet, run)
            beside = _settings(page, run.program)
            width = page.room - (_BESIDE + _GUTTER if beside is not None else 0)
            size = (width, page.depth - _LINE)
            page.drawing(cycle_chart(subject.job, sheet, run, size), size, _CHART, beside)
            if beside is None:
                setpoint_sheet.settings(page, run.program)


def _settings(page: Pages, program: Program) -> Pages | None:
    """The further settings as a column beside the chart; None where they are none or too long."""
    if not program.settings or sum(map(len, program.settings)) > _LONGEST:
        return None
    column = Pages(page.frame, _BESIDE)
    setpoint_sheet.settings(column, program)
    return column
