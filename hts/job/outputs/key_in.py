"""Programs as they are keyed in at the controller: one table each, no reasons."""

from __future__ import annotations

from hts.base.quantities import RATE, TEMPERATURE
from hts.job.compiler.changes import STEP
from hts.job.compiler.free import FreeTime, free_times
from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.program import Program
from hts.job.compiler.steps import Step
from hts.job.outputs.marks import Marks
from hts.job.outputs.paper import Paper
from hts.job.outputs.setpoint_sheet import facts, program_row, times_row
from hts.job.outputs.show import Shown


def to_key_in(page: Paper, shown: Shown, marks: Marks, sheet: JointSheet, run: Run) -> None:
    """The same in one table, as it is keyed in at the controller."""
    program = run.program
    shown = shown.led_by(program.unit)
    title = program.name.capitalize() if program.kind == program.name else f"Cycle {program.name}"
    page.heading(3, title)
    page.line(" ".join(facts(shown, marks, program)))
    free = free_times(sheet, run)
    page.table(
        (
            "Step",
            "Action",
            shown.head("From", TEMPERATURE),
            shown.head("To", TEMPERATURE),
            shown.head("Set rate", RATE),
            shown.head("Rate limit", RATE),
            shown.head("Counts from", TEMPERATURE),
            "Hold at least",
            "Hold at most",
            shown.head("Every reading within", TEMPERATURE),
            shown.head("Alarm above", TEMPERATURE),
            shown.head("Alarm below", TEMPERATURE),
            "Takes",
            "Starts, h:min",
            "Note",
        ),
        [_key_row(shown, marks, step, free.get(step.number)) for step in program.steps],
        changed=[
            shown.changed(program.joint.name, program.name, STEP, str(step.segment))
            for step in program.steps
        ],
    )


#: Settings of a controller, by the words of their entries.
_KEYED = (
    "powered by",
    "wait for slowest within",
    "deviation alarm",
    "sensor break",
    "power at most",
    "finally",
    "program",
    "program revision",
)


def on_controller(program: Program) -> list[str]:
    """The further settings that are made on the controller, in the words of the text."""
    return [text for text in program.settings if text.startswith(_KEYED)]


def by_step(
    shown: Shown, marks: Marks, sheet: JointSheet, run: Run
) -> tuple[tuple[str, ...], list[tuple[str, ...]]]:
    """The program with a column for each step: heads, and the rows that say something."""
    shown = shown.led_by(run.program.unit)
    free = free_times(sheet, run)
    names = (
        shown.head("From", TEMPERATURE),
        shown.head("To", TEMPERATURE),
        shown.head("Set rate", RATE),
        shown.head("Rate limit", RATE),
        shown.head("Limit counts from", TEMPERATURE),
        "Hold at least",
        "Hold at most",
        shown.head("Every reading within", TEMPERATURE),
        shown.head("Alarm above", TEMPERATURE),
        shown.head("Alarm below", TEMPERATURE),
        "Takes",
        "Starts, h:min",
        "Note",
    )
    columns = [
        _key_row(shown, marks, step, free.get(step.number))[2:] for step in run.program.steps
    ]
    rows = [
        (name, *cells)
        for name, cells in zip(names, zip(*columns, strict=True), strict=True)
        if any(cells)
    ]
    changed = [
        shown.changed(run.program.joint.name, run.program.name, STEP, str(step.segment))
        for step in run.program.steps
    ]
    if any(changed):
        rows.append(("Changed", *changed))
    return ("", *(f"{step.number} {step.action}" for step in run.program.steps)), rows


def preheat_to_key_in(page: Paper, shown: Shown, marks: Marks, run: Run) -> None:
    """The program of a preheat in few columns."""
    program = run.program
    shown = shown.led_by(program.unit)
    controller = program.controller.name if program.controller is not None else ""
    page.heading(3, f"Preheat, set on {controller}")
    page.table(
        (
            "Step",
            shown.head("From", TEMPERATURE),
            shown.head("To", TEMPERATURE),
            shown.head("Set rate", RATE),
            "Hold at least",
            shown.head("Alarm above", TEMPERATURE),
            shown.head("Alarm below", TEMPERATURE),
            "Note",
        ),
        [
            (
                f"{row[0]} {row[1]}",
                *row[2:5],
                row[7],
                *row[10:12],
                row[-1],
            )
            for row in (program_row(shown, marks, step) for step in program.steps)
        ],
        changed=[
            shown.changed(program.joint.name, program.name, STEP, str(step.segment))
            for step in program.steps
        ],
    )


def _key_row(shown: Shown, marks: Marks, step: Step, free: FreeTime | None) -> tuple[str, ...]:
    row = program_row(shown, marks, step)
    times = times_row(marks, step, free)
    return (*row[:-1], times[2], times[3], row[-1])
