"""What is set on the instruments, and the cycle drawn."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any, NamedTuple

from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.program import PREHEAT
from hts.job.outputs import key_in, setpoint_sheet
from hts.job.outputs.program_table import TAKES
from hts.paper.drawings import cycle_chart
from hts.paper.packet import letters, tables
from hts.paper.packet.groups import Subject, headed
from hts.paper.packet.pages import ROUGHLY, Pages

#: Room for the line below a chart, and between it and the column beside it, mm.
_LINE, _GUTTER = 9.0, 5.0
#: Room of a section's title, mm; width of the column beside a chart.
_TITLE, _COLUMN = 12.0, 116.0
#: A table with more steps than this stands above its chart, on a sheet of its own.
_BESIDE = 6
#: Two that share a sheet: the least height of each chart, mm; what their tables take of the
#: estimate, which counts a line for every cell that is nearly full.
_LEAST_CHART, _TABLES = 50.0, 0.8
_CHART = (
    "Setpoint, the envelope every reading has to stay in, and the stretches in which a rate limit "
    "counts. The clock of the program stands still while a free step runs or the slowest zone is "
    "waited for."
)


class _Treated(NamedTuple):
    """A treatment that is set alike for the joints named."""

    joints: tuple[str, ...]
    sheet: JointSheet
    run: Run

    @property
    def title(self) -> str:
        return f"{headed(self.joints)}, {self.run.program.name}"


def at_the_pipe(page: Pages, subject: Subject) -> None:
    """Each bake and cycle as a table to key in from, with its chart; two that are short share a
    sheet."""
    found = _treatments(page, subject)
    if not found:
        if not any(sheet.runs for sheet in subject.sheets):
            page.section("Setpoints and cycle")
            page.line("No heating is specified.")
        return
    page.section("Setpoints and cycle", across=True, fresh=True)
    number = 0
    while number < len(found):
        if number:
            page.new_page()
        pair = found[number : number + 2]
        if len(pair) == 2 and _pair(page, subject, pair):
            number += 2
        else:
            _one(page, subject, found[number])
            number += 1


def _treatments(page: Pages, subject: Subject) -> list[_Treated]:
    """All bakes and cycles, those of joints heated alike once."""
    found: list[_Treated] = []
    for sheet in subject.sheets:
        for run in sheet.runs:
            if run.program.kind == PREHEAT:
                continue
            own = _set(page, subject, sheet, run)
            for place, other in enumerate(found):
                if own == _set(page, subject, other.sheet, other.run):
                    # The estimate of a free step is that of the thicker joint, which is slower.
                    slower = max(other.sheet, sheet, key=_thickness)
                    taken = run if slower is sheet else other.run
                    found[place] = _Treated((*other.joints, sheet.joint.name), slower, taken)
                    break
            else:
                found.append(_Treated((sheet.joint.name,), sheet, run))
    return found


def _thickness(sheet: JointSheet) -> Fraction:
    value = sheet.limits.thickness
    return value.value if value is not None else Fraction(0)


def _set(page: Pages, subject: Subject, sheet: JointSheet, run: Run) -> Any:
    """All that is told of a treatment at the pipe but the name of its joint and the estimates of
    free steps."""
    chart = cycle_chart(subject.job, sheet, run, (page.room, page.depth), "several")
    heads, rows = key_in.by_step(subject.shown, letters.marks(), sheet, run)
    return chart, heads, [row for row in rows if row[0] != TAKES], _told(subject, run)


def _pair(page: Pages, subject: Subject, pair: Sequence[_Treated]) -> bool:
    """Two beside each other, chart above table, where that leaves a chart that can be read."""
    wide = (page.room - _GUTTER) / 2
    made = [_beside(page, subject, one, wide) for one in pair]
    high = page.depth - _TITLE - max(one.height for one in made) * _TABLES
    if high < _LEAST_CHART or any(len(one.run.program.steps) > _BESIDE for one in pair):
        return False
    columns = []
    for one in pair:
        size, of = (wide, high), ", ".join(one.joints)
        chart = cycle_chart(subject.job, one.sheet, one.run, size, of, bare=True)
        columns.append(_beside(page, subject, one, wide, (chart, size)))
    page.columns(columns)
    return True


def _one(page: Pages, subject: Subject, one: _Treated) -> None:
    marks, depth = letters.marks(), page.depth - _TITLE - _LINE
    sheet, run, of = one.sheet, one.run, ", ".join(one.joints)
    beside = _beside(page, subject, one, _COLUMN)
    if len(run.program.steps) > _BESIDE or beside.height * ROUGHLY > depth + _LINE:
        key_in.to_key_in(page, subject.shown, marks, sheet, run)
        page.bullets(key_in.on_controller(run.program))
        page.new_page()
        size = (page.room, depth)
        page.drawing(cycle_chart(subject.job, sheet, run, size, of), size, _CHART)
        return
    size = (page.room - _COLUMN - _GUTTER, depth)
    page.drawing(cycle_chart(subject.job, sheet, run, size, of), size, _CHART, beside)


def _beside(
    page: Pages,
    subject: Subject,
    one: _Treated,
    wide: float,
    chart: tuple[str, tuple[float, float]] | None = None,
) -> Pages:
    """The table to key in from, as a column of that width beside the chart or below it."""
    marks, run = letters.marks(), one.run
    beside = Pages(page.frame, wide)
    heads, rows = key_in.by_step(subject.shown, marks, one.sheet, run)
    beside.heading(3, one.title)
    if chart is not None:
        beside.drawing(*chart, "")
    beside.table(heads, rows, tables.SMALL, whole=(0,))
    beside.line(_told(subject, run))
    return beside


def _told(subject: Subject, run: Run) -> str:
    """What is set that stands in no row of the table."""
    shown = subject.shown.led_by(run.program.unit)
    told = setpoint_sheet.at_the_pipe(shown, letters.marks(), run.program)
    also = key_in.on_controller(run.program)
    return " ".join([*told, f"Set, too: {'; '.join(also)}."] if also else told)


def on_file(page: Pages, subject: Subject) -> None:
    """Each treatment with its reasons and times, in the order it is done."""
    page.section("Setpoints and times", across=True)
    for sheet in subject.sheets:
        subject.head(page, sheet)
        for run in sheet.runs:
            setpoint_sheet.treatment(page, subject.shown, letters.marks(), sheet, run)
            setpoint_sheet.settings(page, run.program)
