"""The time-at-temperature log: filled in by hand, added up by the sheet."""

from __future__ import annotations

from hts.base.quantities import TEMPERATURE
from hts.job.compiler import Job
from hts.job.compiler.job import JointSheet, Run
from hts.job.compiler.steps import HOLD, Step
from hts.job.outputs.show import DOWN, UP, Shown
from hts.paper.workbook.book import Book, Column
from hts.paper.workbook.cells import DATED, EMPTY, MOMENT, Cell, Duration, Fill, Formula, duration

#: Spans a hold may be broken into by interruptions before the sheet is full.
SPANS = 6
#: The first row below the headings, as a spreadsheet counts.
_FIRST_ROW = 5

_FROM, _UNTIL, _TIME = "E", "F", "G"


def hold_log(book: Book, job: Job) -> None:
    """For each hold: what is required, the spans that count, their sum and what is still open."""
    shown = Shown(job.units)
    rows: list[list[Cell]] = []
    for sheet in job.joints:
        rows += _earlier(sheet)
        for run in sheet.runs:
            for step in run.program.steps:
                if step.action == HOLD and step.least is not None:
                    rows += _hold(shown, sheet, run, step, _FIRST_ROW + len(rows))
    columns = (
        Column("Joint"),
        Column("Treatment"),
        Column("Line", 24),
        Column(shown.head("Range", TEMPERATURE), 26),
        Column("All in range from", 17),
        Column("All in range until", 17),
        Column("Time, h:mm", 12),
        Column("Why it ended", 30),
        Column("Initials", 10),
    )
    book.table(
        "Hold log",
        "Time-at-temperature log",
        columns,
        rows,
        (
            "Write date and time, so that a span past midnight counts right: a span without its "
            "dates counts nothing and says so. Write when all required thermocouples came into "
            "range and when the first left it; "
            "whether interrupted spans add up is said in the specification.",
        ),
    )


def _earlier(sheet: JointSheet) -> list[list[Cell]]:
    """Heat treatments the joint has had."""
    rows: list[list[Cell]] = []
    for past_heating in sheet.joint.entry.earlier:
        at = f"at {past_heating.at}" if past_heating.at is not None else EMPTY
        line = [
            sheet.joint.name,
            "earlier",
            past_heating.what or "heat treatment",
            at,
            EMPTY,
            EMPTY,
        ]
        rows.append([*line, duration(past_heating.time.value, UP), EMPTY, EMPTY])
    return rows


def _hold(shown: Shown, sheet: JointSheet, run: Run, step: Step, row: int) -> list[list[Cell]]:
    """`row` is the number of the first of these rows in the sheet."""
    assert step.least is not None
    within = shown.bare_window(step.window)
    head: list[Cell] = [sheet.joint.name, run.program.name]
    times = step.times
    longest = None
    if times.latest_finish is not None and times.latest_begin is not None:
        longest = times.latest_finish - times.latest_begin
    required = duration(step.least.value, UP)
    rows: list[list[Cell]] = [
        [*head, f"step {step.number}: at least", within, EMPTY, EMPTY, required, EMPTY, EMPTY],
    ]
    if longest is not None:
        most = duration(longest, DOWN)
        rows.append(
            [*head, f"step {step.number}: at most", EMPTY, EMPTY, EMPTY, most, EMPTY, EMPTY]
        )
    first = row + len(rows)
    for number in range(SPANS):
        at = first + number
        counted = Formula(
            f'=IF(OR({_FROM}{at}="",{_UNTIL}{at}=""),0,'
            f"IF(AND(ISNUMBER({_FROM}{at}),ISNUMBER({_UNTIL}{at}),{_FROM}{at}>={DATED},"
            f'{_UNTIL}{at}>{_FROM}{at}),{_UNTIL}{at}-{_FROM}{at},"check dates"))',
            0,
            "duration",
        )
        span: list[Cell] = [
            *head,
            f"span {number + 1}",
            EMPTY,
            Fill(MOMENT),
            Fill(MOMENT, f"{_FROM}{at}"),
        ]
        rows.append([*span, counted, Fill(), Fill()])
    total = first + SPANS
    added = f"=SUM({_TIME}{first}:{_TIME}{total - 1})"
    missing = f"=MAX({_TIME}{row}-{_TIME}{total},0)"
    days = required.days if isinstance(required, Duration) else 0
    blank: list[Cell] = [EMPTY, EMPTY, EMPTY]
    rows.append([*head, "in all", *blank, Formula(added, 0, "duration"), EMPTY, EMPTY])
    rows.append([*head, "still to hold", *blank, Formula(missing, days, "duration"), EMPTY, EMPTY])
    return rows
