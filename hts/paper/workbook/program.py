"""What is set on the controllers, and the setpoint over time."""

from __future__ import annotations

from hts.base.quantities import RATE, TEMPERATURE
from hts.job.compiler import Job
from hts.job.compiler.changes import STEP
from hts.job.compiler.job import Run
from hts.job.compiler.program import ZoneRow
from hts.job.compiler.steps import HOLD, Step
from hts.job.compiler.why import Why
from hts.job.outputs.csv_files import FREE, notes
from hts.job.outputs.show import DOWN, UP, Shown
from hts.paper.workbook.book import Book, Column
from hts.paper.workbook.cells import EMPTY, Cell, Fill, as_figure, duration, figures
from hts.paper.workbook.heads import heads, mark, since


def setpoints(book: Book, job: Job) -> None:
    """One row for each zone and step of every program."""
    shown = Shown(job.units, job.changes)
    columns = [
        Column("Joint"),
        Column("Treatment"),
        Column("Zone"),
        Column("Step", 6),
        Column("Action"),
        Column("Controlled by"),
        Column("Controller"),
        Column("Channel"),
        *heads(shown, "From", TEMPERATURE),
        *heads(shown, "To", TEMPERATURE),
        *heads(shown, "Rate to set", RATE),
        *heads(shown, "Rate at most", RATE),
        *heads(shown, "Limit counts above", TEMPERATURE),
        *heads(shown, "Every reading at least", TEMPERATURE),
        *heads(shown, "Every reading at most", TEMPERATURE),
        Column("Time, h:mm"),
        Column("Starts at, h:mm"),
        Column("Ends at, h:mm"),
        Column("Ends at the earliest, h:mm"),
        Column("Ends at the latest, h:mm"),
        *heads(shown, "Alarm above", TEMPERATURE),
        *heads(shown, "Alarm below", TEMPERATURE),
        Column("Rate or time from", 34),
        Column("Basis"),
        Column("Note", 28),
        *since(job),
        Column("Set, initials"),
    ]
    rows = [
        [
            sheet.joint.name,
            run.program.name,
            zone.name,
            as_figure(str(step.number)),
            step.action,
            *_control(run, zone),
            *_step(shown, step),
            *mark(shown, sheet.joint.name, run.program.name, STEP, str(step.segment)),
            Fill(),
        ]
        for sheet in job.joints
        for run in sheet.runs
        for zone in run.program.zones
        for step in run.program.steps
    ]
    book.table(
        "Setpoints",
        "Setpoints",
        columns,
        rows,
        (
            "A least value is rounded up and a greatest value down.",
            "Basis: memory, recalled from the source named and to be confirmed in it; practice, "
            "common practice or an assumption that no standard gives.",
        ),
        keys=5,
    )


def _control(run: Run, zone: ZoneRow) -> list[Cell]:
    control = zone.control
    if control is None:
        return [EMPTY, EMPTY, EMPTY]
    channel = next((tag.controller for tag in run.tags if tag.tag == control.tag), None)
    number = channel.number if channel is not None else None
    return [
        control.tag,
        (channel.instrument or EMPTY) if channel is not None else EMPTY,
        as_figure(str(number)) if number is not None else EMPTY,
    ]


def _step(shown: Shown, step: Step) -> list[Cell]:
    hold = step.action == HOLD
    why: Why | None = step.least_why if hold else step.limit_why
    low, high = (step.window.low, step.window.high) if step.window is not None else (None, None)
    times = step.times
    endless = hold and times.duration is None
    rate = figures(shown, step.rate, RATE, DOWN)
    setpoint: list[Cell] = [
        as_figure(text) for text in shown.setpoint_cells(step.set_to, step.window)
    ]
    return [
        *figures(shown, step.set_from, TEMPERATURE),
        *setpoint,
        *([FREE] * len(rate) if step.is_free else rate),
        *figures(shown, step.limit, RATE, DOWN),
        *figures(shown, step.counts_from, TEMPERATURE),
        *figures(shown, low, TEMPERATURE, UP),
        *figures(shown, high, TEMPERATURE, DOWN),
        FREE if step.is_free else duration(times.duration, UP, "open"),
        duration(times.begin),
        "open" if endless else duration(times.finish),
        "open" if endless else duration(times.earliest_finish, UP),
        duration(times.latest_finish, DOWN, "open"),
        *figures(shown, step.alarm_high, TEMPERATURE, DOWN),
        *figures(shown, step.alarm_low, TEMPERATURE, UP),
        why.cited if why is not None else EMPTY,
        why.basis if why is not None else EMPTY,
        notes(step),
    ]


def schedule(book: Book, job: Job) -> None:
    """The setpoint at every interval, to read a chart against."""
    shown = Shown(job.units, job.changes)
    rows: list[list[Cell]] = []
    for sheet in job.joints:
        for run in sheet.runs:
            for point in run.points:
                step = point.step
                toward = {"heat": DOWN, "cool": UP}.get(step.action)
                between = toward is not None and point.setpoint != step.end
                cells = (
                    shown.cells(point.setpoint, TEMPERATURE, toward or DOWN)
                    if between
                    else shown.setpoint_cells(point.setpoint, step.window)
                )
                rows.append(
                    [
                        sheet.joint.name,
                        run.program.name,
                        duration(point.elapsed),
                        *(as_figure(cell) for cell in cells),
                        as_figure(str(step.number)),
                        f"{step.action}, {FREE}" if step.is_free else step.action,
                    ]
                )
    columns = [
        Column("Joint"),
        Column("Treatment"),
        Column("Elapsed, h:mm"),
        *heads(shown, "Setpoint", TEMPERATURE),
        Column("Step"),
        Column("Action"),
    ]
    book.table("Schedule", "Schedule", columns, rows)
