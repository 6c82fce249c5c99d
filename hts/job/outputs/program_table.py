"""The table of a program: what is set, step by step, the same wherever it is printed."""

from __future__ import annotations

from hts.base.quantities import RATE, TEMPERATURE
from hts.job.compiler.changes import STEP
from hts.job.compiler.free import FreeTime, free_times
from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.program import Program
from hts.job.compiler.steps import HOLD, Step
from hts.job.outputs.csv_files import FREE, notes
from hts.job.outputs.marks import Marks
from hts.job.outputs.paper import Paper
from hts.job.outputs.show import DOWN, UP, Shown, clock_time, duration


def write(page: Paper, shown: Shown, marks: Marks, program: Program) -> None:
    """A row for each step."""
    page.table(
        ("Step", "Action", *_heads(shown), "Note"),
        [
            (str(step.number), step.action, *_cells(shown, marks, step), notes(step))
            for step in program.steps
        ],
        changed=_changed(shown, program),
    )


def with_times(page: Paper, shown: Shown, marks: Marks, sheet: JointSheet, run: Run) -> None:
    """The same with how long each step takes and when it starts."""
    free = free_times(sheet, run)
    page.table(
        ("Step", "Action", *_heads(shown), *_TIMES, "Note"),
        [
            (
                str(step.number),
                step.action,
                *_cells(shown, marks, step),
                *_times(marks, step, free),
                notes(step),
            )
            for step in run.program.steps
        ],
        changed=_changed(shown, run.program),
    )


def turned(
    shown: Shown, marks: Marks, sheet: JointSheet, run: Run
) -> tuple[tuple[str, ...], list[tuple[str, ...]]]:
    """The same with a column for each step: heads, and the rows that say something."""
    free, steps = free_times(sheet, run), run.program.steps
    columns = [
        (*_cells(shown, marks, step), *_times(marks, step, free), notes(step)) for step in steps
    ]
    names = (*_heads(shown), *_TIMES, "Note")
    rows = [
        (name, *cells)
        for name, cells in zip(names, zip(*columns, strict=True), strict=True)
        if any(cells)
    ]
    changed = _changed(shown, run.program)
    if any(changed):
        rows.append(("Changed", *changed))
    return ("", *(f"{step.number} {step.action}" for step in steps)), rows


def brief(page: Paper, shown: Shown, marks: Marks, program: Program) -> None:
    """The same in few columns, those that have an entry: for a program without limits of time."""
    heads = _heads(shown)
    rows = [(*_cells(shown, marks, step), notes(step)) for step in program.steps]
    kept = [n for n, head in enumerate(heads) if head.startswith(_BRIEF)]
    page.table(
        ("Step", *(heads[n] for n in kept), "Note"),
        [
            (f"{step.number} {step.action}", *(row[n] for n in kept), row[-1])
            for step, row in zip(program.steps, rows, strict=True)
        ],
        changed=_changed(shown, program),
    )


#: Heads of the columns of a brief table, by their first words.
_BRIEF = ("From", "To", "Set rate", "Hold at least", "Alarm")
#: The row with how long each step takes.
TAKES = "Takes"
_TIMES = (TAKES, "Starts, h:min")


def _heads(shown: Shown) -> tuple[str, ...]:
    return (
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
    )


def _changed(shown: Shown, program: Program) -> list[str]:
    return [
        shown.changed(program.joint.name, program.name, STEP, str(step.segment))
        for step in program.steps
    ]


def _times(marks: Marks, step: Step, free: dict[int, FreeTime]) -> tuple[str, ...]:
    return times_row(marks, step, free.get(step.number))[2:4]


def _cells(shown: Shown, marks: Marks, step: Step) -> tuple[str, ...]:
    rate = FREE if step.is_free else shown.bare(step.rate, RATE, DOWN)
    least = ""
    if step.action == HOLD:
        least = duration(step.times.duration) if step.times.duration is not None else ""
    return (
        shown.bare(step.set_from, TEMPERATURE),
        shown.setpoint(step.set_to, step.window) or "as it falls",
        rate,
        marks.marked(shown.bare(step.limit, RATE, DOWN), step.limit_why),
        shown.bare(step.counts_from, TEMPERATURE, DOWN),
        marks.marked(least, step.least_why),
        _most(step),
        marks.marked(shown.bare_window(step.window), *step.window_why),
        marks.marked(shown.bare(step.alarm_high, TEMPERATURE, DOWN), step.alarm_high_why),
        marks.marked(shown.bare(step.alarm_low, TEMPERATURE, UP), step.alarm_low_why),
    )


def _most(step: Step) -> str:
    """The longest a hold may last."""
    if step.action != HOLD or step.longest is None:
        return ""
    return duration(step.longest.value, DOWN)


def times_row(marks: Marks, step: Step, free: FreeTime | None) -> tuple[str, ...]:
    """Step, action, what it takes, and when it starts and ends: set, earliest and latest."""
    times = step.times
    endless = step.action == HOLD and times.duration is None
    takes = "open" if times.duration is None else duration(times.duration)
    if free is not None:
        takes = f"{FREE}, {_about(free)}{marks.of(free.why)}"
    return (
        str(step.number),
        step.action,
        takes,
        clock_time(times.begin),
        clock_time(None if endless else times.finish),
        clock_time(times.earliest_begin, UP),
        clock_time(None if endless else times.earliest_finish, UP),
        clock_time(times.latest_begin, DOWN),
        clock_time(times.latest_finish, DOWN),
    )


def _about(free: FreeTime) -> str:
    if free.slow is None:
        return "NOT REACHED with the power installed"
    fast, slow = clock_time(free.fast), clock_time(free.slow)
    return f"about {fast} to {slow}" if fast != slow else f"about {fast}"
