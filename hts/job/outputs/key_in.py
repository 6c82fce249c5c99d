"""Programs as they are keyed in at the controller: one table each, no reasons."""

from __future__ import annotations

from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.program import Program
from hts.job.outputs import program_table
from hts.job.outputs.marks import Marks
from hts.job.outputs.paper import Paper
from hts.job.outputs.setpoint_sheet import facts
from hts.job.outputs.show import Shown


def to_key_in(page: Paper, shown: Shown, marks: Marks, sheet: JointSheet, run: Run) -> None:
    """The same in one table, as it is keyed in at the controller."""
    program = run.program
    shown = shown.led_by(program.unit)
    title = program.name.capitalize() if program.kind == program.name else f"Cycle {program.name}"
    page.heading(3, title)
    page.line(" ".join(facts(shown, marks, program)))
    program_table.with_times(page, shown, marks, sheet, run)


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
    return program_table.turned(shown.led_by(run.program.unit), marks, sheet, run)


def preheat_to_key_in(page: Paper, shown: Shown, marks: Marks, run: Run) -> None:
    """The program of a preheat in few columns."""
    program = run.program
    controller = program.controller.name if program.controller is not None else ""
    page.heading(3, f"Preheat, set on {controller}")
    program_table.brief(page, shown.led_by(program.unit), marks, program)
